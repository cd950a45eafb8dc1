"use strict";

// Runs before the first paint, so that a page never flashes in another scheme than the reader's. What is kept is read
// again by display.js; this file only sets it.
(() => {
  const root = document.documentElement;
  root.classList.add("bw-js");
  try {
    const kept = JSON.parse(localStorage.getItem(`bw-display:${root.dataset["bwCourse"]}`) || "{}");
    for (const [name, plain] of [["scheme", "device"], ["size", "100"], ["spacing", "normal"], ["figures", "normal"]]) {
      const value = kept[String(name)];
      if (typeof value === "string" && value !== plain) root.setAttribute(`data-bw-${name}`, value);
    }
  } catch {
    // Storage refused, or holding something else: the device's own settings are shown.
  }
})();
