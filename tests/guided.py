"""Fuzzing guided by coverage: python -m tests.guided TARGET FOLDER [options of libFuzzer, such as -max_total_time=900].

What was tried and reached new code is kept in FOLDER, which may hold examples to begin with. It needs atheris, which is
in no lock: an environment of its own with `locks/test.txt` and that. What breaks is written to a file and told, and a
test then holds it. A file's lines are moved, doubled and given other values, besides what atheris does with its bytes.
"""

from __future__ import annotations

import contextlib
import io
import random
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["beadwright", "yaml"]):
    from beadwright.course import load_course
    from beadwright.records import VisitsError, build_report, load_visits, read_cohort
    from beadwright.records.output import write_report
    from beadwright.render import load_words
    from beadwright.render.booklet import build_lesson
    from beadwright.site.lessons import build_recipe
    from tests.cli.test_work_anything import work
    from tests.course.test_never_a_traceback import check_loaded
    from tests.course.writing import COURSE, LESSON, write_course
    from tests.records.test_summary import COURSE_OF_TEN
    from tests.sheets.test_specs import load as load_sheet
    from tests.site.test_any_lesson import PLAIN

VALUES = (
    b"48 + 37",
    b"3/4 + 1 1/8",
    b"-1",
    b"0",
    b"99999999999",
    b"no",
    b"''",
    b"[]",
    b"{}",
    b"|",
    b"nine-bead",
    b"\xff",
)


def try_lesson(data: bytes, folder: Path) -> None:
    """A lesson file, and its pages and booklet where it is sound."""
    _try_course({"course.yml": f"{COURSE}pool: 2\n", LESSON: data}, folder)


def try_course(data: bytes, folder: Path) -> None:
    """A course file, beside a lesson that is sound."""
    _try_course({"course.yml": data}, folder)


def _try_course(files: dict[str, str | bytes], folder: Path) -> None:
    content = write_course(folder, files)
    loaded = load_course(content)
    check_loaded(loaded, content)
    if loaded.course is not None and loaded.is_sound:
        recipe = build_recipe(loaded.course, loaded, PLAIN, for_trainers=True)
        for link in recipe.links:
            recipe.make_page(link)
            build_lesson(loaded.course, link, recipe.links, recipe.words)
        recipe.make_trainer_pages()


def try_sheet(data: bytes, folder: Path) -> None:
    """What `beadwright sheet` reads."""
    load_sheet(folder, data)


def try_records(data: bytes, folder: Path) -> None:
    """Several learners' files, parted by empty lines, up to the report."""
    for number, part in enumerate(data.split(b"\n\n")[:6]):
        (folder / f"record-{number}.json").write_bytes(part)
    report = build_report(read_cohort(folder, COURSE_OF_TEN), COURSE_OF_TEN, names=len(data) % 2 == 0)
    write_report(report, load_words("en"), folder / "out")


def try_visits(data: bytes, folder: Path) -> None:
    """A trainer's own file of sessions and visits, up to the report."""
    (folder / "visits.yml").write_bytes(data)
    try:
        visits = load_visits(folder / "visits.yml")
    except VisitsError:
        return
    build_report(read_cohort(folder, COURSE_OF_TEN), COURSE_OF_TEN, visits=visits)


def try_problem(data: bytes, _folder: Path) -> None:
    """A problem as it is typed; what is said of it would bury what the fuzzer says."""
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        work(["--as", "speech", "--", data.decode("utf-8", "replace")])


def change(data: bytes, most: int, seed: int) -> bytes:
    """Bytes changed by atheris, or lines moved, doubled, taken out, or given other values."""
    chance = random.Random(seed)
    if chance.random() < 0.5:
        return bytes(atheris.Mutate(data, most))
    lines = data.split(b"\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    way = chance.choice(("double", "take", "move", "value"))
    if way == "double":
        lines.insert(one, lines[other])
    elif way == "take":
        del lines[one]
    elif way == "move":
        lines[one], lines[other] = lines[other], lines[one]
    else:
        key, colon, _ = lines[one].partition(b": ")
        lines[one] = key + colon + chance.choice((*VALUES, lines[other].partition(b": ")[2]))
    return b"\n".join(lines)[:most]


def main() -> None:
    """Run one target until it breaks or the time is over."""
    targets: dict[str, Callable[[bytes, Path], None]] = {
        name.removeprefix("try_"): value for name, value in globals().items() if name.startswith("try_")
    }
    attempt = targets[sys.argv[1]]

    def run(data: bytes) -> None:
        with tempfile.TemporaryDirectory() as folder:
            attempt(data, Path(folder))

    atheris.Setup([sys.argv[0], *sys.argv[2:]], run, custom_mutator=change)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
