"""Steps worked and replayed a second, beside the san + push of python-chess: both name a legal move and make it.

python-chess is a development tool here, for its licence. The game is a long one, drawn once from legal moves with a
seed, since only its length matters.
"""

from __future__ import annotations

from collections.abc import Callable
from random import Random

import chess

from beadwright.engine import Frame, Problem, build_frame, parse_problem, work_problem
from beadwright.render.speech import say_steps
from beadwright.render.words import load_words
from tests.bench.measure import Contender, Table, measure_rates

PLIES = 240
PROBLEMS = 60
GROWTH = (2, 4, 8, 12)
BASE = "python-chess: san + push"


def draw_game() -> list[chess.Move]:
    """A legal game of `PLIES` moves that does not end before."""
    for seed in range(1000):
        board, chance = chess.Board(), Random(seed)
        while len(board.move_stack) < PLIES and not board.is_game_over():
            board.push(chance.choice(sorted(board.legal_moves, key=chess.Move.uci)))
        if len(board.move_stack) == PLIES:
            return list(board.move_stack)
    raise AssertionError("no seed gives a game that long")


def play(game: list[chess.Move]) -> int:
    """Name and make every move of the game; gives how many there were."""
    board = chess.Board()
    for move in game:
        board.san(move)
        board.push(move)
    return len(game)


def draw_problems_of(write: Callable[[Random], str]) -> list[Problem]:
    """Problems of one kind, always the same ones."""
    chance = Random("bench")
    return [parse_problem(write(chance)) for _ in range(PROBLEMS)]


def write_sum(chance: Random) -> str:
    return f"{chance.randrange(100, 1000)} + {chance.randrange(100, 1000)}"


def write_difference(chance: Random) -> str:
    return f"{chance.randrange(500, 1000)} - {chance.randrange(100, 500)}"


def write_product(chance: Random) -> str:
    return f"{chance.randrange(100, 1000)} × {chance.randrange(10, 100)}"


def write_quotient(chance: Random) -> str:
    return f"{chance.randrange(1000, 10000)} ÷ {chance.randrange(10, 100)}"


def write_root(chance: Random) -> str:
    return f"√{chance.randrange(100, 100000)}"


def write_long_sum(digits: int) -> Callable[[Random], str]:
    """Sums of two numbers of so many digits that need no further column."""
    return lambda chance: " + ".join(str(chance.randrange(10 ** (digits - 1), 5 * 10 ** (digits - 1))) for _ in "ab")


KINDS: list[tuple[str, Callable[[Random], str], str]] = [
    ("+, partners", write_sum, "partners"),
    ("+, counting", write_sum, "counting"),
    ("−, partners", write_difference, "partners"),
    ("×", write_product, "partial-products"),
    ("÷", write_quotient, "trial-digits"),
    ("√, odd numbers", write_root, "odd-number"),
    ("√, double root", write_root, "double-root"),
]


def work_all(problems: list[Problem], frame: Frame, method: str) -> int:
    """Work every problem to its replayed walkthrough; gives how many steps that took."""
    return sum(len(work_problem(problem, frame, method=method).steps) for problem in problems)


def say_all(problems: list[Problem], frame: Frame, method: str) -> int:
    """The same, and put every step into words."""
    words = load_words("en")
    return sum(len(say_steps(work_problem(problem, frame, method=method), words)) for problem in problems)


def run() -> list[Table]:
    """Measure the engine."""
    return [measure_operations(), measure_growth()]


def measure_operations() -> Table:
    """Each operation: walkthroughs and steps a second, and steps against the base; then with every step in words."""
    frame, game = build_frame(), draw_game()
    problems = {name: draw_problems_of(write) for name, write, _ in KINDS}
    contenders = [Contender(BASE, lambda: play(game))]
    for name, _, method in KINDS:
        contenders.append(Contender(name, lambda p=problems[name], m=method: work_all(p, frame, m)))  # type: ignore[misc]
        contenders.append(Contender(f"{name} said", lambda p=problems[name], m=method: say_all(p, frame, m)))  # type: ignore[misc]
    rates = measure_rates(contenders)
    rows = [[BASE, "", f"{rates[BASE]:,.0f}", "1.00", "", ""]]
    for name, _, method in KINDS:
        steps = work_all(problems[name], frame, method) / PROBLEMS
        worked, said = rates[name], rates[f"{name} said"]
        ratios = [f"{rate / rates[BASE]:.2f}" for rate in (worked, said)]
        rows.append([name, f"{worked / steps:,.0f}", f"{worked:,.0f}", ratios[0], f"{said:,.0f}", ratios[1]])
    heads = ["", "walkthroughs/s", "steps/s", "ratio", "with words/s", "ratio"]
    return Table("Engine: worked and replayed, beside naming and making a chess move", heads, rows)


def measure_growth() -> Table:
    """Sums of more digits: the time for one step should stay nearly the same."""
    problems = {digits: draw_problems_of(write_long_sum(digits)) for digits in GROWTH}
    frame = build_frame()
    contenders = [
        Contender(str(digits), lambda p=found: work_all(p, frame, "partners"))  # type: ignore[misc]
        for digits, found in problems.items()
    ]
    rates = measure_rates(contenders)
    rows = []
    for digits in GROWTH:
        steps = work_all(problems[digits], frame, "partners") / PROBLEMS
        each = 1e6 / rates[str(digits)]
        rows.append([f"{digits} digits", f"{steps:.1f}", f"{each:.1f}", f"{each * rates[str(GROWTH[0])] / 1e6:.2f}"])
    return Table("Growth of a sum of two numbers", ["", "steps", "µs a step", f"to {GROWTH[0]} digits"], rows)
