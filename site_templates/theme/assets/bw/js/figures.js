"use strict";

// A figure wider than the text scrolls within itself: named, reached by keyboard while it does, three columns a key. Below
// a least size a figure is not shrunk any further, so that the columns of a long frame can still be told apart.
(() => {
  const { say } = window.beadwright;
  /** The width of one column in a drawing, and how far a drawing may shrink. */
  const COLUMN = 44;
  const LEAST = 0.46;

  /** @param {HTMLElement} figure @param {boolean} scrolls */
  function markScrolling(figure, scrolls) {
    if (scrolls === figure.hasAttribute("tabindex")) return;
    if (scrolls) {
      figure.tabIndex = 0;
      figure.setAttribute("role", "group");
      figure.setAttribute("aria-label", say("shell.scroll_figure"));
    } else for (const name of ["tabindex", "role", "aria-label"]) figure.removeAttribute(name);
  }

  // One observer, which looks at all figures and then marks them: a page may have a hundred.
  const watched = new ResizeObserver((entries) => {
    const figures = new Set(entries.map(({ target }) => /** @type {HTMLElement} */ (target.closest(".bw-figure"))));
    const found = [...figures].map((figure) => ({ figure, scrolls: figure.scrollWidth > figure.clientWidth + 1 }));
    for (const { figure, scrolls } of found) markScrolling(figure, scrolls);
  });

  /** @param {HTMLElement} figure @param {SVGSVGElement} drawing @param {KeyboardEvent} event */
  function goThreeColumns(figure, drawing, event) {
    const way = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
    if (way === undefined || event.target !== figure || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    const scale = drawing.getBoundingClientRect().width / Number(drawing.getAttribute("width"));
    figure.scrollBy({ left: way * 3 * COLUMN * scale });
  }

  for (const figure of document.querySelectorAll(".bw-figure")) {
    const drawing = figure.querySelector(":scope > svg");
    if (!(figure instanceof HTMLElement) || !(drawing instanceof SVGSVGElement)) continue;
    figure.addEventListener("keydown", (event) => goThreeColumns(figure, drawing, event));
    drawing.style.minInlineSize = `${Math.round(Number(drawing.getAttribute("width")) * LEAST)}px`;
    watched.observe(figure);
    watched.observe(drawing);
  }
})();
