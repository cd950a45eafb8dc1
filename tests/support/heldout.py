"""What a built page says of wrong answers that learners give to problems of its pools."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from typing import Any

from bs4 import BeautifulSoup

from beadwright.engine import build_frame, parse_problem, work_problem
from tests.support.learners import Mistake, make_mistakes
from tests.support.practice_pages import load_lesson, write_page


@dataclass
class Tally:
    """How often the slip that was made is named: `first` alone, `tied` first, `later`, not at all (`none`)."""

    places: Counter[str] = field(default_factory=Counter)
    missed: Counter[tuple[str, str]] = field(default_factory=Counter)

    @property
    def share(self) -> float:
        """The share of mistakes whose slip is named first or tied first."""
        return (self.places["first"] + self.places["tied"]) / self.places.total()


def write_items(seed: int) -> dict[str, str]:
    """Items with pools, by operation, from a seed: YAML of one lesson each."""
    chance = Random(seed)

    def draw(text: str) -> str:
        return f"- draw: {{{text}, count: 4, pool: 12, seed: {seed}}}\n"

    def ask(problem: str, more: str = "") -> str:
        return f"- {{ask: answer, problem: {problem}{more}}}\n"

    def pick(low: int, high: int) -> int:
        return low + int(chance.random() * (high - low))

    signs = ("+ 1", "+ 5", "+ 7", "- 1")
    fractions = [f"{pick(2, 8)}/{pick(8, 13)} {sign}/{pick(9, 13)}" for _ in range(80) for sign in signs]
    return {
        "adding": draw("operation: add, digits: [2, 2]") + draw("operation: add, digits: [3, 3]"),
        "taking away": draw("operation: take, digits: [2, 2]") + draw("operation: take, digits: [3, 3]"),
        "three numbers": draw("operation: add-take, digits: [3, 2, 2]"),
        "counted": draw("operation: add, digits: [2, 2], method: counting")
        + draw("operation: take, digits: [2, 1], method: counting"),
        "decimals": "".join(
            ask(f"{pick(11, 99)}.{pick(1, 9)} {sign} {pick(1, 9)}.{pick(11, 99)}") for sign in "++--" for _ in range(2)
        ),
        "multiplying": draw("operation: multiply, digits: [2, 1]") + draw("operation: multiply, digits: [2, 2]"),
        "dividing": draw("operation: divide, digits: [3, 1]") + draw("operation: divide, digits: [4, 2]"),
        "fractions": "".join(ask(problem) for problem in list(dict.fromkeys(fractions))[:180]),
        "roots": "".join(ask(f"√{pick(101, 5000)}") for _ in range(20)),
        "double roots": "".join(ask(f"√{pick(101, 5000)}", ", method: double-root") for _ in range(24)),
    }


def tally(folder: Path, items: str, *, rename: Callable[[str], str] = str) -> Tally:
    """Let learners make each slip in each problem of a page's pools, and look their answers up in the page.

    `rename` is what a slip that the page names is called instead.
    """
    page = write_page(folder, load_lesson(folder, items))
    soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
    islands = [json.loads(script.get_text()) for script in soup.select("script.practice-data")]
    shared = json.loads(soup.select("script#bw-practice")[0].get_text())
    causes = [cause | {"slip": rename(cause["slip"])} for cause in shared["causes"]]
    told = Tally()
    for island in islands:
        for entry in island.get("pool", ()):
            method = next((name for name in ("counting", "double-root") if name in items), None)
            worked = work_problem(parse_problem(entry["problem"]), build_frame(), method=method)
            for mistake in make_mistakes(json.loads(json.dumps(worked.to_data()))):
                _count(told, mistake, [causes[place] for place in entry["slips"].get(mistake.answer, ())])
    return told


def _count(told: Tally, mistake: Mistake, causes: list[dict[str, Any]]) -> None:
    head = {cause["slip"] for cause in causes if cause["weight"] == causes[0]["weight"]}
    if mistake.slip in head:
        told.places["first" if len(head) == 1 else "tied"] += 1
        return
    told.places["later" if mistake.slip in {cause["slip"] for cause in causes} else "none"] += 1
    told.missed[mistake.slip, causes[0]["slip"] if causes else "nothing"] += 1
