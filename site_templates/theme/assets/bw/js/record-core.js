"use strict";

// A learner's record as data: read from untrusted files, merged, judged. Nothing here knows of a page or of storage.
(() => {
  const SCHEMA = "beadwright/record/1";
  const MOST_ATTEMPTS = 50_000;
  const LONGEST = 4_000;

  /** @typedef {Readonly<Record<string, unknown>>} Plain */

  /** @param {unknown} value @returns {value is Plain} */
  const isPlain = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  /** @param {unknown} value @param {string} [otherwise] */
  const text = (value, otherwise = "") => (typeof value === "string" ? value.slice(0, LONGEST) : otherwise);
  /** @param {unknown} value */
  const number = (value) => (typeof value === "number" && Number.isFinite(value) ? value : 0);
  /** @param {unknown} value */
  const list = (value) => (Array.isArray(value) ? value.filter(isPlain) : []);
  /** @param {unknown} value */
  const orNull = (value) => (typeof value === "string" ? text(value) : null);

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
    const schema = /^beadwright\/record\/(\d{1,6})$/.exec(text(data["schema"]));
    if (!schema) return "broken";
    if (Number(schema[1]) > 1) return "newer";
    const belongs = isPlain(data["course"]) ? text(data["course"]["id"]) : "";
    if (belongs !== course) return "foreign";
    const learner = isPlain(data["learner"]) ? data["learner"] : {};
    if (text(learner["id"]) === "" || !Array.isArray(data["attempts"])) return "broken";
    return {
      schema: SCHEMA,
      course: { id: course },
      saved: text(data["saved"]),
      learner: {
        id: text(learner["id"]), name: text(learner["name"]), role: text(learner["role"]), group: text(learner["group"]),
        path: text(learner["path"]),
      },
      attempts: list(data["attempts"]).slice(0, MOST_ATTEMPTS).map(readAttempt).filter((attempt) => attempt.id !== ""),
      lessons: list(data["lessons"]).map(readLesson).filter((mark) => mark.lesson !== ""),
      ratings: list(data["ratings"]).map(readRating).filter((rating) => rating.item !== ""),
      place: readPlace(data["place"]),
    };
  }

  /** @param {Plain} data @returns {BwAttempt} */
  function readAttempt(data) {
    return {
      id: text(data["id"]), edition: text(data["edition"]), lesson: text(data["lesson"]),
      objective: orNull(data["objective"]), item: text(data["item"]), ask: text(data["ask"]),
      problem: text(data["problem"]), key: text(data["key"]), response: text(data["response"]),
      right: typeof data["right"] === "boolean" ? data["right"] : null, slip: orNull(data["slip"]),
      hints: number(data["hints"]), frame: text(data["frame"]), timed: data["timed"] === true,
      digits_right: number(data["digits_right"]), seconds: number(data["seconds"]), at: text(data["at"]),
    };
  }

  /** @param {Plain} data @returns {BwLessonMark} */
  function readLesson(data) {
    return {
      lesson: text(data["lesson"]), finished: orNull(data["finished"]), minutes: number(data["minutes"]),
      passed: data["passed"] === true,
    };
  }

  /** @param {Plain} data @returns {BwRating} */
  function readRating(data) {
    return {
      when: text(data["when"]), item: text(data["item"]), value: number(data["value"]), of: number(data["of"]),
      at: text(data["at"]),
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
  function nameFile(pattern, course, name, nobody, at) {
    const letters = name.normalize("NFC").replace(/[^\p{L}\p{M}\p{N}]+/gu, "-").replace(/^-+|-+$/g, "").slice(0, 40);
    const two = (/** @type {number} */ part) => String(part).padStart(2, "0");
    const date = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
    /** @type {Record<string, string>} */
    const fields = { course, name: letters || nobody, date };
    return pattern.replace(/\{(\w+)\}/g, (whole, field) => fields[field] ?? whole);
  }

  const recordCore = Object.freeze({ schema: SCHEMA, start, read, merge, latest, judge, judgeCounted, nameFile });
  const home = typeof window === "undefined" ? /** @type {Window} */ (/** @type {unknown} */ (globalThis)) : window;
  home.beadwright = Object.assign(home.beadwright || {}, { recordCore });
})();
