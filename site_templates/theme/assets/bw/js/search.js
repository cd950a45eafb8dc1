"use strict";

(() => {
  const { page, say, startSearch } = window.beadwright;
  /** Pages shown at once, sections shown of one page, letters of text shown of one section, pause before looking. */
  const SHOWN = 10;
  const SECTIONS = 3;
  const LETTERS = 160;
  const PAUSE = 180;

  /**
   * Put text into an element, keeping of its markup only which words were found. The text is parsed in a document of
   * its own, where nothing loads or runs.
   * @param {HTMLElement} target
   * @param {string} html
   * @param {number} [limit] letters to show
   */
  function fillMarked(target, html, limit = Infinity) {
    const body = new DOMParser().parseFromString(html, "text/html").body;
    const walker = document.createTreeWalker(body, NodeFilter.SHOW_TEXT);
    let left = limit;
    while (left > 0 && walker.nextNode()) {
      const text = (walker.currentNode.textContent || "").replace(/\s+/g, " ");
      const cut = text.length > left ? `${text.slice(0, left).replace(/\s*\S*$/, "")} …` : text;
      left -= text.length;
      if (walker.currentNode.parentElement?.closest("mark")) {
        const mark = document.createElement("mark");
        mark.textContent = cut;
        target.append(mark);
      } else target.append(cut);
      if (walker.currentNode.parentElement !== body) target.append(" ");
    }
  }

  /** @param {string} location */
  function findUrl(location) {
    return new URL(location, new URL(`${page.base}/`, document.location.href)).href;
  }

  /**
   * One section: a link with its title, and the beginning of its text where words were found in it.
   * @param {BwHit} hit
   */
  function buildHit(hit) {
    const entry = document.createElement("li");
    const link = document.createElement("a");
    link.className = "bw-hit";
    link.href = findUrl(hit.location);
    fillMarked(link, hit.title);
    entry.append(link);
    if (hit.text) {
      const text = document.createElement("p");
      text.className = "bw-hit-text";
      fillMarked(text, hit.text, LETTERS);
      entry.append(text);
    }
    return entry;
  }

  /**
   * One page with the sections of it that were found below it.
   * @param {readonly BwHit[]} group
   */
  function buildGroup(group) {
    const whole = group.find((hit) => !hit.location.includes("#")) ?? group[0];
    const sections = group.filter((hit) => hit !== whole).slice(0, SECTIONS);
    const entry = whole ? buildHit(whole) : document.createElement("li");
    if (sections.length > 0) {
      const list = document.createElement("ul");
      list.append(...sections.map(buildHit));
      entry.append(list);
    }
    return entry;
  }

  /**
   * The dialog at work.
   * @param {{dialog: HTMLDialogElement, input: HTMLInputElement, status: HTMLElement, hits: HTMLElement, more: HTMLElement}} parts
   */
  function prepareSearch({ dialog, input, status, hits, more }) {
    /** @type {ReturnType<typeof startSearch> | null} */
    let engine = null;
    /** @type {BwHit[][]} */
    let found = [];
    let timer = 0;
    let asked = "";

    /** @param {BwHit[][]} groups */
    function showMore(groups) {
      const entries = groups.slice(hits.children.length, hits.children.length + SHOWN).map(buildGroup);
      hits.append(...entries);
      const left = groups.length - hits.children.length;
      more.hidden = left <= 0;
      more.textContent = left > 0 ? say("shell.search_more", { count: left }) : "";
      return entries;
    }

    /** @param {BwHit[][]} groups */
    function showFound(groups) {
      found = groups;
      hits.replaceChildren();
      showMore(groups);
      const key = groups.length > 0 ? "shell.search_found" : "shell.search_none";
      status.textContent = say(key, { count: groups.length, query: asked });
    }

    function clear() {
      found = [];
      hits.replaceChildren();
      more.hidden = true;
      status.textContent = "";
    }

    async function lookUp() {
      const query = input.value.trim();
      if (query === asked) return;
      asked = query;
      if (!query) return clear();
      try {
        if (!engine) status.textContent = say("shell.search_starting");
        engine ??= startSearch();
        const groups = await (await engine)(query);
        // A slow answer to what was typed before must not overwrite the answer to what stands there now.
        if (query === asked) showFound(groups);
      } catch {
        clear();
        engine = null;
        asked = "";
        status.textContent = say("shell.search_failed");
      }
    }

    // `input` alone covers keys, pasting and dictation; `search` the cross that empties the field.
    for (const kind of ["input", "search"]) {
      input.addEventListener(kind, () => {
        window.clearTimeout(timer);
        timer = window.setTimeout(lookUp, PAUSE);
      });
    }
    input.form?.addEventListener("submit", (event) => {
      event.preventDefault();
      window.clearTimeout(timer);
      lookUp();
    });
    more.addEventListener("click", () => {
      const first = showMore(found)[0]?.querySelector("a");
      first?.focus();
    });
    // A hit on the page that is already open only scrolls it, below an open dialog.
    hits.addEventListener("click", (event) => {
      if (event.target instanceof Element && event.target.closest("a")) dialog.close();
    });
    dialog.addEventListener("keydown", (event) => moveByArrow(dialog, input, event));
  }

  /**
   * Arrow keys go through the hits, as an addition to Tab.
   * @param {HTMLElement} dialog
   * @param {HTMLElement} input
   * @param {KeyboardEvent} event
   */
  function moveByArrow(dialog, input, event) {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step === undefined) return;
    const stops = [input, .../** @type {NodeListOf<HTMLElement>} */ (dialog.querySelectorAll(".bw-hit"))];
    const here = stops.findIndex((stop) => stop === document.activeElement);
    if (here < 0) return;
    event.preventDefault();
    stops[Math.min(Math.max(here + step, 0), stops.length - 1)]?.focus();
  }

  const dialog = document.getElementById("bw-search");
  const input = document.getElementById("bw-search-input");
  const [status, hits, more] = ["status", "hits", "more"].map((name) => document.getElementById(`bw-search-${name}`));
  if (dialog instanceof HTMLDialogElement && input instanceof HTMLInputElement && status && hits && more) {
    prepareSearch({ dialog, input, status, hits, more });
  }
})();
