"use strict";

// <bw-stepper>: shows the steps of a walkthrough one at a time. The list of steps is whole without it; it hides what is
// not wanted now, says the step it shows, and keeps nothing but which reading was chosen. Until one is chosen, a step
// shows its reading in full and says the short one: the ear needs the moves, and the reasons stand there to be read.
(() => {
  const { say, whenThere } = window.beadwright;
  const KEY = "bw-reading";
  const ONE_KEY = "bw-step-key";

  /** @typedef {"short" | "full" | ""} Reading the reading chosen last; empty while none was */

  /** @param {string} key */
  function load(key) {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  }

  /** @param {string} key @param {string} value */
  function keep(key, value) {
    try {
      localStorage.setItem(key, value);
    } catch {
      // Storage refused: the choice lasts until the page is left.
    }
  }

  /** @returns {Reading} */
  function loadReading() {
    const kept = load(KEY);
    return kept === "short" || kept === "full" ? kept : "";
  }

  /** Whether one key goes to the next step: for all steppers of a page, and only for who has switched it on. */
  let oneKey = load(ONE_KEY) === "on";
  /** The stepper used last. @type {Stepper | null} */
  let used = null;

  /** The stepper that the key is meant for: the one with the focus, else of those in sight the one used last or the first. */
  function findStepper() {
    const focused = document.activeElement?.closest("bw-stepper");
    if (focused instanceof Stepper) return focused;
    const all = /** @type {Stepper[]} */ ([...document.querySelectorAll("bw-stepper")]);
    const seen = all.filter((stepper) => {
      const { top, bottom } = stepper.getBoundingClientRect();
      return bottom > 0 && top < innerHeight;
    });
    return seen.find((stepper) => stepper === used) ?? seen[0];
  }

  /** A key is left alone where it types or chooses something, and with any other key held down.
   * @param {KeyboardEvent} event */
  function onKey(event) {
    if (!oneKey || event.defaultPrevented || event.repeat || event.isComposing) return;
    if (event.ctrlKey || event.altKey || event.metaKey || event.shiftKey) return;
    if (event.key.toLowerCase() !== say("stepper.key")) return;
    const at = event.target instanceof Element ? event.target : null;
    if (at?.closest("input, textarea, select, dialog, bw-item, bw-frame, [contenteditable]")) return;
    findStepper()?.goOn();
  }
  document.addEventListener("keydown", onKey);

  class Stepper extends HTMLElement {
    #step = 1;
    #all = false;
    /** @type {Reading} */
    #reading = "";
    /** What each step says, in short and in full. @type {{ readonly short: string, readonly say: string }[]} */
    #said = [];
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      whenThere(this, () => this.#wake());
    }

    #wake() {
      const { signal } = this.#listening;
      this.#said = this.#loadSaid();
      this.#reading = loadReading();
      window.addEventListener("bw-step-key", () => this.#draw(), { signal });
      this.#part(".bw-stepper-tools").hidden = false;
      // Where there is one step there is nowhere to go.
      const goers = [".bw-stepper-way", ".bw-stepper-place", "[data-bw-toggle=all]", "[data-bw-toggle=key]"];
      for (const part of goers) this.#part(part).hidden = this.#steps.length === 1;
      this.addEventListener("click", (event) => this.#onClick(event), { signal });
      window.addEventListener("hashchange", () => this.#followLink(), { signal });
      window.addEventListener("pageshow", (event) => event.persisted && this.#takeUp(), { signal });
      if (!this.#followLink()) this.#draw();
    }

    disconnectedCallback() {
      this.#listening.abort();
      this.#part(".bw-stepper-tools").hidden = true;
      this.#steps.forEach((step) => (step.hidden = false));
    }

    get step() {
      return this.#step;
    }

    /** @param {number} step */
    show(step) {
      this.#step = Math.min(Math.max(step, 1), this.#steps.length);
      this.#all = false;
      this.#draw();
      this.#announce();
    }

    /** Go to the next step and say it. */
    goOn() {
      this.#go("next");
      this.#steps[this.#step - 1]?.scrollIntoView({ block: "nearest" });
    }

    get #steps() {
      return /** @type {HTMLElement[]} */ ([...this.querySelectorAll(".bw-step")]);
    }

    /** @param {string} selector */
    #part(selector) {
      const part = this.querySelector(selector);
      if (!(part instanceof HTMLElement)) throw new Error(`<bw-stepper> lacks ${selector}`);
      return part;
    }

    /** The sentences stand in the walkthrough's data; without it, only the full ones in the list. */
    #loadSaid() {
      const data = this.closest(".bw-walkthrough")?.querySelector("script.walkthrough-data")?.textContent;
      if (data) return JSON.parse(data).steps;
      const full = this.#steps.map((step) => step.querySelector(".bw-say")?.textContent ?? "");
      return full.map((text) => ({ short: text, say: text }));
    }

    /** Show the step that the address names; whether it names one of these. */
    #followLink() {
      const named = location.hash === "" ? null : document.getElementById(decodeURIComponent(location.hash.slice(1)));
      const index = this.#steps.findIndex((step) => step === named);
      if (index < 0) return false;
      this.show(index + 1);
      this.#steps[index]?.scrollIntoView({ block: "nearest" });
      return true;
    }

    /** Another page may have kept another choice since. */
    #takeUp() {
      this.#reading = loadReading();
      oneKey = load(ONE_KEY) === "on";
      this.#draw();
    }

    #draw() {
      this.#steps.forEach((step, index) => {
        step.hidden = !this.#all && index + 1 !== this.#step;
        step.classList.toggle("bw-current", index + 1 === this.#step);
        const text = this.#said[index];
        const place = step.querySelector(".bw-say");
        if (text && place) place.textContent = this.#reading === "short" ? text.short : text.say;
      });
      const where = { number: this.#step, count: this.#steps.length };
      this.#part(".bw-stepper-place").textContent = this.#all ? say("stepper.all_shown", where) : say("stepper.place", where);
      this.#mark("[data-bw-toggle=short]", "aria-pressed", this.#reading === "short");
      this.#mark("[data-bw-toggle=all]", "aria-pressed", this.#all);
      this.#mark("[data-bw-toggle=key]", "aria-pressed", oneKey);
      for (const way of ["first", "previous"]) this.#mark(`[data-bw-go=${way}]`, "aria-disabled", this.#step === 1);
      for (const way of ["next", "last"]) {
        this.#mark(`[data-bw-go=${way}]`, "aria-disabled", this.#step === this.#steps.length);
      }
    }

    /** @param {string} selector @param {string} name @param {boolean} value */
    #mark(selector, name, value) {
      const part = this.#part(selector);
      // A key that is in use says nothing of it; "not disabled" would be heard at each one.
      if (name === "aria-disabled" && !value) part.removeAttribute(name);
      else part.setAttribute(name, String(value));
    }

    /** Say the step shown. @param {string} first said before it */
    #announce(first = "") {
      const text = this.#said[this.#step - 1];
      const where = { number: this.#step, count: this.#steps.length };
      const step = say("stepper.said", { ...where, say: (this.#reading === "full" ? text?.say : text?.short) ?? "" });
      this.#part("[role=status]").textContent = `${first} ${step}`.trim();
    }

    /** @param {MouseEvent} event */
    #onClick(event) {
      const button = event.target instanceof Element ? event.target.closest("button") : null;
      const way = button?.dataset["bwGo"];
      if (way) this.#go(way);
      if (button?.dataset["bwToggle"] === "short") this.#toggleShort();
      if (button?.dataset["bwToggle"] === "all") this.#toggleAll();
      if (button?.dataset["bwToggle"] === "key") this.#toggleKey();
    }

    /** At an end the key says so and stays where it is, so that the focus is not lost. @param {string} way */
    #go(way) {
      used = this;
      const last = this.#steps.length;
      const wanted = { first: 1, previous: this.#step - 1, next: this.#step + 1, last }[way] ?? this.#step;
      if (wanted < 1) this.#announce(say("stepper.at_start"));
      else if (wanted > last) this.#announce(say("stepper.at_end"));
      else this.show(wanted);
      const step = this.#steps[this.#step - 1]?.id ?? "";
      this.dispatchEvent(new CustomEvent("bw-step", { bubbles: true, detail: { id: step, step: this.#step } }));
    }

    #toggleShort() {
      this.#reading = this.#reading === "short" ? "full" : "short";
      keep(KEY, this.#reading);
      this.#draw();
      this.#announce();
    }

    #toggleKey() {
      oneKey = !oneKey;
      keep(ONE_KEY, oneKey ? "on" : "off");
      used = this;
      window.dispatchEvent(new CustomEvent("bw-step-key", { detail: null }));
      const text = say(oneKey ? "stepper.key_on" : "stepper.key_off", { letter: say("stepper.key").toUpperCase() });
      this.#part("[role=status]").textContent = text;
    }

    #toggleAll() {
      this.#all = !this.#all;
      this.#draw();
      const count = this.#steps.length;
      if (this.#all) this.#part("[role=status]").textContent = say("stepper.all_shown", { count });
      else this.#announce();
    }
  }

  customElements.define("bw-stepper", Stepper);
})();
