"use strict";

(() => {
  /** @typedef {string | { readonly [key: string]: Words }} Words */

  /**
   * The parsed content of a JSON island; a page without it is built wrongly, which should be seen at once.
   * @param {string} id
   */
  function readIsland(id) {
    const island = document.getElementById(id);
    if (!island) throw new Error(`the page lacks its island #${id}`);
    return JSON.parse(island.textContent || "null");
  }

  /** @type {BwPage} */
  const page = readIsland("bw-page");
  /** @type {Words} */
  const table = window.bwWords ?? readIsland("bw-words");
  const plurals = new Intl.PluralRules(page.language);

  /**
   * What stands in the table at a key; nothing where there is no such key.
   * @param {string} key
   * @returns {Words | undefined}
   */
  function findWords(key) {
    /** @type {Words | undefined} */
    let found = table;
    for (const part of key.split(".")) {
      if (found === undefined || typeof found === "string") return undefined;
      found = found[part];
    }
    return found;
  }

  /** @type {Beadwright["say"]} */
  function say(key, fields = {}) {
    const found = findWords(key);
    const form = found && typeof found === "object" ? found[plurals.select(Number(fields["count"]))] ?? found["other"] : found;
    if (typeof form !== "string") return `[${key}]`;
    return form.replace(/\{(\w+)\}/g, (whole, name) => String(fields[name] ?? whole));
  }

  window.beadwright = Object.assign(window.beadwright || {}, { page, say });
})();
