"""Contests and sheets: never a problem twice, sections alike, the same files again, keys by exact arithmetic."""

import json
import re
from collections import Counter
from fractions import Fraction
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest
from pdfminer.high_level import extract_text

from beadwright.cli import main
from beadwright.engine import MethodError, Product, Quotient, Sum
from beadwright.render import load_words
from beadwright.render.braille import Geometry
from beadwright.render.sheets import (
    ContestSpec,
    Event,
    Forms,
    SheetSpec,
    SpecError,
    build_event,
    build_home_round,
    build_sheet_problems,
    load_spec,
    make_contest,
    make_sheet,
)
from tests.support import ROOT

WORDS = load_words("en")
SHIPPED = ROOT / "content" / "contest" / "friendly-round.yml"
SILENT = Forms(sound=False)
SHEET = """\
title: Partner of 10
problems: ["48 + 37", "1/2 + 1/4"]
note: Work *slowly*.
draws:
  - {operation: add, digits: [2, 2], needs: partner-of-10, count: 4, ban: [48 + 37]}
  - {operation: multiply, digits: [2, 1], count: 2, places: 1}
  - {operation: divide, digits: [3, 1], quotient: 2, remainder: no, count: 2}
"""


@pytest.fixture(scope="module")
def event() -> Event:
    spec = load_spec(SHIPPED)
    assert isinstance(spec, ContestSpec)
    return build_event(spec)


def write(folder: Path, text: str) -> Path:
    path = folder / "sheet.yml"
    path.write_text(text, encoding="utf-8")
    return path


def test_no_problem_comes_twice_in_an_event(event: Event) -> None:
    asked = [w.problem for level in event.levels for section in level.sections for w in section.problems]
    ties = [w.problem for level in event.levels for w in level.tie_break]
    texts = [str(problem) for problem in (*asked, *ties)]
    assert len(texts) == len(set(texts)) == 4 * (8 + 8 + 6) + 9


def test_sections_of_a_level_need_the_same_techniques_in_the_same_amounts(event: Event) -> None:
    for level in event.levels:
        counted = []
        for section in level.sections:
            amounts: Counter[str] = Counter()
            for walkthrough in section.problems:
                steps = [
                    s for s in walkthrough.steps if s.technique is not None and s.technique not in ("set", "clear")
                ]
                amounts.update(str(step.technique) for step in steps)
                amounts["runs-on"] += sum(step.runs_on for step in steps)
            counted.append(amounts)
        assert all(amounts == counted[0] for amounts in counted), level.spec.id
        assert level.widest_difference == 0


def test_sections_of_long_problems_are_as_even_as_they_can_be_made() -> None:
    level = {"id": "a", "title": "A", "minutes": 30, "grade": 6}
    built = build_event(ContestSpec.model_validate({"title": "G", "levels": [level]})).levels[0]
    most = max(amounts["digits"] for amounts in built.compare_sections())
    assert built.widest_difference <= 0.05 * most


def test_another_seed_gives_other_problems(event: Event) -> None:
    other = build_event(event.spec.model_copy(update={"seed": 2}))
    first, second = (
        {str(w.problem) for level in e.levels for s in level.sections for w in s.problems} for e in (event, other)
    )
    assert first != second


def test_too_few_problems_are_reported_with_level_and_draw() -> None:
    level = {"id": "tiny", "title": "T", "minutes": 5, "draws": [{"operation": "add", "digits": [1, 1], "count": 50}]}
    with pytest.raises(MethodError, match=r"level tiny, draw 1: Only .* can be drawn"):
        build_event(ContestSpec.model_validate({"title": "T", "levels": [level]}))


def test_the_files_of_a_contest_are_the_same_each_time_and_complete(event: Event) -> None:
    made, _ = make_contest(event.spec, WORDS, SILENT)
    again, _ = make_contest(event.spec, WORDS, SILENT)
    assert made.files == again.files
    assert made.missing == []
    for level in ("first", "second", "head"):
        for name in ("print-1.pdf", "nemeth-1.brf", "ueb-1.brf", "heard-1-script.txt", "tie-break.txt", "fairness.txt"):
            assert f"{level}/{name}" in made.files
        for medium in ("print", "nemeth", "ueb", "heard"):
            for form in (".txt", "-print.pdf", "-nemeth.brf", "-ueb.brf"):
                assert f"{level}/{medium}-1-key{form}" in made.files


