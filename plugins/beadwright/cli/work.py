"""Work a problem bead by bead and print how."""

import argparse
import sys

from beadwright.cli.house import OptionError, add_house_options, build_house
from beadwright.cli.streams import write_safely
from beadwright.engine import (
    FRAME_NAMES,
    METHODS,
    SLIPS,
    EngineError,
    ProblemError,
    Slipped,
    Walkthrough,
    build_frame,
    build_slipped,
    parse_problem,
    work_problem,
)

NAME = "work"
FORMS = ("text", "speech", "json", "svg")
SHOWN = 70
"""Signs of a problem that are shown around what is wrong."""


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `work` takes."""
    parser.add_argument("problem", metavar="PROBLEM", nargs="+", help='such as "48 + 37"')
    parser.add_argument("--frame", choices=FRAME_NAMES, default=FRAME_NAMES[0], help="kind of frame (%(default)s)")
    parser.add_argument("--columns", type=int, metavar="N", help="number of columns (as usual for the frame)")
    parser.add_argument("--method", metavar="NAME", help=f"one of {', '.join(METHODS)} (the usual one)")
    parser.add_argument("--as", dest="form", choices=FORMS, default=FORMS[0], help="what is printed (%(default)s)")
    parser.add_argument("--step", type=int, metavar="N", help="draw the frame after step N; 0 is the start (the last)")
    parser.add_argument("--slip", metavar="NAME", help=f"work it with a slip: {', '.join(SLIPS)}")
    parser.add_argument("--at", type=int, metavar="STEP", help="the step that the slip happens in (the first it can)")
    add_house_options(parser)


def run(options: argparse.Namespace) -> int:
    """Print the walkthrough, or say why there is none."""
    from beadwright.render import load_words
    from beadwright.render.terminal import StepError, render_form

    if options.form in ("json", "svg"):
        write_safely(sys.stdout, encoding="utf-8")  # what machines read has one encoding on every machine
    try:
        worked = work(options)
        print(render_form(worked, load_words("en"), form=options.form, step=options.step))
    except (EngineError, StepError, OptionError) as error:
        print(f"beadwright work: {error}", file=sys.stderr)
        if isinstance(error, ProblemError):
            print(show_place(read_problem(options), error.position), file=sys.stderr)
        return 1
    return 0


def work(options: argparse.Namespace) -> Walkthrough | Slipped:
    """Work the problem as the options say; raises `EngineError` or `OptionError`."""
    if options.at is not None and options.slip is None:
        raise OptionError("--at says where a slip happens; name the slip with --slip")
    frame = build_frame(options.frame, columns=options.columns)
    problem = parse_problem(read_problem(options))
    walkthrough = work_problem(problem, frame, house=build_house(options), method=options.method)
    return walkthrough if options.slip is None else build_slipped(walkthrough, options.slip, step=options.at)


def show_place(text: str, position: int) -> str:
    """The problem on one line, of a long one what stands around the position (from 0), and a mark below that."""
    start = max(0, position - SHOWN // 2)
    shown = "".join(sign if sign.isprintable() else " " for sign in text[start : start + SHOWN])
    before, after = "…" if start > 0 else "", "…" if len(text) > start + SHOWN else ""
    return f"  {before}{shown}{after}\n  {' ' * (len(before) + position - start)}^"


def read_problem(options: argparse.Namespace) -> str:
    """Give the problem as typed; without quotes a shell hands it over in pieces."""
    return " ".join(options.problem)
