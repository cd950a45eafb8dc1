"""Whose records hold the same answers: one learner has loaded another's file."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from hashlib import blake2b
from tempfile import SpooledTemporaryFile
from typing import Self

_PARTS = 64
_DIGEST, _NUMBER = 12, 4
_ENTRY = _DIGEST + _NUMBER
_BLOCK = 4096 * _ENTRY
_MOST_HELD = 16 * 1024 * 1024


class Owners:
    """Learners by the names of their answers: 16 bytes an answer, beyond some hundred thousand in a temporary file.

    Names that are equal have equal digests, and so come into the same of several parts, which are looked through one
    at a time.
    """

    def __init__(self) -> None:
        self._file = SpooledTemporaryFile(max_size=_MOST_HELD)  # noqa: SIM115 - closed on leaving
        self._parts = [bytearray() for _ in range(_PARTS)]
        self._blocks: list[list[tuple[int, int]]] = [[] for _ in range(_PARTS)]

    def __enter__(self) -> Self:
        """Hand itself over; leaving removes the file."""
        return self

    def __exit__(self, *_: object) -> None:
        """Remove the file."""
        self._file.close()

    def add(self, learner: int, answers: Iterable[str]) -> None:
        """Note that the learner of this number has these answers, each named once. Raises `OSError`."""
        number = learner.to_bytes(_NUMBER, "big")
        for name in answers:
            entry = blake2b(name.encode(), digest_size=_DIGEST).digest() + number
            part = entry[0] % _PARTS
            held = self._parts[part]
            held += entry
            if len(held) >= _BLOCK:
                self._blocks[part].append((self._file.tell(), len(held)))
                self._file.write(held)
                held.clear()

    def find_shared(self, ranks: Sequence[int]) -> list[tuple[int, int, int]]:
        """Pairs of learners who have the same answers, and how many, in the order of `ranks` (by number).

        An answer that several have is the first one's.
        """
        pairs: Counter[tuple[int, int]] = Counter()
        for part in range(_PARTS):
            for learners in self._find_several(part):
                owner, *others = sorted(learners, key=lambda learner: ranks[learner])
                pairs.update((owner, other) for other in others)
        order = sorted(pairs, key=lambda pair: (ranks[pair[1]], ranks[pair[0]]))
        return [(owner, other, pairs[owner, other]) for owner, other in order]

    def _find_several(self, part: int) -> Iterable[list[int]]:
        """The learners of each answer in a part that more than one has."""
        first: dict[bytes, int] = {}
        several: dict[bytes, list[int]] = {}
        for data in self._read_part(part):
            for at in range(0, len(data), _ENTRY):
                digest, number = data[at : at + _DIGEST], int.from_bytes(data[at + _DIGEST : at + _ENTRY], "big")
                known = first.setdefault(digest, number)
                if known != number:
                    several.setdefault(digest, [known]).append(number)
        return several.values()

    def _read_part(self, part: int) -> Iterator[bytes]:
        for start, length in self._blocks[part]:
            self._file.seek(start)
            yield self._file.read(length)
        yield bytes(self._parts[part])
