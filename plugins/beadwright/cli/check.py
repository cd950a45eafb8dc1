"""Read a course and list every mistake in it with its place."""

import argparse
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
    """List the findings; 0 when there is none."""
    from beadwright.course import format_findings, load_course

    content = options.folder if (options.folder / "course.yml").is_file() else options.folder / "content"
    loaded = load_course(content.resolve())
    if not loaded.findings:
        print(f"{len(loaded.lessons)} lessons, nothing to put right")
        return 0
    print(format_findings(loaded.findings), end="")
    print(f"{len(loaded.findings)} to put right")
    return 1
