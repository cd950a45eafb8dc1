"use strict";

// <bw-round>: one level of a round to work alone. Nothing starts by itself and nothing is taken away: the time is a wish, its
// end is told and ends nothing, and whoever ends too early goes on. Nothing of it is kept.
(() => {
  const { say } = window.beadwright;

  /** @typedef {{ readonly verdict: BwVerdict | null, readonly shown: string, readonly late: boolean }} Answer */
  /** @typedef {{ minutes: Record<string, number>, marker: string, grouping: string, sets: BwEntry[][] }} RoundData */

  /** @param {number} seconds whole */
  const showClock = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;

  class Round extends HTMLElement {
    /** @type {RoundData | undefined} */
    #data;
    #timer = new window.beadwright.Stopwatch();
    #player = new window.beadwright.heard.Player();
    #ticking = 0;
    #set = 0;
    #place = 0;
    /** In the order of the problems; where nothing stands, it has not been reached. @type {Answer[]} */
    #answers = [];
    /** Seconds until the time is over; 0 where nothing ends. */
    #limit = 0;
    #told = new Set();
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      const { signal } = this.#listening;
      this.#data ??= JSON.parse(this.find(".round-data").textContent || "null");
      this.find(".bw-round-choices").addEventListener("submit", (event) => this.#start(event), { signal });
      this.find(".bw-round-play").addEventListener("submit", (event) => this.#check(event), { signal });
      this.addEventListener("click", (event) => this.#onClick(event), { signal });
      this.addEventListener("keydown", (event) => event.key === "Escape" && this.#player.plays && this.#halt(), { signal });
      window.addEventListener("pagehide", () => this.#player.stop(), { signal });
      this.querySelectorAll("[data-bw-script]").forEach((part) => part.removeAttribute("hidden"));
      this.querySelectorAll(".bw-without-scripts > :not(ol)").forEach((part) => part.remove());
    }

    disconnectedCallback() {
      this.#listening.abort();
      this.#player.stop();
      clearInterval(this.#ticking);
    }

    /** An element inside it, which has to be there. @type {BwItem["part"]} */
    find(selector) {
      const found = this.querySelector(selector);
      if (!found) throw new Error(`<bw-round id="${this.id}"> lacks ${selector}`);
      return /** @type {any} */ (found);
    }

    get data() {
      if (!this.#data) throw new Error(`<bw-round id="${this.id}"> has no data`);
      return this.#data;
    }

    get problems() {
      return this.data.sets[this.#set] ?? [];
    }

    get entry() {
      const entry = this.problems[this.#place];
      if (!entry) throw new Error(`<bw-round id="${this.id}"> has no problem ${this.#place}`);
      return entry;
    }

    get #isHeard() {
      return /** @type {HTMLInputElement} */ (this.find("[name=way][value=heard]")).checked;
    }

    /** @param {string} name */
    #chosen(name) {
      return /** @type {HTMLSelectElement} */ (this.find(`select[name=${name}]`)).value;
    }

    /* From start to end. */

    /** @param {SubmitEvent} event */
    #start(event) {
      event.preventDefault();
      const time = this.#chosen("time");
      this.#limit = 60 * (this.data.minutes[time] ?? 0);
      this.#answers = [];
      this.#place = 0;
      this.#told.clear();
      this.#timer = new window.beadwright.Stopwatch();
      if (time !== "none") this.#timer.start();
      this.#play();
    }

    #play() {
      const wanted = /** @type {HTMLInputElement} */ (this.find("[name=clock]")).checked;
      this.find(".bw-round-choices").hidden = true;
      this.find("[data-bw-round=score]").hidden = true;
      this.find("[data-bw-round=play]").hidden = false;
      this.find(".bw-round-clock").hidden = !wanted || !this.#timer.runs;
      clearInterval(this.#ticking);
      if (this.#timer.runs) this.#ticking = window.setInterval(() => this.#tick(), 1000);
      this.#show();
    }

    #show() {
      const { entry } = this;
      const [number, count] = [this.#place + 1, this.problems.length];
      this.find(".bw-round-number").textContent = say("round.number", { number, count });
      this.find(".bw-prompt").hidden = this.#isHeard;
      this.find(".bw-prompt .bw-problem").textContent = this.#isHeard ? "" : entry.prompt;
      this.find(".bw-heard").hidden = !this.#isHeard;
      this.find("[data-bw-part=say]").textContent = entry.say ?? "";
      this.find("[data-bw-part=braille]").textContent = entry.parts?.["braille"] ?? "";
      this.find(".bw-heard-state").textContent = "";
      const text = this.find(".bw-heard-text");
      if (text instanceof HTMLDetailsElement) text.open = false;
      for (const box of this.querySelectorAll("[data-bw-fields]")) {
        box.toggleAttribute("hidden", box.getAttribute("data-bw-fields") !== (entry.key?.form ?? "number"));
      }
      this.#clearRefusal();
      const fields = this.#fields();
      fields.clear();
      this.#tick();
      (this.#isHeard ? this.find("[data-bw-do=play]") : fields.inputs[0])?.focus();
    }

    /** The fields that the problem's answer is typed into. */
    #fields() {
      const box = this.find(`[data-bw-fields="${this.entry.key?.form ?? "number"}"] .bw-fields`);
      const { marker, grouping } = this.data;
      return new window.beadwright.Fields({
        shared: { marker, grouping, causes: [] },
        part: () => /** @type {any} */ (box),
        refuse: (message, inputs) => this.#refuse(message, [...inputs]),
      });
    }

    /** @param {string} message @param {HTMLElement[]} inputs */
    #refuse(message, inputs) {
      this.find(".bw-item-error").textContent = message;
      inputs.forEach((input) => input.setAttribute("aria-invalid", "true"));
      inputs[0]?.focus();
    }

    #clearRefusal() {
      this.find(".bw-item-error").replaceChildren();
      this.querySelectorAll("[aria-invalid]").forEach((input) => input.removeAttribute("aria-invalid"));
    }

    /** @param {SubmitEvent} event */
    #check(event) {
      event.preventDefault();
      this.#clearRefusal();
      const fields = this.#fields();
      const verdict = fields.judge(this.entry);
      if (verdict) this.#take(verdict, fields.shown);
    }

    /** @param {BwVerdict | null} verdict @param {string} shown */
    #take(verdict, shown) {
      this.#player.stop();
      const late = this.#limit > 0 && this.#timer.seconds > this.#limit;
      this.#answers[this.#place] = { verdict, shown, late };
      if (this.#place + 1 >= this.problems.length) this.#end();
      else {
        this.#place += 1;
        this.#show();
      }
    }

    /** @param {MouseEvent} event */
    #onClick(event) {
      const button = event.target instanceof Element ? event.target.closest("[data-bw-do]") : null;
      if (!button || button.matches("[aria-disabled=true]")) return;
      const task = button.getAttribute("data-bw-do");
      if (task === "play") void this.#listen();
      else if (task === "stop") this.#halt();
      else if (task === "skip") this.#take(null, "");
      else if (task === "end") this.#end();
      else if (task === "on") this.#goOn();
      else if (task === "again") this.#again();
    }

    #goOn() {
      this.#timer.resume();
      this.#play();
    }

    #again() {
      this.#set = (this.#set + 1) % this.data.sets.length;
      this.find("[data-bw-round=score]").hidden = true;
      this.find(".bw-round-choices").hidden = false;
      this.find(".bw-round-state").textContent = "";
      this.find(".bw-round-choices [type=submit]").focus();
    }

    /* Time. */

    #tick() {
      if (!this.#timer.runs) return;
      const seconds = Math.floor(this.#timer.seconds);
      const left = this.#limit - seconds;
      const key = this.#limit === 0 ? "round.clock_passed" : left >= 0 ? "round.clock_left" : "round.clock_over";
      this.find(".bw-round-clock").textContent = say(key, { time: showClock(this.#limit === 0 ? seconds : Math.abs(left)) });
      if (this.#limit === 0) return;
      if (left <= 0) this.#tellOnce("round.over");
      else if (left <= 60 && this.#limit > 60) this.#tellOnce("round.last_minute");
      else if (left <= this.#limit / 2 && this.#limit > 120) this.#tellOnce("round.half");
    }

    /** @param {string} key */
    #tellOnce(key) {
      if (this.#told.has(key)) return;
      this.#told.add(key);
      this.find(".bw-round-state").textContent = say(key);
    }

    /* Sound. */

    async #listen() {
      const { heard } = window.beadwright;
      const state = this.find(".bw-heard-state");
      const pieces = heard.findPieces(this.entry);
      if (pieces.length === 0) {
        this.#showText(heard.sayNoVoice());
        return;
      }
      const stop = this.find("[data-bw-do=stop]");
      stop.setAttribute("aria-disabled", "false");
      state.textContent = "";
      try {
        if (!(await this.#player.play(pieces, Number(this.#chosen("pause"))))) return;
        state.textContent = say("practice.played");
      } catch {
        this.#player.stop();
        this.#showText(say("practice.voice_failed"));
      }
      stop.setAttribute("aria-disabled", "true");
    }

    /** @param {string} why */
    #showText(why) {
      this.find(".bw-heard-state").textContent = why;
      const text = this.find(".bw-heard-text");
      if (text instanceof HTMLDetailsElement) text.open = true;
    }

    #halt() {
      this.#player.stop();
      this.find("[data-bw-do=stop]").setAttribute("aria-disabled", "true");
      this.find(".bw-heard-state").textContent = say("practice.stopped");
    }

    /* The score: how accurate first, then how fast. */

    #end() {
      this.#player.stop();
      this.#timer.stop();
      clearInterval(this.#ticking);
      this.find("[data-bw-round=play]").hidden = true;
      this.find("[data-bw-round=score]").hidden = false;
      this.find(".bw-round-state").textContent = "";
      const count = this.problems.length;
      const right = this.#answers.filter((answer) => answer.verdict?.right);
      const lines = [say("round.accuracy", { right: right.length, count, share: Math.round((100 * right.length) / count) })];
      const late = right.filter((answer) => answer.late).length;
      if (late > 0) lines.push(say("round.late", { count: late }));
      this.find(".bw-round-accuracy").textContent = lines.join(" ");
      this.find(".bw-round-rate").textContent = this.#sayRate();
      this.find(".bw-round-list").replaceChildren(...this.problems.map((entry, place) => this.#tellProblem(entry, place)));
      this.find("[data-bw-do=on]").hidden = this.#answers.length >= count;
      this.find(".bw-round-heading").focus();
    }

    #sayRate() {
      if (!this.#timer.runs) return say("round.rate_none");
      const inTime = this.#answers.filter((answer) => !answer.late);
      const digits = inTime.reduce((sum, { verdict }) => sum + (verdict?.digits_right ?? 0), 0);
      const seconds = this.#limit > 0 ? Math.min(this.#limit, this.#timer.seconds) : this.#timer.seconds;
      const rate = seconds > 0 ? Math.round((60 * digits) / seconds) : 0;
      return say("round.rate", { digits, time: showClock(Math.round(seconds)), rate });
    }

    /** @param {BwEntry} entry @param {number} place */
    #tellProblem(entry, place) {
      const answer = this.#answers[place];
      const fields = { problem: entry.prompt, answer: entry.shown_key ?? "", given: answer?.shown ?? "" };
      const line = document.createElement("li");
      const key = answer?.verdict ? (answer.verdict.right ? "right" : "wrong") : "none";
      line.dataset["bwFound"] = key;
      line.textContent = say(`round.found.${key}`, fields);
      return line;
    }
  }

  customElements.define("bw-round", Round);
})();
