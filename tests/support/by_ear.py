"""A learner who hears the course and has keys alone: real keys, and what is then spoken written down."""

from playwright.sync_api import Page

from tests.support.reader import Reader

LIVE = ("polite: ", "assertive: ")
# What is chosen is a property; the reader looks at attributes.
_MARK = """() => {
  for (const box of document.querySelectorAll('input:is([type=radio], [type=checkbox])')) {
    box.toggleAttribute('checked', box.checked);
  }
}"""
_SAY_AGAIN = "() => document.activeElement.dispatchEvent(new FocusEvent('focusin', { bubbles: true }))"


class Hearer(Reader):
    """Goes to an item by Tab, hears it, works it by keys."""

    def __init__(self, page: Page, item: str) -> None:
        self.item = item
        _tab_into(page, item)
        super().__init__(page, item)
        self.read_on()

    def tab_to(self, selector: str, doing: str, *, back: bool = False) -> None:
        """Press Tab, or Shift and Tab, until the focus is on what the selector names in the item."""
        self.lines.append(f"> {doing}")
        wanted = f"{self.item} {selector}"
        for _ in range(60):
            if self._is_on(wanted):
                self._hear()
                return
            self.page.keyboard.press("Shift+Tab" if back else "Tab")
        raise AssertionError(f"Tab does not come to {wanted}")

    def press(self, key: str, doing: str | None = None) -> None:
        """Press a key where the focus is."""
        self.lines.append(f"> {doing or f'press {key}'}")
        self.page.keyboard.press(key)
        self._hear()

    def go_on(self) -> None:
        """Press Tab from here until the item is left, hearing each stop."""
        for _ in range(60):
            self.lines.append("> tab on")
            self.page.keyboard.press("Tab")
            if not self._is_on(f"{self.item} *"):
                self.lines[-1] = "> tab on, out of the item"
                return
            self._hear()
        raise AssertionError(f"Tab does not leave {self.item}")

    def _is_on(self, selector: str) -> bool:
        return bool(self.page.evaluate("s => document.activeElement.matches(s)", selector))

    def _hear(self) -> None:
        """Write down what live regions said, and the control that has the focus as it is now."""
        self.page.wait_for_timeout(250)
        said = self._clear()
        self.page.evaluate(_MARK)
        self.page.evaluate(_SAY_AGAIN)
        control = self._clear()
        last = max((place for place, text in enumerate(said) if not text.startswith(LIVE)), default=len(said))
        live = [[text for text in part if text.startswith(LIVE)] for part in (said[:last], said[last:])]
        self._write([*live[0], *control, *live[1]])


def _tab_into(page: Page, item: str) -> None:
    """Press Tab from the head of the page until the focus is in the item."""
    for _ in range(900):
        page.keyboard.press("Tab")
        if page.evaluate("s => document.activeElement.matches(s)", f"{item} *"):
            return
    raise AssertionError(f"Tab does not come to {item}")
