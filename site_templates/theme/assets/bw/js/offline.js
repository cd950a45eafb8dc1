"use strict";

// From a web host, where the trainer has turned it on, the course is kept on the device (the worker does that). Here is
// what a learner meets of it: a line at the foot once all is kept, and a notice when a newer version has been fetched.
// Nothing is loaded anew before she asks for it; what she has typed into items is kept as a draft, as always.
(() => {
  const { page, say } = window.beadwright;
  const workers = navigator.serviceWorker;
  const notice = document.getElementById("bw-newer");
  if (!notice || !/^https?:$/.test(location.protocol) || !workers) return;
  const LATER = `bw-offline-later:${page.course}`;
  let before = workers.controller;
  let asked = false;

  /** Put off until the tab is closed. */
  function isPutOff() {
    try {
      return sessionStorage.getItem(LATER) !== null;
    } catch {
      return false;
    }
  }

  function putOff() {
    showNotice(false);
    try {
      sessionStorage.setItem(LATER, "1");
    } catch {
      // It is then told again on the next page.
    }
  }

  /** @param {boolean} shown */
  function showNotice(shown) {
    notice?.classList.toggle("bw-open", shown);
    fill("bw-newer-text", shown ? say("offline.newer") : "");
  }

  /** @param {string} id @param {string} text */
  function fill(id, text) {
    const place = document.getElementById(id);
    if (place) place.textContent = text;
  }

  /** A round keeps nothing, so there nobody is offered to leave it. */
  function offerNewer() {
    if (!isPutOff() && document.querySelector("bw-round") === null) showNotice(true);
  }

  /** @param {ServiceWorkerRegistration} registration */
  function watchFor(registration) {
    const offer = () => {
      if (registration.waiting && workers.controller) offerNewer();
    };
    // The browser looks for a newer version by itself too, and may have found one by now.
    const follow = () => registration.installing?.addEventListener("statechange", offer);
    offer();
    follow();
    registration.addEventListener("updatefound", follow);
    document.getElementById("bw-newer-now")?.addEventListener("click", () => {
      asked = true;
      if (registration.waiting) registration.waiting.postMessage("take over");
      else location.reload();
    });
    document.getElementById("bw-newer-later")?.addEventListener("click", putOff);
  }

  workers.addEventListener("controllerchange", () => {
    if (asked) location.reload();
    else if (before) offerNewer(); // another tab has asked for it
    before = workers.controller;
  });
  workers.ready.then(() => fill("bw-kept", say("offline.kept")));
  // A link in the page would be a complaint on the console of every page opened from a folder.
  const manifest = notice.dataset["bwManifest"] ?? "";
  document.head.append(Object.assign(document.createElement("link"), { rel: "manifest", href: manifest }));
  window.addEventListener("load", () => {
    // Where a browser refuses, or the connection breaks off, the course works as it would without.
    workers.register(notice.dataset["bwWorker"] ?? "", { updateViaCache: "none" }).then(watchFor, () => undefined);
  });
})();
