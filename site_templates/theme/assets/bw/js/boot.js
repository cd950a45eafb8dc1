"use strict";

// Runs before the first paint, so that a page never flashes in another scheme than the reader's. What is kept is read
// again by display.js; this file only sets it.
(() => {
  const root = document.documentElement;
  root.classList.add("bw-js");
  // A lesson that is opened at its beginning may arrive in pieces (arrival.js); should that fail, it is whole in a while.
  const [way] = /** @type {PerformanceNavigationTiming[]} */ (performance.getEntriesByType("navigation"));
  if (location.hash === "" && way?.type === "navigate") {
    root.classList.add("bw-arriving");
    setTimeout(() => root.classList.remove("bw-arriving"), 4000);
  }
  // The two faces of every page, asked for at once, so that text is seldom shown in another first. Not from a folder:
  // there a browser would complain, and nothing is far away.
  const own = /** @type {HTMLScriptElement} */ (document.currentScript).src;
  if (/^https?:/.test(own)) {
    for (const face of ["atkinson-hyperlegible-next", "bitter"]) {
      const href = new URL(`../fonts/${face}-latin-wght-normal.woff2`, own).href;
      document.head.append(Object.assign(document.createElement("link"), { rel: "preload", as: "font", crossOrigin: "", href }));
    }
  }
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
