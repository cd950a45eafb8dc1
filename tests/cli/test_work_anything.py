"""Whatever is typed after `beadwright work`: a walkthrough, or a reason with a next step. Never a traceback."""

import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from beadwright.cli import main
from beadwright.engine import FRAME_NAMES, METHODS, SLIPS

PIECES = st.sampled_from(
    [
        *("48 + 37", "12.5 × 0.4", "954 ÷ 23", "3/4 + 1 1/8", "√1444", "15 % of 80", "7 - 9", "1 ÷ 7 to 30 places"),
        *("+", "-", "×", "÷", "/", "√", "%", "of", "to", "places", "(", ")", "=", ".", ",", " ", "0", "00", "1e9"),
        *("٣", "²", "½", "Ⅷ", "一", "\x00", "\ufeff", "\u202e", "\ud800", "\u00a0", "9" * 70, "10**100000", "1_000"),
    ]
)
PROBLEMS = st.lists(PIECES | st.text(max_size=3), min_size=1, max_size=5)
NUMBERS = st.sampled_from(["-1", "0", "1", "2", "13", "26", "104", "105", "9" * 30, "x", "٣", ""])
OPTIONS = st.one_of(
    st.tuples(st.just("--frame"), st.sampled_from([*FRAME_NAMES, "abacus"])),
    st.tuples(st.sampled_from(["--columns", "--step", "--at", "--trial-digits"]), NUMBERS),
    st.tuples(st.just("--method"), st.sampled_from([*METHODS, "magic", ""])),
    st.tuples(st.just("--slip"), st.sampled_from([*SLIPS, "magic"])),
    st.tuples(st.just("--as"), st.sampled_from(["text", "speech", "json", "svg"])),
    st.tuples(st.sampled_from(["--exchange", "--wording", "--trial", "--inner"]), st.text(max_size=4)),
)


def work(arguments: list[str]) -> int:
    try:
        return main(["work", *arguments])
    except SystemExit as stopped:  # the command line itself was not understood
        return int(str(stopped.code))


@settings(max_examples=150, deadline=None)
@given(PROBLEMS, st.lists(OPTIONS, max_size=3))
@example(["48 + 37"], [("--columns", "9" * 5000)])
@example(["-5 + 3"], [])
@example(["--", "-5"], [])
def test_anything_is_worked_or_refused(problem: list[str], options: list[tuple[str, str]]) -> None:
    started = time.process_time()
    assert work([*(text for option in options for text in option), *problem]) in (0, 1, 2)
    assert time.process_time() - started < 20


WIDE = ["--columns", "104"]
HUGE = {
    "a long number": "9" * 1_000_000,
    "many terms": "1 + " * 200_000 + "1",
    "many signs": "+" * 1_000_000,
    "many spaces": " " * 1_000_000 + "1",
    "many commas": "1" + ",111" * 250_000,
    "many roots": "√" * 1_000_000 + "4",
    "a long fraction": "1" * 500_000 + "/" + "3" * 500_000,
    "many places": "1 ÷ 7 to " + "9" * 1_000_000 + " places",
    "many brackets": "(" * 1_000_000,
}


@pytest.mark.parametrize("name", HUGE)
def test_a_million_signs_are_refused_at_once(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    started = time.process_time()
    assert work([HUGE[name]]) == 1
    assert time.process_time() - started < 10  # well below a second
    assert len(capsys.readouterr().err) < 5_000


def test_of_a_long_problem_what_is_around_the_fault_is_shown(capsys: pytest.CaptureFixture[str]) -> None:
    assert work([f"{'1 + ' * 60}x + 1{' + 2' * 20}"]) == 1
    _, shown, mark = capsys.readouterr().err.rstrip().splitlines()
    assert shown.strip().startswith("…")
    assert shown.endswith("…")
    assert shown[mark.index("^")] == "x"
    assert len(shown) < 80


@pytest.mark.parametrize(
    "problem",
    [
        f"{'9' * 30} × {'9' * 29}",
        f"{'9' * 60} ÷ 7",
        f"√{'9' * 40}",
        "1 ÷ 97 to 40 places",
        " + ".join(["9" * 50] * 50),
        "12345678901234567890/99999999999999999989 + 1/99999999999999999999",
    ],
)
def test_the_longest_work_there_is_ends(problem: str, capsys: pytest.CaptureFixture[str]) -> None:
    started = time.process_time()
    assert work([problem, *WIDE, "--as", "speech"]) in (0, 1)
    assert time.process_time() - started < 30  # a second or two
    captured = capsys.readouterr()
    assert captured.out != "" or captured.err.startswith("beadwright work: ")
