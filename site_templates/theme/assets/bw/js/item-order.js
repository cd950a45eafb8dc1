"use strict";

// Items where lines are put in order, by two keys on each line: no dragging.
(() => {
  const { say, grading } = window.beadwright;
  const { relist, texts } = window.beadwright.chosen;
  const kinds = (window.beadwright.kinds ||= {});

  /** @param {HTMLElement} line @param {BwOption} option */
  function fillLine(line, option) {
    line.dataset["bwId"] = option.id;
    const text = line.querySelector(".bw-order-text");
    if (text) text.textContent = option.text;
    line.querySelector("[data-bw-do=up]")?.setAttribute("aria-label", say("practice.order_up", { text: option.text }));
    line.querySelector("[data-bw-do=down]")?.setAttribute("aria-label", say("practice.order_down", { text: option.text }));
  }

  /** @param {BwItem} item @returns {BwKind} */
  function buildOrder(item) {
    const list = item.part(".bw-order");
    const lines = () => /** @type {HTMLElement[]} */ ([...list.children]);
    const ids = () => lines().map((line) => line.dataset["bwId"] ?? "");

    /** @param {HTMLElement} line @param {string} task @param {HTMLElement} button */
    function move(line, task, button) {
      const other = task === "up" ? line.previousElementSibling : line.nextElementSibling;
      const moved = item.part("[data-bw-moved]");
      if (!other) {
        moved.textContent = say(task === "up" ? "practice.order_top" : "practice.order_bottom");
        return;
      }
      if (task === "up") other.before(line);
      else other.after(line);
      button.focus(); // moving an element in the page takes the focus from it
      const text = line.querySelector(".bw-order-text")?.textContent ?? "";
      moved.textContent = say("practice.order_moved", { text, number: lines().indexOf(line) + 1, count: lines().length });
    }

    return {
      show: (entry) => relist(list, entry.options ?? [], fillLine),
      act(task, button) {
        const line = button.closest("li");
        if (line && (task === "up" || task === "down")) move(line, task, button);
        item.touch();
      },
      check() {
        const { right, at, rule } = grading.judgeOrder(item.entry, ids());
        const more = right ? [] : [say("practice.order_first_wrong", { number: at })];
        if (rule === "upper") more.push(say("practice.upper_first"));
        if (rule === "column") more.push(say(item.entry.order === "right-first" ? "practice.right_first" : "practice.left_first"));
        item.tell({ right, verdict: say(right ? "practice.right_order" : "practice.wrong"), more });
        item.keep({ response: ids().join(" "), key: (item.entry.key?.steps ?? []).flat().join(" "), right });
      },
      draft: () => ({ order: lines().map((line) => line.querySelector(".bw-order-text")?.textContent ?? "") }),
      restore(draft) {
        const order = texts(draft["order"]);
        const named = new Map(lines().map((line) => [line.querySelector(".bw-order-text")?.textContent ?? "", line]));
        const kept = order.flatMap((text) => named.get(text) ?? []);
        if (kept.length === lines().length && new Set(kept).size === kept.length) list.replaceChildren(...kept);
      },
      start: () => list.querySelector("button"),
    };
  }

  kinds["order-moves"] = buildOrder;
})();
