"""Read learners' records and write the report on what came of the course."""

import argparse
import sys
from pathlib import Path
from typing import TextIO

from beadwright.cli.streams import name_fault, read_text

NAME = "cohort"
OFTEN = 200
"""The bar moves after so many steps."""
WIDTH = 30


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `cohort` takes."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the folder with the files that learners saved")
    parser.add_argument("--course", metavar="DIR", type=Path, default=Path("content"), help="course (%(default)s)")
    parser.add_argument("--out", metavar="DIR", type=Path, required=True, help="where the report goes")
    parser.add_argument("--visits", metavar="FILE", type=Path, help="your own file of sessions, visits and students")
    parser.add_argument("--group", metavar="NAME", type=read_text, help="report on the learners of this group alone")
    parser.add_argument("--without-names", action="store_true", help="codes in place of learners' names")


def run(options: argparse.Namespace) -> int:
    """Write the report, and say where it is and what was set aside."""
    from beadwright.cli.courses import CourseError, load_outline
    from beadwright.records import VisitsError, build_report, load_visits, read_cohort
    from beadwright.render import load_words

    try:
        from beadwright.records.output import check_folder, write_report
    except ModuleNotFoundError as error:
        return _complain(f"the report needs {error.name}; install it with: pip install 'beadwright[cohort]'")
    try:
        check_folder(options.out)
        outline = load_outline(options.course)
        words = load_words(outline.language)
        visits = None if options.visits is None else load_visits(options.visits)
        cohort = read_cohort(options.folder, outline, group=options.group, progress=ProgressBar(sys.stderr))
        report = build_report(cohort, outline, visits=visits, names=options.without_names is False)
        written = write_report(report, words, options.out)
    except (CourseError, VisitsError) as error:
        return _complain(str(error))
    except OSError as error:
        return _complain(name_fault(error))
    learners, aside = report.facts["learners"], report.facts["set_aside"]
    print(f"Learners: {learners}. Files set aside: {aside}.")
    for path in written:
        print(f"  {path}")
    if options.group is not None and learners == 0:
        return _complain(f"no record names the group {options.group!r}, so the report is empty")
    return 0


def _complain(message: str) -> int:
    print(f"beadwright cohort: {message}", file=sys.stderr)
    return 1


class ProgressBar:
    """A bar on a terminal, for readings long enough to be waited for; nothing where the output is kept in a file."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._shows = stream.isatty()

    def __call__(self, done: int, total: int) -> None:
        """Draw the bar anew every so many files, and once at the end."""
        if not self._shows or total < OFTEN or (done % OFTEN != 0 and done != total):
            return
        filled = WIDTH * done // total
        end = "\n" if done == total else ""
        self._stream.write(f"\r[{'#' * filled}{'.' * (WIDTH - filled)}] {100 * done // total} %{end}")
        self._stream.flush()
