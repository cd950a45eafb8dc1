"""The course speaks to people who do not see it, plainly, and says nothing that closes a door."""

import re
from collections.abc import Callable

import pytest

from tests.content.passages import CONTENT, Passage, find_passages, list_passages
from tests.content.reading import count_syllables, find_grade, list_grades

HARDEST_GRADE = 8.0

SIGHT_BOUND = (
    r"as you (?:can )?see\b",
    r"as (?:shown|seen|pictured) (?:here|above|below|on the (?:left|right))",
    r"you (?:can|will|may) see\b",
    r"\bsee (?:how|that|where)\b",
    r"\blook(?:ing)? at (?:the|this|that|these) (?:figure|picture|image|diagram|frame|beads?|drawing|photo|columns?)",
    r"\bin the (?:picture|image|diagram|photo|drawing)\b",
    r"\b(?:figure|picture|image|diagram|drawing|table) (?:above|below|on the (?:left|right))",
    r"\bthis one (?:here|there)\b|\bthat one (?:here|there)\b|\bover (?:here|there)\b",
    r"\bat a glance\b|\bglance at\b",
    r"\b(?:red|green|blue|yellow|orange|purple|colou?red|highlighted|shaded|greyed|grayed)\b",
    r"\bclick\b|\bhover\b|\bdrag\b",
    r"\bwatch the screen\b|\bon[- ]screen\b",
    r"\bsimply looking\b|\bby eye\b",
)
CLOSES_A_DOOR = (
    r"\b(?:everyone|everybody|we all|most people) (?:hates?|dislikes?|fears?) (?:math|mathematics|maths|numbers)",
    r"\b(?:normal|natural|ok|okay|fine) (?:to|not to) (?:hate|dislike|like) (?:math|mathematics|maths|numbers)",
    r"\bnot a math person\b",
    r"\bmath (?:anxiety|phobia)\b",
    r"\b(?:obviously|of course you know|as everyone knows|trivial(?:ly)?)\b",
    r"\bsuffers? from (?:blindness|low vision)|\bconfined to\b|\bspecial needs\b|\bthe blind\b",
    r"\bnormal (?:students?|children|kids)\b",
)
LESSON_NUMBER = r"\blessons? \d"


def find_phrases(patterns: tuple[str, ...]) -> list[str]:
    """Where the course uses one of these phrases."""
    found = []
    for passage in list_passages():
        flat = " ".join(passage.text.split())
        for pattern in patterns:
            found += [f"{passage.place}: {hit[0]}" for hit in re.finditer(pattern, flat, re.IGNORECASE)]
    return found


@pytest.mark.parametrize("text", ["As you can see, it is 5.", "Look at the figure.", "the red bead", "Click Next"])
def test_sight_bound_phrases_are_found(text: str) -> None:
    assert any(re.search(pattern, text, re.IGNORECASE) for pattern in SIGHT_BOUND)


def test_the_language_works_without_sight() -> None:
    assert find_phrases(SIGHT_BOUND) == []


def test_signs_are_said_by_screen_readers() -> None:
    """A minus sign is read as minus; a hyphen between numbers often goes unsaid."""
    assert find_phrases((r"\d - \d",)) == []


def test_nothing_says_that_mathematics_is_for_others() -> None:
    assert find_phrases(CLOSES_A_DOOR) == []
    prose = " ".join(" ".join(passage.text.split()) for passage in list_passages())
    assert "hard things can be learned" in prose


def test_lessons_are_named_and_not_numbered() -> None:
    """A number in prose turns false when a lesson is put in."""
    assert find_phrases((LESSON_NUMBER,)) == []


@pytest.mark.parametrize(
    ("word", "syllables"),
    [("bead", 1), ("column", 2), ("partner", 2), ("exchange", 2), ("moved", 1), ("needed", 2), ("table", 2), ("the", 1),
     ("boxes", 2), ("places", 2), ("times", 1), ("mathematics", 4), ("taken", 2)],
)  # fmt: skip
def test_syllables_are_counted_near_enough(word: str, syllables: int) -> None:
    assert count_syllables(word) == syllables


def test_the_grade_is_that_of_the_formula() -> None:
    """Two sentences of four words: 0.39 × 4 + 11.8 × 10/8 − 15.59, the ten syllables counted by hand."""
    assert find_grade(["The left hand reads. A finger finds beads."]) == pytest.approx(0.39 * 4 + 11.8 * 9 / 8 - 15.59)
    assert find_grade(["The left hand reads.", "A finger finds columns."]) == pytest.approx(
        0.39 * 4 + 11.8 * 10 / 8 - 15.59
    )


def test_reading_is_no_harder_than_grade_8(record_property: Callable[[str, object], None]) -> None:
    grades = list_grades(list_passages())
    assert len(grades) >= 10
    for file, by_reader in grades.items():
        for reader, grade in by_reader.items():
            record_property(f"{file} ({reader})", round(grade, 1))
            assert grade <= HARDEST_GRADE, f"{file} ({reader}): {grade:.1f}"


def test_all_prose_is_found() -> None:
    """Keys that hold prose, of every kind of file; a key left out of the list would go unread."""
    kinds = {passage.key for passage in find_passages(CONTENT)}
    assert {"text", "note", "question", "because", "model", "facilitator", "caption", "meaning", "page"} <= kinds
    assert any(isinstance(passage, Passage) and "cautions" in passage.keys for passage in find_passages(CONTENT))
