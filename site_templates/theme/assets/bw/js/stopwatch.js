"use strict";

// Seconds of work, for items that ask for them and learners who want them. They stop while the page is hidden.
(() => {
  /** @implements {BwStopwatch} */
  class Stopwatch {
    runs = false;
    #before = 0;
    /** Seconds that were given already, lap by lap. */
    #lapped = 0;
    #stopped = false;
    /** @type {number | null} */
    #since = null;

    constructor() {
      document.addEventListener("visibilitychange", () => (document.hidden ? this.#pause() : this.#go()));
    }

    get seconds() {
      return (this.#before + (this.#since === null ? 0 : performance.now() - this.#since)) / 1000;
    }

    lap() {
      const { seconds } = this;
      const lap = seconds - this.#lapped;
      this.#lapped = seconds;
      return lap;
    }

    /** @param {Element | null} box */
    follow(box) {
      const wanted = box instanceof HTMLInputElement && box.checked;
      if (wanted === this.runs) return;
      this.runs = wanted;
      this.restart();
    }

    start() {
      this.runs = true;
      this.restart();
    }

    restart() {
      this.#before = this.#lapped = 0;
      this.#since = null;
      this.resume();
    }

    stop() {
      this.#stopped = true;
      this.#pause();
    }

    resume() {
      this.#stopped = false;
      this.#go();
    }

    #go() {
      if (this.runs && !this.#stopped && this.#since === null && !document.hidden) this.#since = performance.now();
    }

    #pause() {
      if (this.#since !== null) this.#before += performance.now() - this.#since;
      this.#since = null;
    }
  }

  window.beadwright = Object.assign(window.beadwright, { Stopwatch });
})();
