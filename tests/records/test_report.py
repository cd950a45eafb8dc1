"""The report over small cohorts whose truth is worked out by hand."""

import json
import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from openpyxl import load_workbook

from beadwright.records import Report, build_report, load_visits, read_cohort
from beadwright.records.outline import ItemOutline, LessonOutline, Outline
from beadwright.records.output import write_report
from beadwright.records.page import render_page
from beadwright.render import load_words
from tests.records.making import COURSE, make_attempt, make_record, write_records

HOSTILE = (
    "<script>alert(1)</script>", "=HYPERLINK(\"http://x.example\",\"x\")", "+1+1", "-2+3", "@SUM(A1)", "\t=1", "\r=1",
    "'><img src=x onerror=alert(1)>", "{{ 7 * 7 }}", "{% raw %}", "]]></style><script>", "&lt;b&gt;",
    "javascript:alert(1)", "\u202egnp.exe", "a\u0000b",
    '<r></r></is></c><c r="Z2"><f>HYPERLINK("//e.x","hi")</f></c><c><is><r></r>', "<r>&</r>",
    "http://x.example/", "mailto:x@x.example", "file:///etc/passwd",
    "%s%n{0}", "x" * 3999,
)  # fmt: skip


def make_item(name: str, objective: str | None, technique: str | None = "partner-of-10") -> ItemOutline:
    return ItemOutline(name, "sums", objective, "answer", "48 + 37", technique)


SUMS = LessonOutline(
    "sums", "Sums", 40, Decimal("1.5"), {"see": "See it", "say": "Say it", "nothing": "No items"},
    (make_item("one", "see"), make_item("two", "see"), make_item("three", "say", "direct")),
)  # fmt: skip
TALK = LessonOutline("talk", "Talking", 10, Decimal(1), {}, ())
OUTLINE = Outline(
    COURSE, "Tamarow Hills", "1", "en", 0.8, (SUMS, TALK), (), ("Not", "A little", "Fairly", "Sure", "Very"),
    {"add": "I can add.", "take": "I can take away."},
)  # fmt: skip


def rate(when: str, item: str, value: float, of: float = 5, at: str = "2026-11-01") -> dict[str, Any]:
    return {"when": when, "item": item, "value": value, "of": of, "at": at}


def report(folder: Path, *records: Any, group: str | None = None, **options: Any) -> Report:
    return build_report(read_cohort(write_records(folder, *records), OUTLINE, group=group), OUTLINE, **options)


def rows(made: Report, table: str) -> list[dict[str, Any]]:
    return list(made.table(table).to_data())


def answers(start: int, **right: bool) -> list[dict[str, Any]]:
    return [make_attempt(start + n, item, is_right) for n, (item, is_right) in enumerate(right.items())]


def test_days_are_by_universal_time_and_the_report_says_so(tmp_path: Path) -> None:
    # Sunday 8 November 2026, 21:30 in New York (five hours behind), is Monday 02:30 by universal time.
    late = make_attempt(1, "one", True, at="2026-11-09T02:30:00.000Z")
    made = report(tmp_path, make_record("ada", late))
    assert [row["week"] for row in rows(made, "weeks")] == ["2026-11-09"]
    assert [row["last"] for row in rows(made, "learners")] == ["2026-11-09"]
    for language, name in (("en", "universal time"), ("es", "hora universal")):
        page = BeautifulSoup(render_page(made, load_words(language)), "html.parser")
        for section in ("weeks", "learners"):
            told = page.find(id=section)
            assert told is not None
            assert name in told.get_text()
            assert "(UTC)" in told.table.thead.get_text()  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "at", ["2026-W48-3T10:00", "20261125T10:00", "2026-11-31T10:00", "٢٠٢٦-11-25T10", "0001-13-01"]
)
def test_what_is_no_day_is_in_no_week_and_never_the_last(at: str, tmp_path: Path) -> None:
    made = report(tmp_path, make_record("ada", make_attempt(1, "one", True), make_attempt(2, "two", True, at=at)))
    assert [(row["week"], row["answers"]) for row in rows(made, "weeks")] == [("2026-11-02", 1)]
    assert [row["last"] for row in rows(made, "learners")] == ["2026-11-02"]


