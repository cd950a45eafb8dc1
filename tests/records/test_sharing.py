"""Answers that several learners have are found, in memory or, of many, in parts of a file."""

import random
from collections import Counter

import pytest

from beadwright.records import sharing
from beadwright.records.sharing import Owners


def share(learners: list[list[str]], ranks: list[int]) -> list[tuple[int, int, int]]:
    with Owners() as owners:
        for number, answers in enumerate(learners):
            owners.add(number, answers)
        return owners.find_shared(ranks)


def test_an_answer_that_three_have_is_the_first_ones() -> None:
    assert share([["a", "b"], ["b", "c"], ["b", "d"]], [0, 1, 2]) == [(0, 1, 1), (0, 2, 1)]
    assert share([["a", "b"], ["b", "c"], ["b", "d"]], [2, 1, 0]) == [(2, 1, 1), (2, 0, 1)]


@pytest.mark.parametrize("held", [None, 1])
def test_pairs_are_those_of_looking_at_every_answer(held: int | None, monkeypatch: pytest.MonkeyPatch) -> None:
    if held is not None:  # one entry at a time goes into the file
        monkeypatch.setattr(sharing, "_BLOCK", held)
        monkeypatch.setattr(sharing, "_MOST_HELD", held)
    chance = random.Random(3)
    learners = [chance.sample([f"answer-{n}" for n in range(400)], 30) for _ in range(20)]
    ranks = chance.sample(range(20), 20)
    order = sorted(range(20), key=lambda number: ranks[number])
    expected: Counter[tuple[int, int]] = Counter()
    for answer in {name for own in learners for name in own}:
        owner, *others = [number for number in order if answer in learners[number]]
        expected.update((owner, other) for other in others)
    found = share(learners, ranks)
    assert {(owner, other): count for owner, other, count in found} == expected
    assert [(ranks[other], ranks[owner]) for owner, other, _ in found] == sorted(
        (ranks[other], ranks[owner]) for owner, other in expected
    )
