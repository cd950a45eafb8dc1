"use strict";

// Items that nobody grades: one's own words beside a model, and how sure one is.
(() => {
  const { say, store, recordCore } = window.beadwright;
  const kinds = (window.beadwright.kinds ||= {});

  /** @param {BwItem} item @returns {BwKind} */
  function buildReflect(item) {
    const words = /** @type {HTMLTextAreaElement} */ (item.part("textarea"));

    const isLong = () => words.value.trim().length > recordCore.longest;

    function showModel() {
      const lead = document.createElement("p");
      lead.textContent = say("practice.model_name");
      const text = document.createElement("div");
      text.innerHTML = item.entry.model ?? ""; // the author's own, from this page's own data
      item.part(".bw-model").replaceChildren(lead, " ", text);
    }

    /** What has no room in the record is told while it is written, and never cut. */
    function tellRoom() {
      const told = isLong() ? say("practice.words_long", { count: recordCore.longest }) : "";
      const error = item.part(".bw-item-error");
      if (error.textContent !== told) error.textContent = told;
      if (told === "") words.removeAttribute("aria-invalid");
    }

    words.addEventListener("input", tellRoom);
    return {
      show: () => (words.value = ""),
      act(task) {
        if (task !== "model") return;
        if (isLong()) {
          item.refuse(say("practice.words_long", { count: recordCore.longest }), [words]);
          return;
        }
        showModel();
        item.keep({ response: words.value.trim(), right: null });
      },
      draft: () => ({ words: words.value }),
      restore(draft) {
        words.value = String(draft["words"] ?? "");
        tellRoom();
      },
      start: () => words,
    };
  }

  /** @param {BwItem} item @returns {BwKind} */
  function buildRating(item) {
    const groups = /** @type {HTMLElement[]} */ ([...item.querySelectorAll(".bw-rated")]);
    const { when = "", of = 0 } = item.entry;

    /** @param {HTMLElement} group */
    const valueOf = (group) => Number(group.querySelector("input:checked")?.getAttribute("value") ?? 0);

    /** The ratings in the record that stand, by what is rated: what was rated last. */
    function findKept() {
      const kept = store.record.ratings.filter((rating) => rating.when === when && rating.of === of);
      return new Map(kept.map((rating) => [rating.item, rating.value]));
    }

    function keepChanges() {
      const missing = groups.filter((group) => valueOf(group) === 0).length;
      if (missing > 0) {
        item.tell({ right: null, verdict: say("practice.rate_more", { count: missing }) });
        return;
      }
      const known = findKept();
      const changed = groups
        .map((group) => ({ when, of, item: group.dataset["bwItem"] ?? "", value: valueOf(group) }))
        .filter((rating) => known.get(rating.item) !== rating.value);
      const kept = changed.length === 0 ? store.state === "kept" : store.addRatings(changed);
      item.tell({ right: null, verdict: say(kept ? "practice.rated" : "practice.rate_kept_not") });
    }

    item.addEventListener("change", keepChanges);
    return {
      show: () => undefined,
      draft: () => ({ rated: groups.map(valueOf) }),
      restore(draft) {
        const rated = Array.isArray(draft["rated"]) ? draft["rated"].map(Number) : [];
        groups.forEach((group, index) => {
          const box = group.querySelector(`input[value="${rated[index] ?? 0}"]`);
          if (box instanceof HTMLInputElement) box.checked = true;
        });
      },
      start: () => groups[0]?.querySelector("input") ?? null,
    };
  }

  kinds["reflect"] = buildReflect;
  kinds["rating"] = buildRating;
})();
