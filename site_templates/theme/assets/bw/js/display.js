"use strict";

(() => {
  const { page, say } = window.beadwright;
  const KEY = `bw-display:${page.course}`;
  /** What each choice is while nothing has been chosen; the first radio of each group. */
  const PLAIN = Object.freeze({ scheme: "device", size: "100", spacing: "normal" });
  const NAMES = /** @type {(keyof typeof PLAIN)[]} */ (Object.keys(PLAIN));

  /** @typedef {Record<keyof typeof PLAIN, string>} Display */

  /** @returns {Display} */
  function loadDisplay() {
    try {
      return { ...PLAIN, ...JSON.parse(localStorage.getItem(KEY) || "{}") };
    } catch {
      return { ...PLAIN };
    }
  }

  /**
   * Keep the choices; whether the browser let us.
   * @param {Display} display
   */
  function keepDisplay(display) {
    try {
      localStorage.setItem(KEY, JSON.stringify(display));
      return true;
    } catch {
      return false;
    }
  }

  /** @param {Display} display */
  function applyDisplay(display) {
    for (const name of NAMES) {
      const attribute = `data-bw-${name}`;
      if (display[name] === PLAIN[name]) document.documentElement.removeAttribute(attribute);
      else document.documentElement.setAttribute(attribute, display[name]);
    }
  }

  /**
   * @param {HTMLFormElement} form
   * @param {Display} display
   */
  function showDisplay(form, display) {
    for (const input of form.querySelectorAll("input")) {
      input.checked = NAMES.some((name) => input.name === `bw-${name}` && input.value === display[name]);
    }
  }

  /**
   * @param {HTMLFormElement} form
   * @returns {Display}
   */
  function readDisplay(form) {
    const chosen = new FormData(form);
    const display = { ...PLAIN };
    for (const name of NAMES) Object.assign(display, { [name]: String(chosen.get(`bw-${name}`) ?? PLAIN[name]) });
    return display;
  }

  const form = document.getElementById("bw-display-form");
  const status = document.getElementById("bw-display-status");
  if (!(form instanceof HTMLFormElement) || !status) return;

  showDisplay(form, loadDisplay());
  form.addEventListener("change", () => {
    const display = readDisplay(form);
    applyDisplay(display);
    status.textContent = say(keepDisplay(display) ? "shell.display_kept" : "shell.display_not_kept");
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  // Another tab of the course, or this page brought back from the browser's memory, may know of a later choice.
  window.addEventListener("storage", (event) => {
    if (event.key === KEY) takeUp();
  });
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) takeUp();
  });

  function takeUp() {
    const display = loadDisplay();
    applyDisplay(display);
    if (form instanceof HTMLFormElement) showDisplay(form, display);
  }
})();
