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
    parser.add_argument(
        "--drawn",
        action="store_true",
        help="list what each draw gives, with the techniques needed, so that a problem can be pinned or banned",
    )


def run(options: argparse.Namespace) -> int:
    """List the findings; 0 when there is none, else 1."""
    from beadwright.course import find_content, load_course, run_check
    from beadwright.render.sheets import load_rounds

    _, findings = load_rounds(find_content(options.folder))
    status = run_check(options.folder, sys.stdout, more=findings)
    if options.drawn and status == 0:
        from beadwright.practice import list_drawn

        loaded = load_course(find_content(options.folder))
        if loaded.course is not None:
            print(*list_drawn(loaded.course, loaded.lessons), sep="\n")
    return status