def test_objectives_are_judged_by_the_latest_try_and_the_pass_mark(tmp_path: Path) -> None:
    # `see` has two items: 0.8 of 2 asks for both. `say` has one.
    again = make_attempt(8, "two", True, at="2026-11-09T10:00:00.000Z")
    made = report(
        tmp_path,
        make_record("ada", *answers(0, one=True, two=False, three=True), again),
        make_record("bo", *answers(10, one=True, two=False)),
        make_record("cy"),
    )
    told = {row["objective"]: (row["begun"], row["met"], row["rate_met"]) for row in rows(made, "objectives")}
    assert told == {"See it": (2, 1, 0.5), "Say it": (1, 1, 1.0), "No items": (None, None, None)}


def test_a_lesson_counts_when_finished_and_shown(tmp_path: Path) -> None:
    finished = [{"lesson": name, "finished": "2026-11-03", "minutes": 41} for name in ("sums", "talk")]
    all_right = answers(0, one=True, two=True, three=True)
    made = report(
        tmp_path,
        make_record("ada", *all_right, lessons=finished),
        make_record("bo", *answers(10, one=True, two=False, three=True), lessons=finished),
        make_record("cy", *answers(20, one=True, two=True, three=True)),
        make_record("di", lessons=[{**finished[0], "passed": True}]),  # shown with an older edition's items
    )
    done = {row["learner"]: (row["done"], row["hours"]) for row in rows(made, "learners")}
    assert done == {
        "Name of ada": (2, 2.5),
        "Name of bo": (1, 1.0),
        "Name of cy": (0, 0.0),
        "Name of di": (1, 1.5),
    }


def test_accuracy_at_first_and_latest_tries_and_digits_a_minute(tmp_path: Path) -> None:
    timed = {"timed": True, "digits_right": 3, "seconds": 30}
    attempts = [
        make_attempt(1, "one", False, at="2026-11-02T10:00:00.000Z", **timed),
        make_attempt(2, "one", True, at="2026-11-10T10:00:00.000Z", timed=True, digits_right=5, seconds=10),
        make_attempt(3, "two", True, at="2026-11-02T10:01:00.000Z", seconds=99, digits_right=99),  # time did not run
        make_attempt(4, "two", None, at="2026-11-03T10:01:00.000Z"),  # nothing graded
    ]
    made = report(tmp_path, make_record("ada", *attempts))
    (ada,) = rows(made, "learners")
    assert (ada["first_right"], ada["latest_right"], ada["answered"]) == (0.5, 1.0, 2)
    assert ada["rate"] == pytest.approx(60 * 8 / 40)
    weeks = [(row["week"], row["answers"], row["first_right"], row["rate"]) for row in rows(made, "weeks")]
    # 2 and 9 November 2026 are Mondays.
    assert weeks == [("2026-11-02", 2, 0.5, pytest.approx(6)), ("2026-11-09", 1, None, pytest.approx(30))]


def test_slips_are_counted_by_lesson_and_technique(tmp_path: Path) -> None:
    wrong = [("one", "exchange-dropped"), ("two", "exchange-dropped"), ("one", None), ("three", "column-drift")]
    attempts = [make_attempt(n, item, False, slip=slip) for n, (item, slip) in enumerate(wrong)]
    other = make_attempt(9, "one", False, slip="exchange-dropped")
    forged = make_attempt(10, "one", False, slip="<b>hostile</b>")
    made = report(tmp_path, make_record("ada", *attempts), make_record("bo", other, forged))
    told = [(r["technique"], r["slip"], r["answers"], r["learners"], r["of_wrong"]) for r in rows(made, "slips")]
    assert told[0] == ("partner-of-10", "exchange-dropped", 3, 2, pytest.approx(3 / 5))
    assert sorted(told[1:]) == [
        ("direct", "column-drift", 1, 1, 1.0),
        ("partner-of-10", "none", 1, 1, pytest.approx(1 / 5)),
        ("partner-of-10", "other", 1, 1, pytest.approx(1 / 5)),
    ]


def test_slips_of_any_names_are_one_row_and_one_name(tmp_path: Path) -> None:
    # 30 invented names beside a slip that happened twenty times: all the same kind, and there are more of them.
    attempts = [make_attempt(n, "one", False, slip=f"invented-{n}") for n in range(30)]
    attempts += [make_attempt(100 + n, "one", False, slip="exchange-dropped") for n in range(20)]
    attempts += [make_attempt(200, "one", False, slip="")]  # as good as none
    made = report(tmp_path, make_record("ada", *attempts))
    told = [(row["slip"], row["answers"], row["learners"]) for row in rows(made, "slips")]
    assert told == [("other", 30, 1), ("exchange-dropped", 20, 1), ("none", 1, 1)]
    assert [row["commonest"] for row in rows(made, "groups")] == ["other"]


