"""Make a practice sheet, or a contest's papers, in print, braille and sound from one file."""

import argparse
import os
import sys
from pathlib import Path

from beadwright.cli.streams import name_fault

NAME = "sheet"


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `sheet` takes."""
    parser.add_argument("spec", metavar="SPEC.yml", type=Path, help="the file that says what to make")
    parser.add_argument(
        "--out",
        metavar="DIR",
        type=Path,
        help="where to write (a folder by its name, beside it or beside the course's content)",
    )
    parser.add_argument("--size", type=int, default=18, metavar="POINTS", help="of large print, 18 to 36 (%(default)s)")
    parser.add_argument("--paper", choices=("us-letter", "a4"), default="us-letter", help="(%(default)s)")
    parser.add_argument("--cells", type=int, default=40, metavar="N", help="cells in a braille line (%(default)s)")
    parser.add_argument("--lines", type=int, default=25, metavar="N", help="lines on a braille page (%(default)s)")
    parser.add_argument("--uncontracted", action="store_true", help="write braille text without contractions")
    parser.add_argument("--no-sound", action="store_true", help="make no sound of heard sections")
    parser.add_argument("--pace", type=int, default=140, metavar="WORDS", help="words a minute (%(default)s)")


def run(options: argparse.Namespace) -> int:
    """Write the files and say what there is; 0 when all was made or what is missing is said, else 1."""
    from beadwright.course import format_findings
    from beadwright.engine import EngineError
    from beadwright.render import WordsError
    from beadwright.render.sheets import SpecError

    try:
        return write_files(options)
    except SpecError as error:
        print(format_findings(error.findings), end="", file=sys.stderr)
    except OSError as error:
        print(f"beadwright sheet: {name_fault(error)}", file=sys.stderr)
    except (EngineError, WordsError, ValueError) as error:
        print(f"beadwright sheet: {error}", file=sys.stderr)
    return 1


def write_files(options: argparse.Namespace) -> int:
    """Make what the file asks for and write it."""
    from beadwright.render import load_words
    from beadwright.render.braille import Geometry
    from beadwright.render.print import PrintStyle
    from beadwright.render.sheets import ContestSpec, Forms, load_spec, make_contest, make_sheet
    from beadwright.whole import write_made

    spec = load_spec(options.spec)
    forms = Forms(
        geometry=Geometry(options.cells, options.lines),
        contracted=not options.uncontracted,
        sound=not options.no_sound,
        pace=options.pace,
        print_style=PrintStyle(size=options.size, paper=options.paper),
    )
    words = load_words(spec.language, spec.house_style.number_words)
    made = make_contest(spec, words, forms)[0] if isinstance(spec, ContestSpec) else make_sheet(spec, words, forms)
    folder = options.out or find_folder(options.spec)
    gone = write_made(folder, NAME, made.files)
    for line in made.missing:
        print(line, file=sys.stderr)
    print(f"Wrote {len(made.files)} files in {folder}.")
    if gone:
        print(f"Removed {gone} of an earlier run that are no longer made.")
    return 0


def find_folder(spec: Path) -> Path:
    """Where papers go when nobody says: into a folder by the file's name, beside the file.

    Of a file in a course it stands beside the content folder, since what is in there is published.
    """
    from beadwright.course.loading import COURSE_NAME

    name = spec.name.lstrip(".").partition(".")[0]
    content = next((folder for folder in spec.absolute().parents if (folder / COURSE_NAME).is_file()), None)
    return spec.with_name(name) if content is None else Path(os.path.relpath(content.parent / name))
