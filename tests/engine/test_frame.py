"""Frames as values: shapes, marks, the join, and moves that are refused before anything changes."""

import pickle
from collections.abc import Callable

import pytest

from beadwright.engine import (
    FIVE_AND_FOUR,
    FRAME_NAMES,
    NINE_BEAD,
    Bead,
    Column,
    ColumnShape,
    EngineError,
    Frame,
    FrameError,
    Move,
    Number,
    ProblemError,
    build_frame,
    place_number,
)


def test_a_column_holds_the_digits_0_to_9_exactly() -> None:
    """PROCEDURES §2: one upper bead worth 5 and four lower beads worth 1, or nine beads worth 1."""
    assert ColumnShape(upper=1, lower=4) == FIVE_AND_FOUR
    assert ColumnShape(upper=0, lower=9) == NINE_BEAD
    for upper in range(-2, 4):
        for lower in range(-2, 16):
            if (upper, lower) not in ((1, 4), (0, 9)):
                with pytest.raises(FrameError) as refused:
                    ColumnShape(upper=upper, lower=lower)
                assert refused.value.code == "column-shape"


def test_the_beads_of_each_digit() -> None:
    assert [FIVE_AND_FOUR.split(digit) for digit in range(10)] == [
        (0, 0),
        (0, 1),
        (0, 2),
        (0, 3),
        (0, 4),
        (1, 0),
        (1, 1),
        (1, 2),
        (1, 3),
        (1, 4),
    ]
    assert [NINE_BEAD.split(digit) for digit in range(10)] == [(0, digit) for digit in range(10)]


def test_frames_by_name() -> None:
    """PROCEDURES §2: a five-and-four frame has 13 columns, a starter frame two, an extended starter frame three."""
    assert FRAME_NAMES == ("five-and-four", "nine-bead")
    assert (build_frame().name, build_frame().columns, build_frame().shape) == ("five-and-four", 13, FIVE_AND_FOUR)
    assert (build_frame("nine-bead").columns, build_frame("nine-bead").shape) == (2, NINE_BEAD)
    assert build_frame("nine-bead", columns=3).value == 0
    assert build_frame(columns=104).columns == 104
    for name, columns, code in (
        ("nine", None, "frame-name"),
        ("nine-bead", 0, "frame-columns"),
        ("nine-bead", -3, "frame-columns"),
        ("five-and-four", 105, "frame-columns"),
        ("", 3, "frame-name"),
    ):
        with pytest.raises(FrameError) as refused:
            build_frame(name, columns=columns)
        assert refused.value.code == code


@pytest.mark.parametrize(
    ("columns", "marks"),
    [(1, ()), (2, ()), (3, ()), (4, (3,)), (13, (3, 6, 9, 12)), (25, (3, 6, 9, 12, 15, 18, 21, 24))],
)
def test_unit_marks_after_every_third_column(columns: int, marks: tuple[int, ...]) -> None:
    assert build_frame(columns=columns).marks == marks


def test_two_frames_side_by_side_keep_the_marks_of_each() -> None:
    # Each is a frame of 13 columns with marks after its own third, sixth, ninth and twelfth column.
    one = (3, 6, 9, 12)
    assert build_frame(columns=26).marks == (*one, *(13 + column for column in one))


def test_only_two_frames_side_by_side_are_joined() -> None:
    assert build_frame(columns=26).joined == 13
    assert [build_frame(columns=columns).joined for columns in (13, 25, 27)] == [None, None, None]
    assert build_frame("nine-bead", columns=26).joined is None


def test_numbers_stand_where_they_are_set() -> None:
    frame = build_frame(columns=6).with_number(305, ones_column=2)
    assert frame.beads == ((0, 0), (0, 0), (0, 3), (0, 0), (1, 0), (0, 0))
    assert (frame.value, frame.digits(4, 2), frame.digits(6, 1)) == (3050, "305", "003050")
    assert [frame.digit(column) for column in range(1, 7)] == [0, 5, 0, 3, 0, 0]
    assert frame.beads_in(2) == (1, 0)
    assert frame.cleared() == build_frame(columns=6)
    assert (frame.is_at_rest, frame.cleared().is_at_rest) == (False, True)
    assert frame.with_number(7).value == 7, "what stood there is gone"


def test_a_number_alone_stands_left_of_its_unit_mark() -> None:
    """PROCEDURES §3.8: ones in 1, 4, 7, … with room for the places: 12.50 ends in column 2, 0.1234 in column 3."""
    assert place_number(Number(305)) == (1, 1)
    assert place_number(Number(1250, 2)) == (2, 4)
    assert place_number(Number(5, 3)) == (1, 4)
    assert place_number(Number(1234, 4)) == (3, 7)


def test_a_number_that_is_too_wide_says_by_how_much() -> None:
    with pytest.raises(FrameError) as refused:
        build_frame(columns=6).with_number(12345, ones_column=4)
    assert (refused.value.code, refused.value.missing) == ("frame-too-short", 2)
    assert "2 more columns" in refused.value.reason
    with pytest.raises(FrameError, match="1 more column "):
        build_frame("nine-bead").with_number(100)
    assert build_frame("nine-bead").with_number(99).value == 99


