"""Work a problem bead by bead and print how."""

import argparse
import sys

from beadwright.cli.streams import write_safely
from beadwright.engine import (
    FRAME_NAMES,
    EngineError,
    HouseStyle,
    Order,
    ProblemError,
    Walkthrough,
    Wording,
    build_frame,
    parse_problem,
    work_problem,
)

NAME = "work"
FORMS = ("text", "speech", "json", "svg")


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `work` takes."""
    orders = [str(order) for order in Order]
    wordings = [str(wording) for wording in Wording]
    parser.add_argument("problem", metavar="PROBLEM", nargs="+", help='such as "48 + 37"')
    parser.add_argument("--frame", choices=FRAME_NAMES, default=FRAME_NAMES[0], help="kind of frame (%(default)s)")
    parser.add_argument("--columns", type=int, metavar="N", help="number of columns (as usual for the frame)")
    parser.add_argument("--method", metavar="NAME", help="method, such as counting (the usual one)")
    parser.add_argument("--exchange", choices=orders, default=orders[0], help="column worked first (%(default)s)")
    parser.add_argument("--exchange-taking", choices=orders, help="the same when taking away (as for adding)")
    parser.add_argument("--wording", choices=wordings, default=wordings[0], help="how moves are told (%(default)s)")
    parser.add_argument("--as", dest="form", choices=FORMS, default=FORMS[0], help="what is printed (%(default)s)")
    parser.add_argument("--step", type=int, metavar="N", help="draw the frame after step N; 0 is the start (the last)")


def run(options: argparse.Namespace) -> int:
    """Print the walkthrough, or say why there is none."""
    from beadwright.render import load_words
    from beadwright.render.terminal import StepError, render_form

    if options.form in ("json", "svg"):
        write_safely(sys.stdout, encoding="utf-8")  # what machines read has one encoding on every machine
    try:
        walkthrough = work(options)
        print(render_form(walkthrough, load_words("en"), form=options.form, step=options.step))
    except (EngineError, StepError) as error:
        print(f"beadwright work: {error}", file=sys.stderr)
        if isinstance(error, ProblemError):
            print(f"  {read_problem(options)}\n  {' ' * error.position}^", file=sys.stderr)
        return 1
    return 0


def work(options: argparse.Namespace) -> Walkthrough:
    """Work the problem as the options say; raises `EngineError`."""
    house = HouseStyle(
        add_order=Order(options.exchange),
        take_order=Order(options.exchange_taking or options.exchange),
        wording=Wording(options.wording),
    )
    frame = build_frame(options.frame, columns=options.columns)
    return work_problem(parse_problem(read_problem(options)), frame, house=house, method=options.method)


def read_problem(options: argparse.Namespace) -> str:
    """Give the problem as typed; without quotes a shell hands it over in pieces."""
    return " ".join(options.problem)
