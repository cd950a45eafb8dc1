"use strict";

// Speaks to the stock theme's search worker: what kind of message each number is belongs to the worker's protocol.
// Nothing of the engine is loaded before somebody searches, so a page that is only read pays nothing for it.
(() => {
  const MESSAGE = Object.freeze({ SETUP: 0, READY: 1, QUERY: 2, RESULT: 3 });

  /**
   * @param {string} url
   * @returns {Promise<void>}
   */
  function loadScript(url) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.src = url;
      script.onload = () => resolve();
      script.onerror = () => reject(new Error(`cannot read ${url}`));
      document.head.append(script);
    });
  }

  /**
   * The worker's next message of one kind.
   * @param {Worker} worker
   * @param {number} type
   * @returns {Promise<any>}
   */
  function awaitMessage(worker, type) {
    return new Promise((resolve, reject) => {
      worker.addEventListener("message", function take(event) {
        if (event.data.type !== type) return;
        worker.removeEventListener("message", /** @type {EventListener} */ (take));
        resolve(event.data.data);
      });
      worker.addEventListener("error", () => reject(new Error("the search engine stopped")));
    });
  }

  /** @type {Beadwright["startSearch"]} */
  async function startSearch() {
    const places = window.beadwright.page.search;
    if (!places) throw new Error("this course has no search");
    // From a folder browsers refuse workers; the shim runs the same file in a hidden frame instead.
    if (location.protocol === "file:") await loadScript(places.shim);
    await loadScript(places.index);
    const worker = new Worker(new URL(places.worker, location.href).href);
    const ready = awaitMessage(worker, MESSAGE.READY);
    worker.postMessage({ type: MESSAGE.SETUP, data: { ...window.__index, options: { suggest: false } } });
    await ready;

    /** @type {Promise<unknown>} */
    let turn = Promise.resolve();
    return (query) => {
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
