"use strict";

// How far a learner is: in this lesson (<bw-progress>, the objectives, <bw-finish>), in the course (states beside links to
// lessons, <bw-begin>). All of it is told in words from the record, and follows it.
(() => {
  const { say, store, recordCore, page, recordFile } = window.beadwright;

  /** @type {{ readonly edition?: string, readonly pass_mark?: number }} */
  const shared = JSON.parse(document.getElementById("bw-practice")?.textContent || "{}");
  const passMark = shared.pass_mark ?? 1;
  const UNGRADED = Object.freeze(["reflect", "rating"]);
  /** A pause longer than this is no work. */
  const LONGEST_PAUSE = 5 * 60_000;

  /** @template {keyof HTMLElementTagNameMap} K @param {K} name @param {string} text @param {string} [className] */
  function make(name, text, className = "") {
    const made = document.createElement(name);
    made.textContent = text;
    if (className) made.className = className;
    return made;
  }

  /** The graded items of this page. */
  function findItems() {
    const items = [...document.querySelectorAll("bw-item")];
    const graded = items.filter((item) => !UNGRADED.includes(item.dataset["bwAsk"] ?? ""));
    return graded.map((item) => ({ id: item.id.replace(/^item-/, ""), objective: item.dataset["bwShows"] || null }));
  }

  /** @param {string} lesson @returns {BwLessonMark} */
  function findMark(lesson) {
    const known = store.record.lessons.find((mark) => mark.lesson === lesson);
    return known ?? { lesson, finished: null, minutes: 0, passed: false };
  }

  /** @param {BwLessonMark} mark */
  function keepMark(mark) {
    return store.update((record) => {
      const others = record.lessons.filter((other) => other.lesson !== mark.lesson);
      return { ...record, lessons: [...others, mark] };
    });
  }

  /** When a lesson was finished; that it was, where the time is damaged. @param {string} time */
  function tellFinished(time) {
    const at = new Date(time);
    if (Number.isNaN(at.getTime())) return say("progress.finish_kept");
    const date = at.toLocaleDateString(document.documentElement.lang || undefined, { dateStyle: "long" });
    return say("progress.finished", { date });
  }

  /** @type {Beadwright["tellStanding"]} */
  function tellStanding(text, { state, right, of, need }) {
    const line = make("li", `${text}: ${say(`progress.objective_state.${state}`)}. `);
    line.dataset["bwStanding"] = state;
    line.append(make("span", say("progress.objective_need", { right, count: of, need })));
    return line;
  }

  /* In the lesson. */

  class Progress extends HTMLElement {
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      window.addEventListener("bw-record", () => this.#draw(), { signal: this.#listening.signal });
      this.#draw();
    }

    disconnectedCallback() {
      this.#listening.abort();
    }

    #draw() {
      const lesson = page.lesson;
      if (!lesson) return;
      const items = findItems();
      const tries = recordCore.latest(store.record, lesson);
      const done = items.filter((item) => tries.has(item.id)).length;
      const right = items.filter((item) => tries.get(item.id)?.right === true).length;
      const standings = recordCore.judge(store.record, lesson, items, passMark);
      this.replaceChildren(
        make("p", say("progress.lesson"), "bw-label"),
        ...this.#warn(),
        ...this.#count(done, items.length, right),
        this.#listObjectives(standings),
        ...this.#sum(standings),
      );
      keepPassed(lesson, standings);
    }

    /** Said plainly where nothing is kept. */
    #warn() {
      const told = store.state === "kept" ? (isPerPage() ? "per_page" : null) : store.state;
      return told === null ? [] : [make("p", say(`record.${told}`), "bw-record-warning")];
    }

    /** @param {number} done @param {number} count @param {number} right */
    #count(done, count, right) {
      if (count === 0) return [];
      const bar = document.createElement("progress");
      bar.max = count;
      bar.value = done;
      bar.setAttribute("aria-label", say("progress.lesson"));
      const text = done === 0 ? say("progress.none") : `${say("progress.answered", { done, count })}, ${say("progress.right", { count: right })}.`;
      return [bar, make("p", text)];
    }

    /** @param {readonly BwStanding[]} standings */
    #sum(standings) {
      if (standings.every(({ state }) => state === "open")) return [];
      const passed = standings.every(({ state }) => state === "met");
      return [make("p", say(passed ? "progress.passed" : "progress.not_passed"))];
    }

    /** @param {readonly BwStanding[]} standings */
    #listObjectives(standings) {
      const list = make("ul", "", "bw-progress-objectives");
      list.setAttribute("role", "list"); // a list drawn without its own markers is no list to some readers
      for (const standing of standings) list.append(this.#tellObjective(standing));
      return list;
    }

    /** @param {BwStanding} standing */
    #tellObjective(standing) {
      const { objective, state, missing } = standing;
      const text = document.querySelector(`[data-bw-objective="${objective}"]`)?.firstChild?.textContent ?? objective;
      const line = tellStanding(text, standing);
      if (state === "short") line.append(this.#listMissing(missing));
      return line;
    }

    /** Links to items, each with the name of its practice: “item 1 of 4” stands in a lesson many times.
     * @param {readonly string[]} items */
    #listMissing(items) {
      const told = document.createDocumentFragment();
      const list = make("ul", "", "bw-progress-items");
      list.setAttribute("role", "list");
      for (const item of items) {
        const link = make("a", nameItem(item));
        link.href = `#item-${item}`;
        const line = document.createElement("li");
        line.append(link);
        const taught = document.getElementById(`item-${item}`)?.querySelector(":scope > .bw-taught a");
        if (taught) line.append(document.createElement("br"), taught.cloneNode(true));
        list.append(line);
      }
      told.append(make("p", say("progress.objective_items")), list);
      return told;
    }
  }

  /** The item's own name, then that of its practice, in the order in which the item is named. @param {string} item */
  function nameItem(item) {
    const ids = document.getElementById(`item-${item}`)?.getAttribute("aria-labelledby")?.split(" ") ?? [];
    const names = ids.map((id) => document.getElementById(id)?.textContent?.trim() ?? "").filter((name) => name !== "");
    return names.length > 0 ? names.join(". ") : item;
  }

  /** Remember when a lesson has been shown in full, for pages that do not hold its items.
   * @param {string} lesson @param {readonly BwStanding[]} standings */
  function keepPassed(lesson, standings) {
    const passed = standings.length > 0 && standings.every(({ state }) => state === "met");
    const mark = findMark(lesson);
    if (passed && !mark.passed) queueMicrotask(() => keepMark({ ...findMark(lesson), passed })); // a page that is left has no later
    for (const { objective, state } of standings) {
      const place = document.querySelector(`[data-bw-objective="${objective}"] [data-bw-objective-state]`);
      if (place) place.textContent = state === "open" ? "" : `(${say(`progress.objective_state.${state}`)})`;
    }
  }

  /** Browsers of one family keep a store for each file when pages are opened from a folder. */
  function isPerPage() {
    return location.protocol === "file:" && /\bFirefox\//.test(navigator.userAgent);
  }

  class Finish extends HTMLElement {
    connectedCallback() {
      this.#draw();
    }

    get #lesson() {
      return this.dataset["lesson"] ?? page.lesson ?? "";
    }

    /** @param {boolean} [pressed] whether the learner has just said so */
    #draw(pressed = false) {
      const { finished } = findMark(this.#lesson);
      const told = make("p", "", "bw-record-told");
      told.setAttribute("role", "status");
      const button = make("button", say(finished === null ? "progress.finish" : "record.save"), "bw-button bw-button-main");
      button.type = "button";
      button.addEventListener("click", () => (finished === null ? this.#finish() : this.#save()));
      if (finished !== null) told.textContent = tellFinished(finished);
      const keys = make("div", "", "bw-buttons");
      keys.append(button, ...(finished === null ? [] : this.#leadOn()));
      this.replaceChildren(told, keys);
      if (!pressed) return;
      told.textContent = finished === null ? say("progress.finish_not_kept") : `${say("progress.finish_kept")} ${say("record.reminder")}`;
      button.focus();
    }

    /** A link to the next lesson of the path. */
    #leadOn() {
      const lessons = listPath();
      const after = lessons.slice(lessons.findIndex(({ lesson }) => lesson === this.#lesson) + 1);
      const next = [...after, ...lessons].find(({ lesson }) => lesson !== this.#lesson && stateOf(lesson) !== "finished");
      if (!next) return [];
      const link = make("a", say("progress.next", { title: next.title }));
      link.href = next.url;
      return [link];
    }

    #finish() {
      keepMark({ ...findMark(this.#lesson), finished: new Date().toISOString() });
      this.#draw(true);
    }

    #save() {
      const told = this.querySelector(".bw-record-told");
      const file = recordFile.save();
      if (told) told.textContent = say("record.saved", { file });
    }
  }

  /* In the course. */

  /** @param {string} lesson */
  function stateOf(lesson) {
    const mark = findMark(lesson);
    if (mark.finished !== null) return "finished";
    if (mark.passed) return "passed";
    return store.record.attempts.some((attempt) => attempt.lesson === lesson) ? "begun" : "open";
  }

  function tellLessons() {
    for (const entry of document.querySelectorAll("[data-bw-lesson]")) {
      const state = stateOf(entry.getAttribute("data-bw-lesson") ?? "");
      entry.setAttribute("data-bw-standing", state); // the bead beside it is drawn by this
      const place = entry.querySelector("[data-bw-state]");
      if (place) place.textContent = state === "open" ? "" : say(`progress.lesson_state.${state}`);
    }
  }

  /** Lead on from where one was: to the item answered last, else to the first lesson of the path that is not finished; after
   * the last one to the record. */
  function leadOn() {
    const link = document.querySelector("bw-begin a");
    const { attempts, learner, lessons: marks, place } = store.record;
    const isNew = attempts.length + marks.length === 0 && place === null && learner.path === "";
    if (!(link instanceof HTMLAnchorElement) || isNew) return;
    const lessons = listPath();
    const stopped = place ? listLessons().find(({ lesson }) => lesson === place.lesson) : undefined;
    const next = stopped && stateOf(stopped.lesson) !== "finished" ? stopped : lessons.find(({ lesson }) => stateOf(lesson) !== "finished");
    const resumes = next !== undefined && next === stopped && place !== null && place.at !== "";
    if (next) {
      link.href = resumes ? `${next.url}#${place.at}` : next.url;
      link.textContent = say(resumes ? "progress.resume" : "progress.next", { title: next.title });
    } else {
      link.href = "record.html";
      link.textContent = say("progress.all_finished");
    }
    const state = document.querySelector(".bw-begin-state");
    const done = lessons.filter(({ lesson }) => stateOf(lesson) === "finished").length;
    const told = lessons.every(({ paths }) => Object.hasOwn(paths, learner.path)) ? "progress.path" : "progress.course";
    if (state) state.textContent = say(told, { done, count: lessons.length });
  }

  /** A page that was packed alone has no menu, and no pages of lessons around it. @type {Beadwright["listLessons"]} */
  function listLessons() {
    if (!document.getElementById("bw-nav")) return [];
    return (window.bwLessons ?? []).map((link) => ({ ...link, url: `${page.base}/${link.url}` }));
  }

  /** The lessons of the path that was taken in its order; all of the course where none was, or is not there any more. */
  function listPath() {
    const lessons = listLessons();
    const { path } = store.record.learner;
    const found = path === "" ? [] : lessons.filter(({ paths }) => Object.hasOwn(paths, path));
    found.sort((one, other) => (one.paths[path] ?? 0) - (other.paths[path] ?? 0));
    return found.length > 0 ? found : lessons;
  }

  /** Takes a path, or leaves it: the start page and the end of each lesson lead along it. */
  class TakePath extends HTMLElement {
    #told = make("p", "", "bw-record-told");
    #button = make("button", "", "bw-button bw-button-quiet");
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      const { signal } = this.#listening;
      this.#told.setAttribute("role", "status");
      this.#button.type = "button";
      this.#button.addEventListener("click", () => this.#take(), { signal });
      this.replaceChildren(this.#told, this.#button);
      window.addEventListener("bw-record", () => this.#draw(), { signal });
      this.#draw();
    }

    disconnectedCallback() {
      this.#listening.abort();
    }

    get #isTaken() {
      return store.record.learner.path === this.dataset["path"];
    }

    #take() {
      const path = this.#isTaken ? "" : (this.dataset["path"] ?? "");
      const kept = store.update((record) => ({ ...record, learner: { ...record.learner, path } }));
      if (!kept) this.#told.textContent = say("progress.path_not_kept");
    }

    #draw() {
      const title = this.dataset["title"] ?? "";
      this.#told.textContent = this.#isTaken ? say("progress.path_taken") : "";
      this.#button.textContent = say(this.#isTaken ? "progress.path_leave" : "progress.path_take", { title });
    }
  }

  /** Minutes of work in this lesson: from one key press, tap or turn of the page to the next, long pauses left out. */
  function countMinutes() {
    const lesson = page.lesson;
    if (!lesson) return;
    let last = Date.now();
    let worked = 0;
    const note = () => {
      const pause = Date.now() - last;
      if (pause > 0 && pause < LONGEST_PAUSE) worked += pause;
      last = Date.now();
    };
    for (const name of ["keydown", "pointerdown", "scroll"]) document.addEventListener(name, note, { passive: true });
    const keep = () => {
      const minutes = Math.round(worked / 6000) / 10;
      if (minutes < 0.5) return;
      worked = 0;
      const mark = findMark(lesson);
      keepMark({ ...mark, minutes: Math.round(10 * (mark.minutes + minutes)) / 10 });
    };
    document.addEventListener("visibilitychange", () => document.hidden && keep());
    window.addEventListener("pagehide", keep);
  }

  window.beadwright = Object.assign(window.beadwright, { listLessons, stateOf, isPerPage, tellStanding });
  customElements.define("bw-progress", Progress);
  customElements.define("bw-finish", Finish);
  customElements.define("bw-path", TakePath);
  countMinutes();
  tellLessons();
  leadOn();
  window.addEventListener("bw-record", () => (tellLessons(), leadOn()));
})();
