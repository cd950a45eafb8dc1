"use strict";

(() => {
  const { say } = window.beadwright;

  /**
   * The course menu where it folds away: focus goes in when it opens; Escape closes it and gives the focus back.
   * Closed it is not displayed at all, so that nothing in it can be reached.
   * @param {HTMLElement} button
   * @param {HTMLElement} menu
   */
  function prepareMenu(button, menu) {
    /** @param {boolean} open */
    function setOpen(open) {
      menu.classList.toggle("bw-open", open);
      button.setAttribute("aria-expanded", String(open));
    }

    function findFirstStop() {
      const stop = menu.querySelector("[aria-current=page]") || menu.querySelector("a, summary");
      return stop instanceof HTMLElement ? stop : null;
    }

    button.addEventListener("click", () => {
      const open = button.getAttribute("aria-expanded") !== "true";
      setOpen(open);
      if (open) findFirstStop()?.focus();
    });
    /** @param {KeyboardEvent} event */
    function closeOnEscape(event) {
      if (event.key !== "Escape" || button.getAttribute("aria-expanded") !== "true") return;
      setOpen(false);
      button.focus();
    }
    menu.addEventListener("keydown", closeOnEscape);
    button.addEventListener("keydown", closeOnEscape);
    // A link to a section of this page: the menu would stand between the reader and that section.
    menu.addEventListener("click", (event) => {
      if (event.target instanceof Element && event.target.closest("a[href^='#']")) setOpen(false);
    });
  }

  /**
   * A button that opens a dialog; every [data-bw-close] inside closes it. The browser moves the focus in and back.
   * @param {string} name
   */
  function prepareDialog(name) {
    const button = document.getElementById(`bw-${name}-button`);
    const dialog = document.getElementById(`bw-${name}`);
    if (!button || !(dialog instanceof HTMLDialogElement)) return;
    button.addEventListener("click", () => {
      dialog.showModal();
      // Not the attribute autofocus: a browser complains of it on every page that is opened at one of its parts.
      /** @type {HTMLElement | null} */ (dialog.querySelector("input[type=search]"))?.focus();
    });
    for (const close of dialog.querySelectorAll("[data-bw-close]")) {
      close.addEventListener("click", () => dialog.close());
    }
    dialog.addEventListener("click", (event) => {
      if (event.target === dialog && !isInside(dialog, event)) dialog.close();
    });
  }

  /**
   * Whether a click fell on the dialog's own sheet; what falls beside it lies on its backdrop.
   * @param {HTMLElement} dialog
   * @param {MouseEvent} event
   */
  function isInside(dialog, event) {
    const box = dialog.getBoundingClientRect();
    return event.clientX >= box.left && event.clientX <= box.right && event.clientY >= box.top && event.clientY <= box.bottom;
  }

  /**
   * A table or listing wider than the text scrolls in a box of its own, named and reachable by keyboard while it does.
   * @param {HTMLElement} wide
   * @param {string} word
   */
  function boxWide(wide, word) {
    const box = document.createElement("div");
    box.className = "bw-scroll";
    wide.replaceWith(box);
    box.append(wide);
    nameWhileScrolling(box, wide.querySelector("caption")?.textContent || say(word));
  }

  /** @param {HTMLElement} box @param {string} name */
  function nameWhileScrolling(box, name) {
    new ResizeObserver(() => {
      const scrolls = box.scrollWidth > box.clientWidth;
      box.toggleAttribute("tabindex", scrolls);
      if (scrolls) {
        box.tabIndex = 0;
        box.setAttribute("role", "group");
        box.setAttribute("aria-label", name);
      } else {
        box.removeAttribute("role");
        box.removeAttribute("aria-label");
      }
    }).observe(box);
  }

  /**
   * A menu longer than the window starts where the reader is. Only the menu moves: `scrollIntoView` would move the page.
   * @param {HTMLElement} menu
   */
  function showHere(menu) {
    const here = menu.querySelector("[aria-current=page]");
    if (!here || menu.scrollHeight <= menu.clientHeight) return;
    const down = here.getBoundingClientRect().top - menu.getBoundingClientRect().top;
    menu.scrollTop += down - menu.clientHeight / 3;
  }

  const button = document.getElementById("bw-menu-button");
  const menu = document.getElementById("bw-nav");
  if (button && menu) prepareMenu(button, menu);
  // Once the page is laid out: to ask for a place before would lay it out for that alone.
  if (menu) {
    new ResizeObserver((_, watched) => {
      watched.disconnect();
      showHere(menu);
    }).observe(menu);
  }
  prepareDialog("search");
  prepareDialog("display");
  for (const table of document.querySelectorAll(".bw-prose table")) {
    if (table instanceof HTMLElement) boxWide(table, "shell.scroll_table");
  }
  for (const listing of document.querySelectorAll(".bw-prose pre:not(.bw-cells)")) {
    if (listing instanceof HTMLElement) boxWide(listing, "shell.scroll_text");
  }
  for (const cells of document.querySelectorAll(".bw-cells-pages")) {
    const name = cells.closest("details")?.querySelector("summary")?.textContent ?? "";
    if (cells instanceof HTMLElement) nameWhileScrolling(cells, name.trim());
  }
})();
