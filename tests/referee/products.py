"""Multiplication by partial products (PROCEDURES §3.6), decimals and percent (§3.8). Common practice, no source."""

import re
from typing import NamedTuple

from tests.referee.beads import read_all, read_columns, require
from tests.referee.factors import Due, Number, compare_work, read_number, read_parts
from tests.referee.seen import Seen
from tests.referee.sums import write

METHOD = "partial-products"
_PRODUCT = re.compile(r"(\d+(?:\.\d+)?) × (\d+(?:\.\d+)?)")
_PERCENT = re.compile(r"(\d+(?:\.\d+)?)% of (\d+(?:\.\d+)?)")


def is_product(seen: Seen) -> bool:
    """Whether a product or a percent is worked by partial products."""
    return seen.method == METHOD


class Layout(NamedTuple):
    """Where a product is worked: `multiplicand` starts in `start`, the product ends in `lowest`."""

    multiplicand: Number
    multiplier: Number
    multiplicand_term: int
    places: int
    lowest: int
    ones_column: int
    start: int
    needed: int


def lay_out_product(problem: str, first_factor: str, kept_factor: str) -> Layout:
    """Where the factors and the product stand, and how many columns that needs."""
    found = _PRODUCT.fullmatch(problem) or _PERCENT.fullmatch(problem)
    require(found is not None, problem, "is not a product")
    first, second = (read_number(text) for text in (found.groups() if found else ()))
    places = first.places + second.places + (2 if "%" in problem else 0)
    shift = 0
    while (places + shift) % 3 != 0:
        shift += 1
    term = 1 if first_factor == "multiplicand" else 2
    multiplicand, multiplier = (first, second) if term == 1 else (second, first)
    m, n = len(multiplicand.digits), len(multiplier.digits)
    needed = m + 2 * n + 2 if kept_factor == "set" else m + n + 1
    return Layout(
        multiplicand, multiplier, term, places, 1 + shift, places + shift + 1, m + n + 1 + shift, needed + shift
    )


def find_missing_for_product(problem: str, columns: int, *, first_factor: str, kept_factor: str) -> int:
    """How many columns are missing; 0 when the product can be worked."""
    return max(0, lay_out_product(problem, first_factor, kept_factor).needed - columns)


def judge_product(seen: Seen) -> None:
    """Raise `RuleError` unless the digits are worked as §3.6 says and the product stands where it belongs."""
    layout = lay_out_product(seen.problem, seen.house["first_factor"], seen.house["kept_factor"])
    require(layout.needed <= len(seen.start), "this should have been refused")
    require(seen.ones_column == layout.ones_column, "the ones column is", seen.ones_column)
    compare_work(seen, _expect_work(layout, len(seen.start), seen.house["kept_factor"]))
    _judge_columns(seen, layout)
    _judge_answer(seen, layout)


def _expect_work(layout: Layout, columns: int, kept_factor: str) -> Due:
    due = Due()
    if kept_factor == "set":
        due.set_number(layout.multiplier.digits, columns, 3 - layout.multiplicand_term)
    due.set_number(layout.multiplicand.digits, layout.start, layout.multiplicand_term)
    column = layout.start - len(layout.multiplicand.digits)
    for digit in reversed(layout.multiplicand.digits):
        column += 1
        if digit == "0":
            due.said += 1
            continue
        for j, other in enumerate(layout.multiplier.digits):
            due.work_product("add", int(digit), int(other), column - 1 - j)
        due.work("clear", "clear", int(digit), column, {"term": layout.multiplicand_term})
    return due


def _judge_columns(seen: Seen, layout: Layout) -> None:
    """No product moves the multiplicand digit in use; each cleared digit leaves its part of the product behind."""
    done = 0
    for step in seen.steps:
        if step.work is None or step.purpose not in ("product", "clear"):
            continue
        first = layout.start - len(layout.multiplicand.digits) + 1
        in_use = first + _count_zeros(layout.multiplicand.digits, done)
        if step.purpose == "product":
            reached = max(column for column, _, _ in step.moves)
            require(reached < in_use, "step", step.number, "moves column", reached)
            continue
        require(step.work[2] == in_use, "step", step.number, "clears column", step.work[2])
        done = in_use - first + 1
        _judge_part(seen, layout, step.number, done)


def _count_zeros(digits: str, done: int) -> int:
    """How many digits from the right are worked when `done` are and the zeros that follow are passed over."""
    while digits[len(digits) - 1 - done] == "0":
        done += 1
    return done


def _judge_part(seen: Seen, layout: Layout, number: int, done: int) -> None:
    """With so many digits done, the product holds their part, and the multiplicand is the rest."""
    step = seen.steps[number - 1]
    digits = layout.multiplicand.digits
    part = int(digits[len(digits) - done :]) * layout.multiplier.units
    highest = layout.start - len(digits) + done
    held = int(read_columns(step.after, highest, layout.lowest))
    require(held == part, "after step", number, "the product is", held, "but should be", part)
    parts, rest = read_parts(step), digits[: len(digits) - done]
    require(parts["product"][0] == write(part, layout.places), "step", number, "reads", parts)
    if rest:
        require(parts["multiplicand"] == (rest, (layout.start, highest + 1)), "step", number, "reads", parts)
    else:
        require("multiplicand" not in parts, "step", number, "reads", parts)
    if seen.house["kept_factor"] == "set":
        columns = len(seen.start)
        stands = layout.multiplier.digits, (columns, columns - len(layout.multiplier.digits) + 1)
        require(parts["multiplier"] == stands, "step", number, "reads", parts)


def _judge_answer(seen: Seen, layout: Layout) -> None:
    answer = seen.answer
    total = layout.multiplicand.units * layout.multiplier.units
    text = write(total, layout.places)
    require(answer["text"] == text, "the answer is said to be", answer["text"], "but integers give", text)
    require(answer["decimals"] == layout.places and answer["remainder"] is None, "the answer is", answer)
    highest, lowest = answer["columns"]
    require(lowest == layout.lowest, "the product ends in column", lowest)
    free = len(seen.start)
    kept = 0
    if seen.house["kept_factor"] == "set":
        n = len(layout.multiplier.digits)
        kept = layout.multiplier.units * 10 ** (free - n)
        free -= n + 1
    digits = text.replace(".", "")
    require(highest == min(free, lowest + len(digits) - 1), "the product begins in column", highest)
    require(int(read_columns(seen.end, highest, lowest)) == total, "the product does not stand there")
    require(read_all(seen.end) == kept + total * 10 ** (lowest - 1), "other columns are not at rest")
