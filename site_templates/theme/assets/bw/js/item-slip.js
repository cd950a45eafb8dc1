"use strict";

// Items with a worked example that has one slip in it.
(() => {
  const { say, grading } = window.beadwright;
  const { boxes, chosen, choose, relist, fillChoice, texts } = window.beadwright.chosen;
  const kinds = (window.beadwright.kinds ||= {});
  const STAGES = Object.freeze(["step", "slip", "coach"]);

  /** Which step goes wrong first, which slip it is, what one would say: one after the other. */
  class FindSlip {
    /** @param {BwItem} item */
    constructor(item) {
      this.item = item;
      this.stage = "step";
    }

    /** @param {string} stage */
    part(stage) {
      return this.item.part(`[data-bw-stage=${stage}]`);
    }

    /** @param {string} stage */
    open(stage) {
      this.stage = stage;
      STAGES.forEach((name, index) => (this.part(name).hidden = index > STAGES.indexOf(stage)));
      // The key that checks has nothing left to do once both questions are answered.
      this.item.part("[data-bw-do=check]").hidden = stage === "coach";
    }

    /** @param {BwEntry} entry */
    show(entry) {
      const { sentences } = this.item.shared;
      const steps = (entry.steps ?? []).map((place, index) => {
        const text = say("practice.step_option", { number: index + 1, say: sentences[place] ?? "" });
        return { id: String(index + 1), text };
      });
      relist(this.#list("step"), steps, (line, option) => {
        fillChoice(line, option);
        const reading = line.querySelector("p");
        if (!reading) return;
        reading.id = `${this.item.id}-after-${option.id}`;
        reading.textContent = sentences[entry.readings?.[Number(option.id) - 1] ?? -1] ?? "";
        boxes(line)[0]?.setAttribute("aria-describedby", reading.id);
      });
      this.draw();
      relist(this.#list("slip"), entry.options ?? [], fillChoice);
      const words = this.part("coach").querySelector("textarea");
      if (words) words.value = "";
      this.item.part(".bw-model").replaceChildren();
      this.open("step");
    }

    /** Show the frame after the step that is chosen, after the first while none is. */
    draw() {
      const number = Number(chosen(this.#list("step"))[0] ?? 1);
      window.beadwright.drawFigure(this.item, this.item.entry.after?.[number - 1] ?? []);
      this.item.part(".bw-slip-picture > p").textContent = say("practice.picture_after", { number });
    }

    /** @param {string} stage @returns {HTMLElement} */
    #list(stage) {
      const list = this.part(stage).querySelector(".bw-options");
      if (!(list instanceof HTMLElement)) throw new Error(`no list to choose from at the stage ${stage}`);
      return list;
    }

    check() {
      const list = this.#list(this.stage);
      const [answer] = chosen(list);
      if (answer === undefined) this.item.refuse(say("practice.none_chosen"), boxes(list));
      else if (this.stage === "step") this.#checkStep(Number(answer));
      else this.#checkSlip(answer);
    }

    get key() {
      return `${this.item.entry.key?.step} ${this.item.entry.key?.slip}`;
    }

    /** @param {number} number */
    #checkStep(number) {
      const { right, way } = grading.judgeStep(this.item.entry, number);
      this.item.tell({ right, verdict: right ? say("practice.step_right", { number }) : say(`practice.step_${way}`) });
      if (!right) {
        this.item.keep({ response: String(number), key: this.key, right });
        return;
      }
      this.open("slip");
      boxes(this.#list("slip"))[0]?.focus();
      this.item.touch();
    }

    /** @param {string} slip */
    #checkSlip(slip) {
      const right = slip === this.item.entry.key?.slip;
      const verdict = right ? say("practice.slip_right", { name: say(`practice.slips.${slip}`) }) : say("practice.slip_wrong");
      this.item.tell({ right, verdict });
      this.item.keep({ response: `${this.item.entry.key?.step} ${slip}`, key: this.key, right });
      if (!right) return;
      this.open("coach");
      this.part("coach").querySelector("textarea")?.focus();
    }

    coach() {
      const lead = document.createElement("p");
      lead.textContent = say("practice.coach_model");
      const text = document.createElement("p");
      text.textContent = this.item.entry.coach ?? "";
      this.item.part(".bw-model").replaceChildren(lead, " ", text);
    }

    draft() {
      const words = this.part("coach").querySelector("textarea")?.value ?? "";
      return { stage: this.stage, step: chosen(this.#list("step")), slip: chosen(this.#list("slip")), words };
    }

    /** @param {Readonly<Record<string, unknown>>} draft */
    restore(draft) {
      choose(this.#list("step"), texts(draft["step"]));
      choose(this.#list("slip"), texts(draft["slip"]));
      this.draw();
      const words = this.part("coach").querySelector("textarea");
      if (words) words.value = String(draft["words"] ?? "");
      this.open(["slip", "coach"].includes(String(draft["stage"])) ? String(draft["stage"]) : "step");
    }
  }

  /** @param {BwItem} item @returns {BwKind} */
  function buildFindSlip(item) {
    const search = new FindSlip(item);
    search.part("step").addEventListener("change", () => search.draw());
    return {
      show: (entry) => search.show(entry),
      check: () => search.check(),
      act: (task) => task === "coach" && search.coach(),
      draft: () => search.draft(),
      restore: (draft) => search.restore(draft),
      start: () => item.querySelector(`[data-bw-stage=${search.stage}] :is(input, textarea)`),
      step: () => STAGES.indexOf(search.stage) + 1,
      goTo: (step) => search.open(STAGES[step - 1] ?? "step"),
    };
  }

  kinds["find-slip"] = buildFindSlip;
})();
