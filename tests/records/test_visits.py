"""The trainer's own file of sessions, visits and students: what it holds, and every way it can be wrong."""

import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beadwright.records import Visits, VisitsError, load_visits
from beadwright.records.merging import Who
from beadwright.records.visits import build_visit_tables
from tests.course.writing import MARK, find_mark

GOOD = """\
sessions:
  - {date: 2026-09-14, title: First evening, hours: 2.5, people: [Oda Pell, No]}
visits:
  - {date: 2026-10-02, learner: Oda Pell, scores: {Names each move: 2.5}}
students:
  - {learner: Oda Pell, measure: Right digits a minute, students: 3, before: -4, after: 9.25}
"""


def load(folder: Path, text: str | bytes) -> Visits:
    path = folder / "visits.yml"
    path.write_bytes(text.encode("utf-8", "surrogatepass") if isinstance(text, str) else text)
    return load_visits(path)


def complain(folder: Path, text: str | bytes) -> str:
    with pytest.raises(VisitsError) as caught:
        load(folder, text)
    return str(caught.value)


def test_what_is_written_is_what_is_read(tmp_path: Path) -> None:
    found = load(tmp_path, GOOD)
    (session,), (visit,), (students,) = found.sessions, found.visits, found.students
    assert (session.date.isoformat(), float(session.hours), session.people) == ("2026-09-14", 2.5, ("Oda Pell", "No"))
    assert (visit.date.isoformat(), visit.scores, visit.support) == ("2026-10-02", {"Names each move": 2.5}, {})
    assert (students.students, students.before, students.after) == (3, -4, 9.25)


@pytest.mark.parametrize(
    ("old", "new", "path", "code"),
    [
        ("2026-09-14", "▸2026-13-01", "sessions › date", "value-date"),
        ("2026-09-14", "▸2026-02-30", "sessions › date", "value-date"),
        ("2026-10-02", "▸٢٠٢٦-10-02", "visits › date", "value-date"),
        ("2026-10-02", "▸last week", "visits › date", "value-date"),
        ("hours: 2.5", "hours: ▸1e3", "sessions › hours", "value-hours"),
        ("each move: 2.5", "each move: ▸4", "visits › scores › Names each move", "value-amount"),
        ("each move: 2.5", "each move: ▸nan", "visits › scores › Names each move", "value-amount"),
        ("before: -4", f"before: ▸{'9' * 5000}", "students › before", "value-amount"),
        ("students: 3", "students: ▸0", "students › students", "value-whole"),
        ("learner: Oda Pell, measure", "▸lerner: Oda Pell, measure", "students", "key-unknown"),
        ("[Oda Pell, No]", "[▸*all]", "file", "yaml-alias"),
        ("students:", "students: ▸&all", "file", "yaml-anchor"),
        ("[Oda Pell, No]", "[" * 21 + "▸" + "[" * 3000 + "]" * 3021, "file", "yaml-depth"),
        ("title: First evening", "title: ▸!!python/name:os.system x", "file", "yaml-tag"),
    ],
)
def test_what_is_wrong_is_told_with_its_place(tmp_path: Path, old: str, new: str, path: str, code: str) -> None:
    text = GOOD.replace(old, new, 1)
    line, column = find_mark(text)
    told = complain(tmp_path, text.replace(MARK, ""))
    assert f"visits.yml:{line}:{column}: {path}: " in told
    assert f"[{code}]" in told


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    told = complain(tmp_path, GOOD.replace("2026-09-14", "x").replace("students: 3", "students: x"))
    assert "[value-date]" in told
    assert "[value-whole]" in told


def test_names_for_names_for_names_never_expand(tmp_path: Path) -> None:
    """Nine names, each ten times the one before, ask for a thousand million values of nine lines."""
    lines = ["a0: &a0 [x, x]", *(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 10))]
    started = time.process_time()
    assert "[yaml-anchor]" in complain(tmp_path, "\n".join(lines))
    assert time.process_time() - started < 5


def test_a_link_to_the_file_is_followed_and_one_to_itself_is_told(tmp_path: Path) -> None:
    load(tmp_path, GOOD)
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "mine.yml"
    link.symlink_to(tmp_path / "visits.yml")
    assert load_visits(link).sessions
    link.unlink()
    link.symlink_to("mine.yml")
    with pytest.raises(OSError, match="symbolic link"):
        load_visits(link)


def visit(folder: Path, text: str, *people: Who) -> tuple[dict[str, tuple[int, float]], list[str]]:
    """Sessions and their hours by learner id, and the names that no single learner carries."""
    tables = {table.name: table for table in build_visit_tables(load(folder, text), people, lambda who: who.id)}
    hours = {row["learner"]: (row["sessions"], row["session_hours"]) for row in tables["contact_hours"].to_data()}
    return hours, [row["name"] for row in tables["unknown"].to_data()]  # type: ignore[return-value, misc]


ODA, BO = Who("7f3a", "José Piña", "teacher", "Tarn"), Who("91c0", "Bo Quist", "teacher", "Tarn")
EVENING = "sessions: [{date: 2026-09-14, title: First evening, hours: 2.5, people: [%s]}]\n"


def test_learners_are_found_by_name_or_id_and_once_a_session(tmp_path: Path) -> None:
    decomposed = "JOSE\u0301  Pin\u0303a"
    named = f"José Piña, {decomposed}, 7f3a, 91c0, Nobody"
    assert visit(tmp_path, EVENING % named, ODA, BO) == ({"7f3a": (1, 2.5), "91c0": (1, 2.5)}, ["Nobody"])
    twice = Who("d2d2", "jose\u0301 piña", "", "")
    assert visit(tmp_path, EVENING % "José Piña", ODA, twice) == ({}, ["José Piña"])


def test_an_id_that_is_another_ones_name_takes_nothing_from_it(tmp_path: Path) -> None:
    other = Who("Bo Quist", "Cy Ander", "teacher", "Tarn")
    assert visit(tmp_path, EVENING % "Bo Quist, Cy Ander", BO, other) == (
        {"91c0": (1, 2.5), "Bo Quist": (1, 2.5)},
        [],
    )


PIECES = st.sampled_from(
    [
        *("\n", "  - ", "{", "}", "[", "]", ": ", ", ", "&a ", "*a", "!!int ", "date", "hours", "people", "? ", "<<"),
        *(
            "2026-02-30",
            "0x9",
            "1e999",
            "9" * 300,
            "\x00",
            "\ufeff",
            "\r",
            "\t",
            "\ud800",
            "²",
            "٣",
            "x" * 500,
            "\u202e",
        ),
    ]
)


@settings(max_examples=100, deadline=None)
@given(at=st.integers(0, len(GOOD)), length=st.integers(0, 40), pieces=st.lists(PIECES, max_size=6))
def test_nothing_in_it_makes_reading_fail(
    tmp_path_factory: pytest.TempPathFactory, at: int, length: int, pieces: list[str]
) -> None:
    told = "visits.yml:"
    try:
        load(tmp_path_factory.getbasetemp(), GOOD[:at] + "".join(pieces) + GOOD[at + length :])
    except VisitsError as error:
        told = str(error)
    assert told.startswith("visits.yml:")
