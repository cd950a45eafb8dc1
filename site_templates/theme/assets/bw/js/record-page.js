"use strict";

// <bw-record>: the learner's own page around its finished markup: who one is, saving, loading, printing, erasing.
(() => {
  const { say, store, recordFile, listLessons, stateOf, tellStanding } = window.beadwright;

  class RecordPage extends HTMLElement {
    /** A record from a file that waits for a yes. @type {BwRecord | null} */
    #waiting = null;
    #listening = new AbortController();
    /** Fields with something typed in them that is not kept yet. @type {Set<Element>} */
    #typed = new Set();
    /** @type {{ readonly pass_mark: number, readonly lessons: Readonly<Record<string, readonly BwCounted[]>> }} */
    #counted = { pass_mark: 1, lessons: {} };

    connectedCallback() {
      this.#counted = JSON.parse(this.#part("script").textContent || "null");
      this.#listening = new AbortController();
      const { signal } = this.#listening;
      this.querySelectorAll("[data-bw-script]").forEach((part) => part.removeAttribute("hidden"));
      this.#fillLearner();
      this.#draw();
      this.addEventListener("click", (event) => this.#onClick(event), { signal });
      this.addEventListener("input", (event) => event.target instanceof Element && this.#typed.add(event.target), { signal });
      this.addEventListener("change", (event) => this.#onChange(event), { signal });
      window.addEventListener("pagehide", () => this.#keepLearner(), { signal });
      document.addEventListener("visibilitychange", () => document.hidden && this.#keepLearner(), { signal });
      window.addEventListener("bw-record", () => (this.#fillLearner(), this.#draw()), { signal });
    }

    disconnectedCallback() {
      this.#listening.abort();
    }

    /** @template {HTMLElement} T @param {string} selector @returns {T} */
    #part(selector) {
      const part = this.querySelector(selector);
      if (!part) throw new Error(`<bw-record> lacks ${selector}`);
      return /** @type {any} */ (part);
    }

    /** @param {string} text */
    #tell(text) {
      this.#part(".bw-record-told").textContent = text;
    }

    /** The fields of who one is. @returns {(HTMLInputElement | HTMLSelectElement)[]} */
    get #fields() {
      return [...this.querySelectorAll("[data-bw-learner]")].filter(
        (field) => field instanceof HTMLInputElement || field instanceof HTMLSelectElement,
      );
    }

    /** Another tab may have written who one is; what is being typed here stays. */
    #fillLearner() {
      /** @type {Readonly<Record<string, string>>} */
      const known = { ...store.record.learner };
      for (const field of this.#fields) {
        const value = known[field.name] ?? "";
        if (!this.#typed.has(field) && field.value.trim() !== value) field.value = value;
      }
    }

    /** @param {Event} event */
    #onChange(event) {
      const field = event.target;
      if (field instanceof HTMLInputElement && field.type === "file") void this.#load(field);
      else this.#keepLearner();
    }

    /** Keep what was typed here, and nothing else: in another tab the rest may have changed since. */
    #keepLearner() {
      const typed = this.#fields.filter((field) => this.#typed.has(field));
      this.#typed.clear();
      if (typed.length === 0) return;
      const written = Object.fromEntries(typed.map((field) => [field.name, field.value.trim()]));
      store.update((record) => ({ ...record, learner: { ...record.learner, ...written } }));
    }

    /** @param {MouseEvent} event */
    #onClick(event) {
      const button = event.target instanceof Element ? event.target.closest("[data-bw-do]") : null;
      /** @type {Record<string, () => void>} */
      const tasks = {
        save: () => this.#save(),
        print: () => window.print(),
        erase: () => this.#ask("erase"),
        "erase-now": () => this.#erase(),
        "erase-keep": () => this.#close("erase", say("record.erase_not")),
        "load-anyway": () => this.#take(),
        "load-cancel": () => this.#close("load", say("record.load_left")),
      };
      tasks[button?.getAttribute("data-bw-do") ?? ""]?.();
    }

    #save() {
      this.#keepLearner();
      this.#tell(say("record.saved", { file: recordFile.save() }));
    }

    /* Questions before something that cannot be taken back. */

    /** @param {string} name */
    #ask(name) {
      const question = this.#part(`[data-bw-question=${name}]`);
      question.hidden = false;
      this.#tell("");
      question.querySelector("p")?.focus();
    }

    /** @param {string} name @param {string} told */
    #close(name, told) {
      this.#part(`[data-bw-question=${name}]`).hidden = true;
      this.#waiting = null;
      this.#tell(told);
      this.#part(name === "erase" ? "[data-bw-do=erase]" : "[type=file]").focus();
    }

    #erase() {
      const erased = store.erase();
      this.#close("erase", say(erased ? "record.erased" : "record.erase_not"));
    }

    /** @param {HTMLInputElement} field */
    async #load(field) {
      const [file] = field.files ?? [];
      if (!file) return;
      const found = await recordFile.read(file);
      field.value = "";
      if (typeof found === "string") {
        this.#tell(say(`record.load_${found}`));
        return;
      }
      this.#waiting = found;
      const { attempts, lessons, learner } = store.record;
      const isEmpty = attempts.length + lessons.length === 0 && learner.name === "";
      if (isEmpty || found.learner.id === learner.id) this.#take();
      else this.#ask("load");
    }

    #take() {
      const record = this.#waiting;
      if (!record) return;
      this.#close("load", this.#tellTaken(record, store.take(record)));
    }

    /** @param {BwRecord} record @param {number | null} count */
    #tellTaken(record, count) {
      if (count === null) return say(store.state === "newer" ? "record.newer" : "record.load_full");
      if (store.state === "refused") return say("record.load_unkept");
      if (count > 0) return say("record.loaded", { count });
      return say(record.attempts.length > 0 ? "record.load_same" : "record.load_none");
    }

    /* What stands in the record. */

    #draw() {
      const kept = window.beadwright.isPerPage() ? "per_page" : "stored";
      const state = store.state === "kept" ? kept : store.state;
      this.#part(".bw-record-state").textContent = say(`record.${state}`);
      const { attempts, learner } = store.record;
      this.#part("[data-bw-empty]").hidden = attempts.length > 0;
      const whose = learner.name === "" ? say("record.summary") : say("record.summary_of", { name: learner.name });
      this.#part("[data-bw-whose]").textContent = whose;
      this.#part("[data-bw-when]").textContent = new Date().toLocaleDateString(document.documentElement.lang || undefined, { dateStyle: "long" });
      const lessons = listLessons();
      this.#part("tbody").replaceChildren(...lessons.map((entry) => this.#tellLesson(entry)));
      this.#part(".bw-scroll").hidden = lessons.length === 0;
      this.#tellObjectives(lessons);
      this.#tellGone(lessons.map(({ lesson }) => lesson));
    }

    /** How the objectives of each lesson begun stand. @param {readonly BwLessonLink[]} lessons */
    #tellObjectives(lessons) {
      const begun = lessons.filter(({ lesson }) => stateOf(lesson) !== "open" && (this.#counted.lessons[lesson] ?? []).length > 0);
      this.#part("[data-bw-shown]").hidden = begun.length === 0;
      this.#part("[data-bw-shown] > div").replaceChildren(...begun.map((entry) => this.#tellShown(entry)));
    }

    /** @param {BwLessonLink} entry */
    #tellShown({ lesson, title }) {
      const counts = this.#counted.lessons[lesson] ?? [];
      const standings = window.beadwright.recordCore.judgeCounted(store.record, lesson, counts, this.#counted.pass_mark);
      const section = document.createElement("section");
      const heading = document.createElement("h3");
      heading.id = `bw-shown-${lesson}`;
      heading.textContent = title;
      section.setAttribute("aria-labelledby", heading.id);
      const list = document.createElement("ul");
      list.className = "bw-progress-objectives";
      list.setAttribute("role", "list"); // a list drawn without its own markers is no list to some readers
      list.append(...standings.map((standing, place) => tellStanding(counts[place]?.[1] ?? "", standing)));
      section.append(heading, list);
      return section;
    }

    /** @param {{ lesson: string, title: string, url: string }} entry */
    #tellLesson({ lesson, title, url }) {
      const tries = [...window.beadwright.recordCore.latest(store.record, lesson).values()];
      const right = tries.filter((attempt) => attempt.right === true).length;
      const row = document.createElement("tr");
      const head = document.createElement("th");
      head.scope = "row";
      const link = document.createElement("a");
      link.href = url;
      link.textContent = title;
      head.append(link);
      row.append(head);
      for (const text of [say(`progress.lesson_state.${stateOf(lesson)}`), String(tries.length), String(right)]) {
        const cell = document.createElement("td");
        cell.textContent = text;
        row.append(cell);
      }
      return row;
    }

    /** Answers to lessons that this edition does not have. @param {readonly string[]} lessons */
    #tellGone(lessons) {
      const count = lessons.length === 0 ? 0 : store.record.attempts.filter(({ lesson }) => !lessons.includes(lesson)).length;
      const place = this.#part("[data-bw-gone]");
      place.hidden = count === 0;
      place.textContent = say("progress.gone", { count });
    }
  }

  customElements.define("bw-record", RecordPage);
})();
