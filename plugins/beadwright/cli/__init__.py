"""The `beadwright` command. Each command is a module that reads its options and calls one function of a room."""

import argparse
import errno
import os
import sys
from collections.abc import Sequence

from beadwright import __version__
from beadwright.cli import certificates, check, cohort, pack, sheet, start, verify, work
from beadwright.cli.streams import fill_missing, write_safely

__all__ = ["main"]

COMMANDS = (start, check, work, sheet, cohort, certificates, verify, pack)


def build_parser() -> argparse.ArgumentParser:
    """Give the parser of the whole command, each command's own module filling in its part."""
    parser = argparse.ArgumentParser(
        prog="beadwright",
        description="Builds an accessible course on computing with bead frames from lesson files.",
        epilog="To build a course, run `mkdocs build` in its folder; to see it while writing, `mkdocs serve`.",
    )
    parser.add_argument("--version", action="version", version=f"beadwright {__version__}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for command in COMMANDS:
        summary = (command.__doc__ or "").partition("\n")[0]
        part = commands.add_parser(command.NAME, help=summary, description=summary)
        command.add_options(part)
        part.set_defaults(run=command.run)
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit status.

    0: done. 1: the command was understood, and what it was asked for cannot be had (the reason is on standard
    error). 2: the command line itself was not understood.
    """
    fill_missing()
    options = build_parser().parse_args(arguments)
    write_safely(sys.stdout)
    write_safely(sys.stderr)
    try:
        status = int(options.run(options))
        sys.stdout.flush()
    except BrokenPipeError:
        # The reader of our output (`| head`) has gone. That is no fault.
        _write_no_more()
        return 0
    except OSError as error:
        if error.errno != errno.ENOSPC:
            raise
        _write_no_more()
        print(f"beadwright: {error.strerror}", file=sys.stderr)
        return 1
    return status


def _write_no_more() -> None:
    """What is still to be written shall not meet the same fault when Python ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