def test_confidence_is_paired_and_other_scales_do_not_count(tmp_path: Path) -> None:
    made = report(
        tmp_path,
        make_record("ada", ratings=[rate("before", "add", 2), rate("after", "add", 4), rate("before", "take", 3)]),
        make_record("bo", ratings=[rate("before", "add", 3), rate("after", "add", 3), rate("after", "take", 5)]),
        make_record("cy", ratings=[rate("before", "add", 1, of=7), rate("after", "add", 5)]),
        make_record("di", ratings=[rate("before", "add", 9), rate("after", "add", 5), rate("before", "gone", 5)]),
    )
    add, take, every = rows(made, "ratings")
    assert (add["pairs"], add["before"], add["after"], add["change"]) == (2, 2.5, 3.5, 1.0)
    assert (add["rise"], add["same"], add["fall"], add["effect"], add["p"]) == (1, 1, 0, 1.0, 1.0)
    assert (take["pairs"], take["p"]) == (0, None)
    assert (every["rated"], every["pairs"]) == ("all", 2)


def test_the_first_rating_before_and_the_last_after_count(tmp_path: Path) -> None:
    ratings = [
        rate("before", "add", 4, at="2026-11-05"), rate("before", "add", 1, at="2026-11-01"),
        rate("after", "add", 2, at="2026-11-06"), rate("after", "add", 5, at="2026-11-20"),
    ]  # fmt: skip
    made = report(tmp_path, make_record("ada", ratings=ratings))
    assert (rows(made, "ratings")[0]["before"], rows(made, "ratings")[0]["after"]) == (1, 5)


@pytest.mark.parametrize(
    ("rated", "right", "kind"),
    [(4, 0.5, "sure-wrong"), (5, 1.0, "between"), (3, 1.0, "right-unsure"), (2, 0.5, "between"), (3.5, 1.0, "between")],
)
def test_sure_beside_right(rated: float, right: float, kind: str, tmp_path: Path) -> None:
    items = tuple(make_item(f"item-{n}", "see") for n in range(10))
    lesson = LessonOutline("sums", "Sums", 40, None, {"see": "See it"}, items)
    outline = Outline(COURSE, "T", "1", "en", 0.8, (lesson,), (), OUTLINE.points, OUTLINE.rated)
    attempts = [make_attempt(n, f"item-{n}", n < 10 * right) for n in range(10)]
    ratings = [rate("after", "add", rated), rate("after", "take", rated)]
    cohort = read_cohort(write_records(tmp_path, make_record("ada", *attempts, ratings=ratings)), outline)
    (row,) = build_report(cohort, outline).table("sureness").to_data()
    assert row["kind"] == kind


def test_answers_to_items_that_are_gone_are_kept_apart(tmp_path: Path) -> None:
    old = make_attempt(5, "gone", False, edition="0", slip="exchange-dropped")
    made = report(tmp_path, make_record("ada", make_attempt(1, "one", True, edition="0"), old))
    (ada,) = rows(made, "learners")
    assert (ada["answered"], ada["first_right"]) == (1, 1.0)
    assert rows(made, "slips") == []
    assert rows(made, "retired") == [{"edition": "0", "lesson_id": "sums", "item": "gone", "answers": 1, "right": 0.0}]


def test_items_and_reliability_come_from_first_tries_of_those_who_tried_all(tmp_path: Path) -> None:
    patterns = ["111", "110", "100", "000", "101", "1"]
    records = []
    for number, pattern in enumerate(patterns):
        marks = dict(zip(("one", "two", "three"), (sign == "1" for sign in pattern), strict=False))
        later = make_attempt(f"later-{number}", "one", True, at="2026-11-30T10:00:00.000Z")
        records.append(make_record(f"l{number}", *answers(10 * number, **marks), later))
    made = report(tmp_path, *records)
    told = {row["item"]: (row["tried"], row["difficulty"], row["complete"]) for row in rows(made, "items")}
    assert told == {"one": (6, pytest.approx(5 / 6), 5), "two": (5, 0.4, 5), "three": (5, 0.4, 5)}
    (alpha,) = rows(made, "reliability")
    # By hand: items' variances 0.2, 0.3, 0.3; totals 3 2 1 0 2 with variance 1.3: 3/2 × (1 − 0.8/1.3).
    assert alpha["alpha"] == pytest.approx(1.5 * (1 - 0.8 / 1.3))
    assert alpha["warning"] == "few"


