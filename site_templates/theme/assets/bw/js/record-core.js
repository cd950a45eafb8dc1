"use strict";

// A learner's record as data: read from untrusted files, merged, judged. Nothing here knows of a page or of storage.
(() => {
  const SCHEMA = "beadwright/record/1";
  /** What a record may hold, as the report reads it: entries, signs of a text, of a name, of a time, and how much of anything. */
  const MOST_ATTEMPTS = 50_000;
  const MOST_MARKS = 5_000;
  const MOST_RATINGS = 20_000;
  const LONGEST = 4_000;
  const NAME = 200;
  const TIME = 40;
  const MUCH = 1e7;
  const MOST_POINTS = 100;

  /** @typedef {Readonly<Record<string, unknown>>} Plain */

  /** @param {unknown} value @returns {value is Plain} */
  const isPlain = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  /** A text of at most so many signs. Half a letter of two signs can stand in no file: one that the cut leaves goes, another
   * is marked. @param {unknown} value @param {number} [most] */
  function text(value, most = LONGEST) {
    if (typeof value !== "string") return "";
    const short = value.length > most ? value.slice(0, most).replace(/[\ud800-\udbff]$/, "") : value;
    return short.replace(/\p{Cs}/gu, "\ufffd");
  }
  /** @param {unknown} value */
  const name = (value) => text(value, NAME);
  /** @param {unknown} value */
  const time = (value) => text(value, TIME);
  /** @param {unknown} value @param {number} [most] */
  const number = (value, most = MUCH) => (typeof value === "number" && value >= 0 && value <= most ? value : 0);
  /** @param {unknown} value */
  const list = (value) => (Array.isArray(value) ? value.filter(isPlain) : []);
  /** @param {unknown} value @param {number} most */
  const orNull = (value, most) => (typeof value === "string" ? text(value, most) : null);

  /** @type {BwRecordCore["start"]} */
  function start(course, learner) {
    return {
      schema: SCHEMA, course: { id: course }, saved: "", learner: { id: learner, name: "", role: "", group: "", path: "" },
      attempts: [], lessons: [], ratings: [], place: null,
    };
  }

  /** @type {BwRecordCore["read"]} */
  function read(data, course) {
    if (!isPlain(data)) return "broken";
    const schema = /^beadwright\/record\/(\d{1,6})$/.exec(name(data["schema"]));
    if (!schema) return "broken";
    if (Number(schema[1]) > 1) return "newer";
    const belongs = isPlain(data["course"]) ? name(data["course"]["id"]) : "";
    if (belongs !== course) return "foreign";
    const learner = readLearner(data["learner"]);
    if (learner.id === "" || !Array.isArray(data["attempts"])) return "broken";
    return {
      schema: SCHEMA,
      course: { id: course },
      saved: time(data["saved"]),
      learner,
      attempts: list(data["attempts"]).slice(0, MOST_ATTEMPTS).map(readAttempt).filter((attempt) => attempt.id !== ""),
      lessons: list(data["lessons"]).slice(0, MOST_MARKS).map(readLesson).filter((mark) => mark.lesson !== ""),
      ratings: list(data["ratings"]).slice(0, MOST_RATINGS).map(readRating).filter((rating) => rating.item !== ""),
      place: readPlace(data["place"]),
    };
  }

  /** @type {BwRecordCore["readLearner"]} */
  function readLearner(data) {
    const learner = isPlain(data) ? data : {};
    return {
      id: name(learner["id"]), name: text(learner["name"]), role: name(learner["role"]), group: text(learner["group"]),
      path: name(learner["path"]),
    };
  }

  /** @type {BwRecordCore["readAttempt"]} */
  function readAttempt(data) {
    return {
      id: name(data["id"]), edition: name(data["edition"]), lesson: name(data["lesson"]),
      objective: orNull(data["objective"], NAME), item: name(data["item"]), ask: name(data["ask"]),
      problem: text(data["problem"]), key: text(data["key"]), response: text(data["response"]),
      right: typeof data["right"] === "boolean" ? data["right"] : null, slip: orNull(data["slip"], NAME),
      hints: number(data["hints"]), frame: name(data["frame"]), timed: data["timed"] === true,
      digits_right: number(data["digits_right"]), seconds: number(data["seconds"]), at: time(data["at"]),
    };
  }

  /** @param {Plain} data @returns {BwLessonMark} */
  function readLesson(data) {
    return {
      lesson: name(data["lesson"]), finished: orNull(data["finished"], TIME), minutes: number(data["minutes"]),
      passed: data["passed"] === true,
    };
  }

  /** @param {Plain} data @returns {BwRating} */
  function readRating(data) {
    return {
      when: name(data["when"]), item: name(data["item"]), value: number(data["value"], MOST_POINTS),
      of: number(data["of"], MOST_POINTS), at: time(data["at"]),
    };
  }

  /** @param {unknown} data @returns {BwPlace | null} */
  function readPlace(data) {
    if (!isPlain(data) || text(data["lesson"]) === "") return null;
    const kept = data["step"];
    const step = typeof kept === "number" && Number.isSafeInteger(kept) && kept > 0 ? kept : null;
    const item = text(data["item"]);
    const at = text(data["at"]) || (item === "" ? "" : `item-${item}`);
    return { lesson: text(data["lesson"]), item, step, at, problem: text(data["problem"]) };
  }

  /** Both lists, each entry of the same name once, in order of time; where both have one, `mine` stays unless `newer` says
   * otherwise. @template T @param {readonly T[]} mine @param {readonly T[]} other @param {(entry: T) => string} name
   * @param {(mine: T, other: T) => T} [both] @returns {T[]} */
  function unite(mine, other, name, both = (one) => one) {
    /** @type {Map<string, T>} */
    const found = new Map(mine.map((entry) => [name(entry), entry]));
    for (const entry of other) {
      const known = found.get(name(entry));
      found.set(name(entry), known === undefined ? entry : both(known, entry));
    }
    return [...found.values()];
  }

  /** @param {{ at: string, id?: string }} first @param {{ at: string, id?: string }} second */
  function byTime(first, second) {
    if (first.at !== second.at) return first.at < second.at ? -1 : 1;
    return (first.id ?? "") < (second.id ?? "") ? -1 : 1;
  }

  /** @param {BwLessonMark} mine @param {BwLessonMark} other @returns {BwLessonMark} */
  function mergeMarks(mine, other) {
    const times = [mine.finished, other.finished].filter((time) => time !== null).sort();
    return {
      lesson: mine.lesson, finished: times.at(-1) ?? null, minutes: Math.max(mine.minutes, other.minutes),
      passed: mine.passed || other.passed,
    };
  }

  /** @type {BwRecordCore["merge"]} */
  function merge(mine, other) {
    const known = new Set(mine.attempts.map((attempt) => attempt.id));
    const added = new Set(other.attempts.map((attempt) => attempt.id).filter((id) => !known.has(id))).size;
    const attempts = unite(mine.attempts, other.attempts, (attempt) => attempt.id).sort(byTime);
    const ratings = unite(mine.ratings, other.ratings, (r) => `${r.when}/${r.item}/${r.at}`).sort(byTime);
    const { learner } = mine;
    const record = {
      ...mine,
      learner: {
        id: learner.id, name: learner.name || other.learner.name, role: learner.role || other.learner.role,
        group: learner.group || other.learner.group, path: learner.path || other.learner.path,
      },
      attempts,
      lessons: unite(mine.lessons, other.lessons, (mark) => mark.lesson, mergeMarks),
      ratings,
      place: mine.place ?? other.place,
    };
    return { record, added };
  }

  /** @type {BwRecordCore["latest"]} */
  function latest(record, lesson) {
    const graded = record.attempts.filter((attempt) => attempt.lesson === lesson && attempt.right !== null);
    return new Map(graded.map((attempt) => [attempt.item, attempt]));
  }

  /** @type {BwRecordCore["judge"]} */
  function judge(record, lesson, items, passMark) {
    const tries = latest(record, lesson);
    const objectives = [...new Set(items.map((item) => item.objective))].filter((objective) => objective !== null);
    return objectives.map((objective) => {
      const own = items.filter((item) => item.objective === objective);
      const right = own.filter((item) => tries.get(item.id)?.right === true).length;
      const begun = own.some((item) => tries.has(item.id));
      const missing = own.filter((item) => tries.get(item.id)?.right !== true).map((item) => item.id);
      return { objective, ...weigh(right, own.length, begun, passMark), missing };
    });
  }

  /** @param {number} right @param {number} of @param {boolean} begun @param {number} passMark
   * @returns {Pick<BwStanding, "state" | "right" | "of" | "need">} */
  function weigh(right, of, begun, passMark) {
    // A share such as 0.8 of 5 items comes out as 4.000…1; it must not ask for a fifth.
    const need = Math.max(1, Math.ceil(passMark * of - 1e-9));
    return { state: right >= need ? "met" : begun ? "short" : "open", right, of, need };
  }

  /** @type {BwRecordCore["judgeCounted"]} */
  function judgeCounted(record, lesson, counts, passMark) {
    const tries = [...latest(record, lesson).values()];
    return counts.map(([objective, , of]) => {
      const own = tries.filter((attempt) => attempt.objective === objective);
      // Answers to items that this edition no longer has may be among them.
      const right = Math.min(of, own.filter((attempt) => attempt.right === true).length);
      return { objective, ...weigh(right, of, own.length > 0, passMark), missing: [] };
    });
  }

  /** @type {BwRecordCore["nameFile"]} */
  function nameFile(pattern, course, learner, nobody, at) {
    const letters = learner.normalize("NFC").replace(/[^\p{L}\p{M}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "");
    const two = (/** @type {number} */ part) => String(part).padStart(2, "0");
    const date = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
    /** @type {Record<string, string>} */
    const fields = { course, name: [...letters].slice(0, 40).join("") || nobody, date };
    return pattern.replace(/\{(\w+)\}/g, (whole, field) => fields[field] ?? whole);
  }

  const recordCore = Object.freeze({
    schema: SCHEMA, longest: LONGEST, start, read, readAttempt, readLearner, merge, latest, judge, judgeCounted, nameFile,
  });
  const home = typeof window === "undefined" ? /** @type {Window} */ (/** @type {unknown} */ (globalThis)) : window;
  home.beadwright = Object.assign(home.beadwright || {}, { recordCore });
})();
