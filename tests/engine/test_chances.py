"""Orders drawn from a seed: all are drawn, each from its own seeds alone."""

from itertools import permutations

from beadwright.engine.chances import shuffle, shuffle_apart

ITEMS = ("one", "two", "three", "four")
SEEDS = [f"seed {number}" for number in range(600)]


def test_every_order_is_drawn_about_as_often() -> None:
    """24 orders in 600 draws: 25 of each on average; by the binomial law fewer than 8 are as good as impossible."""
    drawn = [tuple(shuffle(ITEMS, seed)) for seed in SEEDS]
    assert all(drawn.count(order) >= 8 for order in permutations(ITEMS))
    assert drawn == [tuple(shuffle(ITEMS, seed)) for seed in SEEDS]


def test_an_order_apart_is_any_order_but_the_one_given() -> None:
    drawn = {tuple(shuffle_apart(ITEMS, seed)) for seed in SEEDS}
    assert drawn == set(permutations(ITEMS)) - {ITEMS}


def test_items_that_do_not_differ_have_one_order() -> None:
    assert shuffle_apart(("one", "one"), "seed") == ["one", "one"]
    assert shuffle_apart((), "seed") == shuffle((), "seed") == []
