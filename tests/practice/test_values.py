"""Practice values: keys by other arithmetic than the engine's, pools of one kind, hints and slips worked by hand.

Assertions compare short values alone: one that names an entry would, on failing, write out every step of its working.
"""

import re
from collections.abc import Iterator
from decimal import Decimal
from typing import TypeVar

import pytest

from beadwright.course import DrawItem, draw_own, resolve_item
from beadwright.engine import find_techniques
from beadwright.practice import (
    AnswerEntry,
    CarryOutEntry,
    FindSlipEntry,
    NextMoveEntry,
    OrderEntry,
    PracticeItem,
    ReadEntry,
    SetEntry,
    draw_pools,
    name_move,
)
from beadwright.practice.values import Entry
from tests.support.practice_pages import Loaded, load_lesson

Items = dict[str, PracticeItem]
Kind = TypeVar("Kind")


def work_out(problem: str) -> Decimal:
    """A sum's answer from its text alone."""
    total = Decimal(0)
    for sign, number in re.findall(r"([+-]?) ?([\d.]+)", problem):
        total += -Decimal(number) if sign == "-" else Decimal(number)
    return total


def keep_kind(entry: Entry, kind: type[Kind]) -> Kind:
    """The entry as one of this kind. Raises `TypeError` when it is another."""
    if not isinstance(entry, kind):
        raise TypeError(f"{type(entry).__name__} is no {kind.__name__}")
    return entry


def list_entries(items: Items, kind: type[Kind]) -> Iterator[tuple[PracticeItem, Kind]]:
    """Every entry of this kind."""
    for item in items.values():
        for entry in item.pool:
            if isinstance(entry, kind):
                yield item, entry


def test_every_key_is_what_arithmetic_gives(items: Items) -> None:
    checked = 0
    for item, entry in [*list_entries(items, AnswerEntry), *list_entries(items, CarryOutEntry)]:
        name, answer = item.id, Decimal(entry.walkthrough.answer.text)
        problem = str(entry.walkthrough.problem)
        right = work_out(problem)
        assert answer == right, f"{name}: {problem}"
        for wrong in entry.causes:
            assert Decimal(wrong) != right, f"{name}: {problem}"
        checked += 1
    assert checked > 150


def test_every_check_of_a_whole_problem_is_a_running_value(items: Items) -> None:
    for _, entry in list_entries(items, CarryOutEntry):
        # Digit by digit, highest place first, by place value alone.
        total, running = 0, []
        for place, (sign, number) in enumerate(re.findall(r"([+-]?) ?(\d+)", str(entry.walkthrough.problem))):
            for index, digit in enumerate(number):
                if digit != "0":
                    value = int(digit) * 10 ** (len(number) - 1 - index)
                    total += -value if sign == "-" else value
                    running.append(total)
            assert place >= 0
        reads = [check.reads for check in entry.checks]
        assert reads == running
        named_right = [check.reads for check in entry.checks if check.reads in check.causes]
        assert named_right == []


def test_frames_to_read_and_to_set_show_their_number(items: Items) -> None:
    for _, entry in [*list_entries(items, ReadEntry), *list_entries(items, SetEntry)]:
        frame = entry.frame if isinstance(entry, ReadEntry) else entry.goal
        digits = "".join(str(5 * upper + lower) for upper, lower in frame.beads)
        whole, decimals = digits[: len(digits) - entry.ones + 1], digits[len(digits) - entry.ones + 1 :]
        number, wrong = str(entry.number), list(entry.causes)
        assert Decimal(f"{whole}.{decimals or 0}") == Decimal(number)
        assert number not in wrong


