"""Drawn products and quotients: digits, zeros, remainders and techniques as wanted, checked by integers."""

from typing import Any

import pytest

from beadwright.engine import (
    MethodError,
    Operation,
    Product,
    Quotient,
    Technique,
    Want,
    build_frame,
    draw_problems,
    drawing,
)
from beadwright.engine import draw_walkthroughs as draw

FRAME = build_frame()


def draw_quotients(digits: tuple[int, int], count: int, **want: Any) -> list[tuple[int, int]]:
    wanted = Want(operation=Operation.DIVIDE, digits=digits, **want)
    found = []
    for problem in draw_problems(wanted, count, frame=FRAME, seed=f"{digits} {want}"):
        assert isinstance(problem, Quotient)
        found.append((problem.dividend.units, problem.divisor.units))
    assert len(set(found)) == count
    return found


DIGITS = [(2, 1), (3, 1), (3, 2), (4, 2), (6, 3), (7, 4)]


@pytest.mark.parametrize("digits", DIGITS)
@pytest.mark.parametrize("remainder", [True, False])
def test_divisions_with_and_without_remainder(digits: tuple[int, int], remainder: bool) -> None:
    for a, b in draw_quotients(digits, 25, remainder=remainder):
        assert (a % b != 0) is remainder
        assert (len(str(a)), len(str(b))) == digits
        assert b > 1
        assert a >= b


@pytest.mark.parametrize("digits", [(3, 1), (5, 2), (7, 3)])
def test_zeros_of_the_quotient(digits: tuple[int, int]) -> None:
    for a, b in draw_quotients(digits, 20, zeros=True, remainder=False):
        assert "0" in str(a // b)
    for a, b in draw_quotients(digits, 20, zeros=False):
        assert "0" not in str(a // b)


def test_no_try_is_lost_where_a_dividend_can_come_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three digits by three: whatever is drawn, the divisor or a multiple of it is near, so 60 tries give (nearly) 60.

    Pairs drawn twice are few: at most 900 × 9 divisions come out, and most have the quotient 1.
    """
    monkeypatch.setattr(drawing, "MOST_TRIES", 60)
    want = Want(operation=Operation.DIVIDE, digits=(3, 3), remainder=False)
    found = draw(want, 60, frame=FRAME, seed="near")
    assert len(found) > 50
    assert all(walkthrough.answer.remainder is None for walkthrough in found)


def test_all_divisions_there_are() -> None:
    """Two digits by one, all by integers: no quotient of 0, no divisor of 1."""
    due = {(a, b) for a in range(10, 100) for b in range(2, 10) if a % b == 0}
    assert set(draw_quotients((2, 1), len(due), remainder=False)) == due
    with pytest.raises(MethodError) as refused:
        draw_quotients((2, 1), len(due) + 1, remainder=False)
    assert refused.value.code == "draw-too-few"


def test_a_divisor_longer_than_the_dividend_gives_nothing_to_draw() -> None:
    with pytest.raises(MethodError):
        draw_quotients((3, 4), 1, remainder=False)


@pytest.mark.parametrize("operation", [Operation.MULTIPLY, Operation.DIVIDE])
@pytest.mark.parametrize(
    ("needed", "allowed"),
    [
        ({"direct"}, {"direct"}),
        ({"partner-of-5"}, {"direct", "partner-of-5"}),
        ({"partner-of-10"}, {"direct", "partner-of-5", "partner-of-10"}),
        ({"both-partners"}, {"direct", "partner-of-5", "partner-of-10", "both-partners"}),
    ],
)
def test_techniques(operation: Operation, needed: set[str], allowed: set[str]) -> None:
    want = Want(operation=operation, digits=(3, 1), needs=frozenset(Technique(name) for name in needed))
    found = draw(want, 12, frame=FRAME, seed="techniques")
    assert len(found) == 12
    for walkthrough in found:
        used = {str(step.technique) for step in walkthrough.steps if step.technique} - {"set", "clear"}
        assert needed <= used <= allowed


def test_products_with_zeros() -> None:
    want = Want(operation=Operation.MULTIPLY, digits=(3, 2), zeros=True)
    for problem in draw_problems(want, 30, frame=FRAME, seed="zeros"):
        assert isinstance(problem, Product)
        assert "0" in f"{problem.first}{problem.second}"
    ones = draw_problems(Want(operation=Operation.MULTIPLY, digits=(1, 1)), 64, frame=FRAME, seed="ones")
    factors = {(p.first.units, p.second.units) for p in ones if isinstance(p, Product)}
    assert factors == {(a, b) for a in range(2, 10) for b in range(2, 10)}


def test_the_same_seed_draws_the_same() -> None:
    assert draw_quotients((4, 2), 10, remainder=True) == draw_quotients((4, 2), 10, remainder=True)