def test_each_section_reads_its_own_problems_and_no_answers(event: Event) -> None:
    made, _ = make_contest(event.spec, WORDS, SILENT)
    level = event.levels[0]
    section = level.sections[1]
    assert section.medium == "nemeth"
    paper = made.files["first/nemeth-1.brf"].decode("ascii")
    for number, walkthrough in enumerate(section.problems, start=1):
        line = f"#{number}_4 #{str(walkthrough.problem).replace(' ', '')}"
        assert line in paper
    assert ".K" not in paper


def test_the_script_says_every_problem_with_its_pauses(event: Event) -> None:
    made, _ = make_contest(event.spec, WORDS, SILENT)
    script = " ".join(made.files["first/heard-1-script.txt"].decode().split())
    section = next(section for section in event.levels[0].sections if section.medium == "heard")
    assert len(re.findall(r"Problem \d+\.", script)) == len(section.problems)
    assert script.count("(pause: 25 seconds)") == len(section.problems)
    assert "At the end of each line pause 3 seconds." in script
    assert not re.search(r"plus \d", script)
    lines = made.files["first/heard-1-script.txt"].decode().splitlines()
    start = lines.index("Problem 1.")
    assert lines[start + 1 : start + 4] == ["  twenty-four", "  plus one", "  (pause: 25 seconds)"]


def test_a_problem_of_the_script_stays_on_its_braille_page(event: Event) -> None:
    made, _ = make_contest(event.spec, WORDS, SILENT)
    for page in made.files["second/heard-1-script.brf"].decode("ascii").split("\f"):
        assert page.count(",PROBLEM #") == page.count('"<PAUSE3 #CJ SECONDS">')


def test_the_score_sheet_counts_points_and_places(event: Event) -> None:
    made, _ = make_contest(event.spec, WORDS, SILENT)
    book = openpyxl.load_workbook(BytesIO(made.files["scores.xlsx"]))
    assert book.sheetnames == ["First level", "Second level", "In the head"]
    sheet = book["First level"]
    heads = [cell.value for cell in sheet[1]]
    assert heads == ["Name", "Section", *map(str, range(1, 9)), "Points", "Tie", "Place", "Notes", None, "Sections"]
    assert sheet["K2"].value == '=IF($A2="","",SUM(C2:J2))'
    assert sheet["M2"].value.startswith('=IF($A2="","",1+COUNTIF(K$2:K$25,">"&K2)')
    rules = {str(rule.sqref): rule.type for rule in sheet.data_validations.dataValidation}
    assert rules == {"B2:B25": "list", "C2:J25": "whole"}
    assert sheet.freeze_panes == "B2"
    choice = next(rule.formula1 for rule in sheet.data_validations.dataValidation if rule.type == "list")
    assert choice == "$P$2:$P$5"
    # A name with a comma in it stays one name to choose.
    assert [row[0].value for row in sheet["P2:P5"]] == ["large print", "braille, Nemeth Code", "braille, UEB", "heard"]


@pytest.mark.parametrize(
    ("title", "named"),
    [
        ("Paper of the second graders' group", "Paper of the second graders"),  # no name ends in an apostrophe
        ("\U0001f9ee" * 30, "\U0001f9ee" * 14),  # two units of UTF-16 each, and a name has at most 31
        ("a" + "\U0001f9ee" * 30, "a" + "\U0001f9ee" * 13),
        ("'" * 40, "1"),
    ],
)
def test_the_score_sheet_takes_any_title(tmp_path: Path, title: str, named: str) -> None:
    text = json.dumps(title, ensure_ascii=False)
    level = "  - {id: %s, title: %s, minutes: 5, sections: [ueb], draws: [{operation: add, digits: 1}]}\n"
    spec = load_spec(write(tmp_path, f"title: T\nlevels:\n{level % ('a', text)}{level % ('b', text)}"))
    assert isinstance(spec, ContestSpec)
    made, _ = make_contest(spec, WORDS, SILENT)
    book = openpyxl.load_workbook(BytesIO(made.files["scores.xlsx"]))
    assert book.sheetnames == [named, f"{named} 2"]