def test_groups_and_one_group_alone(tmp_path: Path) -> None:
    tarn, hill = {"group": "Tarn"}, {"group": "Hill"}
    records = [
        make_record("ada", *answers(0, one=True), learner=tarn),
        make_record("bo", *answers(10, one=False), learner=tarn),
        make_record("cy", *answers(20, one=True), learner=hill),
    ]
    told = {row["group"]: (row["learners"], row["first_right"]) for row in rows(report(tmp_path, *records), "groups")}
    assert told == {"Tarn": (2, 0.5), "Hill": (1, 1.0)}
    alone = report(tmp_path, *records, group="tarn")
    assert {row["learner"] for row in rows(alone, "learners")} == {"Name of ada", "Name of bo"}


def test_without_names_no_name_is_anywhere(tmp_path: Path) -> None:
    records = [make_record(f"id-{n}", learner={"name": f"Oda {n}", "group": "Big"}) for n in range(5)]
    records += [make_record("id-9", learner={"name": "Lone Pell", "group": "Lonely School"}), "{"]
    records += [make_record("id-10", learner={"name": "Lone Pell", "group": "Lonely School"})]
    folder = write_records(tmp_path / "in", *records)
    (folder / "record-7.json").rename(folder / "record-Pell-2026.json")
    (tmp_path / "visits.yml").write_text(
        "sessions: [{date: 2026-09-14, title: A, hours: 2, people: [Oda 1, Nia Pell]}]"
    )
    visits = load_visits(tmp_path / "visits.yml")
    made = build_report(read_cohort(folder, OUTLINE), OUTLINE, visits=visits, names=False)
    written = write_report(made, load_words("en"), tmp_path / "out")
    book = load_workbook(written[1])
    cells = " ".join(str(cell.value) for sheet in book for row in sheet.iter_rows() for cell in row)
    for text in (written[0].read_text(), written[2].read_text(), cells):
        assert not re.search(r"Pell|Oda|Lonely|id-\d", text)
    again = build_report(read_cohort(folder, OUTLINE), OUTLINE, names=False)
    assert rows(made, "learners") == rows(again, "learners")
    assert len({row["learner"] for row in rows(made, "learners")}) == 7


def test_without_names_no_order_is_that_of_the_names(tmp_path: Path) -> None:
    mine = {number: answers(10 * number, one=True, two=number % 2 == 0) for number in range(8)}
    sure = [rate("before", "add", 2)]
    records = []
    for number, name in enumerate("abcdefgh"):
        learner = {"name": name, "group": name}
        # Each holds an answer of the next one too, and has saved two files, in which an answer differs.
        held = [*mine[number], mine[(number + 1) % 8][0]]
        records.append(make_record(f"id-{number}", *held, learner=learner, ratings=sure))
        changed = [make_attempt(10 * number, "one", False, hints=3)]
        records.append(make_record(f"id-{number}", *changed, learner=learner, saved="2026-11-26T10:00:00.000Z"))
    records += [
        make_record(f"twin-{name}-{n}", learner={"name": name}) for name, n in (("xa", 1), ("xa", 2), ("xa", 3))
    ]
    records += [make_record(f"twin-{name}-{n}", learner={"name": name}) for name, n in (("xb", 1), ("xb", 2))]
    spoilt: list[Any] = ["{", make_record("x", attempts=7), make_record("y", saved=7), "{", b"\xff"]
    made = report(tmp_path, *records, *spoilt, names=False)
    for table in ("learners", "finished", "clashes", "shared", "same_names"):
        told = [tuple(row.values()) for row in rows(made, table)]
        assert len(told) > 1, table
        assert [row[:2] for row in told] == sorted(row[:2] for row in told), table
    assert all(row["learner"] <= row["other_learner"] for row in rows(made, "shared"))
    aside = [(row["reason"], row["detail"]) for row in rows(made, "set_aside")]
    assert len(aside) == len(spoilt)
    assert aside == sorted(aside)
    assert [row["file"] for row in rows(made, "set_aside")] == ["#1", "#2", "#3", "#4", "#5"]


