"""The report's first sentences, over cohorts whose truth is worked out by hand."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from bs4 import BeautifulSoup

from beadwright.records import build_report, read_cohort
from beadwright.records.outline import Outline
from beadwright.records.page import render_page
from beadwright.records.summary import summarize
from beadwright.render import load_words
from tests.records.making import make_attempt, make_record, write_records
from tests.records.test_report import OUTLINE, SUMS, make_item, rate

# Ten items, as nobody who answered fewer is called sure or unsure.
MANY = replace(SUMS, items=tuple(make_item(f"item-{number}", "see") for number in range(10)))
COURSE_OF_TEN = replace(OUTLINE, lessons=(MANY, *OUTLINE.lessons[1:]))
EN = load_words("en")


def answer(name: str, right: int, slip: str | None = None) -> list[dict[str, Any]]:
    """Ten answers, the first so many of them right, the others wrong by the slip."""
    return [make_attempt(f"{name}-{n}", f"item-{n}", n < right, slip=None if n < right else slip) for n in range(10)]


def make_all(folder: Path) -> Path:
    done = [{"lesson": name, "finished": "2026-11-03", "minutes": 41} for name in ("sums", "talk")]
    sure = [rate(when, item, 5) for when in ("before", "after") for item in ("add", "take")]
    unsure = [rate(when, item, value) for when, value in (("before", 1), ("after", 2)) for item in ("add", "take")]
    return write_records(
        folder,
        make_record("ada", *answer("ada", 10), lessons=done, ratings=unsure),
        make_record("bo", *answer("bo", 4, "exchange-dropped"), ratings=sure),
        make_record("cy", *answer("cy", 5, "exchange-dropped"), lessons=done[1:]),
        make_record("di", *answer("di", 9, "wrong-partner")),
        make_record("eb", *answer("eb", 9)),
        make_record("fu"),
    )


def tell(folder: Path, outline: Outline, **options: Any) -> list[tuple[str, tuple[str, ...]]]:
    report = build_report(read_cohort(folder, outline), outline, **options)
    return [(point.text, point.listed) for point in summarize(report, EN)]


def test_it_says_who_is_done_what_to_teach_again_and_whom_to_talk_to(tmp_path: Path) -> None:
    told = dict(tell(make_all(tmp_path), COURSE_OF_TEN))
    # Done by lessons: ada 2, cy 1, the others 0: three of six have the middle one or more.
    assert "Done with all 2 lessons: 1 of 6 learners; with none yet: 4. Half of them have done 0 or more." in told
    # The dropped exchange happened to two people; what happened to one alone is not named.
    again = told["To teach again first, the slips that happened to most people:"]
    assert [line.split(":")[0] + line.rpartition(";")[2] for line in again] == ["“Sums” 2 people"]
    # 8 of 10 are asked for: ada, di and eb of the five who began have shown it.
    assert told["Objectives that the fewest of those who began have shown:"] == ("“Sums”: See it; 3 of 5",)
    assert told["One person is sure and not yet right. Talk first to:"] == ("Name of bo",)
    assert told["One person is right and unsure, and can be encouraged:"] == ("Name of ada",)
    # ada from 1 to 2, bo 5 both times.
    assert "2 people rated themselves before and after: the mean went from 3 to 3.5 of 5 (p 1.000)." in told


def test_nobody_is_named_in_a_report_without_names(tmp_path: Path) -> None:
    told = tell(make_all(tmp_path), COURSE_OF_TEN, names=False)
    assert "Name of" not in repr(told)
    assert len(dict(told)["One person is sure and not yet right. Talk first to:"]) == 1


def test_a_cohort_of_nobody_has_no_summary(tmp_path: Path) -> None:
    assert tell(write_records(tmp_path), COURSE_OF_TEN) == []


def test_each_sentence_leads_to_its_table(tmp_path: Path) -> None:
    page = BeautifulSoup(
        render_page(build_report(read_cohort(make_all(tmp_path), COURSE_OF_TEN), COURSE_OF_TEN), EN), "lxml"
    )
    links = page.select("#short a")
    assert len(links) >= 5
    for link in links:
        section = page.select_one(str(link["href"]))
        assert section is not None
        assert link.text == section.select("h2")[0].text
