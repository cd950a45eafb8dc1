"use strict";

// Speaks to the stock theme's search worker: what kind of message each number is belongs to the worker's protocol.
// Nothing of the engine is loaded before somebody searches, so a page that is only read pays nothing for it.
(() => {
  const MESSAGE = Object.freeze({ SETUP: 0, READY: 1, QUERY: 2, RESULT: 3 });
  /** What has a meaning in the engine's own language of questions, which nobody here is told of; most of it typed by chance is
   * an error there. */
  const SIGNS = /[\\:~^*+"-]/g;

  /**
   * @param {string} url
   * @param {Document} [into]
   * @returns {Promise<void>}
   */
  function loadScript(url, into = document) {
    return new Promise((resolve, reject) => {
      const script = into.createElement("script");
      script.src = url;
      script.onload = () => resolve();
      script.onerror = () => reject(new Error(`cannot read ${url}`));
      into.head.append(script);
    });
  }

  /** A worker's part on pages opened from a folder, where browsers refuse workers: the same file runs in a hidden, empty
   * frame, which is given what a worker has. Nothing in it is written in line, so that no page has to allow that. */
  class FrameWorker extends EventTarget {
    #frame = document.createElement("iframe");
    /** @type {Promise<Window & typeof globalThis>} */
    #inner;

    /** @param {string} url */
    constructor(url) {
      super();
      window.IFrameWorker = FrameWorker; // by this name the stock worker knows that it has to look for its own folder
      this.#frame.hidden = true;
      const loaded = new Promise((resolve) => this.#frame.addEventListener("load", resolve, { once: true }));
      this.#inner = loaded.then(() => this.#start(url));
      this.#inner.catch(() => this.dispatchEvent(new Event("error")));
      document.body.append(this.#frame);
    }

    /** @param {string} url */
    async #start(url) {
      const inner = /** @type {any} */ (this.#frame.contentWindow);
      inner.postMessage = (/** @type {unknown} */ data) => this.dispatchEvent(new MessageEvent("message", { data }));
      inner.importScripts = async (/** @type {string[]} */ ...urls) => {
        for (const each of urls) await loadScript(each, inner.document);
      };
      inner.addEventListener("error", () => this.dispatchEvent(new Event("error")));
      await loadScript(url, inner.document);
      return inner;
    }

    /** @param {unknown} data */
    postMessage(data) {
      this.#inner.then((inner) => inner.dispatchEvent(new inner.MessageEvent("message", { data })), () => undefined);
    }
  }

  /**
   * The worker's next message of one kind.
   * @param {Worker | FrameWorker} worker
   * @param {number} type
   * @returns {Promise<any>}
   */
  function awaitMessage(worker, type) {
    return new Promise((resolve, reject) => {
      worker.addEventListener("message", function take(event) {
        const { data } = /** @type {MessageEvent} */ (event);
        if (data.type !== type) return;
        worker.removeEventListener("message", take);
        resolve(data.data);
      });
      worker.addEventListener("error", () => reject(new Error("the search engine stopped")));
    });
  }

  /** @type {Beadwright["startSearch"]} */
  async function startSearch() {
    const places = window.beadwright.page.search;
    if (!places) throw new Error("this course has no search");
    await loadScript(places.index);
    const url = new URL(places.worker, location.href).href;
    const worker = location.protocol === "file:" ? new FrameWorker(url) : new Worker(url);
    const ready = awaitMessage(worker, MESSAGE.READY);
    worker.postMessage({ type: MESSAGE.SETUP, data: { ...window.__index, options: { suggest: false } } });
    await ready;

    /** @type {Promise<unknown>} */
    let turn = Promise.resolve();
    return (typed) => {
      const query = typed.replace(SIGNS, " ");
      // One question at a time: answers carry no mark of the question they belong to.
      const answer = turn.then(() => {
        const result = awaitMessage(worker, MESSAGE.RESULT);
        worker.postMessage({ type: MESSAGE.QUERY, data: query });
        return result;
      });
      turn = answer.catch(() => undefined);
      return answer.then((data) => data.items);
    };
  }

  Object.assign(window.beadwright, { startSearch });
})();
