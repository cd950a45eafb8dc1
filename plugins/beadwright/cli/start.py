"""Make a small course of your own that builds at once."""

import argparse
import sys
from pathlib import Path

from beadwright.scaffold import StartError, start_course

NAME = "start"


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `start` takes."""
    parser.add_argument("folder", metavar="DIR", type=Path, help="the new course's folder; made when missing")
    parser.add_argument("--title", default="Computing on the frame", help="the course's title")


def run(options: argparse.Namespace) -> int:
    """Write the course, then say what to do next."""
    try:
        written = start_course(options.folder, title=options.title)
    except (StartError, OSError) as error:
        print(f"beadwright start: {error}", file=sys.stderr)
        return 1
    print(f"Wrote {len(written)} files:")
    for path in written:
        print(f"  {path}")
    print(f"Next: cd {options.folder}, then `mkdocs build`, then open site/index.html in a browser.")
    return 0
