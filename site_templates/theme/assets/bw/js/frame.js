"use strict";

// <bw-frame>: a frame that a learner works. The page brings it as a picture; this makes each rod a spin button whose value
// is spoken, each bead a target for one tap, and says by itself only what the focused spin button does not.
(() => {
  const { say } = window.beadwright;

  /** @param {BwColumnBeads} beads */
  const digitOf = ([upper, lower]) => 5 * upper + lower;

  /** What the keys of a rod make of its digit. @param {string} key @param {number} digit @param {number} upper */
  function wantedDigit(key, digit, upper) {
    if (/^[0-9]$/.test(key)) return Number(key);
    /** @type {Record<string, number>} */
    const wanted = { ArrowUp: digit + 1, ArrowDown: digit - 1, Home: 0, End: 9, Backspace: 0, Delete: 0 };
    if (upper > 0) Object.assign(wanted, { PageUp: digit + 5, PageDown: digit - 5 });
    return wanted[key];
  }

  class Frame extends HTMLElement {
    /** @type {BwFrameData} */
    #data = { upper: 1, lower: 4, marks: [], beads: [], places: [], values: [] };
    /** What each column holds, from column 1 (the rightmost) up. @type {number[]} */
    #digits = [];
    #frozen = false;
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      const { signal } = this.#listening;
      if (this.#digits.length === 0) this.#load();
      this.addEventListener("click", (event) => this.#onClick(event), { signal });
      this.addEventListener("keydown", (event) => this.#onKey(event), { signal });
      this.addEventListener("focusin", (event) => this.#onFocus(event), { signal });
    }

    disconnectedCallback() {
      this.#listening.abort();
    }

    get beads() {
      return this.#digits.map((digit) => this.#split(digit)).reverse();
    }

    set beads(beads) {
      if (beads.length !== this.#digits.length) throw new TypeError(`this frame has ${this.#digits.length} columns`);
      this.#digits = beads.map(digitOf).reverse();
      const used = this.#digits.findLastIndex((digit) => digit > 0) + 1;
      while (this.#columns.length < Math.min(used + 1, beads.length)) this.#addColumn();
      this.#columns.forEach((column) => this.#draw(column));
    }

    get frozen() {
      return this.#frozen;
    }

    set frozen(frozen) {
      this.#frozen = frozen;
      this.toggleAttribute("data-frozen", frozen);
      this.#columns.forEach((column) => this.#draw(column));
      this.querySelectorAll("button").forEach((button) => button.toggleAttribute("disabled", frozen));
    }

    get #columns() {
      return /** @type {HTMLElement[]} */ ([...this.querySelectorAll(".bw-column")]);
    }

    /** @param {number} digit @returns {[number, number]} */
    #split(digit) {
      return this.#data.upper > 0 ? [Math.floor(digit / 5), digit % 5] : [0, digit];
    }

    /** @param {string} selector @param {Element} within */
    #part(selector, within = this) {
      const part = within.querySelector(selector);
      if (!(part instanceof HTMLElement)) throw new Error(`<bw-frame id="${this.id}"> lacks ${selector}`);
      return part;
    }

    /** A column's number, its place's name, what it holds, and its rod. @param {HTMLElement} column */
    #read(column) {
      const number = Number(column.dataset["column"]);
      const digit = this.#digits[number - 1] ?? 0;
      return { number, digit, place: this.#data.places[number - 1] ?? "", rod: this.#part(".bw-rod", column) };
    }

    /** Turn the picture into a group of spin buttons. */
    #load() {
      this.#data = JSON.parse(this.dataset["frame"] || "null");
      this.#digits = this.#data.beads.map(digitOf).reverse();
      const group = this.#part(".bw-worked-columns");
      group.setAttribute("role", "group");
      group.setAttribute("aria-label", this.dataset["name"] || "");
      // Said once a page: at every frame it would stand in the way.
      if (document.querySelector("bw-frame") === this) {
        group.setAttribute("aria-describedby", this.#part(".bw-worked-help-text").id);
      }
      this.querySelectorAll("[hidden]").forEach((part) => part.removeAttribute("hidden"));
      this.#columns.forEach((column, index) => this.#dress(column, index === 0 ? 0 : -1));
    }

    /** @param {HTMLElement} column @param {0 | -1} tab whether the Tab key comes here */
    #dress(column, tab) {
      const { place, rod } = this.#read(column);
      rod.tabIndex = tab;
      const fixed = { role: "spinbutton", "aria-label": place, "aria-valuemin": "0", "aria-valuemax": "9" };
      for (const [name, value] of Object.entries(fixed)) rod.setAttribute(name, value);
      this.#part(".bw-more", column).setAttribute("aria-label", say("frame.one_more", { place }));
      this.#part(".bw-less", column).setAttribute("aria-label", say("frame.one_less", { place }));
      this.#draw(column);
    }

    /** Show what a column holds, to eyes and to ears. @param {HTMLElement} column */
    #draw(column) {
      const { digit, rod } = this.#read(column);
      const [upper, lower] = this.#split(digit);
      for (const bead of /** @type {NodeListOf<HTMLElement>} */ (column.querySelectorAll("[data-bead]"))) {
        bead.classList.toggle("bw-set", Number(bead.dataset["at"]) <= (bead.dataset["bead"] === "upper" ? upper : lower));
      }
      rod.setAttribute("aria-valuenow", String(digit));
      rod.setAttribute("aria-valuetext", this.#data.values[digit] ?? "");
      if (this.#frozen) rod.setAttribute("aria-readonly", "true");
      else rod.removeAttribute("aria-readonly");
      const written = column.querySelector(".bw-worked-digit");
      if (written) written.textContent = String(digit);
    }

    /** Put a digit in a column, if it is one and the frame may be worked; a focused rod speaks for itself.
     * @param {HTMLElement} column @param {number} digit */
    #set(column, digit) {
      const { number, digit: before, place, rod } = this.#read(column);
      if (this.#frozen || digit < 0 || digit > 9 || digit === before) return;
      this.#digits[number - 1] = digit;
      this.#draw(column);
      if (document.activeElement !== rod) {
        this.#announce(say("frame.changed", { place, value: this.#data.values[digit] ?? "" }));
      }
      this.#report();
    }

    #report() {
      this.dispatchEvent(new CustomEvent("bw-change", { bubbles: true, detail: { beads: this.beads } }));
    }

    /** @param {string} text */
    #announce(text) {
      this.#part("[role=status]").textContent = text;
    }

    /** @param {MouseEvent} event */
    #onClick(event) {
      const target = event.target instanceof Element ? event.target : this;
      const task = target.closest("[data-bw-do]")?.getAttribute("data-bw-do");
      if (task === "clear") this.#clear();
      if (task === "more") this.#showMore();
      const column = target.closest(".bw-column");
      if (!(column instanceof HTMLElement)) return;
      const { digit } = this.#read(column);
      const bead = target.closest("[data-bead]");
      if (bead instanceof HTMLElement) this.#set(column, this.#tap(bead, digit));
      else if (target.closest(".bw-more")) this.#set(column, digit + 1);
      else if (target.closest(".bw-less")) this.#set(column, digit - 1);
    }

    /** The digit after a tap: a bead at rest is set with those before it, a set one cleared with those behind it.
     * @param {HTMLElement} bead @param {number} digit */
    #tap(bead, digit) {
      const [upper, lower] = this.#split(digit);
      const at = Number(bead.dataset["at"]);
      const isUpper = bead.dataset["bead"] === "upper";
      const after = at <= (isUpper ? upper : lower) ? at - 1 : at;
      return isUpper ? digitOf([after, lower]) : digitOf([upper, after]);
    }

    /** @param {KeyboardEvent} event */
    #onKey(event) {
      const rod = event.target instanceof Element ? event.target.closest("[role=spinbutton]") : null;
      const column = rod?.closest(".bw-column");
      if (!(column instanceof HTMLElement) || event.ctrlKey || event.altKey || event.metaKey) return;
      const digit = wantedDigit(event.key, this.#read(column).digit, this.#data.upper);
      const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
      if (digit === undefined && step === undefined) return;
      event.preventDefault();
      if (digit !== undefined) this.#set(column, digit);
      const next = step === undefined ? undefined : this.#columns[this.#columns.indexOf(column) + step];
      if (next) this.#read(next).rod.focus();
    }

    /** The Tab key comes back to the rod that was worked last. @param {FocusEvent} event */
    #onFocus(event) {
      const rods = this.#columns.map((column) => this.#read(column).rod);
      if (rods.some((rod) => rod === event.target)) rods.forEach((rod) => (rod.tabIndex = rod === event.target ? 0 : -1));
    }

    #clear() {
      if (this.#frozen) return;
      const moved = this.#digits.some((digit) => digit > 0);
      this.beads = this.#digits.map(() => [0, 0]);
      this.#announce(say("frame.cleared"));
      if (moved) this.#report();
    }

    #showMore() {
      const column = this.#addColumn();
      this.#announce(column ? say("frame.shown", { place: this.#read(column).place }) : say("frame.all_shown"));
    }

    /** One more column on the left, like the leftmost one shown; null when all are shown. */
    #addColumn() {
      const [leftmost] = this.#columns;
      const number = this.#columns.length + 1;
      const column = leftmost?.cloneNode(true);
      if (!leftmost || number > this.#digits.length || !(column instanceof HTMLElement)) return null;
      column.dataset["column"] = String(number);
      column.classList.toggle("bw-marked", this.#data.marks.includes(number));
      leftmost.before(column);
      this.#dress(column, -1);
      if (number === this.#digits.length) this.querySelector("[data-bw-do=more]")?.setAttribute("aria-disabled", "true");
      return column;
    }
  }

  customElements.define("bw-frame", Frame);
})();
