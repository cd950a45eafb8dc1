"""Files of sheets and contests, whatever stands in them: findings with their place, or papers. Never a traceback."""

import time
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from beadwright.course import Finding
from beadwright.course.messages import MESSAGES
from beadwright.engine import EngineError
from beadwright.render import load_words
from beadwright.render.braille import Geometry
from beadwright.render.sheets import ContestSpec, Forms, SpecError, load_spec, make_contest, make_sheet

WORDS = load_words("en")
SILENT = Forms(geometry=Geometry(40, 25), sound=False)
SHEET = """\
title: Partner of 10
problems: ["48 + 37", "1/2 + 1/4"]
note: Work *slowly*.
frame: five-and-four
house_style: {trial: known}
vertical: yes
seed: 3
draws:
  - {operation: add, digits: [2, 2], needs: partner-of-10, count: 2}
  - {operation: divide, digits: [3, 1], quotient: 2, remainder: no, count: 1}
"""
CONTEST = """\
title: A small round
levels:
  - id: first
    title: First
    minutes: 5
    conditions: head
    sections: [print, heard]
    pause: 3
    tie_break: 1
    draws:
      - {operation: take, digits: [3, 2], count: 2}
"""
MANY = "{operation: add, digits: [2, 2], count: 60}, " * 40
LEVEL = "{id: l%d, title: L, minutes: 5, draws: [" + MANY + "], sections: [" + "print, " * 12 + "]}, "
TEN_LINES = "title: T\nlevels: [" + "".join(LEVEL % number for number in range(20)) + "]\n"


def load(folder: Path, text: str | bytes) -> tuple[Finding, ...]:
    """The findings of a file; none where papers come of it, or the engine says why there are none."""
    path = folder / "spec.yml"
    path.write_bytes(text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text)
    try:
        spec = load_spec(path)
        (make_contest if isinstance(spec, ContestSpec) else make_sheet)(spec, WORDS, SILENT)
    except SpecError as error:
        return error.findings
    except EngineError:
        pass
    return ()


def test_what_is_varied_here_is_sound(tmp_path: Path) -> None:
    assert load(tmp_path, SHEET) == load(tmp_path, CONTEST) == ()


def test_a_letter_that_a_form_has_no_sign_for_costs_that_form_alone(tmp_path: Path) -> None:
    (tmp_path / "spec.yml").write_text(SHEET.replace("Partner of 10", "小 Partner"), encoding="utf-8")
    spec = load_spec(tmp_path / "spec.yml")
    assert not isinstance(spec, ContestSpec)
    made = make_sheet(spec, WORDS, SILENT)
    assert {"sheet.txt", "key.txt", "teacher.txt"} <= set(made.files)
    assert any("sheet-print.pdf is not made" in line and "小" in line for line in made.missing)


def test_a_few_lines_cannot_ask_for_half_a_million_problems(tmp_path: Path) -> None:
    started = time.process_time()
    (finding,) = load(tmp_path, TEN_LINES)
    assert (finding.code, finding.line, finding.column) == ("sheet-problems", 2, 9)
    assert "found 576060" in finding.message
    assert time.process_time() - started < 20  # about one second


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "file-empty"),
        ("\x00", "file-character"),
        ("\ufeff" + SHEET, None),
        (SHEET.replace("\n", "\r\n"), None),
        (SHEET.replace("count: 2", "count: ٢"), "value-whole"),
        (SHEET.replace("seed: 3", f"seed: {'9' * 100_000}"), "value-whole"),
        (SHEET.replace("seed: 3", "seed: 10**100000"), "value-whole"),
        (SHEET.replace("48 + 37", f"{'9' * 100_000} + 1"), "problem-text"),
        (SHEET.replace("slowly", "x" * 400_000), "text-long"),
        (SHEET.replace("note: Work *slowly*.", f"note: {'[' * 20_000}"), "yaml-depth"),
        (SHEET.replace("seed: 3", "a: &a [x]\nb: &b [*a, *a]"), "yaml-anchor"),
        (SHEET.replace("note: Work *slowly*.", r'note: "\ud800"'), "text-character"),
        ("# " + "x" * 600_000, "file-big"),
        (SHEET.encode("utf-16"), "file-encoding"),
        (SHEET.replace("Partner", "Partn\xe9r").encode("latin-1"), "file-encoding"),
    ],
    ids=lambda value: repr(value)[:30],
)
def test_odd_files_are_told_or_taken(tmp_path: Path, text: str | bytes, code: str | None) -> None:
    found = {finding.code for finding in load(tmp_path, text)}
    assert found == set() if code is None else code in found


VALUES = st.sampled_from(
    [
        *("[]", "{}", "x", "''", "5", "-3", "no", "yes", "0", "1", "9", "60", "99999999999", "48 + 37", "1/2 + 1/4"),
        *("√1444", "954 ÷ 23", "12.5 × 0.4", "1 ÷ 7 to 30 places", "[1, 2]", "[9, 9, 9]", "*a", "&a b", "!t x", "1:30"),
        *("nine-bead", "{columns: 1}", "{columns: 26}", "multiply", "divide", "add-take", "find-slip", "runs-on"),
        *(
            "print",
            "nemeth",
            "ueb",
            "head",
            "es",
            "fr",
            "<b>",
            "#set x",
            "$x$",
            "\u202e",
            "²",
            "٣",
            "9" * 400,
            "|",
            "-",
        ),
    ]
)
LINES = [(text, number) for text in (SHEET, CONTEST) for number, line in enumerate(text.splitlines()) if ": " in line]


def find_values(line: str) -> list[tuple[int, int]]:
    """Where the single values of a line start and end."""
    starts = [
        at + 2 for at in range(len(line)) if line.startswith(": ", at) and line[at + 2 : at + 3] not in ("{", "[")
    ]
    return [(start, min(line.find(end, start) for end in ",}\n" if end in line[start:])) for start in starts]


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(LINES), st.integers(0, 9), VALUES)
@example(LINES[0], 0, "#set x")
def test_a_file_with_another_value_in_its_place(
    tmp_path_factory: pytest.TempPathFactory, place: tuple[str, int], which: int, value: str
) -> None:
    text, number = place
    lines = text.splitlines(keepends=True)
    values = find_values(lines[number]) or [(len(lines[number]) - 1, len(lines[number]) - 1)]
    start, end = values[which % len(values)]
    lines[number] = f"{lines[number][:start]}{value}{lines[number][end:]}"
    for finding in load(tmp_path_factory.getbasetemp(), "".join(lines)):
        assert finding.code in MESSAGES
        assert 1 <= finding.line <= len(lines) + 1


@settings(max_examples=80, deadline=None)
@given(st.sampled_from([SHEET, CONTEST]), st.integers(0, 300), st.integers(0, 20), st.text(max_size=6))
def test_a_file_with_a_piece_replaced(
    tmp_path_factory: pytest.TempPathFactory, text: str, start: int, length: int, piece: str
) -> None:
    for finding in load(tmp_path_factory.getbasetemp(), text[:start] + piece + text[start + length :]):
        assert finding.code in MESSAGES
