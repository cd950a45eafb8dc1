"""What commands read from their arguments, and where they write."""

import io
import os
import sys
from pathlib import Path
from typing import TextIO


def write_safely(stream: TextIO, *, encoding: str | None = None) -> None:
    """Let a stream replace what its terminal cannot show; with `encoding`, write in that whatever the terminal says."""
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(encoding=encoding, errors="replace")


def fill_missing() -> None:
    """Let what is written to a closed stream be lost; else a file opened later would take its place and get it."""
    for name in ("stdin", "stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, Path(os.devnull).open("r" if name == "stdin" else "w", encoding="utf-8"))  # noqa: SIM115


def read_text(argument: str) -> str:
    r"""An argument as text: what the shell handed over in bytes that are no text is replaced.

    >>> read_text("Tarn\udcff")
    'Tarn?'
    """
    return argument.encode("utf-8", "replace").decode()


def name_fault(error: OSError) -> str:
    """A fault of disk or file in words: where, if it says so, and what.

    >>> name_fault(OSError(28, "No space left on device"))
    'No space left on device'
    """
    return ": ".join(str(part) for part in (error.filename, error.strerror or error) if part is not None)
