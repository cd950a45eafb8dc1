"""The facilitators' own pages: keys and slips that are true, sheets that fit the report, nothing of it for learners."""

import re
from io import BytesIO
from pathlib import Path

import pytest
import yaml
from pdfminer.high_level import extract_text

from beadwright.course import load_course
from beadwright.records import load_visits
from beadwright.render import LessonLink, load_words, write_trainer_pages
from beadwright.render.editions import EditionStyle, LessonEditions, make_trainer_sheets
from beadwright.render.pages import Page
from beadwright.render.print import PrintStyle
from beadwright.site.lessons import LessonStore, build_recipe
from beadwright.site.pages import build_pages
from beadwright.site.rounds import RoundStore
from tests.support import ROOT

LOADED = load_course(ROOT / "content")
PLAIN_STYLE = EditionStyle(braille=False, large_print=False, sound=False)
LINKS = [LessonLink(lesson, n, f"{lesson.id}.html") for n, lesson in enumerate(LOADED.lessons, start=1)]
OBJECTIVES = [objective.text for lesson in LOADED.lessons for objective in lesson.objectives]
PLAIN = re.compile(r"[\d,]+(?: [+−×] [\d,]+)+")


@pytest.fixture(scope="module")
def pages() -> dict[str, Page]:
    assert LOADED.course is not None
    return write_trainer_pages(LOADED.course, LINKS, load_words("en"))


def work_out(problem: str) -> int:
    """What Python makes of a problem, not we."""
    assert PLAIN.fullmatch(problem), problem
    value: int = eval(problem.replace("−", "-").replace("×", "*").replace(",", ""))
    return value


def read_rows(page: Page) -> list[list[str]]:
    lines = [line for line in page.markdown.splitlines() if line.startswith("| ") and not line.startswith("| ---")]
    return [[cell.strip() for cell in line.strip("|").split(" | ")] for line in lines]


def test_keys_of_plain_problems_are_what_arithmetic_says(pages: dict[str, Page]) -> None:
    rows = [row for row in read_rows(pages["facilitators/keys.md"]) if len(row) == 4 and PLAIN.fullmatch(row[2])]
    answers = [(row[2], found[1]) for row in rows if (found := re.fullmatch(r"Answer: ([\d,]+)\.", row[3]))]
    assert len(answers) > 50
    assert [row for row in answers if work_out(row[0]) != int(row[1].replace(",", ""))] == []


def test_every_lesson_with_items_has_keys(pages: dict[str, Page]) -> None:
    for number, lesson in enumerate(LOADED.lessons, start=1):
        if any(placed.item for placed in lesson.items()):
            assert f"## {number}. " in pages["facilitators/keys.md"].markdown


def test_slips_come_out_wrong_and_the_frame_shows_it(pages: dict[str, Page]) -> None:
    page = pages["facilitators/slips.md"]
    told = re.findall(r"^(.+) comes out as (.+) in place of (.+)\. Step \d+", page.markdown, re.MULTILINE)
    assert len(told) > 15
    for problem, wrong, right in told:
        assert wrong != right
        if PLAIN.fullmatch(problem):
            assert work_out(problem) == int(right.replace(",", ""))
    frames = [html for name, html in page.slots.items() if name != "shapes"]
    assert len(frames) == len(told)
    for (_, wrong, _), html in zip(told, frames, strict=True):
        assert f"A student’s frame: {wrong}" in html


def test_timings_are_the_lessons_own(pages: dict[str, Page]) -> None:
    said = [
        int(minutes)
        for minutes in re.findall(r"^(\d+) minutes in all", pages["facilitators/timings.md"].markdown, re.M)
    ]
    assert said == [lesson.minutes for lesson in LOADED.lessons]


def test_the_checklist_has_every_objective(pages: dict[str, Page]) -> None:
    rows = [row[0] for row in read_rows(pages["facilitators/checklist.md"]) if len(row) == 4]
    assert [row for row in rows if row != "Skill"] == OBJECTIVES


@pytest.fixture(scope="module")
def sheets() -> dict[str, LessonEditions]:
    assert LOADED.course is not None
    style = EditionStyle(sound=False, cells=(40, 20), contracted=False, print_style=PrintStyle(size=24))
    return make_trainer_sheets(LOADED.course, LINKS, load_words("en"), style)


