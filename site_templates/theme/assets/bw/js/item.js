"use strict";

// <bw-item>: one practice item around its finished form. The kind of item (item-*.js) knows how an answer is read and
// judged, item-telling.js how it is told; here is what all kinds share besides: entries of the pool, hints, drafts, the
// record. An item that breaks keeps its folded answer and stops no other.
(() => {
  const { say, store, whenThere } = window.beadwright;
  const kinds = (window.beadwright.kinds ||= {});

  /** @type {BwPracticePage} */
  const shared = JSON.parse(document.getElementById("bw-practice")?.textContent || "null") ?? {
    causes: [], sentences: [], workings: {}, places: {}, marker: ".", grouping: ",", lesson: "", edition: "", pass_mark: 1,
  };

  /** What is kept once the answer has been painted, so that feedback never waits for storage. @type {(() => void)[]} */
  const waiting = [];
  function flush() {
    waiting.splice(0).forEach((task) => task());
  }
  /** @param {() => void} task */
  function later(task) {
    waiting.push(task);
    setTimeout(flush, 60);
  }
  window.addEventListener("pagehide", flush);
  document.addEventListener("visibilitychange", () => document.hidden && flush());

  /** @template {keyof HTMLElementTagNameMap} K @param {K} name @param {string} className @param {string} [text] */
  function make(name, className, text = "") {
    const made = document.createElement(name);
    if (className) made.className = className;
    made.textContent = text;
    return made;
  }

  /** @param {number} seconds */
  const tenths = (seconds) => Math.round(seconds * 10) / 10;

  class Item extends HTMLElement {
    /** @type {BwItemData | undefined} */
    #data;
    /** @type {BwKind | undefined} */
    #kind;
    #place = 0;
    #hints = 0;
    /** @type {readonly string[]} */
    #offered = [];
    /** @type {BwTelling | undefined} */
    #telling;
    #timer = new window.beadwright.Stopwatch();
    #draftTimer = 0;
    /** Whether something has been done here since the place was kept. */
    #worked = false;
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      whenThere(this, () => this.#wake());
    }

    #wake() {
      const { signal } = this.#listening;
      try {
        this.#load();
      } catch (error) {
        this.#breakDown(error);
        return;
      }
      this.addEventListener("focusin", () => this.#kind?.warm?.(), { signal, once: true });
      this.addEventListener("submit", (event) => this.#onSubmit(event), { signal });
      this.addEventListener("click", (event) => this.#onClick(event), { signal });
      for (const name of ["input", "change", "bw-change"]) this.addEventListener(name, () => this.#work(), { signal });
      window.addEventListener("pagehide", () => this.#draftTimer !== 0 && this.#keepDraft(), { signal });
    }

    disconnectedCallback() {
      this.#listening.abort();
    }

    get data() {
      if (!this.#data) throw new Error(`<bw-item id="${this.id}"> has no data`);
      return this.#data;
    }

    get entry() {
      const entry = this.data.pool[this.#place];
      if (!entry) throw new Error(`<bw-item id="${this.id}"> has no entry ${this.#place}`);
      return entry;
    }

    get shared() {
      return shared;
    }

    #load() {
      if (this.#data) return;
      this.#data = JSON.parse(this.part(".practice-data").textContent || "null");
      const build = kinds[this.data.ask];
      if (!build) throw new Error(`there is no kind of item called ${this.data.ask}`);
      this.#telling = new window.beadwright.Telling(this);
      this.#kind = build(this);
      this.offerHints(this.entry.hints);
      const draft = store.draft(this.data.id);
      if (Object.keys(draft).length > 0) this.#restore(draft);
      else this.#takeUpPlace();
      this.querySelectorAll("[data-bw-script]").forEach((part) => part.removeAttribute("hidden"));
      this.querySelector(".bw-fold")?.remove();
    }

    /** @param {unknown} error */
    #breakDown(error) {
      console.error(error);
      this.#data = undefined;
      const note = make("p", "bw-item-note", say("practice.broken"));
      this.querySelector(".bw-item-title")?.after(note);
    }

    /** @type {BwItem["part"]} */
    part(selector) {
      const part = this.querySelector(selector);
      if (!part) throw new Error(`<bw-item id="${this.id}"> lacks ${selector}`);
      return /** @type {any} */ (part);
    }

    /** @param {SubmitEvent} event */
    #onSubmit(event) {
      event.preventDefault();
      this.#clearRefusal();
      this.#kind?.check?.();
      this.#work();
    }

    /** @param {MouseEvent} event */
    #onClick(event) {
      const button = event.target instanceof Element ? event.target.closest("[data-bw-do], [data-bw-step]") : null;
      if (!(button instanceof HTMLElement) || button.closest("bw-frame") || button.matches("[aria-disabled=true]")) return;
      const task = button.dataset["bwDo"];
      const step = button.dataset["bwStep"];
      if (step !== undefined) this.#telling?.goToStep(event, Number(step));
      else if (task === "hint") this.#giveHint(button);
      else if (task === "another") this.#showAnother();
      else if (task === "working") this.#telling?.toggleWorking();
      else if (task === "other") this.#telling?.toggleOtherWay();
      else if (task && task !== "check") this.#kind?.act?.(task, button);
      this.#work();
    }

    begin() {
      this.#kind?.start?.()?.focus();
    }

    /* Entries. */

    #showAnother() {
      this.#place = (this.#place + 1) % this.data.pool.length;
      this.#showEntry();
      this.#keepDraft();
      this.#kind?.start?.()?.focus();
    }

    #showEntry() {
      this.#hints = 0;
      const { parts = {} } = this.entry;
      const texts = Object.entries({ ...parts, say: this.entry.say ?? "" });
      for (const [name, text] of texts) {
        this.querySelectorAll(`[data-bw-part="${name}"]`).forEach((part) => (part.textContent = text));
      }
      const said = this.querySelector(".bw-figure-said");
      if (said && parts["described"]) said.textContent = parts["described"];
      this.#clearRefusal();
      this.#telling?.forget();
      this.part(".bw-hints").textContent = "";
      this.#kind?.show(this.entry);
      this.offerHints(this.entry.hints);
      this.#timer.restart();
    }

    /* Hints. */

    /** @type {BwItem["offerHints"]} */
    offerHints(hints = []) {
      this.#offered = hints;
      this.#hints = 0;
      this.part(".bw-hints").textContent = "";
      const button = this.querySelector("[data-bw-do=hint]");
      if (button) this.#nameHintKey(button);
    }

    /** @param {Element} button */
    #nameHintKey(button) {
      const [given, count] = [this.#hints, this.#offered.length];
      if (given >= count) button.setAttribute("aria-disabled", "true");
      else button.removeAttribute("aria-disabled");
      button.textContent = given >= count ? say("practice.hints_done") : say("practice.hint_next", { number: given + 1, count });
    }

    /** @param {Element} button */
    #giveHint(button) {
      const text = this.#offered[this.#hints];
      if (text === undefined) return;
      this.#hints += 1;
      const hint = make("div", "bw-hint");
      hint.append(make("p", "", say("practice.hint_name", { number: this.#hints, text })));
      this.part(".bw-hints").append(hint);
      this.#nameHintKey(button);
      this.touch();
    }

    /* What is said. */

    /** @type {BwItem["refuse"]} */
    refuse(message, fields) {
      const error = this.part(".bw-item-error");
      error.textContent = message;
      this.#telling?.clear(); // an old “Right.” would seem to be said of this
      const [first, ...rest] = fields;
      for (const field of [first, ...rest]) field?.setAttribute("aria-invalid", "true");
      first?.focus();
    }

    #clearRefusal() {
      const error = this.part(".bw-item-error");
      if (error.hasChildNodes()) error.replaceChildren();
      this.querySelectorAll("[aria-invalid]").forEach((field) => field.removeAttribute("aria-invalid"));
    }

    /** @type {BwItem["tell"]} */
    tell(feedback) {
      this.#telling?.tell(feedback);
      if (feedback.right === null) return;
      // On a small or enlarged page a verdict would stand below what is seen; unless the focus has moved on, it is shown.
      const at = document.activeElement;
      later(() => document.activeElement === at && this.part(".bw-feedback").scrollIntoView({ block: "nearest" }));
    }

    /** @type {BwItem["rehearse"]} */
    rehearse(feedback) {
      this.#telling?.compose(feedback);
    }

    /** @type {BwItem["later"]} */
    later(task) {
      later(task);
    }

    /* What is kept. */

    /** @type {BwItem["keep"]} */
    keep(answered) {
      const { data, entry } = this;
      const timed = data.timed && this.#timer.runs;
      const attempt = {
        edition: shared.edition, lesson: data.lesson, objective: data.objective, item: data.id, ask: data.ask,
        problem: entry.problem ?? "", key: entry.key?.text ?? "", slip: null, digits_right: 0, ...answered,
        hints: this.#hints, frame: data.frame ? data.frame_is : "", timed,
        seconds: timed ? tenths(this.#timer.lap()) : 0,
      };
      const place = this.#findPlace();
      if (answered.right === true && timed) this.#tellTime(attempt.digits_right);
      later(() => {
        store.addAttempt(attempt, place);
        const detail = { item: data.id, right: answered.right };
        window.dispatchEvent(new CustomEvent("bw-answered", { detail }));
        this.#keepDraft();
      });
    }

    /** The learner is told of all the time that it took, with every try. @param {number} digits */
    #tellTime(digits) {
      const seconds = tenths(this.#timer.seconds);
      const rate = seconds > 0 ? Math.round((60 * digits) / seconds) : 0;
      this.part(".bw-told").append(make("p", "", say("practice.timed_done", { seconds, digits, rate })));
      this.#timer.stop();
    }

    /** @returns {BwPlace} */
    #findPlace() {
      const step = this.#kind?.step?.() ?? null;
      return { lesson: this.data.lesson, item: this.data.id, step, at: this.id, problem: this.entry.problem ?? "" };
    }

    /** The learner has done something here: it is kept, and where they are. */
    #work() {
      this.#worked = true;
      this.touch();
    }

    touch() {
      if (this.data.timed) this.#timer.follow(this.querySelector("[name=timed]"));
      clearTimeout(this.#draftTimer);
      this.#draftTimer = window.setTimeout(() => this.#keepDraft(), 400);
    }

    #keepDraft() {
      clearTimeout(this.#draftTimer);
      this.#draftTimer = 0;
      const drafted = this.#kind?.draft?.() ?? {};
      store.keepDraft(this.data.id, { ...drafted, entry: this.#place, problem: this.entry.problem ?? "", hints: this.#hints });
      if (this.#worked) store.keepPlace(this.#findPlace());
      this.#worked = false;
    }

    /** A record from another device knows the problem and the step, and has no draft. */
    #takeUpPlace() {
      const { place } = store.record;
      if (place?.at !== this.id || place.lesson !== this.data.lesson || !place.step) return;
      const found = this.data.pool.findIndex((entry) => entry.problem === place.problem);
      if (found < 0) return;
      this.#place = found;
      if (found > 0) this.#showEntry();
      this.#kind?.goTo?.(place.step);
    }

    /** A draft may be of another edition, or damaged. @param {Readonly<Record<string, unknown>>} draft */
    #restore(draft) {
      const place = this.#findDrafted(draft);
      if (place < 0) return;
      if (place > 0) {
        this.#place = place;
        this.#showEntry();
      }
      this.#kind?.restore?.(draft);
      // Counted only now: the kind may offer other hints where it goes on than at its start.
      const given = Math.min(Number(draft["hints"]) || 0, this.#offered.length);
      const button = this.querySelector("[data-bw-do=hint]");
      for (let hint = 0; button && hint < given; hint += 1) this.#giveHint(button);
    }

    /** The entry that a draft was made at, by its problem where it names one; -1 where this edition does not have it.
     * @param {Readonly<Record<string, unknown>>} draft */
    #findDrafted({ entry, problem }) {
      const { pool } = this.data;
      const place = Number(entry) || 0;
      /** @param {BwEntry | undefined} one */
      const is = (one) => one !== undefined && (typeof problem !== "string" || (one.problem ?? "") === problem);
      return is(pool[place]) ? place : pool.findIndex(is);
    }
  }

  customElements.define("bw-item", Item);
})();
