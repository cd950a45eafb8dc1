"use strict";

// One file that holds every page of a course. A page is shown in a frame; links between pages are followed here, because
// a page without an address of its own cannot follow them.
(() => {
  /** @type {{ pages: Record<string, { title: string, parts: (string | number)[] }>, shared: string[], order: string[] }} */
  const course = JSON.parse(document.getElementById("bw-whole-data")?.textContent || "null");
  const frame = /** @type {HTMLIFrameElement} */ (document.getElementById("bw-whole-frame"));
  const choice = /** @type {HTMLSelectElement} */ (document.getElementById("bw-whole-choice"));
  let shown = "";
  let goal = "";

  /** @param {string} name */
  function build(name) {
    const parts = course.pages[name]?.parts ?? [];
    return parts.map((part) => (typeof part === "number" ? course.shared[part] : part)).join("");
  }

  /** @param {string} name @param {string} [place] an element's id */
  function show(name, place = "") {
    if (!course.pages[name]) return;
    shown = name;
    goal = place;
    choice.value = name;
    frame.srcdoc = build(name);
    document.title = frame.title = course.pages[name].title;
  }

  /** Where a link leads, seen from the page that is shown: a page of this file and a place in it; null for elsewhere.
   * @param {string} address */
  function resolve(address) {
    if (/^[a-z][a-z0-9+.-]*:/i.test(address)) return null;
    const found = new URL(address, `file:///${shown}`);
    const name = decodeURIComponent(found.pathname.slice(1));
    return course.pages[name] ? { name, place: decodeURIComponent(found.hash.slice(1)) } : null;
  }

  /** @param {MouseEvent} event */
  function follow(event) {
    const link = /** @type {Element} */ (event.target).closest?.("a[href]");
    if (!link || event.defaultPrevented) return;
    const address = link.getAttribute("href") ?? "";
    const target = resolve(address.startsWith("#") ? shown + address : address);
    if (!target) return;
    event.preventDefault();
    if (target.name === shown && target.place !== "") goTo(target.place);
    else show(target.name, target.place);
  }

  /** Scroll to a place as a browser would, and let reading go on from there. @param {string} place */
  function goTo(place) {
    const found = frame.contentDocument?.getElementById(place);
    if (!found) return;
    if (!found.matches("a[href], button, input, [tabindex]")) found.setAttribute("tabindex", "-1");
    found.focus({ preventScroll: true });
    found.scrollIntoView();
  }

  frame.addEventListener("load", () => {
    const inner = frame.contentDocument;
    if (!inner) return;
    inner.addEventListener("click", follow);
    if (goal !== "") goTo(goal);
  });
  choice.replaceChildren(
    ...course.order.map((name) => new Option(course.pages[name]?.title.split(" · ")[0] ?? name, name)),
  );
  choice.addEventListener("change", () => show(choice.value));
  show(course.order[0] ?? "");
})();