@pytest.mark.parametrize(
    ("item", "wrong", "slip", "variant", "column"),
    [
        # 305: beads 3 lower; none; upper alone.
        ("read", "301", "upper-bead-as-one", "one", 1),
        ("read", "300", "upper-bead-missed", "one", 1),
        ("read", "35", "zero-ignored", "all", 2),
        ("read", "503", "digits-reversed", "all", 3),
        ("read", "3050", "column-drift", "left", 3),
        ("read", "205", "bead-miscounted", "too-few", 3),
        ("read", "306", "bead-miscounted", "too-many", 1),
        # 74: upper and two lower; four lower.
        ("read-beads", "34", "upper-bead-as-one", "one", 2),
        ("read-beads", "24", "upper-bead-missed", "one", 2),
        ("read-beads", "47", "digits-reversed", "all", 2),
        # 56 set with all five beads for the 5: 9 tens.
        ("put", "96", "upper-bead-as-one", "set", 2),
        ("put", "65", "digits-reversed", "all", 2),
        ("put", "560", "column-drift", "left", 2),
        ("put-decimal", "7.50", "column-drift", "left", 3),
    ],
)
def test_misread_and_misset_numbers(items: Items, item: str, wrong: str, slip: str, variant: str, column: int) -> None:
    entry = items[item].pool[0]
    if not isinstance(entry, ReadEntry | SetEntry):
        raise TypeError(type(entry).__name__)
    causes = [(cause.slip, cause.variant, cause.column) for cause in entry.causes[wrong]]
    assert (slip, variant, column) in causes


def test_a_pool_is_of_one_kind_and_does_not_repeat(items: Items) -> None:
    drawn = {item.id for item in items.values() if item.drawn}
    for item in items.values():
        problems = [
            (str(entry.walkthrough.problem), find_techniques(entry.walkthrough))
            for entry in item.pool
            if isinstance(entry, AnswerEntry | CarryOutEntry | NextMoveEntry | OrderEntry)
        ]
        name, count = item.id, len(problems)
        assert len({problem for problem, _ in problems}) == count, name
        kinds = len({techniques for _, techniques in problems})
        assert kinds <= 1 or name in drawn, name


def test_pools_are_as_large_as_the_course_says(items: Items) -> None:
    sizes = {name: len(item.pool) for name, item in items.items()}
    for name in ("add", "take", "three", "decimal", "counted", "read", "put", "next", "moves", "whole", "hear"):
        assert sizes[name] == 12, name
    assert sizes["own-words"] == 1  # the author's own words speak of this problem alone
    drawn = [item for item in items.values() if item.drawn and item.ask == "answer"]
    counts = [len(item.pool) for item in drawn]
    assert counts == [12, 12, 12]
    problems = [str(e.walkthrough.problem) for i in drawn for e in i.pool if isinstance(e, AnswerEntry)]
    assert len(set(problems)) == 36


def test_the_moves_of_a_step_are_among_the_options(items: Items) -> None:
    for item, entry in list_entries(items, NextMoveEntry):
        name, moves = item.id, {name_move(move) for move in entry.step.moves}
        options = [name_move(option) for option in entry.options]
        assert len(set(options)) == len(options)
        assert moves <= set(options), name
        assert len(options) >= len(moves) + 1, name
        for option in entry.options:
            entry.before.apply(option) if option not in entry.step.moves else None
        for chosen in entry.causes:
            assert set(chosen) <= set(options)
            assert set(chosen) != moves


def test_next_move_of_the_known_example(items: Items) -> None:
    entry = keep_kind(items["next"].pool[0], NextMoveEntry)
    moves = [name_move(move) for move in entry.step.moves]
    causes = {chosen: [(c.slip, c.variant) for c in found] for chosen, found in entry.causes.items()}
    # 78 on the frame, 7 to add on the ones: 1 set on the tens, 3 cleared on the ones (PROCEDURES §3.1).
    assert moves == ["2l+1", "1l-3"]
    assert causes["1l-3",] == [("exchange-dropped", "left-missing")]
    assert causes["2l+1",] == [("exchange-dropped", "here-missing")]


def test_lines_are_not_shown_in_their_right_order(items: Items) -> None:
    for item, entry in list_entries(items, OrderEntry):
        name, shown, right = item.id, list(entry.shuffled), list(entry.order)
        assert sorted(shown) == right
        assert shown != right, name


def test_a_worked_example_goes_wrong_just_where_the_key_says(items: Items) -> None:
    seen = 0
    for item, entry in list_entries(items, FindSlipEntry):
        slipped = entry.slipped
        wrong, right = slipped.steps, slipped.right.steps
        first = next(
            number
            for number, step in enumerate(wrong, start=1)
            if number > len(right) or step.after.beads != right[number - 1].after.beads
        )
        problem, slip, options = str(slipped.right.problem), slipped.slip, list(entry.options)
        told, answer = slipped.first_wrong_step, Decimal(slipped.answer.text)
        assert first == told, f"{item.id}: {problem}, {slip}"
        assert answer != work_out(problem)
        assert slip in options
        assert len(set(options)) == len(options) == 4
        seen += 1
    assert seen > 20


