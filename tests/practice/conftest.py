"""A lesson with items of every kind, built once."""

import pytest

from beadwright.practice import PracticeItem
from tests.support.practice_pages import Loaded, load_lesson

ITEMS = """
- {id: add, ask: answer, problem: 48 + 37}
- {id: take, ask: answer, problem: 403 - 167}
- {id: three, ask: answer, problem: 48 + 37 - 12}
- {id: decimal, ask: answer, problem: 12.5 + 3.75}
- {id: counted, ask: answer, problem: 8 + 6, method: counting}
- {id: own-words, ask: answer, problem: 10 - 7, prompt: What is the partner of 10 of 7?}
- {id: starter, ask: answer, problem: 4 + 3, frame: {nine-bead: {columns: 3}}}
- {id: read, ask: read, reads: "305"}
- {id: read-beads, ask: read, beads: [[1, 2], [0, 4]]}
- {id: read-decimal, ask: read, reads: "12.5"}
- {id: put, ask: set, reads: "56"}
- {id: put-decimal, ask: set, reads: "0.75"}
- {id: next, ask: next-move, problem: 48 + 37, at: 4}
- {id: next-run, ask: next-move, problem: 999 + 1, at: 4}
- {id: moves, ask: order-moves, problem: 48 + 37, at: 4}
- {id: steps, ask: order-moves, problem: 48 + 37}
- {id: slip, ask: find-slip, problem: 67 + 38, slip: exchange-dropped}
- {id: whole, ask: carry-out, problem: 48 + 37}
- {id: whole-take, ask: carry-out, problem: 403 - 167}
- {id: hear, ask: heard, problem: 48 + 37}
- id: one
  ask: choice
  question: Which?
  options: [{text: That, right: true, because: So.}, {text: This, because: No.}]
- {id: think, ask: reflect, question: What?, model: That.}
- {id: sure, ask: rating, when: before}
- draw: {operation: add, digits: [2, 2], needs: partner-of-10, count: 3}
- draw: {operation: take, digits: [2, 2], needs: both-partners, count: 2, ask: next-move}
- draw: {operation: add, digits: [2, 2], count: 2, ask: find-slip}
- draw: {operation: add-take, digits: [2, 1, 1], count: 2, ask: carry-out}
- draw: {operation: add, digits: [3, 3], count: 1, ask: heard}
- draw: {operation: take, digits: [3, 2], needs: runs-on, count: 1, ask: order-moves}
"""


@pytest.fixture(scope="session")
def lesson(tmp_path_factory: pytest.TempPathFactory) -> Loaded:
    """The lesson with its course."""
    return load_lesson(tmp_path_factory.mktemp("lesson"), ITEMS)


@pytest.fixture(scope="session")
def items(lesson: Loaded) -> dict[str, PracticeItem]:
    """Its items by id."""
    return {item.id: item for practice in lesson.practices for item in practice.items}
