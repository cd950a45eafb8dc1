"use strict";

// What is due again: each item answered comes back after some days, later each time it is right when it was due, and from
// the start when it was wrong. Nothing here knows of a page or of storage.
(() => {
  /** Days until an item comes back, by how often in a row it was right when due. */
  const SPACING = Object.freeze([1, 3, 7, 16, 35]);
  const UNGRADED = Object.freeze(["reflect", "rating"]);

  /** The day on the learner's calendar, as a number that grows by one each day. @param {Date} time */
  const dayOf = (time) => Date.UTC(time.getFullYear(), time.getMonth(), time.getDate()) / 86_400_000;

  /** @param {number} streak */
  const spacing = (streak) => SPACING[Math.min(Math.max(streak - 1, 0), SPACING.length - 1)] ?? 1;

  /** @param {BwReviewed} before @param {BwAttempt} attempt @param {number} day @returns {BwReviewed} */
  function step(before, attempt, day) {
    const due = day + spacing(0);
    if (attempt.right !== true) return { attempt, streak: 0, day, due };
    // A right answer before its day shows nothing new about remembering, so it moves nothing.
    if (before.streak > 0 && day < before.due) return { ...before, attempt };
    const streak = before.streak + 1;
    return { attempt, streak, day, due: day + spacing(streak) };
  }

  /** @type {BwReviewCore["plan"]} */
  function plan(attempts, now) {
    const today = dayOf(now);
    /** @type {Map<string, BwReviewed>} */
    const found = new Map();
    for (const attempt of attempts) {
      const at = new Date(attempt.at);
      if (attempt.right === null || UNGRADED.includes(attempt.ask) || Number.isNaN(at.getTime())) continue;
      const name = `${attempt.lesson}/${attempt.item}`;
      const before = found.get(name) ?? { attempt, streak: 0, day: -Infinity, due: -Infinity };
      // A day still to come was written before the clock was moved back: it counts as no later than what is known.
      const day = dayOf(at) > today ? before.day : dayOf(at);
      found.set(name, step(before, attempt, day));
    }
    return [...found.values()];
  }

  /** @type {BwReviewCore["listDue"]} */
  function listDue(attempts, now) {
    const today = dayOf(now);
    return plan(attempts, now).filter(({ due }) => due <= today).sort((first, second) => first.due - second.due || 0);
  }

  /** @type {BwReviewCore["daysToNext"]} */
  function daysToNext(attempts, now) {
    const days = plan(attempts, now).map(({ due }) => due - dayOf(now)).filter((left) => left > 0);
    return days.length > 0 ? Math.min(...days) : null;
  }

  const reviewCore = Object.freeze({ plan, listDue, daysToNext });
  const home = typeof window === "undefined" ? /** @type {Window} */ (/** @type {unknown} */ (globalThis)) : window;
  home.beadwright = Object.assign(home.beadwright || {}, { reviewCore });
})();