PINNED = """\
title: T
levels:
  - id: a
    title: A
    minutes: 5
    sections: [print, ueb, heard]
    tie_break: 2
    draws:
      - {operation: divide, digits: [3, 1], count: 3, pin: [5 ÷ 8 to 2 places]}
      - {operation: add, digits: [2, 1], count: 2, pin: [11 + 7, 12 + 8]}
  - {id: b, title: B, minutes: 5, sections: [print], draws: [{operation: add, digits: [2, 1], count: 60}]}
"""


def test_a_pinned_problem_is_in_every_section_and_nowhere_else(tmp_path: Path) -> None:
    spec = load_spec(write(tmp_path, PINNED))
    assert isinstance(spec, ContestSpec)
    first, second = build_event(spec).levels
    pins = ["5 ÷ 8 to 2 places", "11 + 7", "12 + 8"]
    for section in first.sections:
        texts = [str(walkthrough.problem) for walkthrough in section.problems]
        assert texts[0] == pins[0]
        assert texts[3:] == pins[1:]
        assert len(texts) == 5
    others = [w for s in (*first.sections, *second.sections) for w in s.problems] + [*first.tie_break]
    drawn = [text for text in map(str, (w.problem for w in others)) if text not in pins]
    assert len(drawn) == len(set(drawn)) == 3 * 2 + 60 + 2
    # Whoever works a round like it alone meets none of its problems.
    (home, _) = build_home_round("spring.yml", spec).levels
    assert not {str(w.problem) for problems in home.sets for w in problems} & {*pins, *drawn}


def test_a_problem_pinned_twice_in_a_level_is_told(tmp_path: Path) -> None:
    spec = load_spec(write(tmp_path, PINNED.replace("12 + 8", "11 + 7")))
    assert isinstance(spec, ContestSpec)
    with pytest.raises(MethodError, match=r"level a pins 11 \+ 7 2 times"):
        build_event(spec)


def test_a_sheet_has_all_its_pinned_problems_and_as_many_as_it_says(tmp_path: Path) -> None:
    draw = "{operation: divide, digits: [2, 1], quotient: 2, remainder: no, count: 4, pin: [96 ÷ 4, 5 ÷ 8 to 2 places]}"
    spec = load_spec(write(tmp_path, f"title: T\ndraws: [{draw}]\n"))
    assert isinstance(spec, SheetSpec)
    texts = [str(walkthrough.problem) for walkthrough in build_sheet_problems(spec)]
    assert texts[:2] == ["96 ÷ 4", "5 ÷ 8 to 2 places"]
    assert len(texts) == len(set(texts)) == 4


def test_a_sheet_has_given_and_drawn_problems_each_once(tmp_path: Path) -> None:
    spec = load_spec(write(tmp_path, SHEET))
    assert isinstance(spec, SheetSpec)
    worked = build_sheet_problems(spec)
    texts = [str(w.problem) for w in worked]
    assert texts[:2] == ["48 + 37", "1/2 + 1/4"]
    assert len(texts) == len(set(texts)) == 10
    decimals = [w.problem for w in worked if isinstance(w.problem, Product)]
    assert [(problem.first.places, problem.second.places) for problem in decimals] == [(1, 0)] * 2
    for problem in (w.problem for w in worked if isinstance(w.problem, Quotient)):
        assert problem.dividend.units % problem.divisor.units == 0
        assert 10 <= problem.dividend.units // problem.divisor.units <= 99


def test_the_key_is_what_exact_arithmetic_gives(tmp_path: Path) -> None:
    spec = load_spec(write(tmp_path, SHEET))
    assert isinstance(spec, SheetSpec)
    key = make_sheet(spec, WORDS, SILENT).files["key.txt"].decode()
    checked = 0
    for worked in build_sheet_problems(spec):
        problem = worked.problem
        exact: Fraction | None = None
        if isinstance(problem, Sum):
            exact = sum((t.number.exact if t.sign == "+" else -t.number.exact for t in problem.terms), Fraction(0))
        elif isinstance(problem, Product | Quotient):
            exact = problem.exact
        if exact is not None:
            line = next(line for line in key.splitlines() if str(problem).replace("-", "−") in line)
            assert Fraction(line.partition("= ")[2].replace(",", "")) == exact
            checked += 1
    assert checked == 9


