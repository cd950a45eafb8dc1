"""Read a course and list every mistake in it with its place and a next step."""

import argparse
import sys
from pathlib import Path

NAME = "check"


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `check` takes."""
    parser.add_argument(
        "folder",
        metavar="DIR",
        nargs="?",
        default=Path(),
        type=Path,
        help="the folder with mkdocs.yml, or the one with course.yml (default: this folder)",
    )


def run(options: argparse.Namespace) -> int:
    """List the findings; 0 when there is none, else 1."""
    from beadwright.course import run_check

    return run_check(options.folder, sys.stdout)
