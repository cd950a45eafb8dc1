"use strict";

// <bw-item>: one practice item around its finished form. The kind of item (item-*.js) knows how an answer is read and
// judged; here is what all kinds share: entries of the pool, hints, feedback, working, drafts, the record. An item that
// breaks keeps its folded answer and stops no other.
(() => {
  const { say, store } = window.beadwright;
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

  class Item extends HTMLElement {
    /** @type {BwItemData | undefined} */
    #data;
    /** @type {BwKind | undefined} */
    #kind;
    #place = 0;
    #hints = 0;
    /** @type {readonly string[]} */
    #offered = [];
    /** Whether this entry has been answered, so that its working may be shown. */
    #answered = false;
    #timer = new window.beadwright.Stopwatch();
    #draftTimer = 0;
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      const { signal } = this.#listening;
      try {
        this.#load();
      } catch (error) {
        this.#breakDown(error);
        return;
      }
      this.addEventListener("submit", (event) => this.#onSubmit(event), { signal });
      this.addEventListener("click", (event) => this.#onClick(event), { signal });
      for (const name of ["input", "change", "bw-change"]) this.addEventListener(name, () => this.touch(), { signal });
      window.addEventListener("pagehide", () => this.#keepDraft(), { signal });
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
      this.#kind = build(this);
      this.offerHints(this.entry.hints);
      this.#restore(store.draft(this.data.id));
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
    }

    /** @param {MouseEvent} event */
    #onClick(event) {
      const button = event.target instanceof Element ? event.target.closest("[data-bw-do], [data-bw-step]") : null;
      if (!(button instanceof HTMLElement) || button.closest("bw-frame") || button.matches("[aria-disabled=true]")) return;
      const task = button.dataset["bwDo"];
      const step = button.dataset["bwStep"];
      if (step !== undefined) this.#goToStep(event, Number(step));
      else if (task === "hint") this.#giveHint(button);
      else if (task === "another") this.#showAnother();
      else if (task === "working") this.#toggleWorking();
      else if (task && task !== "check") this.#kind?.act?.(task, button);
    }

    /* Entries. */

    #showAnother() {
      this.#place = (this.#place + 1) % this.data.pool.length;
      this.#showEntry();
      this.#keepDraft();
      this.#kind?.start?.()?.focus();
    }

    #showEntry() {
      this.#answered = false;
      this.#hints = 0;
      const { parts = {} } = this.entry;
      const texts = Object.entries({ ...parts, say: this.entry.say ?? "" });
      for (const [name, text] of texts) {
        this.querySelectorAll(`[data-bw-part="${name}"]`).forEach((part) => (part.textContent = text));
      }
      const said = this.querySelector(".bw-figure-said");
      if (said && parts["described"]) said.textContent = parts["described"];
      this.#clearRefusal();
      this.#clearFeedback();
      this.part(".bw-hints").textContent = "";
      this.querySelector(".bw-working")?.remove();
      this.querySelector("[data-bw-do=working]")?.remove();
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
      button.setAttribute("aria-disabled", String(given >= count));
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
      error.hidden = false;
      const [first, ...rest] = fields;
      for (const field of [first, ...rest]) field?.setAttribute("aria-invalid", "true");
      first?.focus();
    }

    #clearRefusal() {
      const error = this.part(".bw-item-error");
      error.hidden = true;
      error.textContent = "";
      this.querySelectorAll("[aria-invalid]").forEach((field) => field.removeAttribute("aria-invalid"));
    }

    #clearFeedback() {
      const region = this.part(".bw-feedback");
      region.textContent = "";
      region.classList.remove("bw-right", "bw-wrong");
    }

    /** @type {BwItem["tell"]} */
    tell(feedback) {
      this.#clearFeedback();
      const region = this.part(".bw-feedback");
      region.classList.toggle("bw-right", feedback.right === true);
      region.classList.toggle("bw-wrong", feedback.right === false);
      region.append(make("p", "bw-verdict", feedback.verdict));
      for (const text of feedback.more ?? []) region.append(make("p", "", text));
      for (const html of feedback.html ?? []) {
        const part = make("div", "bw-because");
        part.innerHTML = html; // an author's reason, from this page's own data
        region.append(part);
      }
      this.#tellCauses(region, feedback.causes ?? [], feedback.two ?? []);
      this.#answered = true;
      this.#offerWorking();
    }

    /** @param {HTMLElement} region @param {readonly number[]} causes @param {readonly number[]} two */
    #tellCauses(region, causes, two) {
      const found = (two.length > 0 ? two : causes).flatMap((place) => shared.causes[place] ?? []);
      const [first] = found;
      if (!first) return;
      if (found.length === 1) {
        region.append(make("p", "", say("practice.likely", { name: say(`practice.slips.${first.slip}`) })));
        region.append(make("p", "", first.say));
        this.#linkStep(region, first.step, "practice.to_step");
        return;
      }
      const lead = two.length > 0 ? say("practice.two_slips") : say("practice.several", { count: found.length });
      const list = make("ul", "");
      for (const cause of found) list.append(make("li", "", cause.say));
      region.append(make("p", "", lead), list);
      if (two.length > 0) return;
      const steps = found.map((cause) => cause.step).filter((step) => step !== null);
      this.#linkStep(region, steps.length > 0 ? Math.min(...steps) : null, "practice.tell_apart");
    }

    /** @param {HTMLElement} region @param {number | null} step @param {string} key */
    #linkStep(region, step, key) {
      if (step === null || this.#findWorking().length === 0) {
        if (key === "practice.tell_apart") region.append(make("p", "", say("practice.tell_apart_reading")));
        return;
      }
      const link = make("a", "", say(key, { number: step }));
      link.href = `#${this.id}-step-${step}`;
      link.dataset["bwStep"] = String(step);
      const line = make("p", "");
      line.append(link);
      region.append(line);
    }

    /* The working of the problem, as a list of steps. */

    #findWorking() {
      const working = shared.workings[this.entry.walkthrough ?? ""];
      return (working?.steps ?? []).map((place) => shared.sentences[place] ?? "");
    }

    #offerWorking() {
      if (!this.#answered || this.#findWorking().length === 0 || this.querySelector("[data-bw-do=working]")) return;
      const button = make("button", "bw-button bw-button-quiet", say("practice.show_working"));
      button.type = "button";
      button.dataset["bwDo"] = "working";
      button.setAttribute("aria-expanded", "false");
      this.part(".bw-item-buttons").append(button);
    }

    #toggleWorking() {
      const open = this.querySelector(".bw-working");
      if (open) open.remove();
      else this.#openWorking();
      const button = this.part("[data-bw-do=working]");
      button.textContent = say(open ? "practice.show_working" : "practice.hide_working");
      button.setAttribute("aria-expanded", String(!open));
    }

    #openWorking() {
      const working = make("div", "bw-working");
      const title = make("p", "bw-working-title", say("practice.working", { shown: this.entry.parts?.["shown"] ?? "" }));
      const list = make("ol", "bw-fold-steps");
      this.#findWorking().forEach((text, index) => {
        const step = make("li", "", text);
        step.id = `${this.id}-step-${index + 1}`;
        step.tabIndex = -1;
        list.append(step);
      });
      working.append(title, list);
      this.part(".bw-hints").after(working);
    }

    /** @param {Event} event @param {number} step */
    #goToStep(event, step) {
      event.preventDefault();
      if (!this.querySelector(".bw-working")) this.#toggleWorking();
      document.getElementById(`${this.id}-step-${step}`)?.focus();
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
        seconds: timed ? Math.round(this.#timer.seconds * 10) / 10 : 0,
      };
      const place = { lesson: data.lesson, item: data.id, step: null };
      if (answered.right === true && timed) this.#tellTime(attempt);
      later(() => {
        store.addAttempt(attempt, place);
        const detail = { item: data.id, right: answered.right };
        window.dispatchEvent(new CustomEvent("bw-answered", { detail }));
      });
      this.#keepDraft();
    }

    /** @param {{ seconds: number, digits_right: number }} attempt */
    #tellTime({ seconds, digits_right }) {
      const rate = seconds > 0 ? Math.round((60 * digits_right) / seconds) : 0;
      this.part(".bw-feedback").append(make("p", "", say("practice.timed_done", { seconds, digits: digits_right, rate })));
      this.#timer.stop();
    }

    touch() {
      if (this.data.timed) this.#timer.follow(this.querySelector("[name=timed]"));
      clearTimeout(this.#draftTimer);
      this.#draftTimer = window.setTimeout(() => this.#keepDraft(), 400);
    }

    #keepDraft() {
      clearTimeout(this.#draftTimer);
      const drafted = this.#kind?.draft?.() ?? {};
      store.keepDraft(this.data.id, { ...drafted, entry: this.#place, hints: this.#hints });
    }

    /** @param {Readonly<Record<string, unknown>>} draft */
    #restore(draft) {
      const place = Number(draft["entry"] ?? 0);
      if (Number.isInteger(place) && place > 0 && place < this.data.pool.length) {
        this.#place = place;
        this.#showEntry();
      }
      const hints = Math.min(Number(draft["hints"] ?? 0) || 0, this.#offered.length);
      this.#kind?.restore?.(draft);
      const button = this.querySelector("[data-bw-do=hint]");
      while (button && this.#hints < hints) this.#giveHint(button);
    }
  }

  customElements.define("bw-item", Item);
})();
