"use strict";

// A long lesson arrives in pieces: its first part at once, the rest in the moments after, so that a slow device can show
// and work the beginning while what stands further down is still being laid out. boot.js decides whether, the rules of
// .bw-arriving (lesson.css) hide what has yet to come until this script does, and whoever presses a key has the whole page
// at once.
(() => {
  const root = document.documentElement;
  /**
   * How many elements come in one moment, at least. Each moment ends in a frame, and a frame has its own price however little
   * it shows: one piece at a time is whole twice as late, all at once holds a key press up for as long as it takes.
   */
  const MOMENT = 100;
  /** Faces that take longer than this are not waited for. In milliseconds. */
  const FACES = 1000;
  /** How long a page that is not painted waits. In milliseconds. */
  const UNSEEN = 3000;

  /** What is to be begun with an element, once it is there. @type {Map<Element, () => void>} */
  const expected = new Map();
  /** What has yet to come, in the order of the page. @type {Element[]} */
  let pieces = [];

  /** All that stands below a lesson's first part, every item of its practice, and what stands below the lesson. */
  function findPieces() {
    const lesson = document.querySelector(".bw-kind-lesson");
    const children = [...(lesson?.querySelectorAll(".bw-prose > *") ?? [])];
    const second = children.filter((child) => child.matches(".bw-part"))[1];
    const below = second ? children.slice(children.indexOf(second)) : [];
    const found = children.flatMap((child) => [
      ...(below.includes(child) ? [child] : []),
      ...(child.matches(".bw-practice") ? child.querySelectorAll(":scope > bw-item") : []),
    ]);
    return [...found, ...(lesson?.querySelectorAll(".bw-turn, .bw-footer") ?? [])];
  }

  /** @param {Element} piece */
  function show(piece) {
    piece.classList.remove("bw-coming");
    for (const [element, begin] of expected) {
      if (!piece.contains(element) || element.closest(".bw-coming")) continue;
      expected.delete(element);
      try {
        begin();
      } catch (error) {
        reportError(error);
      }
    }
  }

  function finish() {
    pieces.splice(0).forEach(show);
    document.removeEventListener("keydown", finish, true);
    document.removeEventListener("click", finish, true);
    performance.mark("bw-whole");
  }

  function goOn() {
    for (let shown = 0; shown < MOMENT; ) {
      const piece = pieces.shift();
      if (!piece) return finish();
      show(piece);
      shown += 1 + piece.getElementsByTagName("*").length;
    }
    setTimeout(goOn);
  }

  window.beadwright.whenThere = (element, begin) => {
    if (element.closest(".bw-coming")) expected.set(element, begin);
    else begin();
  };

  if (!root.classList.contains("bw-arriving")) return;
  pieces = findPieces();
  pieces.forEach((piece) => piece.classList.add("bw-coming"));
  root.classList.remove("bw-arriving");
  document.addEventListener("keydown", finish, true);
  document.addEventListener("click", finish, true);
  // After the beginning is seen, in its own face: a change of face lays out anew whatever is there. A page in the
  // background is not painted, and comes all the same.
  /** @param {number} moments @returns {Promise<void>} */
  const pass = (moments) => new Promise((resolve) => setTimeout(resolve, moments));
  /** @type {Promise<void>} */
  const painted = new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
  const faces = painted.then(() => Promise.race([document.fonts.ready, pass(FACES)]));
  Promise.race([faces, pass(UNSEEN)]).then(goOn);
})();
