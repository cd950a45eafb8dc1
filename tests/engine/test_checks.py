"""Checks that a learner is taught: the inverse operation, casting out nines, and what nines cannot catch."""

from random import Random

import pytest

from beadwright.engine import (
    Escape,
    Inverse,
    MethodError,
    NinesCheck,
    Number,
    Problem,
    Quotient,
    build_frame,
    build_inverse,
    cast_out_nines,
    check_by_nines,
    find_escape,
    parse_problem,
    work_problem,
)

FRAME = build_frame(columns=26)


def read_number(text: str) -> Number:
    whole, _, decimals = text.partition(".")
    return Number(int(whole + decimals), len(decimals))


def work_out(problem: Problem) -> tuple[Number, Number | None]:
    """What the engine's own procedure gives, and what is left."""
    answer = work_problem(problem, FRAME).answer
    return read_number(answer.text), None if answer.remainder is None else read_number(answer.remainder.text)


def draw_text(chance: Random) -> str:
    a, b = (f"{chance.randrange(1, 9999) / 10**p:.{p}f}" for p in (chance.randrange(3), chance.randrange(3)))
    c = chance.randrange(99)
    quotient = f"{a} ÷ {b} to 2 places"
    return chance.choice([f"{a} × {b}", f"{c + 10000} - {a} + {b}", f"{c + 1}% of {a}", quotient, f"{c} ÷ 7"])


def test_every_inverse_leads_back() -> None:
    """Worked by the engine's own procedures, each gives just what the check expects."""
    chance = Random("inverses")
    for _ in range(400):
        problem = parse_problem(draw_text(chance))
        for inverse in build_inverse(problem, *work_out(problem)):
            assert isinstance(inverse, Inverse)
            given, left = work_out(inverse.problem)
            assert (str(given), left) == (str(inverse.expected), None)


@pytest.mark.parametrize(
    ("text", "answer", "left", "checks"),
    [
        ("48 + 37 - 12", "73", None, [("73 + 12 - 37", "48")]),
        ("306 × 4", "1224", None, [("1224 ÷ 4", "306")]),
        ("1.5 × 0.4", "0.60", None, [("0.60 ÷ 0.4 to 1 place", "1.5")]),
        ("7 × 0", "0", None, [("0 ÷ 7", "0")]),
        ("15% of 80", "12.00", None, [("12.00 ÷ 0.15", "80")]),
        ("837 ÷ 3", "279", None, [("279 × 3", "837")]),
        ("954 ÷ 23", "41", "11", [("41 × 23", "943"), ("943 + 11", "954")]),
        ("2 ÷ 3 to 2 places", "0.66", "0.02", [("0.66 × 3", "1.98"), ("1.98 + 0.02", "2.00")]),
    ],
)
def test_inverses_written_out(text: str, answer: str, left: str | None, checks: list[tuple[str, str]]) -> None:
    found = build_inverse(parse_problem(text), read_number(answer), None if left is None else read_number(left))
    assert [(str(inverse.problem), str(inverse.expected)) for inverse in found] == checks


@pytest.mark.parametrize("text", ["0 × 0", "0% of 5", "√16", "1/2 + 1/3"])
def test_what_has_no_inverse(text: str) -> None:
    with pytest.raises(MethodError) as refused:
        build_inverse(parse_problem(text), Number(0))
    assert refused.value.code == "no-inverse"


@pytest.mark.parametrize(("units", "left"), [(0, 0), (9, 0), (18, 0), (10, 1), (39867, 6), (99999, 0), (123456789, 0)])
def test_casting_out(units: int, left: int) -> None:
    """39867: 3 + 9 + 8 + 6 + 7 = 33, and 3 + 3 = 6."""
    assert cast_out_nines(Number(units)) == left


@pytest.mark.parametrize(
    ("text", "answer", "left", "parts", "expected"),
    [
        ("48 + 37", "85", None, [3, 1], 4),  # 8 + 5 = 13, 4
        ("85 - 37", "48", None, [4, 1], 3),
        ("37 - 17", "20", None, [1, 8], 2),  # 1 less 8: 1 and 9 more is 10, less 8
        ("306 × 4", "1224", None, [0, 4], 0),
        ("23 × 8", "184", None, [5, 8], 4),  # 40: 4
        ("15% of 80", "12.00", None, [6, 8], 3),
        ("954 ÷ 23", "41", "11", [5, 5, 2], 0),  # 25 + 2 = 27: 0, as 9 + 5 + 4
    ],
)
def test_nines_written_out(text: str, answer: str, left: str | None, parts: list[int], expected: int) -> None:
    rest = None if left is None else read_number(left)
    check = check_by_nines(parse_problem(text), read_number(answer), rest)
    assert isinstance(check, NinesCheck)
    assert ([leaves for _, leaves in check.parts], check.expected, check.agrees) == (parts, expected, True)


def test_right_answers_always_pass() -> None:
    chance = Random("nines")
    for _ in range(400):
        problem = parse_problem(draw_text(chance))
        assert check_by_nines(problem, *work_out(problem)).agrees


def test_wrong_answers_that_do_not_pass() -> None:
    """Any error that is no multiple of 9 is caught."""
    problem = parse_problem("306 × 4")
    for wrong in range(1200, 1250):
        assert check_by_nines(problem, Number(wrong)).agrees is ((wrong - 1224) % 9 == 0)
    assert not check_by_nines(Quotient(Number(954), Number(23)), Number(41), Number(10)).agrees


@pytest.mark.parametrize(
    ("right", "wrong", "escape"),
    [
        ("1224", "1242", "digits-swapped"),
        ("85", "58", "digits-swapped"),
        ("309", "390", "digits-swapped"),
        ("1905", "1995", "nine-for-zero"),
        ("12.00", "1.200", "marker"),
        ("309", "3090", "marker"),
        ("309", "39", "zeros"),
        ("1006", "106", "zeros"),
        ("85", "76", "multiple-of-nine"),
        ("85", "75", None),  # caught
        ("85", "85", None),  # right
        ("0.60", "0.6", None),  # right, written shorter
    ],
)
def test_what_nines_cannot_catch(right: str, wrong: str, escape: str | None) -> None:
    found = find_escape(read_number(right), read_number(wrong))
    assert found == (None if escape is None else Escape(escape))


@pytest.mark.parametrize("text", ["√16", "1/2 + 1/3"])
def test_what_is_not_checked_by_nines(text: str) -> None:
    with pytest.raises(MethodError) as refused:
        check_by_nines(parse_problem(text), Number(4))
    assert refused.value.code == "no-nines"
