"use strict";

// Items where something is chosen: the moves of a step, the right answers to a question.
(() => {
  const { say, grading } = window.beadwright;
  const kinds = (window.beadwright.kinds ||= {});

  /** The boxes inside an element. @param {ParentNode} within @returns {HTMLInputElement[]} */
  const boxes = (within) => [...within.querySelectorAll("input")].filter((box) => box.matches("[type=checkbox], [type=radio]"));
  /** @param {ParentNode} within */
  const chosen = (within) => boxes(within).filter((box) => box.checked).map((box) => box.value);

  /** @param {ParentNode} within @param {readonly string[]} values */
  function choose(within, values) {
    for (const box of boxes(within)) box.checked = values.includes(box.value);
  }

  /** Put as many lines into a list as there are texts, made like its first. @param {HTMLElement} list
   * @param {readonly BwOption[]} options @param {(line: HTMLElement, option: BwOption) => void} fill */
  function relist(list, options, fill) {
    const pattern = list.firstElementChild;
    if (!(pattern instanceof HTMLElement)) return;
    const lines = options.map((option) => {
      const line = /** @type {HTMLElement} */ (pattern.cloneNode(true));
      fill(line, option);
      return line;
    });
    list.replaceChildren(...lines);
  }

  /** @param {HTMLElement} line @param {BwOption} option */
  function fillChoice(line, option) {
    const [box] = boxes(line);
    const text = line.querySelector("span");
    if (!box || !text) return;
    box.value = option.id;
    box.checked = false;
    text.textContent = option.text;
  }

  /** @param {unknown} kept @returns {string[]} */
  const texts = (kept) => (Array.isArray(kept) ? kept.map(String) : []);

  /** @param {BwItem} item @returns {BwKind} */
  function buildNextMove(item) {
    const list = item.part(".bw-options");
    return {
      show(entry) {
        relist(list, entry.options ?? [], fillChoice);
        window.beadwright.drawFigure(item, entry.beads ?? []);
      },
      check() {
        const moves = chosen(list);
        if (moves.length === 0) {
          item.refuse(say("practice.none_marked"), boxes(list));
          return;
        }
        const { right, causes, missing, extra } = grading.judgeChosen(item.entry, moves);
        const counts = [];
        if (causes.length === 0 && missing > 0) counts.push(say("practice.moves_missing", { count: missing }));
        if (causes.length === 0 && extra > 0) counts.push(say("practice.moves_extra", { count: extra }));
        const verdict = right ? say("practice.right_moves", { moves: item.entry.shown_key ?? "" }) : say("practice.wrong");
        item.tell({ right, verdict, more: counts, causes });
        const slip = item.shared.causes[causes[0] ?? -1]?.slip ?? null;
        item.keep({ response: moves.join(" "), key: item.entry.key?.steps?.[0]?.join(" ") ?? "", right, slip });
      },
      draft: () => ({ chosen: chosen(list) }),
      restore: (draft) => choose(list, texts(draft["chosen"])),
      start: () => boxes(list)[0] ?? null,
    };
  }

  /** @param {BwItem} item @returns {BwKind} */
  function buildChoice(item) {
    const list = item.part(".bw-options");
    return {
      show: () => choose(list, []),
      check() {
        const answers = chosen(list);
        if (answers.length === 0) {
          item.refuse(say("practice.none_chosen"), boxes(list));
          return;
        }
        const { right, missing, extra } = grading.judgeChosen(item.entry, answers);
        const html = (item.entry.options ?? [])
          .filter((option) => answers.includes(option.id))
          .map((option) => option.because ?? "");
        const several = (item.entry.key?.options ?? []).length > 1;
        const more = several && missing > 0 ? [say("practice.chosen_missing", { count: missing })] : [];
        const short = several && extra === 0 ? "practice.chosen_part" : "practice.chosen_wrong";
        item.tell({ right, verdict: say(right ? "practice.chosen_right" : short), more, html });
        item.keep({ response: answers.join(" "), key: item.entry.key?.options?.join(" ") ?? "", right });
      },
      draft: () => ({ chosen: chosen(list) }),
      restore: (draft) => choose(list, texts(draft["chosen"])),
      start: () => boxes(list)[0] ?? null,
    };
  }

  kinds["next-move"] = buildNextMove;
  kinds["choice"] = buildChoice;
  window.beadwright = Object.assign(window.beadwright, { chosen: Object.freeze({ boxes, chosen, choose, relist, fillChoice, texts }) });
})();
