"use strict";

// What this device keeps of a learner's work: read before every write, so that two tabs lose nothing; told plainly where
// the browser keeps nothing. Everything belongs to the course's id, because all pages opened from folders share one store.
(() => {
  const { page, recordCore } = window.beadwright;
  const KEY = `bw-record:${page.course}`;
  const ASIDE = `bw-record-aside:${page.course}`;
  const DRAFTS = `bw-draft:${page.course}`;
  const MOST_DRAFTS = 300;

  function newId() {
    if (typeof crypto.randomUUID === "function") return crypto.randomUUID();
    return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  }

  /** What is kept under a key; null where nothing is or nothing may be. @param {string} key */
  function look(key) {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  }

  /** @param {string | null} kept @returns {unknown} */
  function parse(kept) {
    try {
      return kept === null ? null : JSON.parse(kept);
    } catch {
      return undefined;
    }
  }

  /** Whether anything can be kept at all. */
  function canKeep() {
    try {
      localStorage.setItem(`${KEY}:probe`, "1");
      localStorage.removeItem(`${KEY}:probe`);
      return true;
    } catch {
      return false;
    }
  }

  /** The names under which records were put aside. */
  function listAside() {
    /** @type {string[]} */
    const names = [];
    while (look(nameAside(names.length)) !== null) names.push(nameAside(names.length));
    return names;
  }

  /** @param {number} before how many were put aside before */
  const nameAside = (before) => (before === 0 ? ASIDE : `${ASIDE}:${before + 1}`);

  /** Keep what cannot be read beside what was put aside before; whether it is there. @param {string} kept */
  function putAside(kept) {
    const names = listAside();
    if (names.some((name) => look(name) === kept)) return true;
    try {
      localStorage.setItem(nameAside(names.length), kept);
      return true;
    } catch {
      return false;
    }
  }

  class Store {
    /** @type {BwStore["state"]} */
    state = "kept";
    /** Whether what is kept has to be left as it is. */
    #isLeft = false;
    #record = recordCore.start(page.course, newId());
    /** All answers and marks that this tab has added, so that no other tab's write can undo them. Of who the learner is, what
     * was written last holds: a name taken away in one tab must not come back from another. */
    #own = this.#record;

    constructor() {
      this.#record = this.#find() ?? this.#record;
      this.#own = recordCore.start(page.course, this.#record.learner.id);
      // Told before a learner relies on it.
      if (this.state === "kept" && !canKeep()) this.state = look(KEY) === null ? "refused" : "full";
      window.addEventListener("storage", (event) => {
        if (event.key === KEY || event.key === null) this.#takeUp(event.key === null || event.newValue === null);
      });
      window.addEventListener("pageshow", (event) => {
        if (event.persisted) this.#takeUp(false);
      });
    }

    get record() {
      return this.#record;
    }

    /** The record that is kept now; null where there is none for us. One of a newer edition is left alone, one that cannot be
     * read is put aside, and nothing is ever written over one that could not be. */
    #find() {
      const kept = look(KEY);
      const found = kept === null ? null : recordCore.read(parse(kept), page.course);
      const isLeft = found === "newer" || (typeof found === "string" && !putAside(kept ?? ""));
      if (isLeft) this.state = found === "newer" ? "newer" : "full";
      else if (this.#isLeft) this.state = "kept";
      this.#isLeft = isLeft;
      return typeof found === "string" ? null : found;
    }

    /** Another tab has written, or erased. @param {boolean} erased */
    #takeUp(erased) {
      if (erased) this.#record = this.#own = recordCore.start(page.course, newId());
      this.#record = this.#reread();
      this.#tell();
    }

    /** What is kept now, and all that this tab has added to it. */
    #reread() {
      return recordCore.merge(this.#find() ?? this.#record, this.#own).record;
    }

    /** @type {BwStore["update"]} */
    update(change) {
      const before = this.#reread();
      const changed = change(before);
      const after = { ...changed, learner: recordCore.readLearner(changed.learner) };
      const own = recordCore.merge(this.#own, {
        ...after, attempts: added(before.attempts, after.attempts), ratings: added(before.ratings, after.ratings),
      }).record;
      this.#own = { ...own, learner: this.#own.learner, place: after.place };
      this.#record = after;
      const kept = this.#write();
      this.#tell();
      return kept;
    }

    #write() {
      if (this.#isLeft) return false;
      try {
        localStorage.setItem(KEY, JSON.stringify(this.#record));
        this.state = "kept";
        return true;
      } catch (error) {
        // A store that is full throws this; one that is refused throws something else, or throws it at anything.
        const full = error instanceof DOMException && error.name === "QuotaExceededError" && (look(KEY) !== null || canKeep());
        this.state = full ? "full" : "refused";
        return false;
      }
    }

    #tell() {
      window.dispatchEvent(new CustomEvent("bw-record", { detail: null }));
    }

    /** @type {BwStore["addAttempt"]} */
    addAttempt(attempt, place) {
      const made = recordCore.readAttempt({ id: newId(), ...attempt, at: new Date().toISOString() });
      return this.update((record) => ({ ...record, place, attempts: [...record.attempts, made] }));
    }

    /** @type {BwStore["keepPlace"]} */
    keepPlace(place) {
      if (JSON.stringify(place) === JSON.stringify(this.#record.place)) return this.state === "kept";
      return this.update((record) => ({ ...record, place }));
    }

    /** @type {BwStore["addRatings"]} */
    addRatings(ratings) {
      const at = new Date().toISOString();
      const made = ratings.map((rating) => ({ ...rating, at }));
      return this.update((record) => ({ ...record, ratings: [...record.ratings, ...made] }));
    }

    /** @type {BwStore["take"]} */
    take(other) {
      const before = { record: this.#record, own: this.#own, state: this.state };
      let count = 0;
      const kept = this.update((mine) => {
        const { record, added: found } = recordCore.merge(mine, other);
        count = found;
        // On a device where nothing has been done yet, the learner of the file is the learner here.
        return mine.attempts.length === 0 ? { ...record, learner: other.learner } : record;
      });
      if (kept || this.state === "refused") return count;
      // With it there would be no room for anything that is answered from now on.
      this.#record = before.record;
      this.#own = before.own;
      if (!this.#isLeft) this.state = before.state;
      this.#tell();
      return null;
    }

    erase() {
      try {
        [KEY, ...listAside(), DRAFTS].forEach((key) => localStorage.removeItem(key));
      } catch {
        this.state = "refused";
        return false;
      }
      this.#record = this.#own = recordCore.start(page.course, newId());
      this.#isLeft = false;
      this.state = "kept";
      this.#tell();
      return true;
    }

    #drafts() {
      const kept = parse(look(DRAFTS));
      return /** @type {Record<string, Record<string, unknown>>} */ (kept && typeof kept === "object" ? kept : {});
    }

    /** @type {BwStore["draft"]} */
    draft(item) {
      const found = this.#drafts()[`${page.lesson}/${item}`];
      return Object.fromEntries(Object.entries(found ?? {}).map(([name, value]) => [name, tame(value)]));
    }

    /** @type {BwStore["keepDraft"]} */
    keepDraft(item, draft) {
      const name = `${page.lesson}/${item}`;
      const others = Object.entries(this.#drafts()).filter(([known]) => known !== name);
      const kept = draft === null ? others : [...others, [name, draft]];
      try {
        localStorage.setItem(DRAFTS, JSON.stringify(Object.fromEntries(kept.slice(-MOST_DRAFTS))));
      } catch {
        // What is typed and not yet checked is then gone with the page; answers are told of where they are kept.
      }
    }

    newId() {
      return newId();
    }
  }

  /** A kept value as drafts have them: a text, a number, a mark, or a list of these or of pairs. What is deeper, or has names,
   * was kept by nobody here; it could not even be turned into text without failing.
   * @param {unknown} value @param {number} [depth] @returns {unknown} */
  function tame(value, depth = 2) {
    if (Array.isArray(value)) return depth > 0 ? value.map((each) => tame(each, depth - 1)) : null;
    return typeof value === "object" ? null : value;
  }

  /** The entries that were not there before. @template T @param {readonly T[]} before @param {readonly T[]} after */
  function added(before, after) {
    const known = new Set(before);
    return after.filter((entry) => !known.has(entry));
  }

  window.beadwright = Object.assign(window.beadwright, { store: new Store() });
})();
