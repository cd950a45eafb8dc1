"use strict";

(() => {
  const { page, say } = window.beadwright;
  const KEY = `bw-display:${page.course}`;
  /** What each choice is while nothing has been chosen; the first radio of each group. */
  const PLAIN = Object.freeze({ scheme: "device", size: "100", spacing: "normal", figures: "normal" });
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
   * @param {HTMLElement} choices
   * @param {Display} display
   */
  function showDisplay(choices, display) {
    for (const input of choices.querySelectorAll("input")) {
      input.checked = NAMES.some((name) => input.name === `bw-${name}` && input.value === display[name]);
    }
  }

  /**
   * @param {HTMLElement} choices
   * @returns {Display}
   */
  function readDisplay(choices) {
    const display = { ...PLAIN };
    for (const name of NAMES) {
      const chosen = choices.querySelector(`input[name=bw-${name}]:checked`);
      if (chosen instanceof HTMLInputElement) Object.assign(display, { [name]: chosen.value });
    }
    return display;
  }

  const choices = document.getElementById("bw-display-choices");
  const status = document.getElementById("bw-display-status");
  if (!choices || !status) return;

  showDisplay(choices, loadDisplay());
  choices.addEventListener("change", () => {
    const display = readDisplay(choices);
    applyDisplay(display);
    status.textContent = say(keepDisplay(display) ? "shell.display_kept" : "shell.display_not_kept");
  });
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
    if (choices) showDisplay(choices, display);
  }
})();
