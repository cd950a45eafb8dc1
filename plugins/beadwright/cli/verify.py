"""Verify the code of a certificate with the key it was made with."""

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from beadwright.cli.streams import name_fault

if TYPE_CHECKING:
    from beadwright.records.codes import Claims

NAME = "verify"
MOST_BYTES = 64 * 1024 * 1024
CLAIMS = {
    "course": "the course's id",
    "edition": "the edition on the certificate",
    "name": "the name on the certificate, letter by letter",
    "award": "what was completed, as the certificate says it",
    "hours": "the hours on the certificate",
    "date": "the date on the certificate",
}


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `verify` takes."""
    parser.add_argument("code", metavar="CODE", help="the code on the certificate")
    parser.add_argument(
        "--key", metavar="FILE", type=Path, required=True, help="the key that certificates are made with"
    )
    parser.add_argument("--list", metavar="FILE", type=Path, help="certificates.json, instead of the options below")
    for name, what in CLAIMS.items():
        parser.add_argument(f"--{name}", metavar="TEXT", help=what)


def run(options: argparse.Namespace) -> int:
    """Say whether the code is that of this certificate; 0 when it is, 1 when it is not."""
    from beadwright.records.codes import KeyFileError, is_code_of, load_key

    try:
        key = load_key(options.key)
        claims = _find_claims(options)
    except (KeyFileError, ValueError) as error:
        return _complain(str(error))
    except OSError as error:
        return _complain(name_fault(error))
    if claims is None:
        return _complain("no certificate in the list has this code")
    if not is_code_of(options.code, key, claims):
        print("NOT VALID: the code does not belong to these words and figures, or was made with another key.")
        return 1
    print("VALID: made with this key for:")
    for name in CLAIMS:
        print(f"  {name}: {getattr(claims, name)}")
    return 0


def _find_claims(options: argparse.Namespace) -> "Claims | None":
    """What the code has to cover: typed, or what the list has beside it; None when the list does not have it."""
    from beadwright.records.codes import Claims, read_code

    if options.list is None:
        lacking = [f"--{name}" for name in CLAIMS if getattr(options, name) is None]
        if lacking:
            raise ValueError(f"say what the certificate says: {' '.join(lacking)} (or --list certificates.json)")
        return Claims(**{name: getattr(options, name) for name in CLAIMS})
    with options.list.open("rb") as file:
        data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise ValueError(f"{options.list} is too big to be a list of certificates")
    try:
        listed = json.loads(data)["certificates"]
        for entry in listed:
            if read_code(str(entry["code"])) == read_code(options.code):
                return Claims(**{name: str(entry[name]) for name in CLAIMS})
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        raise ValueError(f"{options.list} is no list of certificates") from error
    return None


def _complain(message: str) -> int:
    print(f"beadwright verify: {message}", file=sys.stderr)
    return 1
