"""Every digit on every column state, in every wording: the sentence alone tells the whole step.

The sentences are read back here by a reader of its own, which knows English and the frame but none of the code that
phrased them: it moves the beads that a sentence names and works the sum with whole numbers.
"""

from __future__ import annotations

import re
from itertools import product

import pytest

from beadwright.engine import HouseStyle, Inner, Order, Wording, build_frame, parse_problem, work_problem
from beadwright.render.speech import say_steps
from beadwright.render.words import load_words

WORDS = load_words("en")
COLUMNS = {"ones": 1, "tens": 2, "hundreds": 3, "thousands": 4}
NUMBERS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")

Beads = dict[int, list[int]]

REASONED_MOVE = re.compile(
    r"\b(set|clear) (?:(the upper bead)(?: and (?:(set|clear) )?(\d) lower beads?)?|(\d))(?: on the (\w+))?"
)
RULED_MOVE = re.compile(r"\b(set|clear) (\d)(?: and (?:(set|clear) )?(\d))?(?: (left)| on the (\w+))?")
READ = re.compile(r"Now the (\w+) read (\d)((?:,? (?:and )?the \w+ \d)*)")


def split(digit: int, upper: int) -> list[int]:
    """The beads of a digit on a column with so many upper beads."""
    return [digit // 5, digit % 5] if upper else [0, digit]


def move(beads: Beads, column: int, way: str, upper: int, lower: int) -> None:
    """Move beads that must be there."""
    sign = 1 if way == "set" else -1
    beads[column][0] += sign * upper
    beads[column][1] += sign * lower


def work_reasoned(text: str, beads: Beads, here: int) -> None:
    """Move the beads that a sentence in the wording with reasons, or a count, names."""
    for way, upper, then, with_upper, alone, place in REASONED_MOVE.findall(text):
        column = COLUMNS[place] if place else here
        if upper:
            move(beads, column, way, 1, 0)
            move(beads, column, then or way, 0, int(with_upper or 0))
        else:
            move(beads, column, way, 0, int(alone))
        check_beads(beads)


def work_ruled(text: str, beads: Beads, here: int, upper_beads: int) -> None:
    """Move the beads that a rule names by value: on a five-and-four frame 5 is the upper bead."""
    for way, first, then, second, left, place in RULED_MOVE.findall(text):
        column = here + 1 if left else COLUMNS[place] if place else here
        upper = 1 if upper_beads and first == "5" else 0
        move(beads, column, way, upper, 0 if upper else int(first))
        if second:
            move(beads, column, then or way, 0, int(second))
        check_beads(beads)


def check_beads(beads: Beads) -> None:
    """No bead that is not there has been moved."""
    for upper, lower in beads.values():
        assert 0 <= upper <= 1
        assert 0 <= lower <= 9


def read_now(text: str) -> dict[int, int]:
    """What a sentence says that columns read now."""
    found = READ.search(text)
    assert found, text
    first, digit, rest = found.groups()
    read = {COLUMNS[first]: int(digit)}
    return read | {COLUMNS[place]: int(held) for place, held in re.findall(r"the (\w+) (\d)", rest)}


def check_step(text: str, before: int, after: int, column: int, *, upper: int, ruled: bool) -> None:
    """The sentence's own moves lead from the number before to the number after, and it says what they leave."""
    places = {at: before // 10 ** (at - 1) % 10 for at in COLUMNS.values()}
    beads = {at: split(digit, upper) for at, digit in places.items()}
    told = text.partition("Now the")[0]
    if ruled:
        work_ruled(told, beads, column, upper)
    else:
        work_reasoned(told, beads, column)
    wanted = {at: after // 10 ** (at - 1) % 10 for at in COLUMNS.values()}
    assert beads == {at: split(digit, upper) for at, digit in wanted.items()}, text
    changed = {at for at in places if places[at] != wanted[at]}
    assert read_now(text) == {at: wanted[at] for at in changed | {column}}, text


def check_reason(text: str, digit: int, technique: str) -> None:
    """A partner that is used is named, in words, as what it is."""
    ten, partner = NUMBERS[digit], NUMBERS[10 - digit]
    if technique in ("partner-of-10", "both-partners"):
        assert f"{ten} is ten less {partner}" in text, text
    if technique == "partner-of-5":
        assert f"{ten} is five less {NUMBERS[5 - digit]}" in text, text
    if technique == "both-partners":
        assert f"{partner} is five less {NUMBERS[digit - 5]}" in text, text
    if technique == "direct":
        assert f"The beads for {ten} are" in text, text


FRAMES = [("five-and-four", 1), ("nine-bead", 0)]
CASES = list(product(FRAMES, Wording, ("+", "-"), Order))


@pytest.mark.parametrize(("frame", "wording", "sign", "order"), CASES)
def test_the_sentence_alone_tells_the_step(frame: tuple[str, int], wording: Wording, sign: str, order: Order) -> None:
    start = build_frame(frame[0], columns=4)
    house = HouseStyle(wording=wording, add_order=order, take_order=order)
    checked = 0
    for state, digit, column in product(range(100), range(1, 10), (1, 2)):
        held, worked = 1000 + state * 10 ** (column - 1), digit * 10 ** (column - 1)
        after = held + worked if sign == "+" else held - worked
        walkthrough = work_problem(parse_problem(f"{held} {sign} {worked}"), start, house=house)
        step, said = walkthrough.steps[-1], say_steps(walkthrough, WORDS)[-1]
        assert str(digit) in said.full
        check_step(said.short, held, after, column, upper=frame[1], ruled=False)
        if wording is Wording.BOTH:
            reasoned, rule = said.full.split("The rule: ")
            now = "Now the" + rule.partition("Now the")[2]
            check_step(reasoned + now, held, after, column, upper=frame[1], ruled=False)
            check_step(rule, held, after, column, upper=frame[1], ruled=True)
        else:
            check_step(said.full, held, after, column, upper=frame[1], ruled=wording is Wording.RULES)
        if wording is not Wording.RULES:
            check_reason(said.full, digit, str(step.technique))
        assert said.full.endswith(f" The answer is {after:,}.")
        checked += 1
    assert checked == 1800


@pytest.mark.parametrize("frame", FRAMES)
@pytest.mark.parametrize("sign", ["+", "-"])
def test_counting_alone_tells_the_step(frame: tuple[str, int], sign: str) -> None:
    start, house = build_frame(frame[0], columns=4), HouseStyle(inner=Inner.COUNTING)
    for state, digit in product(range(100), range(1, 10)):
        held = 1000 + state
        after = held + digit if sign == "+" else held - digit
        walkthrough = work_problem(parse_problem(f"{held} {sign} {digit}"), start, house=house)
        said = say_steps(walkthrough, WORDS)[-1].full
        told = said.partition(": ")[2].partition(". Now")[0]
        assert [count.partition(",")[0] for count in told.split("; ")] == list(NUMBERS[1 : digit + 1])
        check_step(said, held, after, 1, upper=frame[1], ruled=False)


@pytest.mark.parametrize("frame", FRAMES)
def test_setting_a_digit_tells_its_beads(frame: tuple[str, int]) -> None:
    start = build_frame(frame[0], columns=4)
    for digit in range(1, 10):
        said = say_steps(work_problem(parse_problem(f"{digit} + 1"), start), WORDS)[0].full
        upper, lower = split(digit, frame[1])
        beads = re.search(rf"Set {digit} on the ones: (.*)\. Now the ones read {digit}\.", said)
        assert beads, said
        counts = re.findall(r"(\d) (?:lower )?beads?", beads[1])
        assert ("the upper bead" in beads[1], [int(count) for count in counts]) == (
            upper == 1,
            [lower] if lower else [],
        )
