"use strict";

// Where a learner is in a lesson: how many minutes are left of it and of each part, a good place to stop at each part's end
// (<bw-stop>), and the way back to the item and the step where one stopped. Without scripts the minutes stand in the text.
(() => {
  const { say, store, page } = window.beadwright;
  const UNGRADED = Object.freeze(["reflect", "rating"]);
  const NOWHERE = Object.freeze({ item: "", step: null, at: "", problem: "" });

  /** @typedef {{ readonly id: string, readonly title: string, readonly minutes: number, readonly items: readonly string[] }} Part */

  /** The parts of this lesson with the graded items in each, as the page has them. @returns {Part[]} */
  function findParts() {
    /** @type {(Part & { items: string[] })[]} */
    const parts = [];
    for (const found of document.querySelectorAll("h2.bw-part, bw-item")) {
      if (found.matches("h2")) {
        const minutes = Number(found.getAttribute("data-bw-minutes") ?? 0);
        const title = found.firstChild?.textContent?.trim() ?? "";
        parts.push({ id: found.id, title, minutes, items: [] });
      } else if (!UNGRADED.includes(found.getAttribute("data-bw-ask") ?? "")) {
        parts.at(-1)?.items.push(found.id.replace(/^item-/, ""));
      }
    }
    return parts;
  }

  /** The part that something of the page stands in, by its number from 0; -1 before the first. @param {string} id */
  function findPartOf(id) {
    const at = document.getElementById(id);
    const heads = [...document.querySelectorAll("h2.bw-part")];
    if (!at) return -1;
    return heads.filter((head) => head === at || head.compareDocumentPosition(at) & Node.DOCUMENT_POSITION_FOLLOWING).length - 1;
  }

  /** Whole minutes left of each part: by the share of its items not yet answered; a part without items is left behind once
   * a learner is past it. @param {readonly Part[]} parts */
  function countLeft(parts) {
    const tried = new Set(store.record.attempts.filter(({ lesson }) => lesson === page.lesson).map(({ item }) => item));
    const place = store.record.place;
    const here = place?.lesson === page.lesson ? findPartOf(place?.at ?? "") : -1;
    const reached = parts.reduce((far, { items }, index) => (items.some((item) => tried.has(item)) ? index : far), here);
    return parts.map(({ minutes, items }, index) => {
      const open = items.filter((item) => !tried.has(item)).length;
      const share = items.length === 0 ? Number(index >= reached) : open / items.length;
      return Math.ceil(minutes * share);
    });
  }

  const parts = findParts();
  const total = Number(document.querySelector(".bw-minutes[data-bw-minutes]")?.getAttribute("data-bw-minutes") ?? 0);
  const spare = Math.max(0, total - parts.reduce((sum, { minutes }) => sum + minutes, 0));

  /** @param {string} text @param {string} [className] */
  function write(text, className = "") {
    const line = document.createElement("p");
    line.textContent = text;
    if (className) line.className = className;
    return line;
  }

  function isBegun() {
    const { record } = store;
    return record.place?.lesson === page.lesson || record.attempts.some(({ lesson }) => lesson === page.lesson);
  }

  /** What is left of the lesson, once some of it is done; what belongs to no part is done with the last of them. */
  function tellLeft() {
    const left = countLeft(parts);
    const sum = left.reduce((all, minutes) => all + minutes, 0);
    const told = !isBegun() ? "" : sum === 0 ? say("progress.left_none") : say("progress.left", { count: sum + spare });
    for (const place of document.querySelectorAll("[data-bw-left]")) {
      if (place.closest("bw-stop") && told === "") continue; // the text stands there already
      if (place.textContent !== told) place.textContent = told;
    }
    parts.forEach(({ id, minutes }, index) => tellPart(id, minutes, left[index] ?? 0));
  }

  /** @param {string} id @param {number} minutes @param {number} left */
  function tellPart(id, minutes, left) {
    const line = document.getElementById(id)?.nextElementSibling;
    if (minutes === 0 || !(line instanceof HTMLElement) || !line.matches(".bw-minutes")) return;
    const there = line.nextElementSibling;
    const told = there?.matches(".bw-left") ? there : write("", "bw-left");
    if (told !== there) line.after(told);
    const said = left === 0 ? say("progress.left_part_none") : say("progress.left_part", { count: left });
    const text = left === minutes ? "" : said;
    if (told.textContent !== text) told.textContent = text;
  }

  /* A place to stop. */

  class Stop extends HTMLElement {
    connectedCallback() {
      if (this.querySelector("button")) return;
      const told = write("", "bw-record-told");
      told.setAttribute("role", "status");
      const button = document.createElement("button");
      button.type = "button";
      button.className = "bw-button bw-button-quiet";
      button.textContent = say("progress.stop_here");
      button.addEventListener("click", () => (told.textContent = this.#stop()));
      this.append(button, told);
    }

    /** Keep the next part as the place to go on; gives what is said of it. */
    #stop() {
      const at = this.dataset["next"] ?? "";
      const title = parts.find(({ id }) => id === at)?.title ?? "";
      const kept = store.keepPlace({ ...NOWHERE, lesson: page.lesson ?? "", at });
      return say(kept ? "progress.stopped" : "progress.stopped_not_kept", { title });
    }
  }

  /* The way back. */

  /** In the lesson itself: a link to where one stopped, below its head. */
  function leadBack() {
    const box = document.querySelector("[data-bw-resume]");
    const place = store.record.place;
    if (!box || place?.lesson !== page.lesson || !document.getElementById(place?.at ?? "")) return;
    const link = document.createElement("a");
    link.href = `#${place.at}`;
    const part = parts[findPartOf(place.at)];
    link.textContent = part ? say("progress.resume_part", { title: part.title }) : say("progress.resume_here");
    link.addEventListener("click", () => setTimeout(arrive, 0)); // the address may be the same as before
    box.replaceChildren(link);
  }

  /** Where the address leads to an item, to a step or to the part where one stopped, the focus goes there. */
  function arrive() {
    const id = decodeURIComponent(location.hash.slice(1));
    const found = id === "" ? null : document.getElementById(id);
    if (found?.matches("bw-item")) {
      found.scrollIntoView({ block: "start" });
      /** @type {BwItem} */ (found).begin();
    } else if (found && (found.matches(".bw-step") || store.record.place?.at === id)) {
      found.tabIndex = -1;
      found.focus();
    }
  }

  let stepTimer = 0;
  /** @type {(() => void) | null} */
  let waiting = null;
  function flush() {
    clearTimeout(stepTimer);
    waiting?.();
    waiting = null;
  }

  /** A step of a worked example is a place to come back to; it is written once the learner rests there. */
  document.addEventListener("bw-step", (event) => {
    const { id, step } = event.detail;
    clearTimeout(stepTimer);
    waiting = () => store.keepPlace({ ...NOWHERE, lesson: page.lesson ?? "", at: id, step });
    stepTimer = window.setTimeout(flush, 400);
  });
  window.addEventListener("pagehide", flush);
  document.addEventListener("visibilitychange", () => document.hidden && flush());

  if (!page.lesson) return;
  customElements.define("bw-stop", Stop);
  tellLeft();
  leadBack();
  arrive();
  window.addEventListener("hashchange", arrive);
  window.addEventListener("bw-record", tellLeft);
})();
