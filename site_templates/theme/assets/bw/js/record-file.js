"use strict";

// The record as a file: saved by a download (nothing leaves the device by itself), read from a file that a learner chooses.
(() => {
  const { page, recordCore, say, store } = window.beadwright;
  const BIGGEST = 20_000_000;

  /** @type {Beadwright["recordFile"]["save"]} */
  function save() {
    const now = new Date();
    const { learner } = store.record;
    const name = recordCore.nameFile(say("record.file"), page.course, learner.name, say("record.nobody"), now);
    store.update((record) => ({ ...record, saved: now.toISOString() }));
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([JSON.stringify(store.record, null, 1)], { type: "application/json" }));
    link.download = name;
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    return name;
  }

  /** @type {Beadwright["recordFile"]["read"]} */
  async function read(file) {
    if (file.size > BIGGEST) return "big";
    try {
      return recordCore.read(JSON.parse(await file.text()), page.course);
    } catch {
      return "broken";
    }
  }

  window.beadwright = Object.assign(window.beadwright, { recordFile: Object.freeze({ save, read }) });
})();
