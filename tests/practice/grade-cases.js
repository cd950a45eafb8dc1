"use strict";

// Answers the cases of grading-cases.json by grading.js and prints the answers as JSON; a test compares them.
const { readFileSync } = require("node:fs");
const { join } = require("node:path");

require(join(__dirname, "../../site_templates/theme/assets/bw/js/grading.js"));
const { grading } = globalThis.beadwright;
const { causes, entries, cases } = JSON.parse(readFileSync(join(__dirname, "grading-cases.json"), "utf8"));

const answer = {
  normalise: ({ text, signs }) => grading.normalise(text, signs),
  same: ({ first, second }) => grading.sameValue(first, second),
  answer: ({ entry, response, signs }) => grading.judgeAnswer(entries[entry], response, causes, signs),
  chosen: ({ entry, chosen }) => grading.judgeChosen(entries[entry], chosen),
  order: ({ entry, order }) => grading.judgeOrder(entries[entry], order),
  step: ({ entry, step }) => grading.judgeStep(entries[entry], step).way,
  check: ({ entry, done, reads }) => grading.judgeCheck(entries[entry], done, reads),
  frame: ({ beads }) => grading.readFrame(beads),
  number: ({ beads, lowest, places }) => grading.readNumber(beads, lowest, places),
};
process.stdout.write(JSON.stringify(cases.map((one) => answer[one.what](one))));
