"use strict";

// What an item says of an answer: the verdict, the likely slips with the step each happened in, the working on demand.
(() => {
  const { say } = window.beadwright;

  /** @template {keyof HTMLElementTagNameMap} K @param {K} name @param {string} className @param {string} [text] */
  function make(name, className, text = "") {
    const made = document.createElement(name);
    if (className) made.className = className;
    made.textContent = text;
    return made;
  }

  /** @implements {BwTelling} */
  class Telling {
    /** @type {BwItem} */
    #item;
    /** Whether this entry has been answered, so that its working may be shown. */
    #answered = false;

    /** @param {BwItem} item */
    constructor(item) {
      this.#item = item;
    }

    forget() {
      this.#answered = false;
      this.clear();
      this.#item.querySelector(".bw-working:not(.bw-other)")?.remove();
      this.#item.querySelector("[data-bw-do=working]")?.remove();
      this.#forgetOtherWay();
    }

    clear() {
      const region = this.#item.part(".bw-feedback");
      if (region.hasChildNodes()) region.replaceChildren();
    }

    /** @type {BwTelling["compose"]} */
    compose(feedback) {
      const told = make("div", "bw-told");
      told.classList.toggle("bw-right", feedback.right === true);
      told.classList.toggle("bw-wrong", feedback.right === false);
      told.append(make("p", "bw-verdict", feedback.verdict));
      for (const text of feedback.more ?? []) told.append(make("p", "", text));
      const other = this.#findOtherWay(feedback);
      if (other) told.append(make("p", "", other.say));
      for (const html of feedback.html ?? []) {
        const part = make("div", "bw-because");
        part.innerHTML = html; // an author's reason, from this page's own data
        told.append(part);
      }
      this.#tellCauses(told, feedback.causes ?? [], feedback.two ?? []);
      const taught = this.#item.querySelector(":scope > .bw-taught a");
      if (feedback.right === false && taught) {
        const line = make("p", "");
        line.append(taught.cloneNode(true));
        told.append(line);
      }
      // Without a space between them, sentences run together where a screen reader takes the region as one text.
      for (const part of told.querySelectorAll("p + p, p + ul, ul + p, p + div, div + p, li + li")) part.before(" ");
      return told;
    }

    /** @type {BwTelling["tell"]} */
    tell(feedback) {
      // In one change: a live region is said as a whole at each.
      this.#item.part(".bw-feedback").replaceChildren(this.compose(feedback));
      this.#answered = true;
      this.#item.later(() => {
        this.#offerWorking();
        if (this.#answered && this.#findOtherWay(feedback)) this.#offerOtherWay();
        else this.#forgetOtherWay();
      });
    }

    /** @param {ParentNode} region @param {readonly number[]} causes @param {readonly number[]} two */
    #tellCauses(region, causes, two) {
      const named = (two.length > 0 ? two : causes).flatMap((place) => this.#item.shared.causes[place] ?? []);
      // The same slip in several rounds of one procedure is told in the same words: once is enough.
      const found = named.filter((cause, place) => named.findIndex((other) => other.say === cause.say) === place);
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
      found.forEach((cause, place) => list.append(make("li", "", say("practice.of_several", { number: place + 1, text: cause.say }))));
      region.append(make("p", "", lead), list);
      if (two.length > 0) return;
      const steps = found.map((cause) => cause.step).filter((step) => step !== null);
      this.#linkStep(region, steps.length > 0 ? Math.min(...steps) : null, "practice.tell_apart");
    }

    /** @param {ParentNode} region @param {number | null} step @param {string} key */
    #linkStep(region, step, key) {
      if (step === null || this.#findWorking().length === 0) {
        if (key === "practice.tell_apart") region.append(make("p", "", say("practice.tell_apart_reading")));
        return;
      }
      const link = make("a", "", say(key, { number: step }));
      link.href = `#${this.#item.id}-step-${step}`;
      link.dataset["bwStep"] = String(step);
      const line = make("p", "");
      line.append(link);
      region.append(line);
    }

    /* The working of the problem, as a list of steps. */

    /** @param {string | undefined} name */
    #findWorking(name = this.#item.entry.walkthrough) {
      const working = this.#item.shared.workings[name ?? ""];
      return (working?.steps ?? []).map((place) => this.#item.shared.sentences[place] ?? "");
    }

    #offerWorking() {
      if (!this.#answered || this.#findWorking().length === 0 || this.#item.querySelector("[data-bw-do=working]")) return;
      this.#offer("working", "practice.show_working");
    }

    /** @param {string} task @param {string} key */
    #offer(task, key) {
      const button = make("button", "bw-button bw-button-quiet", say(key));
      button.type = "button";
      button.dataset["bwDo"] = task;
      button.setAttribute("aria-expanded", "false");
      this.#item.part(".bw-item-buttons").append(button);
    }

    toggleWorking() {
      this.#offerWorking(); // who follows a link at once may be sooner
      const open = this.#item.querySelector(".bw-working:not(.bw-other)");
      if (open) open.remove();
      else this.#openWorking();
      const button = this.#item.part("[data-bw-do=working]");
      button.textContent = say(open ? "practice.show_working" : "practice.hide_working");
      button.setAttribute("aria-expanded", String(!open));
    }

    #openWorking() {
      const working = make("div", "bw-working");
      const title = make("p", "bw-working-title", say("practice.working", { shown: this.#item.entry.parts?.["shown"] ?? "" }));
      const list = make("ol", "bw-fold-steps");
      this.#findWorking().forEach((text, index) => {
        const step = make("li", "", text);
        step.id = `${this.#item.id}-step-${index + 1}`;
        step.tabIndex = -1;
        list.append(step);
      });
      working.append(title, list);
      this.#item.part(".bw-hints").after(working);
    }

    /* The same problem by another way, once it is right; nobody has to. */

    /** @param {BwFeedback} feedback */
    #findOtherWay({ right }) {
      return right === true ? this.#item.entry.other : undefined;
    }

    #offerOtherWay() {
      if (!this.#item.querySelector("[data-bw-do=other]")) this.#offer("other", "practice.show_other");
    }

    #forgetOtherWay() {
      for (const part of this.#item.querySelectorAll(".bw-other, [data-bw-do=other]")) part.remove();
    }

    toggleOtherWay() {
      const { other } = this.#item.entry;
      const open = this.#item.querySelector(".bw-other");
      const button = this.#item.part("[data-bw-do=other]");
      button.textContent = say(open ? "practice.show_other" : "practice.hide_other");
      button.setAttribute("aria-expanded", String(!open));
      open?.remove();
      if (open || !other) return;
      const working = make("div", "bw-working bw-other");
      const list = make("ol", "bw-fold-steps");
      list.append(...this.#findWorking(other.walkthrough).map((text) => make("li", "", text)));
      working.append(make("p", "bw-working-title", say("practice.working", { shown: other.shown })), list);
      (this.#item.querySelector(".bw-working") ?? this.#item.part(".bw-hints")).after(working);
    }

    /** @param {Event} event @param {number} step */
    goToStep(event, step) {
      event.preventDefault();
      if (!this.#item.querySelector(".bw-working:not(.bw-other)")) this.toggleWorking();
      document.getElementById(`${this.#item.id}-step-${step}`)?.focus();
    }
  }

  window.beadwright = Object.assign(window.beadwright, { Telling });
})();
