"""Verification codes: what a certificate says, signed with the trainer's own key, short enough to be typed.

A code is a keyed hash (HMAC with SHA-256, RFC 2104) of what the certificate says, cut to 80 bits. Who has no key can
neither make one nor change a letter of what it covers; who has the key needs no list to check one.
"""

from __future__ import annotations

import hmac
import json
import os
import secrets
import unicodedata
from dataclasses import dataclass
from hashlib import sha256
from itertools import product
from pathlib import Path

LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Thirty-two signs without I, L, O and U, which are mistaken for others or make words."""
LENGTH = 16
LEAST_KEY = 32
MOST_KEY = 4096


class KeyFileError(Exception):
    """A key that cannot be used, or stands where it could be given away; the message says what to do."""


@dataclass(frozen=True, slots=True)
class Claims:
    """What a certificate says and its code covers. `hours` as printed, `date` as 2026-11-25."""

    course: str
    edition: str
    name: str
    award: str
    hours: str
    date: str


def make_code(key: bytes, claims: Claims) -> str:
    """The code of these claims, in four groups of four.

    >>> make_code(b"k" * 32, Claims("c", "1", "Oda Pell", "Course", "9.75", "2026-11-25")) == make_code(
    ...     b"k" * 32, Claims("c", "1", "Oda Pelt", "Course", "9.75", "2026-11-25"))
    False
    """
    said = [claims.course, claims.edition, claims.name, claims.award, claims.hours, claims.date]
    text = json.dumps(["beadwright/certificate/1", *said], ensure_ascii=True, separators=(",", ":"))
    number = int.from_bytes(hmac.new(key, text.encode(), sha256).digest()[:10], "big")
    signs = "".join(LETTERS[(number >> 5 * place) & 31] for place in reversed(range(LENGTH)))
    return "-".join(signs[start : start + 4] for start in range(0, LENGTH, 4))


def is_code_of(code: str, key: bytes, claims: Claims) -> bool:
    """Whether a code, as somebody typed it, is that of these claims.

    Keyboards make one sign of a letter with its mark, or two; a code of either belongs to both.
    """
    typed = read_code(code)
    said = product(*(_list_forms(getattr(claims, name)) for name in Claims.__slots__))
    return any(hmac.compare_digest(typed, read_code(make_code(key, Claims(*each)))) for each in said)


def _list_forms(text: str) -> dict[str, None]:
    """A text as it is, composed and decomposed, each once."""
    return dict.fromkeys((text, unicodedata.normalize("NFC", text), unicodedata.normalize("NFD", text)))


def read_code(typed: str) -> str:
    """A typed code without dashes and blanks, in capitals, with look-alikes read as what they stand for.

    >>> read_code("o1ab-i2cd lxyz")
    '01AB12CD1XYZ'
    """
    signs = "".join(typed.upper().split()).replace("-", "")
    return signs.translate(str.maketrans("OIL", "011")).encode("ascii", "replace").decode()


def load_key(path: Path) -> bytes:
    """The key in a file; raises `KeyFileError` for none or one that is too short to be a secret, and `OSError`."""
    if not path.exists():
        how = "say with --key where yours is, or make one with beadwright certificates --make-key"
        raise KeyFileError(f"there is no key {path}: {how}")
    with path.open("rb") as file:
        key = file.read(MOST_KEY + 1)  # of a device that never ends no more
    if not LEAST_KEY <= len(key) <= MOST_KEY:
        raise KeyFileError(f"{path} holds no key: a key has {LEAST_KEY} to {MOST_KEY} bytes. Make one with --make-key")
    return key


def make_key(path: Path) -> None:
    """Write a new key that only its owner may read; raises `FileExistsError` rather than replace one."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "w", encoding="ascii") as file:
        file.write(secrets.token_hex(32) + "\n")


def check_place(key: Path, *folders: Path) -> None:
    """Raise `KeyFileError` when a key lies in one of these folders: they are handed on, a key never is."""
    place = key.resolve()
    for folder in folders:
        if place.is_relative_to(folder.resolve()):
            raise KeyFileError(f"the key {key} lies in {folder}, which is handed on; keep it somewhere else")