def test_the_teachers_page_says_what_each_problem_needs(tmp_path: Path) -> None:
    spec = load_spec(write(tmp_path, SHEET))
    assert isinstance(spec, SheetSpec)
    page = make_sheet(spec, WORDS, SILENT).files["teacher.txt"].decode()
    # 4 + 3 is five less two, and 8 + 7 is ten less three.
    assert "Problem: 1. 48 + 37; Answer: 85; Needs: partner of 5: 1, partner of 10: 1" in page
    assert page.count("Needs:") == 10


def test_a_vertical_sheet_stands_in_columns(tmp_path: Path) -> None:
    spec = load_spec(write(tmp_path, "title: T\nvertical: yes\nproblems: 48 + 37\n"))
    assert isinstance(spec, SheetSpec)
    sheet = make_sheet(spec, WORDS, SILENT).files["sheet-nemeth.brf"].decode("ascii")
    rows = [line.rstrip() for line in sheet.splitlines() if "48" in line or "37" in line or "333" in line]
    assert [row.lstrip() for row in rows] == ["#1_4    48", "+37", "33333"]


@pytest.mark.parametrize("vertical", ["yes", "no"])
def test_every_form_says_how_many_places_are_wanted(tmp_path: Path, vertical: str) -> None:
    spec = load_spec(write(tmp_path, f"title: T\nvertical: {vertical}\nproblems: [1 ÷ 8 to 2 places, 48 + 37]\n"))
    assert isinstance(spec, SheetSpec)
    files = make_sheet(spec, WORDS, SILENT).files
    read = {name: files[name].decode() for name in ("sheet.txt", "sheet-nemeth.brf", "sheet-ueb.brf")}
    read["print"] = extract_text(BytesIO(files["sheet-print.pdf"]))
    told = {name: re.search("to (2|#b) decimal places", " ".join(text.lower().split())) for name, text in read.items()}
    assert all(told.values()), told


def test_a_fault_in_the_file_is_told_with_its_place(tmp_path: Path) -> None:
    with pytest.raises(SpecError) as raised:
        load_spec(write(tmp_path, "title: T\nproblms: 48 + 37\n"))
    (finding,) = raised.value.findings
    assert (finding.line, finding.code) == (2, "key-unknown")


def test_the_command_writes_all_files(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = write(tmp_path, SHEET)
    assert main(["sheet", str(path), "--cells", "20", "--uncontracted", "--no-sound"]) == 0
    folder = tmp_path / "sheet"
    names = {file.name for file in folder.iterdir() if not file.name.startswith(".")}
    assert {"sheet-print.pdf", "sheet-nemeth.brf", "sheet-ueb.brf", "key.txt", "teacher.txt"} <= names
    assert max(map(len, (folder / "sheet-ueb.brf").read_text("ascii").splitlines())) <= 20
    assert f"Wrote {len(names)} files" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("title: T\nlevls: []\n", "levls"),
        ("title: T\n", "no problems"),
        ("title: T\nproblems: 12 - 48\n", "below zero"),
    ],
)
def test_the_command_says_what_is_wrong(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, said: str
) -> None:
    assert main(["sheet", str(write(tmp_path, text))]) == 1
    assert said in capsys.readouterr().err


def test_sound_of_a_heard_section_is_a_track_a_problem(event: Event) -> None:
    small = event.spec.levels[2].model_copy(update={"sections": ("heard",), "tie_break": 0, "answer_pause": 1})
    spec = event.spec.model_copy(update={"levels": (small,)})
    made, built = make_contest(spec, WORDS, Forms(geometry=Geometry(40, 25)))
    count = len(built.levels[0].sections[0].problems)
    tracks = sorted(name for name in made.files if name.endswith(".mp3"))
    assert tracks == [f"head/heard-1-sound/{number:02}.mp3" for number in range(count + 1)]
    assert "Work in your head." in made.files["head/heard-1-sound/00.txt"].decode()
    assert made.files["head/heard-1-sound/01.txt"].decode().startswith("Problem 1. ")
