"""Many problems of every kind, the same ones in each run."""

from random import Random

from beadwright.engine import Problem, parse_problem


def draw_number(chance: Random, *, decimal: bool = True) -> str:
    whole = str(chance.randrange(10 ** chance.randint(1, 13)))
    return whole if not decimal or chance.random() < 0.7 else f"{whole}.{chance.randrange(10**3):03}"


def draw_fraction(chance: Random) -> str:
    below = chance.randint(2, 400)
    part = f"{chance.randint(1, below - 1)}/{below}"
    return part if chance.random() < 0.5 else f"{chance.randint(1, 4000)} {part}"


def draw_problem(chance: Random) -> Problem:
    """One problem of a kind that chance chooses."""
    kind = chance.randrange(6)
    if kind == 0:
        text = draw_number(chance)
        for _ in range(chance.randint(1, 5)):
            text += f" {chance.choice('+-')} {draw_number(chance)}"
        return parse_problem(text)
    if kind == 1:
        return parse_problem(f"{draw_number(chance)} × {draw_number(chance)}")
    if kind == 2:
        return parse_problem(f"{draw_number(chance)} ÷ {chance.randint(1, 10**6)}")
    if kind == 3:
        return parse_problem(f"{draw_fraction(chance)} {chance.choice('+-×÷')} {draw_fraction(chance)}")
    if kind == 4:
        return parse_problem(f"{draw_number(chance)}% of {draw_number(chance)}")
    return parse_problem(f"√{draw_number(chance)}")
