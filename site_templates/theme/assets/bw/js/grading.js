"use strict";

// Grading without a page: typed answers in one normal form, compared and looked up. Nothing here knows of elements, so
// that the same file is tested by itself; Python answers the same cases alike (beadwright.practice.grading).
(() => {
  /** @type {BwSigns} */
  const USUAL = Object.freeze({ marker: ".", grouping: "," });
  const LONGEST = 80;
  /** Slips that span a whole number; two slips in one problem are looked for in single digits. */
  const SPANNING = Object.freeze(["column-drift", "wrong-way-round"]);

  /** @param {string} sign */
  const escape = (sign) => sign.replace(/[\\^$.*+?()[\]{}|]/g, "\\$&");

  /** @param {string} digits */
  const plain = (digits) => digits.replace(/^0+(?=\d)/, "");

  /** One number without its signs: digits, then a point and decimals where there are any; null where it is none.
   * @param {string} text @param {BwSigns} signs */
  function normaliseNumber(text, signs) {
    const groups = [...new Set([signs.grouping, " ", "'", "’"])].filter((sign) => sign !== signs.marker);
    // 0,125 is no number with a group: somebody took the sign for the marker.
    const grouped = groups.map((sign) => `[1-9]\\d{0,2}(?:${escape(sign)}\\d{3})+`);
    const found = new RegExp(`^(${grouped.join("|")}|\\d*)(?:${escape(signs.marker)}(\\d*))?$`).exec(text);
    if (!found || !/\d/.test(text)) return null;
    const whole = plain((found[1] ?? "").replace(/\D/g, "")) || "0";
    return found[2] ? `${whole}.${found[2]}` : whole;
  }

  /** A number, a fraction or a mixed number. @param {string} text @param {BwSigns} signs */
  function normaliseValue(text, signs) {
    const found = /^(?:(\d+) )?(\d+) ?\/ ?(\d+)$/.exec(text);
    if (!found) return normaliseNumber(text, signs);
    const [, whole, above = "", below = ""] = found;
    if (/^0+$/.test(below)) return null;
    const fraction = `${plain(above)}/${plain(below)}`;
    return whole === undefined || /^0+$/.test(whole) ? fraction : `${plain(whole)} ${fraction}`;
  }

  /** @type {BwGrading["normalise"]} */
  function normalise(text, signs = USUAL) {
    if (text.length > LONGEST) return null;
    // A fraction that is one sign would run into the digits of its whole number.
    const apart = text.replace(/(?<=\p{Nd})(?=[¼-¾⅐-⅟↉])/gu, " ");
    const typed = apart.normalize("NFKC").replace(/[⁄∕]/g, "/").replace(/\s+/g, " ").trim().toLowerCase().replace(/^= ?/, "");
    const found = /^(.+?) ?(?:remainder|rem|r)\.? ?(.+)$/.exec(typed);
    if (!found) return normaliseValue(typed, signs);
    const quotient = normaliseValue(found[1] ?? "", signs);
    const left = normaliseValue(found[2] ?? "", signs);
    return quotient === null || left === null ? null : `${quotient} r ${left}`;
  }

  /** Values read once: an answer is compared with every answer that a slip gives. @type {Map<string, [bigint, bigint]>} */
  const known = new Map();

  /** A normal form's value without its remainder, as a fraction of whole numbers. @param {string} normal */
  function fractionOf(normal) {
    const value = known.get(normal) ?? readFraction(normal);
    known.set(normal, value);
    return value;
  }

  /** @param {string} normal @returns {[bigint, bigint]} */
  function readFraction(normal) {
    const mixed = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(normal);
    if (mixed) {
      const below = BigInt(mixed[3] ?? "1");
      return [BigInt(mixed[1] ?? "0") * below + BigInt(mixed[2] ?? "0"), below];
    }
    const [whole = "0", decimals = ""] = normal.split(".");
    return [BigInt(whole + decimals), 10n ** BigInt(decimals.length)];
  }

  /** @param {string} first @param {string} second */
  function sameFraction(first, second) {
    const [a, b] = fractionOf(first);
    const [c, d] = fractionOf(second);
    return a * d === c * b;
  }

  /** @type {BwGrading["sameValue"]} */
  function sameValue(first, second) {
    const [quotient = "", left = "0"] = first.split(" r ");
    const [other = "", rest = "0"] = second.split(" r ");
    return sameFraction(quotient, other) && sameFraction(left, rest);
  }

  /** Causes of an answer of this value. @param {BwSlips} slips @param {string} normal */
  const findCauses = (slips, normal) => Object.entries(slips).find(([wrong]) => sameValue(wrong, normal))?.[1] ?? [];

  /** The digits of a normal number by power of ten, from the highest place down. @param {string} normal */
  function digitsOf(normal) {
    const [whole = "", decimals = ""] = (normal.split(" r ")[0] ?? "").split(".");
    /** @type {Map<number, string>} */
    const digits = new Map();
    [...whole].forEach((digit, index) => digits.set(whole.length - 1 - index, digit));
    [...decimals].forEach((digit, index) => digits.set(-1 - index, digit));
    return digits;
  }

  /** @param {string} key @param {string} normal */
  function compareDigits(key, normal) {
    if (key.includes("/") || normal.includes("/")) return { digits_right: 0, wrong_powers: [] };
    const wanted = digitsOf(key);
    const given = digitsOf(normal);
    const powers = [...new Set([...wanted.keys(), ...given.keys()])].sort((a, b) => b - a);
    const wrong_powers = powers.filter((power) => (wanted.get(power) ?? "0") !== (given.get(power) ?? "0"));
    const digits_right = [...wanted].filter(([power, digit]) => (given.get(power) ?? "0") === digit).length;
    return { digits_right, wrong_powers };
  }

  /** Two causes in different steps that together change the key into the answer, the likeliest pair; none where there is none.
   * @param {BwEntry} entry @param {string} key @param {string} normal @param {readonly BwCause[]} causes */
  function findTwo(entry, key, normal, causes) {
    const answers = Object.keys(entry.slips ?? {}).filter((wrong) => !/[/r]/.test(wrong));
    if (/[/r]/.test(key + normal)) return [];
    const places = Math.max(...[key, normal, ...answers].map((text) => (text.split(".")[1] ?? "").length));
    /** @param {string} text */
    const units = (text) => {
      const [above, below] = fractionOf(text);
      return (above * 10n ** BigInt(places)) / below;
    };
    const off = units(normal) - units(key);
    /** @type {Map<bigint, string>} */
    const byOff = new Map(answers.map((wrong) => [units(wrong) - units(key), wrong]));
    /** @type {{ pair: number[], likely: number }} */
    let best = { pair: [], likely: 0 };
    for (const [one, wrong] of byOff) {
      const other = byOff.get(off - one);
      if (other === undefined) continue;
      for (const first of entry.slips?.[wrong] ?? []) {
        for (const second of entry.slips?.[other] ?? []) {
          const likely = weighPair(causes[first], causes[second]);
          if (likely > best.likely) best = { pair: [first, second], likely };
        }
      }
    }
    return best.pair;
  }

  /** How likely two slips are together, the earlier one given first; 0 where they are not two digits of one problem.
   * @param {BwCause | undefined} first @param {BwCause | undefined} second */
  function weighPair(first, second) {
    if (!first || !second || first.step === null || second.step === null || first.step >= second.step) return 0;
    if (SPANNING.includes(first.slip) || SPANNING.includes(second.slip)) return 0;
    return 1000 * Math.min(first.weight, second.weight) + Math.max(first.weight, second.weight);
  }

  /** @type {BwGrading["judgeAnswer"]} */
  function judgeAnswer(entry, response, causes, signs = USUAL) {
    const key = entry.key?.text ?? "";
    const normal = normalise(response, signs);
    if (normal === null) {
      return { right: null, normal, form_only: false, causes: [], two: [], digits_right: 0, wrong_powers: [] };
    }
    const same = sameValue(key, normal);
    const right = entry.key?.accept === "form" ? key === normal : same;
    const [quotient = "", left] = key.split(" r ");
    // A remainder that is missing is to be asked for, whatever slip would leave none.
    const untold = left !== undefined && !normal.includes(" r ") && sameValue(quotient, normal);
    const found = same || untold ? [] : findCauses(entry.slips ?? {}, normal);
    const two = same || found.length > 0 ? [] : findTwo(entry, key, normal, causes);
    return { right, normal, form_only: same && !right, causes: found, two, ...compareDigits(key, normal) };
  }

  /** @type {BwGrading["judgeChosen"]} */
  function judgeChosen(entry, chosen) {
    const wanted = entry.key?.options ?? entry.key?.steps?.[0] ?? [];
    const missing = wanted.filter((id) => !chosen.includes(id)).length;
    const extra = chosen.filter((id) => !wanted.includes(id)).length;
    // Slips go by the chosen moves in the order in which the options stand.
    const inOrder = (entry.options ?? []).map((option) => option.id).filter((id) => chosen.includes(id));
    return { right: missing + extra === 0, causes: entry.slips?.[inOrder.join(" ")] ?? [], missing, extra };
  }

  /** @type {BwGrading["judgeOrder"]} */
  function judgeOrder(entry, order) {
    const wanted = (entry.key?.steps ?? []).flat();
    const place = wanted.findIndex((id, index) => order[index] !== id);
    if (place < 0 && order.length === wanted.length) return { right: true, at: 0, rule: null };
    const [due, given] = [wanted[place] ?? "", order[place] ?? ""].map((id) => /^(\d+)[ul][+-]/.exec(id)?.[1]);
    const rule = due === undefined || given === undefined ? null : due === given ? "upper" : "column";
    return { right: false, at: place + 1, rule };
  }

  /** @type {BwGrading["judgeStep"]} */
  function judgeStep(entry, step) {
    const wrong = entry.key?.step ?? 0;
    const way = step === wrong ? "right" : step < wrong ? "early" : "late";
    return { right: way === "right", way };
  }

  /** @type {BwGrading["judgeCheck"]} */
  function judgeCheck(entry, done, reads) {
    const checks = entry.checks ?? [];
    const before = done === 0 ? "0" : checks[done - 1]?.reads;
    // Where nothing was moved only a digit that moves nothing is done, and not a later one that leads back here.
    if (reads === before && checks[done]?.reads !== before) return { state: "unmoved", done, causes: [] };
    const reached = checks.findIndex((check, index) => index >= done && check.reads === reads);
    if (reached >= 0) return { state: "right", done: reached + 1, causes: [] };
    return { state: "wrong", done, causes: checks[done]?.slips[reads] ?? [] };
  }

  /** @type {BwGrading["readFrame"]} */
  function readFrame(beads) {
    return plain(beads.map(([upper, lower]) => String(5 * upper + lower)).join(""));
  }

  /** @type {BwGrading["readNumber"]} */
  function readNumber(beads, lowest, places) {
    const deepest = places + lowest - 1;
    const digits = readFrame(beads).padStart(deepest + 1, "0");
    const decimals = digits.slice(digits.length - deepest);
    const whole = digits.slice(0, digits.length - deepest);
    const shown = decimals.slice(0, places) + decimals.slice(places).replace(/0+$/, "");
    return shown === "" ? whole : `${whole}.${shown}`;
  }

  const grading = {
    normalise, sameValue, judgeAnswer, judgeChosen, judgeOrder, judgeStep, judgeCheck, readFrame, readNumber,
  };
  const home = typeof window === "undefined" ? /** @type {Window} */ (/** @type {unknown} */ (globalThis)) : window;
  home.beadwright = Object.assign(home.beadwright || {}, { grading: Object.freeze(grading) });
})();
