"use strict";

// <bw-review>: the items that are due again, as links to them in their lessons. Nothing in it is timed.
(() => {
  const { say, store, reviewCore, listLessons } = window.beadwright;

  /** What is asked again; not what is to be found out, as the number on a frame. @param {BwAttempt} attempt */
  function nameItem({ ask, problem }) {
    if (ask === "read" || ask === "heard") return say(`review.item_${ask}`);
    if (problem === "") return say("review.item_plain");
    return say(ask === "set" ? "review.item_set" : "review.item", { problem: problem.replaceAll(" - ", " − ") });
  }

  /** @param {BwReviewed} reviewed @param {string} address */
  function drawItem({ attempt }, address) {
    const link = document.createElement("a");
    link.href = `${address}#item-${attempt.item}`;
    link.textContent = nameItem(attempt);
    const line = document.createElement("li");
    line.append(link);
    if (attempt.right === false) line.append(` ${say("review.was_wrong")}`);
    return line;
  }

  class Review extends HTMLElement {
    #listening = new AbortController();

    connectedCallback() {
      this.#listening = new AbortController();
      this.querySelectorAll("[data-bw-script]").forEach((part) => part.removeAttribute("hidden"));
      window.addEventListener("bw-record", () => this.#draw(), { signal: this.#listening.signal });
      this.#draw();
    }

    disconnectedCallback() {
      this.#listening.abort();
    }

    #draw() {
      const { attempts } = store.record;
      const now = new Date();
      const lessons = listLessons();
      const due = reviewCore.listDue(attempts, now).filter(({ attempt }) => lessons.some(({ lesson }) => lesson === attempt.lesson));
      const state = this.querySelector(".bw-review-state");
      if (state) state.textContent = this.#tell(due.length, attempts, now);
      this.querySelector(".bw-review-items")?.replaceChildren(...lessons.flatMap((entry) => this.#drawLesson(entry, due)));
    }

    /** @param {number} count @param {readonly BwAttempt[]} attempts @param {Date} now */
    #tell(count, attempts, now) {
      if (count > 0) return say("review.due", { count });
      const days = reviewCore.daysToNext(attempts, now);
      return days === null ? say("review.nothing_yet") : `${say("review.nothing")} ${say("review.next", { count: days })}`;
    }

    /** A lesson's heading and its items; nothing where none is due.
     * @param {{ lesson: string, title: string, url: string }} entry @param {readonly BwReviewed[]} due */
    #drawLesson({ lesson, title, url }, due) {
      const own = due.filter(({ attempt }) => attempt.lesson === lesson);
      if (own.length === 0) return [];
      const heading = document.createElement("h2");
      heading.textContent = title;
      const list = document.createElement("ul");
      list.append(...own.map((reviewed) => drawItem(reviewed, url)));
      return [heading, list];
    }
  }

  customElements.define("bw-review", Review);
})();