def test_guskeys_levels_say_what_there_is(tmp_path: Path) -> None:
    (tmp_path / "visits.yml").write_text(
        "visits: [{date: 2026-10-02, learner: Name of ada, hours: 1, scores: {sets beads: 3}, support: {time: 1}}]\n"
        "students: [{learner: Name of ada, measure: Sums, students: 3, before: 4, after: 7},\n"
        "  {learner: Name of ada, measure: Sums, students: 1, before: 8, after: 7}]"
    )
    ada = make_record("ada", *answers(0, one=True))
    plain = [row["speaks"] for row in rows(report(tmp_path / "a", ada), "levels")]
    assert plain == ["reactions-none", "learning-some", "organization-none", "use-none", "students-none"]
    visited = report(tmp_path / "a", ada, visits=load_visits(tmp_path / "visits.yml"))
    levels = [row["speaks"] for row in rows(visited, "levels")]
    assert levels == ["reactions-none", "learning-some", "organization-some", "use-some", "students-some"]
    (students,) = rows(visited, "students")
    assert (students["before"], students["after"], students["students"]) == (5, 7, 4)
    (hours,) = rows(visited, "contact_hours")
    assert (hours["learner"], hours["visits"], hours["visit_hours"]) == ("Name of ada", 1, 1)


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    records = [
        make_record(
            f"id-{n} {text[:100]}",
            make_attempt(f"{n} {text[:100]}", "one", False, slip=text[:200], problem=text, objective=text[:200]),
            make_attempt(f"{n} gone {text[:100]}", (text[:190] or "x"), False, edition=text[:200]),
            learner={"name": text, "group": text, "role": text[:200]},
            ratings=[rate(text[:200], text[:199] or "x", 3)],
        )
        for n, text in enumerate(HOSTILE)
    ]
    cohort = read_cohort(write_records(folder / "in", *records), OUTLINE)
    assert cohort.set_aside == ()
    write_report(build_report(cohort, OUTLINE), load_words("en"), folder / "out")
    return folder / "out"


def test_nothing_that_learners_typed_becomes_markup(hostile: Path) -> None:
    text = (hostile / "index.html").read_text(encoding="utf-8")
    soup = BeautifulSoup(text, "html.parser")
    assert soup.find_all(["script", "img", "iframe", "object", "link", "form"]) == []
    assert [a["href"] for a in soup.find_all("a") if not a["href"].startswith("#")] == []
    assert not [tag for tag in soup.find_all(True) if any(name.startswith("on") for name in tag.attrs)]
    assert "<script>alert(1)</script>" in soup.get_text()
    assert "49" not in [cell.get_text() for cell in soup.find_all(["td", "th"])]
    assert "\u202e" not in text
    assert "\x00" not in text


def test_nothing_that_learners_typed_becomes_a_formula_or_a_link(hostile: Path) -> None:
    book = load_workbook(hostile / "cohort.xlsx")
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} <= {"s", "n"}
    assert [cell for cell in cells if cell.hyperlink is not None] == []
    assert any(str(cell.value).startswith("=HYPERLINK") for cell in cells)
    assert {"<r>&</r>", HOSTILE[0]} <= {str(cell.value) for cell in cells}


def test_the_data_file_is_plain_json(hostile: Path) -> None:
    def refuse(constant: str) -> None:
        raise AssertionError(constant)

    data = json.loads((hostile / "cohort.json").read_text(encoding="utf-8"), parse_constant=refuse)
    assert data["schema"] == "beadwright/cohort/1"
    assert {"learners", "lessons", "items", "ratings", "slips", "set_aside"} <= set(data)


def test_the_same_records_give_the_same_bytes(tmp_path: Path) -> None:
    ada = make_record("ada", *answers(0, one=True))
    made = report(tmp_path / "in", ada)
    one = [path.read_bytes() for path in write_report(made, load_words("en"), tmp_path / "one")]
    two = [path.read_bytes() for path in write_report(made, load_words("en"), tmp_path / "two")]
    assert one == two


def test_a_failure_leaves_the_report_that_was_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = report(tmp_path / "in", make_record("ada"))
    out = tmp_path / "out"
    write_report(made, load_words("en"), out)
    before = {path.name: path.read_bytes() for path in out.iterdir()}

    def fail(*given: object) -> None:
        raise OSError(28, "No space left on device", "x")

    monkeypatch.setattr("beadwright.records.output.build_workbook", fail)
    with pytest.raises(OSError, match="No space"):
        write_report(report(tmp_path / "in", make_record("bo")), load_words("en"), out)
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


def test_a_report_on_nobody_is_a_page(tmp_path: Path) -> None:
    made = report(tmp_path / "in", "{")
    page = write_report(made, load_words("en"), tmp_path / "out")[0].read_text(encoding="utf-8")
    assert "damaged; cannot be read" in page
