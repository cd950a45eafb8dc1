"""Make the editions of a built course that are handed on: USB stick, single files, SCORM and QTI packages."""

import argparse
import sys
from pathlib import Path

from beadwright.cli.streams import name_fault

NAME = "pack"


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `pack` takes."""
    parser.add_argument("site", metavar="SITE", type=Path, nargs="?", default=Path("site"), help="built (%(default)s)")
    parser.add_argument("--course", metavar="DIR", type=Path, default=Path("content"), help="course (%(default)s)")
    parser.add_argument("--out", metavar="DIR", type=Path, required=True, help="a new folder for what is made")


def run(options: argparse.Namespace) -> int:
    """Write the editions and say what they are."""
    from beadwright.cli.courses import CourseError, load_sound
    from beadwright.pack import PackError, pack_course
    from beadwright.render import load_words

    try:
        loaded = load_sound(options.course)
        if loaded.course is None:
            raise CourseError(f"there is no course in {options.course}")
        words = load_words(loaded.course.language, loaded.course.house_style.number_words)
        packed = pack_course(options.site, loaded.course, loaded.lessons, words, options.out, sources=loaded.digest)
    except (CourseError, PackError) as error:
        return _complain(str(error))
    except OSError as error:
        return _complain(name_fault(error))
    print(f"Packed into {packed.folder}:")
    for name in packed.written:
        print(f"  {name}")
    print(f"Not in the QTI package: {len(packed.unmapped)} items, listed in qti/not-in-it.txt.")
    print("A SCORM package reports status, score, time and place. Full records come only by the learner's own file.")
    return 0


def _complain(message: str) -> int:
    print(f"beadwright pack: {message}", file=sys.stderr)
    return 1
