"""Grading as the browser does it: the same answers for the same data, so that either can check the other.

The twin of `grading.js`. Entries are plain data in the shape of schema `beadwright/practice/1`; causes are places in
the page's list of causes.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any, Literal, NamedTuple

Entry = Mapping[str, Any]
Cause = Mapping[str, Any]

LONGEST = 80
SPANNING = ("column-drift", "wrong-way-round")
"""Slips that span a whole number; two slips in one problem are looked for in single digits."""
# What browsers take for white space; Python's own class has a few control characters more.
_SPACE = "[\\t-\\r \\u00a0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000\\ufeff]+"


class Signs(NamedTuple):
    """The signs of a language's numbers."""

    marker: str = "."
    grouping: str = ","


USUAL = Signs()


class Verdict(NamedTuple):
    """What is found about a typed answer; `right` is None where it could not be read as a number."""

    right: bool | None
    normal: str | None
    form_only: bool = False
    causes: tuple[int, ...] = ()
    two: tuple[int, ...] = ()
    digits_right: int = 0
    wrong_powers: tuple[int, ...] = ()


def normalise(text: str, signs: Signs = USUAL) -> str | None:
    """A typed answer in its one normal form; None where it is no number.

    >>> normalise(" 1,048.50"), normalise(".5"), normalise("41 R 11"), normalise("3 14/8"), normalise("4x")
    ('1048.50', '0.5', '41 r 11', '3 14/8', None)
    """
    if len(text.encode("utf-16-le", "surrogatepass")) > 2 * LONGEST:
        return None
    # A fraction that is one sign would run into the digits of its whole number.
    apart = re.sub("(?<=\\d)(?=[¼-¾⅐-⅟↉])", " ", text)
    typed = re.sub("[⁄∕]", "/", unicodedata.normalize("NFKC", apart))
    typed = re.sub("^= ?", "", re.sub(_SPACE, " ", typed).strip(" ").lower())
    found = re.fullmatch(r"(.+?) ?(?:remainder|rem|r)\.? ?(.+)", typed)
    if found is None:
        return _normalise_value(typed, signs)
    quotient, left = _normalise_value(found[1], signs), _normalise_value(found[2], signs)
    return None if quotient is None or left is None else f"{quotient} r {left}"


def _normalise_value(text: str, signs: Signs) -> str | None:
    """A number, a fraction or a mixed number."""
    found = re.fullmatch(r"(?:([0-9]+) )?([0-9]+) ?/ ?([0-9]+)", text)
    if found is None:
        return _normalise_number(text, signs)
    if set(found[3]) == {"0"}:
        return None
    fraction = f"{_plain(found[2])}/{_plain(found[3])}"
    whole = _plain(found[1] or "0")
    return fraction if whole == "0" else f"{whole} {fraction}"


def _normalise_number(text: str, signs: Signs) -> str | None:
    groups = [sign for sign in dict.fromkeys((signs.grouping, " ", "'", "’")) if sign != signs.marker]
    # 0,125 is no number with a group: somebody took the sign for the marker.
    grouped = "|".join(f"[1-9][0-9]{{0,2}}(?:{re.escape(sign)}[0-9]{{3}})+" for sign in groups)
    found = re.fullmatch(f"({grouped}|[0-9]*)(?:{re.escape(signs.marker)}([0-9]*))?", text)
    if found is None or re.search("[0-9]", text) is None:
        return None
    whole = _plain(re.sub("[^0-9]", "", found[1])) or "0"
    return f"{whole}.{found[2]}" if found[2] else whole


def _plain(digits: str) -> str:
    return re.sub("^0+(?=[0-9])", "", digits)


def same_value(first: str, second: str) -> bool:
    """Whether two normal forms have the same value."""
    return _split_value(first) == _split_value(second)


def _split_value(normal: str) -> tuple[Fraction, Fraction]:
    quotient, _, left = normal.partition(" r ")
    return _fraction_of(quotient), _fraction_of(left or "0")


def _fraction_of(normal: str) -> Fraction:
    whole, _, fraction = normal.rpartition(" ") if "/" in normal else (normal, "", "0")
    return Fraction(whole or "0") + Fraction(fraction)


def judge_answer(entry: Entry, response: str, causes: Sequence[Cause], signs: Signs = USUAL) -> Verdict:
    """What is found about a typed answer, or about the number that a frame reads."""
    key = str(entry["key"]["text"])
    normal = normalise(response, signs)
    if normal is None:
        return Verdict(None, None)
    same = same_value(key, normal)
    right = key == normal if entry["key"].get("accept") == "form" else same
    # A remainder that is missing is to be asked for, whatever slip would leave none.
    untold = " r " in key and " r " not in normal and same_value(key.partition(" r ")[0], normal)
    found = () if same or untold else _find_causes(entry.get("slips", {}), normal)
    two = () if same or found else _find_two(entry.get("slips", {}), key, normal, causes)
    digits_right, wrong_powers = _compare_digits(key, normal)
    return Verdict(right, normal, same and not right, found, two, digits_right, wrong_powers)


def _find_causes(slips: Mapping[str, Sequence[int]], normal: str) -> tuple[int, ...]:
    return next((tuple(causes) for wrong, causes in slips.items() if same_value(wrong, normal)), ())


def _digits_of(normal: str) -> dict[int, str]:
    """The digits of a normal number by power of ten, from the highest place down."""
    whole, _, decimals = normal.partition(" r ")[0].partition(".")
    digits = {len(whole) - 1 - index: digit for index, digit in enumerate(whole)}
    return digits | {-1 - index: digit for index, digit in enumerate(decimals)}


