"""In products and quotients columns go by number in the moves, and what tells which beads are set names them so too."""

from pathlib import Path

from bs4 import BeautifulSoup

from beadwright.render import load_words
from beadwright.render.items import PracticePage
from tests.support.practice_pages import load_lesson

ITEMS = """
- {id: next, ask: next-move, problem: 27 * 4, at: 9}
- {id: out, ask: carry-out, problem: 36 * 4}
- {id: slip, ask: find-slip, problem: 34 * 2, slip: no-0-held}
- {id: sum, ask: next-move, problem: 48 + 7, at: 3}
"""


def test_figures_frames_and_readings_name_columns_as_the_moves_do(tmp_path: Path) -> None:
    loaded = load_lesson(tmp_path, ITEMS)
    page = PracticePage(load_words("en"), loaded.lesson.id)
    html = "".join(str(page.render_practice(practice)) for practice in loaded.practices)
    soup = BeautifulSoup(html, "html.parser")
    text = {item["id"]: item.get_text(" ", strip=True) for item in soup.select("bw-item")}
    assert "column 4: 2 lower beads" in text["item-next"]
    assert "After this step: in column 4: 3 lower beads." in text["item-slip"]
    for name in ("next", "out", "slip"):
        assert " tens" not in text[f"item-{name}"].replace("for its tens", "")
    assert "on the tens 4 lower beads" in text["item-sum"].lower()
