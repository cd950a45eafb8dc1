"use strict";

// Reports a lesson to a learning management system by SCORM 1.2: status, score, time, and in at most 4096 signs where the
// learner stopped and which objectives are shown. Full records come only by the learner's own file. Where no system
// answers, the lesson works as it does from a folder.
(() => {
  const { store, recordCore, page } = window.beadwright;
  const lesson = page.lesson ?? "";
  const MOST_SIGNS = 4096;
  const MOST_PARENTS = 12;
  const UNGRADED = Object.freeze(["reflect", "rating"]);
  const began = Date.now();

  /** @typedef {{ LMSInitialize(text: ""): unknown, LMSFinish(text: ""): unknown, LMSCommit(text: ""): unknown,
   *   LMSGetValue(name: string): unknown, LMSSetValue(name: string, value: string): unknown }} Api */
  /** What is handed over from one session to the next: version, item, objectives shown, best score, and how many objectives
   * shown there was no room for.
   * @typedef {{ v: 1, item: string, met: string[], score: number, left?: number }} Kept */

  /** @param {Window | null} start @returns {Api | null} */
  function climb(start) {
    let place = start;
    for (let step = 0; place && step < MOST_PARENTS; step += 1) {
      try {
        const api = /** @type {any} */ (place)["API"];
        if (api && typeof api.LMSInitialize === "function") return api;
        if (place.parent === place) return null;
        place = place.parent;
      } catch {
        return null; // a window of another origin may not be looked into
      }
    }
    return null;
  }

  const found = climb(window) ?? climb(window.opener);
  if (!found || !["true", "1"].includes(String(found.LMSInitialize("")).toLowerCase())) return;
  /** @type {Api} */
  const api = found;

  /** @param {string} name */
  const get = (name) => String(api.LMSGetValue(name) ?? "");
  /** @param {string} name @param {string} value */
  const set = (name, value) => void api.LMSSetValue(name, value);

  /** @returns {Kept} */
  function takeUp() {
    /** @type {Kept} */
    const nothing = { v: 1, item: "", met: [], score: 0 };
    try {
      const kept = JSON.parse(get("cmi.suspend_data") || "null");
      if (kept === null || typeof kept !== "object" || kept.v !== 1) return nothing;
      return {
        v: 1,
        item: typeof kept.item === "string" ? kept.item : "",
        met: Array.isArray(kept.met) ? kept.met.filter((/** @type {unknown} */ one) => typeof one === "string") : [],
        score: typeof kept.score === "number" ? kept.score : 0,
      };
    } catch {
      return nothing;
    }
  }

  function findItems() {
    return [...document.querySelectorAll("bw-item .practice-data")].flatMap((data) => {
      try {
        const { id, objective, ask } = JSON.parse(data.textContent || "null");
        return UNGRADED.includes(ask) ? [] : [{ id, objective }];
      } catch {
        return []; // a broken item says so itself
      }
    });
  }

  const before = takeUp();
  const items = findItems();
  const passMark = JSON.parse(document.getElementById("bw-practice")?.textContent || "{}").pass_mark ?? 1;
  const passedBefore = ["passed", "completed"].includes(get("cmi.core.lesson_status"));
  let finished = false;

  /** On a computer that several learners use the browser keeps one record for all. Only what was answered since this
   * learner began here is reported as theirs. */
  const since = findBegin(get("cmi.core.student_id"));

  /** @param {string} student */
  function findBegin(student) {
    const key = `bw-scorm:${page.course}`;
    const now = new Date().toISOString();
    try {
      const kept = JSON.parse(localStorage.getItem(key) || "null");
      if (kept?.student === student && typeof kept.since === "string") return kept.since;
      localStorage.setItem(key, JSON.stringify({ student, since: now }));
    } catch {
      // Nothing is kept here, so nothing of anybody else's is either.
    }
    return now;
  }

  function findOwn() {
    const { record } = store;
    return { ...record, attempts: record.attempts.filter((attempt) => attempt.at >= since) };
  }

  /** How the lesson stands: this device's record, and what earlier sessions have shown wherever they were. */
  function judge() {
    const own = findOwn();
    const standings = recordCore.judge(own, lesson, items, passMark);
    const met = standings.filter(({ objective, state }) => state === "met" || before.met.includes(objective));
    const tries = recordCore.latest(own, lesson);
    const right = items.filter((item) => tries.get(item.id)?.right === true).length;
    const score = items.length === 0 ? 0 : Math.round((100 * right) / items.length);
    const marked = own.lessons.some((mark) => mark.lesson === lesson && (mark.finished ?? "") >= since);
    const shown = standings.length > 0 && met.length === standings.length;
    const ends = shown ? "passed" : marked && standings.length === 0 ? "completed" : "incomplete";
    return { status: passedBefore && ends === "incomplete" ? get("cmi.core.lesson_status") : ends,
      score: Math.max(score, before.score), met: met.map(({ objective }) => objective) };
  }

  /** @param {string[]} met @param {number} score */
  function keep(met, score) {
    const place = store.record.place;
    const item = place && place.lesson === lesson ? place.item : before.item;
    /** @type {Kept} */
    const kept = { v: 1, item, met, score };
    let text = JSON.stringify(kept);
    while (text.length > MOST_SIGNS && kept.met.length > 0) {
      kept.met = kept.met.slice(0, -1);
      kept.left = met.length - kept.met.length;
      text = JSON.stringify(kept);
    }
    return text.length > MOST_SIGNS ? "" : text;
  }

  /** Hours, minutes and seconds as SCORM 1.2 writes them. */
  function tellTime() {
    // Rounded once, as a whole number: rounded last, the seconds would come to 60.
    const hundredths = Math.max(0, Math.min(Math.round((Date.now() - began) / 10), 9999 * 360_000));
    /** @param {number} part @param {number} [digits] */
    const write = (part, digits = 2) => String(Math.floor(part)).padStart(digits, "0");
    const hours = write(hundredths / 360_000, 4);
    return `${hours}:${write((hundredths / 6000) % 60)}:${write((hundredths / 100) % 60)}.${write(hundredths % 100)}`;
  }

  function report() {
    if (finished) return;
    const { status, score, met } = judge();
    set("cmi.core.lesson_status", status);
    if (items.length > 0) {
      set("cmi.core.score.min", "0");
      set("cmi.core.score.max", "100");
      set("cmi.core.score.raw", String(score));
    }
    const item = store.record.place?.lesson === lesson ? store.record.place.item : before.item;
    set("cmi.core.lesson_location", item.slice(0, 255));
    set("cmi.suspend_data", keep(met, score));
    api.LMSCommit("");
  }

  function leave() {
    if (finished) return;
    report();
    set("cmi.core.session_time", tellTime());
    set("cmi.core.exit", ["passed", "completed"].includes(judge().status) ? "" : "suspend");
    api.LMSCommit("");
    api.LMSFinish("");
    finished = true;
  }

  report();
  window.addEventListener("bw-record", report);
  // A page that the browser keeps for coming back is not left yet.
  window.addEventListener("pagehide", (event) => (event.persisted ? report() : leave()));
  if (before.item !== "" && location.hash === "") {
    document.getElementById(`item-${before.item}`)?.scrollIntoView();
  }
})();
