"""How hard prose is to read: the Flesch–Kincaid grade (Kincaid, Fishburne, Rogers and Chissom, 1975).

grade = 0.39 × words a sentence + 11.8 × syllables a word − 15.59

`python -m tests.content.reading` prints the grade of each file: what learners read, and what trainers read.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable

from tests.content.passages import Passage, list_passages

RUNNING = frozenset(("text", "note", "question", "because", "model", "meaning", "send", "keep", "page"))
_NOT_SENTENCES = re.compile(r"^\s*(\||#).*$", re.MULTILINE)  # tables and headings
_ENDS = re.compile(r"[.!?]+[”\"')*]*(?:\s|$)|\n\s*\n|\n\s*(?:[-*]|\d+\.)\s", re.MULTILINE)
_WORD = re.compile(r"[A-Za-z][A-Za-z'’]*")


def count_syllables(word: str) -> int:
    """Syllables of an English word, near enough: groups of vowels, without a silent e at the end."""
    letters = re.sub(r"[^a-z]", "", word.lower())
    bare = re.sub(r"(?<=[^aeiouy])(?:e|es|ed)$", lambda e: e[0] if _keeps_e(letters, e[0]) else "", letters)
    return max(1, len(re.findall(r"[aeiouy]+", bare)))


def _keeps_e(letters: str, ending: str) -> bool:
    """Whether the e at the end is spoken: able, needed, boxes."""
    spoken = {"e": r"[^aeiouy]le$", "ed": r"[td]ed$", "es": r"(?:[cgsxz]|sh|ch|[^aeiouy]l)es$"}
    return re.search(spoken[ending], letters) is not None


def find_grade(texts: Iterable[str]) -> float:
    """The grade of all texts together; figures and signs count neither as words nor as syllables."""
    words = sentences = syllables = 0
    for text in texts:
        running = _NOT_SENTENCES.sub("\n", re.sub(r"\]\([^)]*\)", "]", text))
        for sentence in _ENDS.split(running):
            found = _WORD.findall(sentence)
            if found:
                sentences += 1
                words += len(found)
                syllables += sum(map(count_syllables, found))
    return 0.39 * words / sentences + 11.8 * syllables / words - 15.59


def list_grades(passages: Iterable[Passage]) -> dict[str, dict[str, float]]:
    """The grade of each file, for `learners` and, where there are notes for them, for `trainers`."""
    texts: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for passage in passages:
        if passage.key == "facilitator":
            texts[passage.file]["trainers"].append(passage.text)
        elif passage.key in RUNNING or "cautions" in passage.keys:
            texts[passage.file]["learners"].append(passage.text)
    return {file: {who: find_grade(found) for who, found in by.items()} for file, by in texts.items()}


if __name__ == "__main__":
    for name, grades in list_grades(list_passages()).items():
        print(f"{name:56}", "  ".join(f"{who} {grade:4.1f}" for who, grade in grades.items()))
