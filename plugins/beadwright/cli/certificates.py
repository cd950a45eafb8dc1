"""Write a certificate for every learner who has met the course's conditions."""

import argparse
import datetime as dt
import json
import re
import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from beadwright.cli.streams import name_fault

if TYPE_CHECKING:
    from beadwright.records import Outline
    from beadwright.records.certificates import Award, Missing

NAME = "certificates"
LIST = "certificates.json"
_NUMBERED = re.compile(r"certificate-([0-9]{3,9})-[^/]*\.pdf")
_REASONS = {
    "name": "no name in the record, or one that shows nothing",
    "lessons": "still to do: {all}",
    "objectives": "still to show: {all}",
    "hours": "{0} of {1} hours of credit",
    "ratings": "still to rate: {all}",
}


def add_options(parser: argparse.ArgumentParser) -> None:
    """Add what `certificates` takes."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="the folder with the files that learners saved")
    parser.add_argument("--course", metavar="DIR", type=Path, default=Path("content"), help="course (%(default)s)")
    parser.add_argument("--out", metavar="DIR", type=Path, required=True, help="where the certificates go")
    parser.add_argument(
        "--key", metavar="FILE", type=Path, required=True, help="your own key, kept apart from the course"
    )
    parser.add_argument("--make-key", action="store_true", help="make the key first, if there is none yet")
    parser.add_argument("--path", metavar="ID", help="for this path of the course alone")
    parser.add_argument("--date", metavar="YYYY-MM-DD", help="date of issue (today)")
    parser.add_argument("--template", metavar="FILE", type=Path, help="a template of your own, in typst's language")


def run(options: argparse.Namespace) -> int:
    """Write the certificates and their list, and say who has none yet and why."""
    from beadwright.cli.courses import CourseError
    from beadwright.records.certificates import CertificateError
    from beadwright.records.codes import KeyFileError

    try:
        return _write(options)
    except (CourseError, KeyFileError, CertificateError) as error:
        return _complain(str(error))
    except ModuleNotFoundError as error:
        return _complain(f"certificates need {error.name}; install it with: pip install 'beadwright[print]'")
    except OSError as error:
        return _complain(name_fault(error))


def _write(options: argparse.Namespace) -> int:
    from beadwright.cli.courses import load_outline
    from beadwright.records import read_cohort
    from beadwright.records.certificates import find_awards
    from beadwright.records.codes import check_place, load_key, make_key
    from beadwright.records.plain import read_day

    today = dt.datetime.now(tz=dt.UTC).astimezone().date().isoformat()
    date = today if options.date is None else options.date
    if read_day(date) is None:
        return _complain(f"--date is a day such as 2026-11-25, not {date!r}; write year-month-day in digits")
    outline = load_outline(options.course)
    if options.path is not None and options.path not in [path for path, _, _ in outline.paths]:
        known = ", ".join(path for path, _, _ in outline.paths) or "none"
        return _complain(f"the course has no path {options.path!r}; its paths are: {known}")
    check_place(options.key, options.course, options.out, options.folder)
    if options.make_key and not options.key.exists():
        make_key(options.key)
        print(f"Made the key {options.key}. Keep it and tell it to nobody: certificates are verified with it.")
    key = load_key(options.key)
    cohort = read_cohort(options.folder, outline)
    given, missing = find_awards(cohort.standings, outline, path=options.path)
    made, refused = _print_all(given, key, outline, date, options)
    print(f"Certificates: {len(made)}. Files set aside: {len(cohort.set_aside)}.")
    for path in made:
        print(f"  {path}")
    for one in missing:
        print(f"None yet: {one.who.name or one.who.id[:8]!r}: {_say(one)}")
    for line in refused:
        _complain(line)
    return 1 if refused else 0


def _say(one: "Missing") -> str:
    """Why somebody has none yet."""
    return _REASONS[one.reason].format(*one.what, all=", ".join(one.what))


def _name_file(award: "Award", number: int) -> str:
    """A file name from a learner's name: letters and digits of any language, parted by dashes."""
    letters = "".join(sign if sign.isalnum() else " " for sign in award.who.name)
    return f"certificate-{number:03}-{'-'.join(letters.split())[:40] or 'no-name'}.pdf"


def _print_all(
    given: "list[Award]", key: bytes, outline: "Outline", date: str, options: argparse.Namespace
) -> tuple[list[Path], list[str]]:
    """The files, and a line for each learner whose certificate the typesetter refuses: one name keeps nobody else back.

    All are made before the first is written, and where it refuses every one, which is a template's fault, none is.
    Certificates that are there already stay, and stay in the list: whoever holds one may ask to have it verified.
    """
    from beadwright.records.certificates import CertificateError, build_claims, print_certificate
    from beadwright.records.codes import make_code
    from beadwright.render import load_words
    from beadwright.whole import write_made

    words = load_words(outline.language)
    pages: dict[str, bytes] = {}
    listed = _read_listed(options.out / LIST)
    earlier: dict[str, list[str]] = {}
    for entry in listed:
        earlier.setdefault(entry["code"], []).append(entry["file"])
    last = max((_read_number(entry["file"]) for entry in listed), default=0)
    faults: list[tuple[Award, CertificateError]] = []
    for award in given:
        claims = build_claims(award, outline, date)
        code = make_code(key, claims)
        names = earlier.get(code)  # two learners of one name may have one code
        name = names.pop(0) if names else _name_file(award, last + 1)
        try:
            pages[name] = print_certificate(award, claims, key, outline, words, options.template)
        except CertificateError as error:
            faults.append((award, error))
            continue
        last = max(last, _read_number(name))
        listed = [entry for entry in listed if entry["file"] != name]
        listed.append({"code": code, **asdict(claims), "file": name})
    if faults and not pages:
        raise faults[0][1]
    listed.sort(key=lambda entry: _read_number(entry["file"]))
    text = json.dumps({"schema": "beadwright/certificates/1", "certificates": listed}, ensure_ascii=False, indent=1)
    stays = [entry["file"] for entry in listed]
    write_made(options.out, NAME, {**pages, LIST: f"{text}\n".encode()}, stays=stays)
    return [options.out / name for name in pages], [_tell_refused(award, error) for award, error in faults]


def _read_listed(path: Path) -> list[dict[str, str]]:
    """What an earlier list has; nothing where there is none. Raises `CertificateError` where the file is no list."""
    from beadwright.records.certificates import CertificateError
    from beadwright.records.codes import Claims

    if not path.is_file():
        return []
    try:
        listed = json.loads(path.read_bytes())["certificates"]
        entries = [{name: str(entry[name]) for name in ("code", *Claims.__slots__, "file")} for entry in listed]
        if not all(_NUMBERED.fullmatch(entry["file"]) for entry in entries):
            raise ValueError("a file of another name")
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        raise CertificateError(f"{path} is no list of certificates; name another folder with --out") from error
    return entries


def _read_number(name: str) -> int:
    """The number in a certificate's file name."""
    found = _NUMBERED.fullmatch(name)
    return int(found[1]) if found else 0


def _tell_refused(award: "Award", error: Exception) -> str:
    return f"none for {award.who.name!r}: {error}. A --template of your own can use a font that has all its letters"


def _complain(message: str) -> int:
    print(f"beadwright certificates: {message}", file=sys.stderr)
    return 1
