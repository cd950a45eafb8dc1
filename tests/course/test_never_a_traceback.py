"""Whatever bytes stand in a file: findings with a place in the file, or a sound course. Never an exception."""

import tempfile
import time
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from beadwright.course import Loaded, format_findings, load_course
from beadwright.course.messages import MESSAGES
from tests.course.writing import COURSE, HEAD, LESSON, write_course, write_item, write_lesson

EVERY_KIND = Path(__file__).with_name("every_kind.lesson.yml").read_text(encoding="utf-8")

# What YAML and our models make something of, so that chance reaches further than the first line.
PIECES = st.sampled_from(
    [
        *(
            "\n",
            "\n  ",
            "\n    ",
            "- ",
            ": ",
            "? ",
            ", ",
            "[",
            "]",
            "{",
            "}",
            "'",
            '"',
            "|",
            ">",
            "&a",
            "*a",
            "!!int ",
            "# ",
        ),
        *(
            "\t",
            "\r",
            "\x00",
            "\\",
            "\\U00110000",
            "---\n",
            "...\n",
            "%YAML 1.1\n",
            "<<",
            "~",
            "@",
            "`",
            "\u2028",
            "\ufeff",
        ),
        *(
            "title",
            "minutes",
            "needs",
            "objectives",
            "frame",
            "body",
            "text",
            "figure",
            "walkthrough",
            "practice",
            "items",
        ),
        *(
            "draw",
            "mix",
            "of",
            "ask",
            "problem",
            "digits",
            "operation",
            "add",
            "answer",
            "48 + 37",
            "1e999",
            "-1",
            "0",
            "9" * 400,
            ".5",
        ),
        *(
            "id",
            "reads",
            "beads",
            "caution",
            "rating",
            "before",
            "when",
            "options",
            "right",
            "nine-bead",
            "columns",
            "yes",
        ),
    ]
)
TEXTS = st.lists(PIECES | st.text(max_size=5), max_size=40).map("".join)
VALUES = st.sampled_from(
    [
        "",
        "[]",
        "{}",
        "x",
        "[x]",
        "{x: y}",
        "[[]]",
        "5",
        "-3",
        "no",
        "''",
        "48 + 37",
        "[1, 2]",
        "*a",
        "&a b",
        "!t x",
        "|",
        "1:30",
    ]
) | st.text(max_size=8)


def check_loaded(loaded: Loaded, content: Path) -> None:
    """Findings are well formed and point into their file; without any, there is a course."""
    for finding in loaded.findings:
        assert finding.code in MESSAGES
        assert finding.file.startswith("content/")
        path = content.parent / finding.file
        text = path.read_bytes().decode("utf-8", "replace") if path.is_file() else ""
        assert 1 <= finding.line <= text.replace("\r\n", "\n").replace("\r", "\n").count("\n") + 1
        assert finding.column >= 1
        assert "\x00" not in "".join(finding.path)
    format_findings(loaded.findings).encode("utf-8")
    assert loaded.findings != () or loaded.is_sound


def load_and_check(files: dict[str, str | bytes]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        content = write_course(Path(folder), files)
        check_loaded(load_course(content), content)


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=200), st.sampled_from(["course.yml", "glossary.yml", LESSON]))
def test_any_bytes(data: bytes, name: str) -> None:
    load_and_check({name: data})


@settings(max_examples=300, deadline=None)
@given(TEXTS, st.sampled_from(["course.yml", "glossary.yml", LESSON]))
@example('a: "\\UFFFFFFFF"', LESSON)
@example('"\\ud800": x', LESSON)
@example("%YAML 1.99999999999999999999\n---\na: 1", LESSON)
def test_any_text(text: str, name: str) -> None:
    load_and_check({name: text.encode("utf-8", "surrogatepass")})


@settings(max_examples=150, deadline=None)
@given(TEXTS)
def test_any_text_after_a_sound_lesson(text: str) -> None:
    load_and_check({LESSON: (write_lesson() + text).encode("utf-8", "surrogatepass")})


@settings(max_examples=150, deadline=None)
@given(st.integers(0, len(EVERY_KIND)), st.integers(0, 60), TEXTS)
def test_a_lesson_with_a_piece_replaced(start: int, length: int, text: str) -> None:
    broken = EVERY_KIND[:start] + text + EVERY_KIND[start + length :]
    load_and_check({LESSON: broken.encode("utf-8", "surrogatepass")})


LINES = EVERY_KIND.splitlines(keepends=True)
WITH_VALUE = [number for number, line in enumerate(LINES) if ": " in line]


@settings(max_examples=200, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(WITH_VALUE), VALUES), min_size=1, max_size=4))
def test_a_lesson_with_values_of_another_kind(changes: list[tuple[int, str]]) -> None:
    lines = list(LINES)
    for number, value in changes:
        key = lines[number].partition(": ")[0]
        lines[number] = f"{key}: {value}\n"
    load_and_check({LESSON: "".join(lines).encode("utf-8", "surrogatepass")})


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(COURSE.splitlines()), VALUES)
def test_a_course_with_a_value_of_another_kind(line: str, value: str) -> None:
    changed = COURSE.replace(line, f"{line.partition(': ')[0].rstrip(':')}: {value}")
    load_and_check({"course.yml": changed.encode("utf-8", "surrogatepass")})


MANY = {
    "brackets": "[" * 50_000,
    "braces": "{a: " * 50_000,
    "dashes": "- " * 50_000,
    "question marks": "? " * 50_000,
    "entries": "- a\n" * 40_000,
    "one key": "a: b\n" * 40_000,
    "keys": write_lesson() + "".join(f"k{number}: x\n" for number in range(30_000)),
    "blocks": write_lesson(body="- txt: x\n" * 30_000),
    "items": write_lesson(body="- practice:\n    id: p\n    title: P\n    items:\n" + "      - {ask: x}\n" * 20_000),
    "needs": write_lesson(head=f"{HEAD}needs: [{'n, ' * 60_000}]\n"),
    "a number": write_item(f"{{ask: set, reads: {'9' * 400_000}}}"),
    "a line": f"title: {'x' * 500_000}",
    "a sum": write_item(f"{{ask: answer, problem: {'1 + ' * 100_000}1}}"),
}


@pytest.mark.parametrize("name", MANY)
def test_half_a_megabyte_of_anything_is_told_within_seconds(name: str) -> None:
    started = time.process_time()
    load_and_check({LESSON: MANY[name]})
    assert time.process_time() - started < 20  # about one second; without its limits, minutes or forever