def load_again(tmp_path: object, items: str) -> Items:
    """The items of another lesson by id."""
    loaded: Loaded = load_lesson(tmp_path, items)  # type: ignore[arg-type]
    return {item.id: item for practice in loaded.practices for item in practice.items}


def test_an_id_is_made_of_what_is_graded(tmp_path_factory: pytest.TempPathFactory) -> None:
    first = load_again(tmp_path_factory.mktemp("a"), "- {ask: answer, problem: 48 + 37}\n- {ask: read, reads: '305'}")
    turned = load_again(
        tmp_path_factory.mktemp("b"),
        "- {ask: read, reads: '305', prompt: Read this one.}\n- {ask: answer, problem: 48 + 37, hints: no}",
    )
    names, again = sorted(first), sorted(turned)
    assert names == again
    assert all(re.fullmatch("try-[0-9a-f]{8}", name) for name in names)
    other = load_again(tmp_path_factory.mktemp("c"), "- {ask: answer, problem: 48 + 38}\n- {ask: set, reads: '305'}")
    shared = sorted(set(names) & set(other))
    assert shared == []


def test_the_same_thing_asked_twice_has_two_ids(tmp_path_factory: pytest.TempPathFactory) -> None:
    twice = load_again(tmp_path_factory.mktemp("a"), "- {ask: answer, problem: 48 + 37}\n" * 2)
    names = sorted(twice)
    assert len(names) == 2


def test_drawn_items_keep_their_problems_when_a_lesson_is_reordered(tmp_path_factory: pytest.TempPathFactory) -> None:
    draw = "- draw: {operation: add, digits: [2, 2], needs: partner-of-10, count: 3}\n"
    first = load_again(tmp_path_factory.mktemp("a"), draw)
    second = load_again(tmp_path_factory.mktemp("b"), "- {ask: read, reads: '305'}\n" + draw)
    lost = sorted(set(first) - set(second))
    assert lost == []


def test_drawn_items_are_those_that_the_course_lists(lesson: Loaded) -> None:
    """What `course.draw_own` gives, and so what a trainer is told is drawn, comes first in the items' pools."""
    for placed in lesson.lesson.items():
        if not isinstance(placed.item, DrawItem):
            continue
        draw = placed.item.draw
        setting = resolve_item(lesson.course, lesson.lesson, placed.practice, placed.item)
        seed = f"{lesson.lesson.id}/{placed.practice.id}"
        listed = [str(walkthrough.problem) for walkthrough in draw_own(draw, setting, seed=seed)]
        pools = draw_pools(draw, setting, seed=seed, pool=lesson.course.pool)
        own = [str(pool[0].problem) for pool in pools]
        assert own == listed


def list_problems(item: PracticeItem) -> list[str]:
    """The problems of an item's pool, its own first."""
    return [str(entry.walkthrough.problem) for entry in item.pool if isinstance(entry, AnswerEntry)]


def test_pinned_problems_come_first_and_banned_ones_never(tmp_path_factory: pytest.TempPathFactory) -> None:
    draw = "operation: add, digits: [1, 1], needs: partner-of-10, count: 2, pool: 6, pin: 9 + 9, ban: 8 + 2"
    items = load_again(tmp_path_factory.mktemp("a"), f"- draw: {{{draw}}}")
    problems = [
        [str(e.walkthrough.problem) for e in item.pool if isinstance(e, AnswerEntry)] for item in items.values()
    ]
    assert problems[0][0] == "9 + 9"
    assert [len(pool) for pool in problems] == [6, 6]
    assert len({problem for pool in problems for problem in pool}) == 12
    assert "8 + 2" not in {problem for pool in problems for problem in pool}


def test_where_there_are_few_problems_items_share_them(tmp_path_factory: pytest.TempPathFactory) -> None:
    # 6 can be added by both partners to 5, 6, 7 and 8; 7 to 5, 6 and 7; 8 to 5 and 6; 9 to 5: ten sums in all.
    items = load_again(
        tmp_path_factory.mktemp("a"),
        "- draw: {operation: add, digits: [1, 1], needs: both-partners, allow: both-partners, count: 4, pool: 12}",
    )
    pools = [list_problems(item) for item in items.values()]
    assert len({pool[0] for pool in pools}) == 4
    for pool in pools:
        assert len(set(pool)) == len(pool) == 10
