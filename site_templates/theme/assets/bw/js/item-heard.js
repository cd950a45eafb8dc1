"use strict";

// Items that are heard: sound files where the build made them, else the browser's voice. Sound starts on a key press only,
// stops on another, and moves no focus, so that it never talks over a screen reader unasked.
(() => {
  const { say } = window.beadwright;
  const kinds = (window.beadwright.kinds ||= {});

  /** A voice for the language; none where the browser has none. @param {string} language */
  function findVoice(language) {
    const voices = typeof speechSynthesis === "undefined" ? [] : speechSynthesis.getVoices();
    const [short = ""] = language.split("-");
    return voices.find((voice) => voice.lang === language) ?? voices.find((voice) => voice.lang.startsWith(short)) ?? null;
  }

  /** Plays pieces one after another with a pause after each. */
  class Player {
    /** Ends what is being played. @type {AbortController | null} */
    #playing = null;

    get plays() {
      return this.#playing !== null;
    }

    stop() {
      this.#playing?.abort();
      this.#playing = null;
      if (typeof speechSynthesis !== "undefined") speechSynthesis.cancel();
    }

    /** Whether it came to the end. @param {readonly ((signal: AbortSignal) => Promise<void>)[]} pieces
     * @param {number} pause in seconds */
    async play(pieces, pause) {
      this.stop();
      const playing = (this.#playing = new AbortController());
      for (const piece of pieces) {
        await piece(playing.signal);
        if (playing.signal.aborted) return false;
        await wait(pause * 1000, playing.signal);
        if (playing.signal.aborted) return false;
      }
      this.#playing = null;
      return true;
    }
  }

  /** @param {number} milliseconds @param {AbortSignal} signal @returns {Promise<void>} */
  function wait(milliseconds, signal) {
    return new Promise((done) => {
      const timer = setTimeout(done, milliseconds);
      signal.addEventListener("abort", () => (clearTimeout(timer), done()), { once: true });
    });
  }

  /** @param {string} text @param {SpeechSynthesisVoice} voice */
  const speak = (text, voice) => (/** @type {AbortSignal} */ signal) =>
    /** @type {Promise<void>} */ (new Promise((done, fail) => {
      const spoken = new SpeechSynthesisUtterance(text);
      spoken.voice = voice;
      spoken.lang = voice.lang;
      spoken.rate = 0.9;
      spoken.onend = () => done();
      spoken.onerror = () => (signal.aborted ? done() : fail(new Error("the voice failed")));
      signal.addEventListener("abort", () => done(), { once: true });
      speechSynthesis.speak(spoken);
    }));

  /** @param {string} file */
  const sound = (file) => (/** @type {AbortSignal} */ signal) =>
    /** @type {Promise<void>} */ (new Promise((done, fail) => {
      const audio = new Audio(file);
      audio.onended = () => done();
      audio.onerror = () => fail(new Error(`cannot play ${file}`));
      signal.addEventListener("abort", () => (audio.pause(), done()), { once: true });
      audio.play().catch(fail);
    }));

  /** What is played of an entry, part by part: its sounds, else what the browser's voice says; nothing where it has none.
   * @param {BwEntry} entry */
  function findPieces({ sounds, said = [] }) {
    if (sounds && sounds.length > 0) return sounds.map((file) => sound(file));
    const voice = findVoice(document.documentElement.lang || "en");
    return voice ? said.map((text) => speak(text, voice)) : [];
  }

  /** What is said where the browser has no voice. */
  function sayNoVoice() {
    const language = document.documentElement.lang || "en";
    const names = new Intl.DisplayNames([language], { type: "language" });
    return say("practice.voice_none", { language: names.of(language) ?? "" });
  }

  /** @param {BwItem} item @returns {BwKind} */
  function buildHeard(item) {
    const fields = new window.beadwright.Fields(item);
    const player = new Player();
    const state = item.part(".bw-heard-state");
    const [play, stop] = [item.part("[data-bw-do=play]"), item.part("[data-bw-do=stop]")];
    const pause = /** @type {HTMLSelectElement} */ (item.part("select"));

    function showText() {
      const text = item.part(".bw-heard-text");
      if (text instanceof HTMLDetailsElement) text.open = true;
    }

    async function start() {
      const pieces = findPieces(item.entry);
      if (pieces.length === 0) {
        state.textContent = sayNoVoice();
        showText();
        return;
      }
      stop.setAttribute("aria-disabled", "false");
      state.textContent = "";
      try {
        if (!(await player.play(pieces, Number(pause.value)))) return;
        state.textContent = say("practice.played");
      } catch {
        player.stop();
        state.textContent = say("practice.voice_failed");
        showText();
      }
      play.textContent = say("practice.play_again");
      stop.setAttribute("aria-disabled", "true");
    }

    function halt() {
      player.stop();
      play.textContent = say("practice.play_again");
      stop.setAttribute("aria-disabled", "true");
      state.textContent = say("practice.stopped");
    }

    item.addEventListener("keydown", (event) => event.key === "Escape" && player.plays && halt());
    window.addEventListener("pagehide", () => player.stop());
    return {
      show() {
        player.stop();
        fields.clear();
        state.textContent = "";
        const text = item.part(".bw-heard-text");
        if (text instanceof HTMLDetailsElement) text.open = false;
      },
      act(task) {
        if (task === "play") void start();
        if (task === "stop") halt();
      },
      check() {
        const verdict = fields.judge(item.entry);
        if (!verdict) return;
        const told = { shown: item.entry.parts?.["shown"] ?? "", answer: item.entry.shown_key ?? "", response: fields.shown };
        const key = verdict.right ? "practice.right_answer" : "practice.wrong_answer";
        window.beadwright.tellVerdict(item, verdict, { right: verdict.right, verdict: say(key, told) });
      },
      draft: () => ({ ...fields.draft(), pause: pause.value }),
      restore(draft) {
        fields.restore(draft);
        const kept = String(draft["pause"] ?? "");
        if ([...pause.options].some((option) => option.value === kept)) pause.value = kept;
      },
      start: () => play,
    };
  }

  kinds["heard"] = buildHeard;
  window.beadwright = Object.assign(window.beadwright, { heard: { Player, findPieces, sayNoVoice } });
})();
