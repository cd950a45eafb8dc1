"""How heavy a long lesson is: six worked examples and forty items, beyond what the theme's own files weigh."""

import gzip
from pathlib import Path

from bs4 import BeautifulSoup

from tests.bench.courses import write_course, write_lesson
from tests.support.building import build_site

MOST_RAW = 1_500_000
MOST_PACKED = 200_000


def test_a_lesson_of_six_examples_and_forty_items_is_light(tmp_path: Path) -> None:
    config = write_course(tmp_path, 1)
    (lesson,) = (tmp_path / "content" / "modules").iterdir()
    lesson.write_text(write_lesson(1, walkthroughs=6, items=40), encoding="utf-8")
    build_site(config, tmp_path / "site")
    page = (tmp_path / "site" / "modules" / "lesson-1.html").read_bytes()
    soup = BeautifulSoup(page, "html.parser")
    assert len(soup.select(".bw-walkthrough")) >= 6
    assert len(soup.select("bw-item")) == 40
    assert len(page) <= MOST_RAW
    assert len(gzip.compress(page)) <= MOST_PACKED
