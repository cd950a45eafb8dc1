"use strict";

// <bw-frame>: a frame that a learner works. The page brings it as a picture; this makes each rod a spin button whose value
// is spoken, each bead a target for one tap, and says by itself only what the focused spin button does not.
(() => {
  const { say } = window.beadwright;

  /** @param {BwColumnBeads} beads */
  const digitOf = ([upper, lower]) => 5 * upper + lower;

  class Frame extends HTMLElement {
    /** @type {BwFrameData | undefined} */
    #data;
    /** What each column holds, from column 1 (the rightmost) up. @type {number[]} */
    #digits = [];
    #frozen = false;
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      const { signal } = this.#listening;
      this.#load();
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
      const digits = beads.map(digitOf).reverse();
      if (digits.length !== this.#digits.length) throw new TypeError(`this frame has ${this.#digits.length} columns`);
      this.#digits = digits;
      const used = digits.findLastIndex((digit) => digit > 0) + 1;
      while (this.#shown < Math.min(used + 1, digits.length)) this.#addColumn();
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

    get #shown() {
      return this.#columns.length;
    }

    /** @param {number} digit @returns {[number, number]} */
    #split(digit) {
      return this.#data && this.#data.upper > 0 ? [Math.floor(digit / 5), digit % 5] : [0, digit];
    }

    /** Turn the picture into a group of spin buttons; the second time there is nothing left to turn. */
    #load() {
      if (this.#data) return;
      /** @type {BwFrameData} */
      const data = JSON.parse(this.dataset["frame"] || "null");
      this.#data = data;
      this.#digits = data.beads.map(digitOf).reverse();
      const group = this.#part(".bw-worked-columns");
      group.setAttribute("role", "group");
      group.setAttribute("aria-label", this.dataset["name"] || "");
      group.setAttribute("aria-describedby", this.#part(".bw-worked-help-text").id);
      this.querySelectorAll("[hidden]").forEach((part) => part.removeAttribute("hidden"));
      this.#columns.forEach((column, index) => this.#dress(column, index === 0));
      if (Object.hasOwn(this, "beads") || Object.hasOwn(this, "frozen")) this.#takeUp();
    }

    /** Properties that were set before this class was known hide its own; set them again through it. */
    #takeUp() {
      const { beads, frozen } = /** @type {Partial<BwFrame>} */ ({ ...this });
      Reflect.deleteProperty(this, "beads");
      Reflect.deleteProperty(this, "frozen");
      if (beads) this.beads = beads.map(([upper, lower]) => [upper, lower]);
      if (frozen !== undefined) this.frozen = frozen;
    }

    /** @param {string} selector @param {Element} within */
    #part(selector, within = this) {
      const part = within.querySelector(selector);
      if (!(part instanceof HTMLElement)) throw new Error(`<bw-frame id="${this.id}"> lacks ${selector}`);
      return part;
    }

    /** @param {HTMLElement} column */
    #rod(column) {
      return this.#part(".bw-rod", column);
    }

    /** @param {HTMLElement} column */
    #number(column) {
      return Number(column.dataset["column"]);
    }

    /** @param {number} number */
    #place(number) {
      return this.#data?.places[number - 1] ?? "";
    }

    /** @param {HTMLElement} column @param {boolean} first whether the Tab key comes here */
    #dress(column, first) {
      const place = this.#place(this.#number(column));
      const rod = this.#rod(column);
      rod.tabIndex = first ? 0 : -1;
      const fixed = { role: "spinbutton", "aria-label": place, "aria-valuemin": "0", "aria-valuemax": "9" };
      for (const [name, value] of Object.entries(fixed)) rod.setAttribute(name, value);
      this.#part(".bw-more", column).setAttribute("aria-label", say("frame.one_more", { place }));
      this.#part(".bw-less", column).setAttribute("aria-label", say("frame.one_less", { place }));
      this.#draw(column);
    }

    /** Show what a column holds, to eyes and to ears. @param {HTMLElement} column */
    #draw(column) {
      const digit = this.#digits[this.#number(column) - 1] ?? 0;
      const [upper, lower] = this.#split(digit);
      for (const bead of /** @type {NodeListOf<HTMLElement>} */ (column.querySelectorAll("[data-bead]"))) {
        bead.classList.toggle("bw-set", Number(bead.dataset["at"]) <= (bead.dataset["bead"] === "upper" ? upper : lower));
      }
      const rod = this.#rod(column);
      rod.setAttribute("aria-valuenow", String(digit));
      rod.setAttribute("aria-valuetext", this.#data?.values[digit] ?? "");
      rod.setAttribute("aria-readonly", String(this.#frozen));
      const shown = column.querySelector(".bw-worked-digit");
      if (shown) shown.textContent = String(digit);
    }

    /** Put a digit in a column, if it is one and the frame may be worked. @param {HTMLElement} column @param {number} digit */
    #set(column, digit) {
      const index = this.#number(column) - 1;
      if (this.#frozen || digit < 0 || digit > 9 || digit === this.#digits[index]) return false;
      this.#digits[index] = digit;
      this.#draw(column);
      this.dispatchEvent(new CustomEvent("bw-change", { bubbles: true, detail: { beads: this.beads } }));
      return true;
    }

    /** Said only where the focus is not on the rod that changed, which speaks for itself. @param {string} text */
    #announce(text) {
      this.#part("[role=status]").textContent = text;
    }

    /** @param {HTMLElement} column @param {number} digit */
    #setAndSay(column, digit) {
      if (!this.#set(column, digit) || document.activeElement === this.#rod(column)) return;
      const value = this.#data?.values[digit] ?? "";
      this.#announce(say("frame.changed", { place: this.#place(this.#number(column)), value }));
    }

    /** @param {MouseEvent} event */
    #onClick(event) {
      const target = event.target instanceof Element ? event.target : this;
      const column = target.closest(".bw-column");
      const task = target.closest("[data-bw-do]")?.getAttribute("data-bw-do");
      if (task === "clear") this.#clear();
      if (task === "more") this.#showMore();
      if (!(column instanceof HTMLElement)) return;
      const digit = this.#digits[this.#number(column) - 1] ?? 0;
      const bead = target.closest("[data-bead]");
      if (bead instanceof HTMLElement) this.#setAndSay(column, this.#tap(bead, digit));
      else if (target.closest(".bw-more")) this.#setAndSay(column, digit + 1);
      else if (target.closest(".bw-less")) this.#setAndSay(column, digit - 1);
    }

    /** The digit after a tap: a bead at rest is set with those before it, a set one cleared with those behind it.
     * @param {HTMLElement} bead @param {number} digit */
    #tap(bead, digit) {
      const [upper, lower] = this.#split(digit);
      const at = Number(bead.dataset["at"]);
      const held = bead.dataset["bead"] === "upper" ? upper : lower;
      const after = at <= held ? at - 1 : at;
      return bead.dataset["bead"] === "upper" ? digitOf([after, lower]) : digitOf([upper, after]);
    }

    /** @param {KeyboardEvent} event */
    #onKey(event) {
      const rod = event.target instanceof Element ? event.target.closest("[role=spinbutton]") : null;
      const column = rod?.closest(".bw-column");
      if (!(column instanceof HTMLElement) || event.ctrlKey || event.altKey || event.metaKey) return;
      const digit = this.#digits[this.#number(column) - 1] ?? 0;
      const upper = this.#data?.upper ?? 0;
      /** @type {Record<string, number>} */
      const digits = { ArrowUp: digit + 1, ArrowDown: digit - 1, Home: 0, End: 9, Backspace: 0, Delete: 0 };
      if (upper > 0) Object.assign(digits, { PageUp: digit + 5, PageDown: digit - 5 });
      const wanted = /^[0-9]$/.test(event.key) ? Number(event.key) : digits[event.key];
      const step = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
      if (wanted === undefined && step === undefined) return;
      event.preventDefault();
      if (wanted !== undefined) this.#set(column, wanted);
      if (step !== undefined) this.#columns[this.#columns.indexOf(column) + step]?.querySelector(".bw-rod")?.focus();
    }

    /** The Tab key comes back to the rod that was worked last. @param {FocusEvent} event */
    #onFocus(event) {
      const rod = event.target;
      if (!(rod instanceof HTMLElement) || !rod.matches(".bw-rod")) return;
      this.#columns.forEach((column) => (this.#rod(column).tabIndex = this.#rod(column) === rod ? 0 : -1));
    }

    #clear() {
      let moved = false;
      this.#digits.forEach((digit) => (moved ||= digit > 0));
      if (this.#frozen) return;
      this.beads = this.#digits.map(() => [0, 0]);
      this.#announce(say("frame.cleared"));
      if (moved) this.dispatchEvent(new CustomEvent("bw-change", { bubbles: true, detail: { beads: this.beads } }));
    }

    #showMore() {
      const added = this.#shown < this.#digits.length;
      if (added) this.#addColumn();
      const place = this.#place(this.#shown);
      this.#announce(added ? say("frame.shown", { place }) : say("frame.all_shown"));
    }

    /** One more column on the left, like the leftmost one shown. */
    #addColumn() {
      const leftmost = this.#columns[0];
      const column = leftmost?.cloneNode(true);
      if (!leftmost || !(column instanceof HTMLElement)) return;
      const number = this.#shown + 1;
      column.dataset["column"] = String(number);
      column.classList.toggle("bw-marked", this.#data?.marks.includes(number) ?? false);
      leftmost.before(column);
      this.#dress(column, false);
      const all = this.#shown === this.#digits.length;
      this.querySelector("[data-bw-do=more]")?.setAttribute("aria-disabled", String(all));
    }
  }

  customElements.define("bw-frame", Frame);
})();