@pytest.mark.parametrize("name", FRAME_NAMES)
def test_each_move_on_each_state(name: str) -> None:
    """A move is done when the beads are there, else refused; the frame it was asked of never changes."""
    rest = build_frame(name, columns=3)
    most = {Bead.UPPER: rest.shape.upper, Bead.LOWER: rest.shape.lower}
    for digit in range(10):
        frame = rest.with_number(10 * digit)
        held = dict(zip((Bead.UPPER, Bead.LOWER), frame.beads_in(2), strict=True))
        for bead in Bead:
            for change in range(-10, 11):
                move = Move(Column(2), bead, change)
                if change != 0 and 0 <= held[bead] + change <= most[bead]:
                    worth = change * (5 if bead is Bead.UPPER else 1)
                    assert frame.apply(move).value == 10 * (digit + worth)
                else:
                    with pytest.raises(FrameError) as refused:
                        frame.apply(move)
                    assert refused.value.code == "move-not-there"
                assert frame == rest.with_number(10 * digit)


def digits_from(frame: Frame) -> Callable[[int], str]:
    return lambda column: frame.digits(column, min(column, 1))


def digits_to(frame: Frame) -> Callable[[int], str]:
    return lambda column: frame.digits(max(column, 3), column)


def test_the_outermost_columns_have_beads() -> None:
    frame = build_frame(columns=3)
    assert frame.apply_all((Move(Column(3), Bead.LOWER, 2), Move(Column(1), Bead.UPPER, 1))).value == 205


def test_a_refused_move_says_what_is_set_and_what_was_asked() -> None:
    frame = build_frame(columns=3).with_number(7)
    with pytest.raises(FrameError) as setting:
        frame.apply(Move(Column(1), Bead.LOWER, 3))
    assert setting.value.reason == "Column 1 has 1 upper and 2 lower beads set, so 3 lower cannot be set"
    with pytest.raises(FrameError) as clearing:
        frame.apply(Move(Column(2), Bead.UPPER, -1))
    assert clearing.value.reason == "Column 2 has 0 upper and 0 lower beads set, so 1 upper cannot be cleared"


def test_a_refused_move_is_told_from_what_the_moves_before_it_left() -> None:
    frame = build_frame(columns=3)
    with pytest.raises(FrameError) as refused:
        frame.apply_all([Move(Column(2), Bead.LOWER, change) for change in (3, -1, 3)])
    assert refused.value.reason == "Column 2 has 0 upper and 2 lower beads set, so 3 lower cannot be set"


def test_columns_that_are_not_there() -> None:
    frame = build_frame(columns=3)
    assert frame.digits(2, 3) == ""
    for column, missing in ((0, 0), (-1, 0), (4, 1), (9, 6)):
        for ask in (
            lambda c: frame.apply(Move(Column(c), Bead.LOWER, 1)),
            frame.beads_in,
            frame.digit,
            digits_from(frame),
            digits_to(frame),
        ):
            with pytest.raises(FrameError) as refused:
                ask(column)
            assert (refused.value.code, refused.value.missing) == ("no-column", missing)
            assert refused.value.reason == f"There is no column {column} on a frame of 3 columns"


@pytest.mark.parametrize(("highest", "lowest", "named"), [(4, 0, 4), (5, 4, 5), (0, -1, 0), (3, 0, 0), (2, -1, -1)])
def test_of_columns_that_are_not_there_the_first_one_read_is_named(highest: int, lowest: int, named: int) -> None:
    """Columns are read from the highest to the lowest; an end that is there is not to blame."""
    with pytest.raises(FrameError, match=f"^There is no column {named} on"):
        build_frame(columns=3).digits(highest, lowest)


def test_moves_are_done_all_or_not_at_all() -> None:
    frame = build_frame(columns=3).with_number(4)
    good, bad = Move(Column(1), Bead.UPPER, 1), Move(Column(1), Bead.LOWER, 1)
    with pytest.raises(FrameError):
        frame.apply_all((good, bad))
    assert frame.value == 4
    assert frame.apply_all((good, Move(Column(1), Bead.LOWER, -4))).value == 5


def test_a_frame_is_a_value() -> None:
    frame = build_frame()
    assert frame == build_frame()
    assert hash(frame) == hash(build_frame())
    assert frame != frame.with_number(1)
    assert frame != build_frame(columns=12)
    assert Frame("five-and-four", FIVE_AND_FOUR, ((0, 0),)) == build_frame(columns=1)
    with pytest.raises(AttributeError):
        frame.name = "other"  # type: ignore[misc]
    with pytest.raises(AttributeError):
        frame.shape.lower = 5  # type: ignore[misc]


def test_an_error_says_why_and_what_to_do_instead() -> None:
    error = FrameError("some-code", "There is no such bead", "Use another", missing=3)
    assert isinstance(error, EngineError)
    assert isinstance(error, ValueError)
    assert str(error) == "There is no such bead. Use another"
    assert (error.code, error.reason, error.next_step, error.missing) == (
        "some-code",
        "There is no such bead",
        "Use another",
        3,
    )


@pytest.mark.parametrize(
    "error",
    [
        FrameError("some-code", "There is no such bead", "Use another", missing=3),
        ProblemError("some-code", "There is no such sign", "Use another", position=7),
    ],
    ids=["frame", "problem"],
)
def test_an_error_survives_the_way_to_another_process(error: EngineError) -> None:
    """An error that cannot be made again would hang a pool of processes."""
    again = pickle.loads(pickle.dumps(error))
    assert (type(again), vars(again), str(again)) == (type(error), vars(error), str(error))
