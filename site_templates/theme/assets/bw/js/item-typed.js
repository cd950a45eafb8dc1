"use strict";

// Items whose answer is a number: worked from the page, read off a drawn frame, heard, or read off one's own frame.
(() => {
  const { say, grading } = window.beadwright;
  const kinds = (window.beadwright.kinds ||= {});

  /** Texts in a row, as the table joins them; the browser's own way to do it takes a while to wake up.
   * @type {Beadwright["listWords"]} */
  function listWords(items) {
    const [last = "", ...before] = [...items].reverse();
    if (before.length === 0) return last;
    const row = before.reverse().reduce((text, item) => say("list.next", { before: text, after: item }));
    return say("list.last", { before: row, after: last });
  }

  /** The fields of a typed answer: one number, a quotient and what is left, or a mixed number. */
  class Fields {
    /** @param {BwAsker} item */
    constructor(item) {
      this.item = item;
      this.box = item.part(".bw-fields");
    }

    get inputs() {
      return [...this.box.querySelectorAll("input")];
    }

    /** @param {string} name */
    #value(name) {
      return this.inputs.find((input) => input.name === name)?.value.trim() ?? "";
    }

    /** What was typed, as one text; empty where nothing was. */
    get text() {
      const form = this.box.dataset["bwForm"];
      if (form === "remainder") {
        const [quotient, left] = [this.#value("answer"), this.#value("left")];
        return left === "" ? quotient : `${quotient} r ${left}`;
      }
      if (form !== "fraction") return this.#value("answer");
      const [whole, above, below] = ["whole", "above", "below"].map((name) => this.#value(name));
      return above === "" && below === "" ? (whole ?? "") : `${whole} ${above}/${below}`.trim();
    }

    /** What was typed, as it is said. */
    get shown() {
      const [number = "", remainder] = this.text.split(" r ");
      return remainder === undefined ? number : say("practice.remainder", { number, remainder });
    }

    clear() {
      for (const input of this.inputs) input.value = "";
    }

    /** The answer judged; null when it had to be refused, which has then been said.
     * @param {BwEntry} entry @param {(text: string) => string} [read] turns what is typed into what is judged */
    judge(entry, read = (text) => text) {
      const { item } = this;
      if (this.text === "") {
        item.refuse(say("practice.empty"), this.inputs);
        return null;
      }
      const verdict = grading.judgeAnswer(entry, read(this.text), item.shared.causes, item.shared);
      if (verdict.right !== null) return verdict;
      item.refuse(say("practice.not_a_number", { marker: item.shared.marker }), this.inputs);
      return null;
    }

    draft() {
      return { typed: this.inputs.map((input) => input.value) };
    }

    /** @param {Readonly<Record<string, unknown>>} draft */
    restore(draft) {
      const typed = Array.isArray(draft["typed"]) ? draft["typed"] : [];
      this.inputs.forEach((input, index) => (input.value = String(typed[index] ?? "")));
    }
  }

  /** What is told of an answer's verdict. @param {BwItem} item @param {BwVerdict} verdict @param {BwFeedback} told @returns {BwFeedback} */
  function wordVerdict(item, verdict, told) {
    const more = [...(told.more ?? [])];
    const whole = verdict.right === false && verdict.causes.length === 0 ? sayWhole(item.entry, verdict.normal ?? "") : null;
    if (verdict.form_only) more.push(say("practice.right_form"));
    else if (whole !== null) more.push(whole);
    else if (verdict.right === false && verdict.causes.length + verdict.two.length === 0) more.push(sayPlaces(item, verdict));
    return { ...told, more, causes: verdict.causes, two: whole === null ? verdict.two : [] };
  }

  /** @type {Beadwright["tellVerdict"]} */
  function tellVerdict(item, verdict, told) {
    item.tell(wordVerdict(item, verdict, told));
    item.keep({
      response: verdict.normal ?? "", right: verdict.right, digits_right: verdict.digits_right,
      slip: item.shared.causes[verdict.causes[0] ?? -1]?.slip ?? null,
    });
  }

  /** What an answer is as a whole that no slip of the hands gives: one of the numbers, the answer by another sign, or a
   * right quotient or root with something else left. @param {BwEntry} entry @param {string} normal */
  function sayWhole(entry, normal) {
    const [quotient, left] = normal.split(" r ");
    const [due, due_left] = (entry.key?.text ?? "").split(" r ");
    if (due_left !== left && due !== undefined && quotient !== undefined && grading.sameValue(due, quotient)) {
      const what = entry.problem?.startsWith("√") ? "root" : "quotient";
      const way = left === undefined ? "untold" : due_left === undefined ? "none" : "wrong";
      return say(`practice.left_${way}.${what}`);
    }
    const [, one = "", sign = "", two = ""] = /^([\d.]+) ([-+×]) ([\d.]+)$/.exec(entry.problem ?? "") ?? [];
    // What is longer, a number of the browser's own does not hold to its last digit.
    const longest = Math.max(...[one, two, normal].map((text) => text.length));
    if (one === "" || left !== undefined || normal.includes("/") || longest > 15) return null;
    /** @param {number} value */
    const is = (value) => Math.abs(value - Number(normal)) < 1e-9;
    const [first, second] = [Number(one), Number(two)];
    if (sign !== "×" && is(first)) return say("practice.whole_first");
    if (sign !== "×" && is(second)) return say("practice.whole_second");
    if (sign === "+" && is(Math.abs(first - second))) return say("practice.whole_taken");
    if (sign !== "+" && is(first + second)) return say("practice.whole_added");
    return null;
  }

  /** Which digits are wrong, where that helps: not where none is right. @param {BwItem} item @param {BwVerdict} verdict */
  function sayPlaces(item, verdict) {
    const places = verdict.wrong_powers.map((power) => item.shared.places[String(power)]);
    const named = places.filter((place) => place !== undefined);
    if (verdict.digits_right === 0 || named.length === 0 || named.length < places.length) {
      return say(item.entry.walkthrough === undefined ? "practice.unknown_frame" : "practice.unknown");
    }
    const key = item.data.ask === "read" ? "practice.unknown_read" : "practice.unknown_places";
    return say(key, { count: named.length, places: listWords(named) });
  }

  /** @param {BwItem} item @returns {BwKind} */
  function buildTyped(item) {
    const fields = new Fields(item);
    const opened = item.querySelector(".bw-item-frame") ? new window.beadwright.OpenedFrame(item) : null;
    const name = item.data.ask === "read" ? "read" : "answer";

    /** @param {BwVerdict} verdict @returns {BwFeedback} */
    function word({ right }) {
      const told = { shown: item.entry.parts?.["shown"] ?? "", answer: item.entry.shown_key ?? "", response: fields.shown };
      return { right, verdict: say(right ? `practice.right_${name}` : `practice.wrong_${name}`, told) };
    }

    return {
      show(entry) {
        fields.clear();
        opened?.show();
        if (item.data.ask === "read") window.beadwright.drawFigure(item, entry.beads ?? []);
      },
      check() {
        const verdict = fields.judge(item.entry);
        if (verdict) tellVerdict(item, verdict, word(verdict));
      },
      act: (task, button) => opened?.act(task, button),
      draft: () => fields.draft(),
      restore: (draft) => fields.restore(draft),
      start: () => fields.inputs[0] ?? null,
      warm() {
        const verdict = grading.judgeAnswer(item.entry, "1", item.shared.causes, item.shared);
        item.rehearse(wordVerdict(item, verdict, word(verdict)));
      },
    };
  }

  kinds["answer"] = buildTyped;
  kinds["read"] = buildTyped;
  window.beadwright = Object.assign(window.beadwright, { listWords, Fields, tellVerdict });
})();
