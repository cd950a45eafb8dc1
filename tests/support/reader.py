"""A virtual screen reader in an open page: what would be spoken, as lines a person can read."""

from collections.abc import Iterable
from functools import cache
from pathlib import Path

from playwright.sync_api import Page

from tests.support import ROOT

SOURCE = ROOT / "tests/node/node_modules/@guidepup/virtual-screen-reader/lib/esm/index.browser.js"
TRANSCRIPTS = ROOT / "tests" / "browser" / "transcripts"
UNSAID = (
    *("paragraph", "end of paragraph", "strong", "end of strong"),
    *("status", "end of status", "alert", "polite: ", "assertive: "),
)
"""What no screen reader says by itself: the edges of plain text and of live regions."""
CLOSED = ("option, ", "end of combobox, ")
"""The choices of a closed list."""
CHOICES = ("radio, ", "checkbox, ")
"""Controls whose label stands beside them: screen readers say the two as one."""
GROUP = "group, "
"""A group; where its name is its own first text, a legend, screen readers say the two as one."""


@cache
def read_source() -> str:
    """The reader's source; `make node` installs it."""
    assert SOURCE.is_file(), "the virtual screen reader is missing: `make node` installs it"
    return SOURCE.read_text(encoding="utf-8")


class Reader:
    """Reads one part of a page, in order or following the focus, and writes down what it says.

    `lines` are the transcript: `> …` is what the learner does, every other line what is then spoken.
    """

    def __init__(self, page: Page, within: str) -> None:
        self.page = page
        self.lines: list[str] = []
        self._legend = ""
        # What is folded away no screen reader comes to; this one looks at roles alone and would.
        page.evaluate(
            "document.querySelectorAll('details:not([open]) > :not(summary)').forEach((one) => (one.hidden = true))"
        )
        # From a blob, because a page opened from a folder may import no file.
        page.evaluate(
            """async (source) => {
              const url = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
              window.reader = (await import(url)).virtual;
            }""",
            read_source(),
        )
        page.evaluate(
            "(within) => window.reader.start({ container: document.querySelector(within) })",
            within,
        )
        [self.opening] = self._take()

    def read_on(self, most: int = 200) -> None:
        """Read to the end of the part, one thing after the other."""
        self.lines.append("> read on to the end")
        for _ in range(most):
            self.page.evaluate("() => window.reader.next()")
            if f"end of {self.opening}" in self._take():
                return
        raise AssertionError(f"the end was not reached in {most} steps")

    def focus(self, selector: str, doing: str) -> None:
        """Come to an element by keyboard."""
        self.lines.append(f"> {doing}")
        self.page.evaluate("() => window.reader.clearSpokenPhraseLog()")
        self.page.locator(selector).first.focus()
        self._wait()

    def press(self, key: str, doing: str) -> None:
        """Press a key where the focus is."""
        self.lines.append(f"> {doing}")
        self.page.evaluate("() => window.reader.clearSpokenPhraseLog()")
        # By the reader's own keyboard: it says what became of the control, as screen readers do.
        self.page.evaluate("(key) => window.reader.press(key)", key)
        self._wait()

    def type(self, text: str) -> None:
        """Type a text; each key's echo is left out."""
        self.lines.append(f"> type {text}")
        self.page.keyboard.type(text)
        self.page.wait_for_timeout(100)
        self.page.evaluate("() => window.reader.clearSpokenPhraseLog()")

    def choose(self, selector: str, doing: str) -> None:
        """Choose a radio or tick a box; how it was marked up is all that this reader tells of its state."""
        self.lines.append(f"> choose {doing}")
        self.page.locator(selector).check()
        self.page.wait_for_timeout(100)
        self.page.evaluate("() => window.reader.clearSpokenPhraseLog()")

    def hold(self, name: str) -> None:
        """Compare with the stored transcript; the first difference is the message."""
        said = "\n".join(self.lines) + "\n"
        path: Path = TRANSCRIPTS / f"{name}.txt"
        kept = path.read_text(encoding="utf-8") if path.exists() else ""
        assert said == kept, f"{path.name} differs; what was said:\n{said}"

    def _wait(self) -> None:
        self.page.wait_for_timeout(250)
        self._take()

    def _take(self) -> list[str]:
        spoken = self._clear()
        self._write(spoken)
        return spoken

    def _clear(self) -> list[str]:
        """What has been spoken since the last time."""
        spoken: list[str] = self.page.evaluate("() => window.reader.spokenPhraseLog()")
        self.page.evaluate("() => window.reader.clearSpokenPhraseLog()")
        return spoken

    def _write(self, spoken: Iterable[str]) -> None:
        for phrase in spoken:
            last = self.lines[-1] if self.lines else ""
            if last == f"{GROUP}{phrase}":
                self._legend = f"end, {phrase}"
            elif phrase in self._legend:  # a part of it, or its end
                continue
            elif not self._is_unsaid(phrase, last):
                self._legend = ""
                self.lines.append(phrase)

    def _is_unsaid(self, phrase: str, last: str) -> bool:
        labels = last.startswith(CHOICES) and f", {phrase}," in last
        return phrase in UNSAID or phrase.startswith(CLOSED) or labels
