"use strict";

// <bw-stepper>: shows the steps of a walkthrough one at a time. The list of steps is whole without it; it hides what is
// not wanted now, says the step it shows, and keeps nothing but which reading was chosen. Until one is chosen, a step
// shows its reading in full and says the short one: the ear needs the moves, and the reasons stand there to be read.
(() => {
  const { say } = window.beadwright;
  const KEY = "bw-reading";

  /** @typedef {"short" | "full" | ""} Reading the reading chosen last; empty while none was */

  /** @returns {Reading} */
  function loadReading() {
    try {
      const kept = localStorage.getItem(KEY);
      return kept === "short" || kept === "full" ? kept : "";
    } catch {
      return "";
    }
  }

  /** @param {Reading} reading */
  function keepReading(reading) {
    try {
      localStorage.setItem(KEY, reading);
    } catch {
      // Storage refused: the choice lasts until the page is left.
    }
  }

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
      const { signal } = this.#listening;
      this.#said = this.#loadSaid();
      this.#reading = loadReading();
      this.#part(".bw-stepper-tools").hidden = false;
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
      const data = this.closest(".bw-walkthrough")?.querySelector("script.walkthrough-data");
      if (data) return JSON.parse(data.textContent || "null").steps;
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
    }

    /** At an end the key says so and stays where it is, so that the focus is not lost. @param {string} way */
    #go(way) {
      const last = this.#steps.length;
      const wanted = { first: 1, previous: this.#step - 1, next: this.#step + 1, last }[way] ?? this.#step;
      if (wanted < 1) this.#announce(say("stepper.at_start"));
      else if (wanted > last) this.#announce(say("stepper.at_end"));
      else this.show(wanted);
    }

    #toggleShort() {
      this.#reading = this.#reading === "short" ? "full" : "short";
      keepReading(this.#reading);
      this.#draw();
      this.#announce();
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