def _compare_digits(key: str, normal: str) -> tuple[int, tuple[int, ...]]:
    if "/" in key + normal:
        return 0, ()
    wanted, given = _digits_of(key), _digits_of(normal)
    powers = sorted({*wanted, *given}, reverse=True)
    wrong = tuple(power for power in powers if wanted.get(power, "0") != given.get(power, "0"))
    return sum(given.get(power, "0") == digit for power, digit in wanted.items()), wrong


def _find_two(slips: Mapping[str, Sequence[int]], key: str, normal: str, causes: Sequence[Cause]) -> tuple[int, ...]:
    """Two causes in different steps that together change the key into the answer, the likeliest pair."""
    if re.search("[/r]", key + normal) is not None:
        return ()
    offs = {Fraction(wrong) - Fraction(key): wrong for wrong in slips if re.search("[/r]", wrong) is None}
    off, best = Fraction(normal) - Fraction(key), 0
    pair: tuple[int, ...] = ()
    for one, wrong in offs.items():
        other = offs.get(off - one)
        for first in slips[wrong] if other is not None else ():
            for second in slips[other] if other is not None else ():
                likely = _weigh_pair(causes[first], causes[second])
                if likely > best:
                    best, pair = likely, (first, second)
    return pair


def _weigh_pair(first: Cause, second: Cause) -> int:
    """How likely two slips are together, the earlier one first; 0 where they are not two digits of one problem."""
    if first["step"] is None or second["step"] is None or first["step"] >= second["step"]:
        return 0
    if first["slip"] in SPANNING or second["slip"] in SPANNING:
        return 0
    weights: tuple[int, int] = (first["weight"], second["weight"])
    return 1000 * min(weights) + max(weights)


class Chosen(NamedTuple):
    """What is found about moves or options chosen in any order."""

    right: bool
    causes: tuple[int, ...]
    missing: int
    extra: int


def judge_chosen(entry: Entry, chosen: Sequence[str]) -> Chosen:
    """Whether just the right moves or options were chosen."""
    key = entry["key"]
    wanted = key["options"] if "options" in key else key["steps"][0]
    missing = sum(name not in chosen for name in wanted)
    extra = sum(name not in wanted for name in chosen)
    in_order = " ".join(option["id"] for option in entry["options"] if option["id"] in chosen)
    return Chosen(missing + extra == 0, tuple(entry.get("slips", {}).get(in_order, ())), missing, extra)


class Ordered(NamedTuple):
    """What is found about lines in their order: the first wrong place from 1 (0: none), and the rule broken there."""

    right: bool
    at: int
    rule: Literal["upper", "column"] | None


def judge_order(entry: Entry, order: Sequence[str]) -> Ordered:
    """Whether the lines stand in the order of the steps; lines of the same code can stand for each other."""
    wanted = [name for step in entry["key"]["steps"] for name in step]
    place = next((i for i, name in enumerate(wanted) if i >= len(order) or order[i] != name), -1)
    if place < 0 and len(order) == len(wanted):
        return Ordered(True, 0, None)
    due, given = (_column_of(names[place]) if place < len(names) else None for names in (wanted, order))
    rule: Literal["upper", "column"] | None = None
    if due is not None and given is not None:
        rule = "upper" if due == given else "column"
    return Ordered(False, place + 1, rule)


def _column_of(code: str) -> str | None:
    found = re.match("([0-9]+)[ul][+-]", code)
    return None if found is None else found[1]


def judge_step(entry: Entry, step: int) -> Literal["right", "early", "late"]:
    """Whether a worked example goes wrong first at this step; `early`: all is right so far."""
    wrong = entry["key"]["step"]
    return "right" if step == wrong else "early" if step < wrong else "late"


class Checked(NamedTuple):
    """What a frame shows: a later check reached (`done` counts them), nothing moved, or something else."""

    state: Literal["right", "unmoved", "wrong"]
    done: int
    causes: tuple[int, ...]


def judge_check(entry: Entry, done: int, reads: str) -> Checked:
    """What a frame that reads `reads` shows after `done` checks."""
    checks = entry["checks"]
    before = "0" if done == 0 else checks[done - 1]["reads"]
    # Where nothing was moved only a digit that moves nothing is done, and not a later one that leads back here.
    if reads == before and checks[done]["reads"] != before:
        return Checked("unmoved", done, ())
    reached = next((i for i, check in enumerate(checks) if i >= done and check["reads"] == reads), -1)
    if reached >= 0:
        return Checked("right", reached + 1, ())
    return Checked("wrong", done, tuple(checks[done]["slips"].get(reads, ())))


def read_frame(beads: Sequence[Sequence[int]]) -> str:
    """What the whole frame reads, column 1 being the ones.

    >>> read_frame([[0, 0], [0, 3], [1, 0]])
    '35'
    """
    return _plain("".join(str(5 * upper + lower) for upper, lower in beads))


def read_number(beads: Sequence[Sequence[int]], lowest: int, places: int) -> str:
    """The number that stands on a frame, its last place in column `lowest`; further places where beads stand below it.

    >>> read_number([[0, 1], [0, 2], [1, 0]], 2, 1), read_number([[0, 1], [0, 2], [0, 0]], 2, 1)
    ('1.25', '1.2')
    """
    deepest = places + lowest - 1
    digits = read_frame(beads).rjust(deepest + 1, "0")
    whole, decimals = digits[: len(digits) - deepest], digits[len(digits) - deepest :]
    shown = decimals[:places] + decimals[places:].rstrip("0")
    return f"{whole}.{shown}" if shown else whole
