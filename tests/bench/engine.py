"""Steps worked and replayed a second, beside the san + push of python-chess: both name a legal move and make it.

python-chess is a development tool here, for its licence. The game is a long one, drawn once from legal moves with a
seed, since only its length matters. The problems are fresh ones each time, so that nothing is measured that was kept of
the same problem before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import cycle
from random import Random

import chess

from beadwright.engine import Frame, Problem, build_frame, parse_problem, work_problem
from beadwright.render.speech import say_steps
from beadwright.render.words import load_words
from tests.bench.measure import Contender, Table, measure_rates

PLIES = 240
PROBLEMS = 60
BATCHES = 100
GROWTH_BATCHES = 20  # there are no more different sums of two digits each
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


class Fresh:
    """Problems of one kind, `PROBLEMS` at a time, no problem twice until `batches` times that many have been taken."""

    def __init__(self, write: Callable[[Random], str], seed: str, batches: int = BATCHES) -> None:
        chance, texts = Random(seed), dict[str, None]()
        while len(texts) < PROBLEMS * batches:
            texts[write(chance)] = None
        drawn = [parse_problem(text) for text in texts]
        self.first = drawn[:PROBLEMS]
        self._batches: Iterator[list[Problem]] = cycle(
            [drawn[start : start + PROBLEMS] for start in range(0, len(drawn), PROBLEMS)]
        )

    def take(self) -> list[Problem]:
        """The next ones."""
        return next(self._batches)


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


def work_all(problems: Sequence[Problem], frame: Frame, method: str) -> int:
    """Work every problem to its replayed walkthrough; gives how many steps that took."""
    return sum(len(work_problem(problem, frame, method=method).steps) for problem in problems)


def say_all(problems: Sequence[Problem], frame: Frame, method: str) -> int:
    """The same, and put every step into words."""
    words = load_words("en")
    return sum(len(say_steps(work_problem(problem, frame, method=method), words)) for problem in problems)


def run() -> list[Table]:
    """Measure the engine."""
    return [measure_operations(), measure_growth()]


def measure_operations() -> Table:
    """Each operation: walkthroughs and steps a second, and steps against the base; then with every step in words."""
    frame, game = build_frame(), draw_game()
    contenders = [Contender(BASE, lambda: play(game))]
    for name, write, method in KINDS:
        worked, said = Fresh(write, "worked"), Fresh(write, "said")
        contenders.append(Contender(name, lambda p=worked, m=method: work_all(p.take(), frame, m)))  # type: ignore[misc]
        contenders.append(Contender(f"{name} said", lambda p=said, m=method: say_all(p.take(), frame, m)))  # type: ignore[misc]
    rates = measure_rates(contenders)
    rows = [[BASE, "", f"{rates[BASE]:,.0f}", "1.00", "", ""]]
    for name, write, method in KINDS:
        problems = Fresh(write, "worked").first
        steps = work_all(problems, frame, method) / len(problems)
        working, saying = rates[name], rates[f"{name} said"]
        ratios = [f"{rate / rates[BASE]:.2f}" for rate in (working, saying)]
        rows.append([name, f"{working / steps:,.0f}", f"{working:,.0f}", ratios[0], f"{saying:,.0f}", ratios[1]])
    heads = ["", "walkthroughs/s", "steps/s", "ratio", "with words/s", "ratio"]
    return Table("Engine: worked and replayed, beside naming and making a chess move", heads, rows)


def measure_growth() -> Table:
    """Sums of more digits: the time for one step should stay nearly the same."""
    problems = {digits: Fresh(write_long_sum(digits), "grown", GROWTH_BATCHES) for digits in GROWTH}
    frame = build_frame()
    contenders = [
        Contender(str(digits), lambda p=fresh: work_all(p.take(), frame, "partners"))  # type: ignore[misc]
        for digits, fresh in problems.items()
    ]
    rates = measure_rates(contenders)
    rows = []
    for digits, fresh in problems.items():
        steps = work_all(fresh.first, frame, "partners") / len(fresh.first)
        each = 1e6 / rates[str(digits)]
        rows.append([f"{digits} digits", f"{steps:.1f}", f"{each:.1f}", f"{each * rates[str(GROWTH[0])] / 1e6:.2f}"])
    return Table("Growth of a sum of two numbers", ["", "steps", "µs a step", f"to {GROWTH[0]} digits"], rows)