def read_file(made: LessonEditions, end: str) -> bytes:
    (found,) = [file.data for file in made.files if file.name.endswith(end)]
    return found


def test_sheets_to_fill_in_are_there_as_text_in_large_print_and_in_braille(sheets: dict[str, LessonEditions]) -> None:
    """Their text has no arithmetic, so each is the same in both codes and there once."""
    assert {name: [file.name for file in made.files] for name, made in sheets.items()} == {
        name: [f"{name}-nemeth-40.brf", f"{name}-nemeth-20.brf", f"{name}-print-24.pdf", f"{name}.txt"]
        for name in ("first-lesson", "observation", "checklist")
    }
    assert [made.faults for made in sheets.values()] == [(), (), ()]


def test_each_skill_has_its_places_in_every_form(sheets: dict[str, LessonEditions]) -> None:
    text = " ".join(read_file(sheets["checklist"], ".txt").decode().split())
    for objective in OBJECTIVES:
        assert f"{objective} With help: ___" in text
    count = len(OBJECTIVES)
    printed = " ".join(extract_text(BytesIO(read_file(sheets["checklist"], ".pdf"))).split())
    assert printed.count("With help:") == printed.count("Alone:") == printed.count("Again later:") == count
    for cells in (40, 20):
        lines = read_file(sheets["checklist"], f"-{cells}.brf").decode().replace("\f", "").split("\r\n")
        assert max(map(len, lines)) <= cells
        # By hand: "With help:", "Alone:", "Again later:" in uncontracted UEB; a capital is dot 6, a colon dots 25.
        for label in ("  ,WITH HELP3", "  ,ALONE3", "  ,AGAIN LATER3"):
            assert lines.count(label) == count


def test_every_line_to_be_scored_has_room_for_its_score(sheets: dict[str, LessonEditions]) -> None:
    lines = load_words("en").items("facilitators.observation.scores")
    lines += load_words("en").items("facilitators.observation.support")
    text = " ".join(read_file(sheets["observation"], ".txt").decode().split())
    for line in lines:
        assert f"{line} Score, 0 to 3: ___" in text


def test_a_student_writes_in_another_code_than_the_course() -> None:
    """Where a skill has arithmetic in it, its sheet comes in both codes."""
    assert LOADED.course is not None
    first = LOADED.lessons[0]
    asked = first.objectives[0].model_copy(update={"text": "Work 48 + 37 on the frame"})
    lesson = first.model_copy(update={"objectives": (asked,)})
    style = EditionStyle(sound=False, large_print=False)
    made = make_trainer_sheets(LOADED.course, [LessonLink(lesson, 1, "one.html")], load_words("en"), style)
    assert b"#48+37" in read_file(made["checklist"], "-nemeth-40.brf")
    assert b'#DH"6#CG' in read_file(made["checklist"], "-ueb-40.brf")


def test_the_lines_of_the_observation_sheet_go_into_the_trainers_file(tmp_path: Path) -> None:
    words = load_words("en")
    visit = {
        "date": "2026-10-02",
        "learner": "Oda Pell",
        "scores": dict.fromkeys(words.items("facilitators.observation.scores"), 3),
        "support": dict.fromkeys(words.items("facilitators.observation.support"), 0),
    }
    text = yaml.safe_dump({"visits": [visit]}, allow_unicode=True).replace("'2026-10-02'", "2026-10-02")
    (tmp_path / "visits.yml").write_text(text, encoding="utf-8")
    assert len(load_visits(tmp_path / "visits.yml").visits[0].scores) == 8


def test_nothing_of_it_is_in_the_learners_edition(tmp_path: Path) -> None:
    def list_pages(*, for_trainers: bool) -> set[str]:
        assert LOADED.course is not None
        recipe = build_recipe(LOADED.course, LOADED, PLAIN_STYLE, for_trainers=for_trainers)
        lessons = LessonStore(recipe, tmp_path)
        rounds = RoundStore((), lessons)
        return set(build_pages(LOADED.course, LOADED, load_words("en"), lessons, rounds).uris)

    learners, trainers = list_pages(for_trainers=False), list_pages(for_trainers=True)
    own = {uri for uri in trainers if uri.startswith("facilitators/")}
    assert len(own) == 6
    assert learners == trainers - own
