"""How heavy a long lesson with its data is: six worked examples and forty items, beyond the theme's files."""

import gzip
from pathlib import Path

from bs4 import BeautifulSoup

from tests.bench.courses import write_course, write_lesson
from tests.support.building import build_site
from tests.support.carried import find_data

MOST_RAW = 1_500_000
MOST_PACKED = 200_000


def test_a_lesson_of_six_examples_and_forty_items_is_light(tmp_path: Path) -> None:
    config = write_course(tmp_path, 1)
    (lesson,) = (tmp_path / "content" / "modules").iterdir()
    lesson.write_text(write_lesson(1, walkthroughs=6, items=40), encoding="utf-8")
    build_site(config, tmp_path / "site")
    path = tmp_path / "site" / "modules" / "lesson-1.html"
    page, data = path.read_bytes(), find_data(path).read_bytes()
    soup = BeautifulSoup(page, "html.parser")
    assert len(soup.select(".bw-walkthrough")) >= 6
    assert len(soup.select("bw-item")) == 40
    assert len(data) > len(page) / 2
    assert len(page) + len(data) <= MOST_RAW
    assert len(gzip.compress(page)) + len(gzip.compress(data)) <= MOST_PACKED
