"""Every digit on every column state with every neighbour state, held against the referee's rules."""

from itertools import product

import pytest

from beadwright.engine import Action, Bead, Column, Frame, FrameError, Move, Work
from beadwright.engine.hand import build_hand
from beadwright.engine.house import Inner
from tests.referee import RuleError
from tests.referee.beads import Shape
from tests.referee.rules import Ruling, Style, rule_on
from tests.support.frames import WAYS, Way

INNER = {"partners": Inner.PARTNERS, "counting": Inner.COUNTING}


def ask_engine(frame: Frame, way: Way, action: Action, digit: int, column: int) -> Ruling | None:
    """What the engine's hand does; None when it refuses."""
    try:
        worked = build_hand(way.house, INNER[way.method])(frame, Work(action, digit, Column(column)), 1)
    except FrameError:
        return None
    return Ruling(str(worked.technique), worked.runs_on, worked.moves)


def ask_referee(frame: Frame, way: Way, action: Action, digit: int, column: int) -> Ruling | None:
    """What the rules say; None when there is no column for the exchange."""
    shape = Shape(frame.shape.upper, frame.shape.lower)
    try:
        return rule_on(shape, frame.beads, action, digit, column, Style(way.method, way.add, way.take))
    except RuleError:
        return None


@pytest.mark.parametrize("action", [Action.ADD, Action.TAKE])
@pytest.mark.parametrize("way", WAYS, ids=str)
def test_each_digit_in_each_place(way: Way, action: Action) -> None:
    """Two columns on the left take every state, so every exchange, also one that runs on or finds no column."""
    for held, right, digit in product(range(1000), (0, 9), range(1, 10)):
        frame = way.build(4).with_number(10 * held + right)
        worked = ask_engine(frame, way, action, digit, 2)
        assert worked == ask_referee(frame, way, action, digit, 2), (held, digit)
        if worked is None:
            continue
        more = digit if action is Action.ADD else -digit
        moves = [Move(Column(column), Bead(bead), change) for column, bead, change in worked.moves]
        assert frame.apply_all(moves) == frame.with_number(10 * (held + more) + right), (held, digit)


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_an_exchange_without_a_column_is_refused(way: Way) -> None:
    """What the frame cannot show is refused, and nothing else is: sums from 1000, results below zero."""
    for held, digit in product(range(1000), range(1, 10)):
        frame = way.build(3).with_number(held)
        assert (ask_engine(frame, way, Action.ADD, digit, 1) is None) is (held + digit > 999)
        assert (ask_engine(frame, way, Action.TAKE, digit, 1) is None) is (held < digit)


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_a_refusal_says_what_is_missing(way: Way) -> None:
    """995 and 7 need a fourth column; nothing can be taken from 0."""
    hand, add, take = build_hand(way.house, Inner(way.method)), Action.ADD, Action.TAKE
    with pytest.raises(FrameError) as full:
        hand(way.build(3).with_number(995), Work(add, 7, Column(1)), 1)
    assert (full.value.code, full.value.missing) == ("frame-full", 1)
    with pytest.raises(FrameError) as empty:
        hand(way.build(3), Work(take, 7, Column(1)), 1)
    assert (empty.value.code, empty.value.missing) == ("below-zero", 0)


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_setting_and_clearing(way: Way) -> None:
    for digit in range(1, 10):
        rest = way.build(3)
        held = rest.with_number(10 * digit)
        for frame, action in ((rest, Action.SET), (held, Action.CLEAR)):
            assert ask_engine(frame, way, action, digit, 2) == ask_referee(frame, way, action, digit, 2)
        assert ask_engine(held, way, Action.SET, 1, 2) is None, "a column in use is not set"
