"""Where commands write."""

import io
from typing import TextIO


def write_safely(stream: TextIO, *, encoding: str | None = None) -> None:
    """Let a stream replace what its terminal cannot show; with `encoding`, write in that whatever the terminal says."""
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(encoding=encoding, errors="replace")
