"use strict";

// Items with a frame: one that is drawn, one to open beside a typed answer, one to set a number on, one to work a whole
// problem on. What is done on one's own frame is typed in and judged the same way.
(() => {
  const { say, grading } = window.beadwright;
  const kinds = (window.beadwright.kinds ||= {});

  /** Show other beads in an item's figure: its columns are drawn by reference, so only the references change.
   * @type {Beadwright["drawFigure"]} */
  function drawFigure(item, beads) {
    const { upper = 0, lower = 0 } = item.data.frame ?? {};
    const columns = [...item.querySelectorAll('.bw-figure use[href^="#bw-rod-"]')];
    const shown = beads.slice(beads.length - columns.length);
    shown.forEach(([up, low], index) => columns[index]?.setAttribute("href", `#bw-rod-${upper}${lower}-${up}${low}`));
  }

  /** A frame that is brought out on demand and put away again, or put aside for good where the item fades it. */
  class OpenedFrame {
    /** @param {BwItem} item */
    constructor(item) {
      this.item = item;
      this.box = item.part(".bw-item-frame");
      this.place = item.part(".bw-item-frame-place");
      this.button = item.part("[data-bw-do=frame]");
    }

    show() {
      this.close();
      this.button.removeAttribute("aria-disabled");
    }

    close() {
      this.place.textContent = "";
      this.button.textContent = this.button.dataset["bwOpen"] ?? this.button.textContent;
      this.button.setAttribute("aria-expanded", "false");
    }

    open() {
      const template = document.getElementById(this.box.dataset["bwFrame"] ?? "");
      if (!(template instanceof HTMLTemplateElement)) return;
      const copy = document.importNode(template.content, true);
      // One kind of frame stands once in the page; each copy of it gets names of its own.
      for (const part of copy.querySelectorAll("[id]")) part.id = `${this.item.id}-${part.id}`;
      this.place.append(copy);
      this.button.dataset["bwOpen"] = this.button.textContent ?? "";
      this.button.textContent = say("practice.close_frame");
      this.button.setAttribute("aria-expanded", "true");
    }

    /** @param {string} task @param {HTMLElement} _button */
    act(task, _button) {
      if (task !== "frame") return;
      if (this.place.childElementCount === 0) this.open();
      else this.close();
      const fades = this.item.data.frame_is === "start" && this.place.childElementCount === 0;
      if (!fades) return;
      this.button.setAttribute("aria-disabled", "true");
      this.button.textContent = say("practice.frame_gone");
    }
  }

  /** Whether a value is a whole number from 0 to `most`. @param {unknown} value @param {number} most */
  const isCount = (value, most) => typeof value === "number" && Number.isInteger(value) && value >= 0 && value <= most;

  /** Work here or elsewhere: the frame of the page, or fields for what one's own frame reads. */
  class Workplace {
    /** @param {BwItem} item */
    constructor(item) {
      this.item = item;
      this.fields = new window.beadwright.Fields(item);
      this.own = /** @type {HTMLInputElement} */ (item.part("[name=own]"));
      this.frame = /** @type {BwFrame} */ (item.part("bw-frame"));
      this.own.addEventListener("change", () => this.#turn());
    }

    #turn() {
      this.item.part(".bw-item-here").hidden = this.own.checked;
      this.item.part(".bw-item-elsewhere").hidden = !this.own.checked;
    }

    clear() {
      this.fields.clear();
      this.frame.beads = this.frame.beads.map(() => [0, 0]);
    }

    draft() {
      return { ...this.fields.draft(), own: this.own.checked, beads: this.frame.beads };
    }

    /** @param {Readonly<Record<string, unknown>>} draft */
    restore(draft) {
      this.fields.restore(draft);
      this.own.checked = draft["own"] === true;
      this.#turn();
      const beads = draft["beads"];
      const { length } = this.frame.beads;
      if (Array.isArray(beads) && beads.length === length && beads.every((held) => this.#canHold(held))) this.frame.beads = beads;
    }

    /** Whether a kept value is beads that a column of this frame can hold. @param {unknown} held */
    #canHold(held) {
      const { upper = 0, lower = 0 } = this.item.data.frame ?? {};
      return Array.isArray(held) && held.length === 2 && isCount(held[0], upper) && isCount(held[1], lower);
    }

    start() {
      const rod = this.frame.querySelector("[role=spinbutton]");
      return this.own.checked ? (this.fields.inputs[0] ?? null) : rod instanceof HTMLElement ? rod : null;
    }
  }

  /** @param {BwItem} item @returns {BwKind} */
  function buildSet(item) {
    const workplace = new Workplace(item);
    return {
      show: () => workplace.clear(),
      check() {
        const { entry } = item;
        const here = grading.readNumber(workplace.frame.beads, entry.lowest ?? 1, entry.places ?? 0);
        const verdict = workplace.own.checked
          ? workplace.fields.judge(entry)
          : grading.judgeAnswer(entry, here, item.shared.causes);
        if (!verdict) return;
        if (!workplace.own.checked && !verdict.right && workplace.frame.beads.every(([upper, lower]) => upper + lower === 0)) {
          item.tell({ right: null, verdict: say("practice.nothing_set") });
          return;
        }
        const told = { answer: entry.shown_key ?? "", response: workplace.own.checked ? workplace.fields.shown : here.replace(".", item.shared.marker) };
        const key = verdict.right ? "practice.right_set" : "practice.wrong_set";
        window.beadwright.tellVerdict(item, verdict, { right: verdict.right, verdict: say(key, told) });
      },
      draft: () => workplace.draft(),
      restore: (draft) => workplace.restore(draft),
      start: () => workplace.start(),
    };
  }

  /** The beads of a frame that reads `reads`. @param {string} reads @param {number} columns @param {boolean} fives
   * @returns {BwColumnBeads[]} */
  function setBeads(reads, columns, fives) {
    const digits = [...reads.padStart(columns, "0")].map(Number);
    return digits.map((held) => (fives ? [Math.floor(held / 5), held % 5] : [0, held]));
  }

  /** A whole problem, checked at the end of each digit; any way there is right. */
  class CarryOut {
    /** @param {BwItem} item */
    constructor(item) {
      this.item = item;
      this.workplace = new Workplace(item);
      this.done = 0;
      this.#say(this.#left());
    }

    /** @param {string} text */
    #say(text) {
      this.item.part(".bw-item-digits").textContent = text;
    }

    get checks() {
      return this.item.entry.checks ?? [];
    }

    #left() {
      return this.done === 0
        ? say("practice.digits_started", { count: this.checks.length })
        : say("practice.digits_left", { count: this.checks.length - this.done });
    }

    show() {
      this.done = 0;
      this.workplace.clear();
      this.#say(this.#left());
      this.item.offerHints(this.checks[0]?.hints);
    }

    /** What a frame would read as a whole, from a number typed with its marker. @param {string} normal */
    #readTyped(normal) {
      const [whole = "", decimals = ""] = normal.split(".");
      return `${whole}${decimals.padEnd((this.item.entry.ones ?? 1) - 1, "0")}`.replace(/^0+(?=\d)/, "");
    }

    check() {
      const { item, workplace } = this;
      const verdict = workplace.own.checked ? workplace.fields.judge(item.entry) : null;
      if (workplace.own.checked && !verdict) return;
      const reads = verdict ? this.#readTyped(verdict.normal ?? "") : grading.readFrame(workplace.frame.beads);
      const checked = grading.judgeCheck(item.entry, this.done, reads);
      if (checked.state === "unmoved") item.tell({ right: null, verdict: say("practice.digit_unmoved") });
      else if (checked.state === "right") this.#goOn(checked.done);
      // What goes wrong later than the digit that is due shows in the final answer.
      else this.#tellWrong(reads, checked.causes.length > 0 ? checked.causes : (verdict?.causes ?? []));
    }

    /** @param {number} done */
    #goOn(done) {
      const { item } = this;
      const ahead = done - this.done;
      this.done = done;
      const all = done === this.checks.length;
      const told = { shown: item.entry.parts?.["shown"] ?? "", answer: item.entry.shown_key ?? "" };
      const more = ahead > 1 ? [say("practice.digit_skipped_ahead", { count: ahead })] : [];
      item.tell({ right: true, verdict: all ? say("practice.all_digits_right", told) : say("practice.digit_right"), more });
      this.#say(all ? "" : this.#left());
      item.offerHints(this.checks[done]?.hints ?? []);
      const key = item.entry.key?.text ?? "";
      if (all) item.keep({ response: key, right: true, digits_right: key.replace(/\D/g, "").length });
    }

    /** @param {string} reads @param {readonly number[]} causes */
    #tellWrong(reads, causes) {
      const { item } = this;
      const more = causes.length > 0 ? [] : [say("practice.digit_wrong")];
      item.tell({ right: false, verdict: say("practice.wrong_set", { response: reads }), more, causes });
      const slip = item.shared.causes[causes[0] ?? -1]?.slip ?? null;
      item.keep({ response: reads, key: this.checks[this.done]?.reads ?? "", right: false, slip });
    }

    back() {
      const { frame } = this.workplace;
      const reads = this.done === 0 ? "0" : (this.checks[this.done - 1]?.reads ?? "0");
      frame.beads = setBeads(reads, frame.beads.length, (this.item.data.frame?.upper ?? 0) > 0);
      this.#say(say("practice.digit_back_done"));
      this.item.touch();
    }

    /** @param {number} step */
    goTo(step) {
      if (step > this.checks.length) return;
      this.done = step - 1;
      this.back();
      this.#say(this.#left());
      this.item.offerHints(this.checks[this.done]?.hints ?? []);
    }

    draft() {
      return { ...this.workplace.draft(), done: this.done };
    }

    /** @param {Readonly<Record<string, unknown>>} draft */
    restore(draft) {
      this.workplace.restore(draft);
      const done = Number(draft["done"] ?? 0);
      this.done = Number.isInteger(done) && done > 0 && done <= this.checks.length ? done : 0;
      const all = this.done === this.checks.length;
      this.#say(all ? "" : this.#left());
      this.item.offerHints(this.checks[this.done]?.hints ?? []);
    }
  }

  /** @param {BwItem} item @returns {BwKind} */
  function buildCarryOut(item) {
    const work = new CarryOut(item);
    return {
      show: () => work.show(),
      check: () => work.check(),
      act: (task) => task === "back" && work.back(),
      draft: () => work.draft(),
      restore: (draft) => work.restore(draft),
      start: () => work.workplace.start(),
      step: () => (work.done < work.checks.length ? work.done + 1 : null),
      goTo: (step) => work.goTo(step),
    };
  }

  kinds["set"] = buildSet;
  kinds["carry-out"] = buildCarryOut;
  window.beadwright = Object.assign(window.beadwright, { drawFigure, OpenedFrame });
})();
