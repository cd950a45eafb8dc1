"""Certificates: who gets one, what the code covers, what the PDF holds."""

import base64
import hashlib
import hmac
import json
import re
import stat
from dataclasses import replace
from decimal import Decimal
from io import BytesIO
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from pdfminer.high_level import extract_pages
from pdfminer.layout import LTTextContainer, LTTextLine

from beadwright.cli import main
from beadwright.cli.courses import load_outline
from beadwright.course import CertificateFile
from beadwright.paths import templates_dir
from beadwright.records import read_cohort
from beadwright.records.certificates import (
    Award,
    CertificateError,
    build_claims,
    find_awards,
    format_hours,
    print_certificate,
)
from beadwright.records.codes import Claims, KeyFileError, check_place, is_code_of, load_key, make_code, make_key
from beadwright.records.outline import ItemOutline, LessonOutline, Outline
from beadwright.render import load_words
from tests.records.making import COURSE, make_record, write_records

RECORD_PAGE = templates_dir() / "parts" / "record.html"
KEY = bytes(range(32))
CLAIMS = Claims(COURSE, "1", "Oda Pell", "Tamarow Hills", "2.5", "2026-11-25")


def make_lesson(name: str, credit: str | None) -> LessonOutline:
    return LessonOutline(name, name.title(), 30, None if credit is None else Decimal(credit), {}, ())


OUTLINE = Outline(
    COURSE, "Tamarow Hills", "1", "en", 0.8, (make_lesson("a", "1"), make_lesson("b", "1.50"), make_lesson("c", None)),
    (("short", "Short way", ("a", "b")), ("one", "One lesson", ("a",))), (), {},
)  # fmt: skip


def give(folder: Path, *learners: tuple[str, str], path: str | None = None) -> tuple[dict[str, str], dict[str, str]]:
    """Awards and what is missing, by name, of learners given by name and the lessons they have finished."""
    records = [
        make_record(f"id-{n}", learner={"name": name}, lessons=[{"lesson": x, "finished": "2026-11-03"} for x in done])
        for n, (name, done) in enumerate(learners)
    ]
    standings = read_cohort(write_records(folder, *records), OUTLINE).standings
    given, missing = find_awards(standings, OUTLINE, path=path)
    return (
        {award.who.name: f"{award.award} {format_hours(award.hours)}" for award in given},
        {one.who.name: f"{one.reason} {''.join(one.what)}" for one in missing},
    )


def test_the_most_that_was_done_is_certified_with_its_hours(tmp_path: Path) -> None:
    given, missing = give(tmp_path, ("All", "abc"), ("Two", "ab"), ("One", "a"), ("None", "c"), ("", "abc"))
    assert given == {
        "All": "Tamarow Hills 2.5",
        "Two": "Tamarow Hills: Short way 2.5",
        "One": "Tamarow Hills: One lesson 1",
    }
    assert missing == {"None": "lessons a", "": "name "}


def ask(folder: Path, *people: dict[str, Any], **rules: Any) -> dict[str, list[str]]:
    """Reasons and what is lacking, by name, where the course asks this; no reason where a certificate is given."""
    one = ItemOutline("i", "a", "add", "answer", "1 + 1", None)
    lesson = LessonOutline("a", "A", 30, Decimal("1"), {"add": "Add", "take": "Take away"}, (one,))
    outline = replace(
        OUTLINE,
        lessons=(lesson, *OUTLINE.lessons[1:]),
        paths=(),
        points=("Not", "A bit", "Very"),
        rated={"sure": "I can"},
        asked=CertificateFile.model_validate(rules),
    )
    records = [make_record(f"id-{n}", learner={"name": each.pop("name")}, **each) for n, each in enumerate(people)]
    standings = read_cohort(write_records(folder, *records), outline).standings
    given, missing = find_awards(standings, outline)
    found = {award.who.name: [f"{format_hours(award.hours)} hours"] for award in given}
    for each in missing:
        found.setdefault(each.who.name, []).append(f"{each.reason} {' '.join(each.what)}".strip())
    return found


def finish(*lessons: str, passed: bool = False) -> list[dict[str, Any]]:
    return [{"lesson": name, "finished": "2026-11-03", "passed": passed} for name in lessons]


RIGHT = {"id": "t", "lesson": "a", "item": "i", "ask": "answer", "right": True, "at": "2026-11-02"}


def test_lessons_may_be_asked_instead_of_the_whole_course(tmp_path: Path) -> None:
    found = ask(
        tmp_path, {"name": "Oda", "lessons": finish("b", "c")}, {"name": "Bo", "lessons": finish("c")}, lessons=["b"]
    )
    assert found == {"Oda": ["1.5 hours"], "Bo": ["lessons b"]}


def test_objectives_may_be_asked_one_by_one_or_not_at_all(tmp_path: Path) -> None:
    people = [
        {"name": "Shown", "lessons": finish("a"), "attempts": [RIGHT]},
        {"name": "Wrong", "lessons": finish("a"), "attempts": [{**RIGHT, "right": False}]},
        {"name": "Open", "lessons": finish("a")},
        {"name": "Older", "lessons": finish("a", passed=True)},
    ]
    usual = ask(tmp_path / "1", *[dict(one) for one in people], lessons=["a"])
    assert usual == {"Shown": ["1 hours"], "Older": ["1 hours"], "Wrong": ["lessons a"], "Open": ["lessons a"]}
    named = ask(tmp_path / "2", *[dict(one) for one in people], lessons=["a"], objectives=["a/add"])
    assert named["Wrong"] == named["Open"] == ["objectives a/add"]
    assert named["Shown"] == named["Older"] == ["1 hours"]
    free = ask(tmp_path / "3", *[dict(one) for one in people], lessons=["a"], objectives=[])
    assert set(map(tuple, free.values())) == {("1 hours",)}


def test_hours_may_be_asked_and_then_all_lessons_that_are_done_stand_on_it(tmp_path: Path) -> None:
    found = ask(
        tmp_path,
        {"name": "Oda", "lessons": finish("b", "c")},
        {"name": "Bo", "lessons": finish("c")},
        lessons=[],
        hours="1.5",
    )
    assert found == {"Oda": ["1.5 hours"], "Bo": ["hours 0 1.5"]}


def test_ratings_may_be_asked_whatever_they_say(tmp_path: Path) -> None:
    def rate(*whens: str) -> list[dict[str, Any]]:
        return [{"when": when, "item": "sure", "value": 1, "of": 3, "at": "2026-11-03"} for when in whens]

    people = [
        {"name": "Both", "lessons": finish("b"), "ratings": rate("before", "after")},
        {"name": "First", "lessons": finish("b"), "ratings": rate("before")},
        {"name": "None", "lessons": finish("c")},
    ]
    found = ask(tmp_path, *people, lessons=["b"], confidence="both")
    assert found == {"Both": ["1.5 hours"], "First": ["ratings after"], "None": ["lessons b", "ratings before after"]}


def test_one_path_alone(tmp_path: Path) -> None:
    given, missing = give(tmp_path, ("All", "abc"), ("One", "a"), path="short")
    assert given == {"All": "Tamarow Hills: Short way 2.5"}
    assert missing == {"One": "lessons b"}


def test_the_code_is_the_keyed_hash_of_rfc_2104() -> None:
    text = '["beadwright/certificate/1","tamarow-hills","1","Oda Pell","Tamarow Hills","2.5","2026-11-25"]'
    digest = hmac.digest(KEY, text.encode(), hashlib.sha256)[:10]
    signs = base64.b32encode(digest).decode()  # the same five bits a sign, in another alphabet
    other = str.maketrans("ABCDEFGHIJKLMNOPQRSTUVWXYZ234567", "0123456789ABCDEFGHJKMNPQRSTVWXYZ")
    assert make_code(KEY, CLAIMS).replace("-", "") == signs.translate(other)


@pytest.mark.parametrize("field", list(Claims.__slots__))
def test_a_change_of_anything_makes_the_code_invalid(field: str) -> None:
    code = make_code(KEY, CLAIMS)
    assert is_code_of(code, KEY, CLAIMS)
    assert not is_code_of(code, KEY, replace(CLAIMS, **{field: f"{getattr(CLAIMS, field)} "}))
    assert not is_code_of(code, KEY[::-1], CLAIMS)


def test_a_code_holds_however_a_keyboard_makes_the_letters() -> None:
    composed = replace(CLAIMS, name="Jos\u00e9", award="Introducci\u00f3n")
    decomposed = replace(CLAIMS, name="Jose\u0301", award="Introduccio\u0301n")
    mixed = replace(composed, name=decomposed.name)  # a name as it was typed, in a course as it was written
    for certified in (composed, decomposed, mixed):
        for typed in (composed, decomposed, certified):
            assert is_code_of(make_code(KEY, certified), KEY, typed)
        assert not is_code_of(make_code(KEY, certified), KEY, replace(composed, name="Jose"))


def test_words_cannot_move_from_one_claim_into_the_next() -> None:
    assert make_code(KEY, replace(CLAIMS, name="A", award="BC")) != make_code(
        KEY, replace(CLAIMS, name="AB", award="C")
    )


def test_a_code_is_read_as_people_type_it() -> None:
    code = make_code(KEY, CLAIMS)
    assert is_code_of(f" {code.lower().replace('-', ' ').replace('0', 'o').replace('1', 'l')} ", KEY, CLAIMS)
    assert not is_code_of("", KEY, CLAIMS)
    assert not is_code_of("ÄÖÜ", KEY, CLAIMS)


def test_a_key_is_made_once_and_for_its_owner_alone(tmp_path: Path) -> None:
    path = tmp_path / "keys" / "mine"
    make_key(path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    first = load_key(path)
    with pytest.raises(FileExistsError):
        make_key(path)
    assert load_key(path) == first
    other = tmp_path / "other"
    make_key(other)
    assert load_key(other) != first


def test_a_short_file_is_no_key(tmp_path: Path) -> None:
    (tmp_path / "key").write_text("secret")
    with pytest.raises(KeyFileError):
        load_key(tmp_path / "key")


def test_no_key_is_told_with_what_to_do(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["start", str(tmp_path / "course")]) == 0
    records, missing = write_records(tmp_path / "records", make_record("oda")), str(tmp_path / "nokey")
    command = ["certificates", str(records), "--course", str(tmp_path / "course"), "--out", str(tmp_path / "out")]
    for asked in (command, ["verify", "0000-0000-0000-0000"]):
        assert main([*asked, "--key", missing]) == 1
        told = capsys.readouterr().err
        assert f"there is no key {missing}: say with --key where yours is, or make one with " in told
        assert "--make-key" in told
    assert not (tmp_path / "out").exists()


def test_a_key_does_not_lie_in_what_is_handed_on(tmp_path: Path) -> None:
    check_place(tmp_path / "keys" / "mine", tmp_path / "course", tmp_path / "out")
    (tmp_path / "link").symlink_to(tmp_path / "course")
    for place in (tmp_path / "course" / "key", tmp_path / "link" / "deep" / "key", tmp_path / "x" / ".." / "out" / "k"):
        with pytest.raises(KeyFileError):
            check_place(place, tmp_path / "course", tmp_path / "out")


def print_for(name: str, folder: Path, template: Path | None = None) -> bytes:
    record = make_record("id", learner={"name": name}, lessons=[{"lesson": x, "finished": "2026-11-03"} for x in "abc"])
    (standing,) = read_cohort(write_records(folder, record), OUTLINE).standings
    award = Award(standing.who, "Tamarow Hills", OUTLINE.lessons)
    claims = build_claims(award, OUTLINE, "2026-11-25")
    return print_certificate(award, claims, KEY, OUTLINE, load_words("en"), template)


def test_the_pdf_is_tagged_titled_and_always_the_same(tmp_path: Path) -> None:
    made = print_for("Oda Pell", tmp_path)
    assert made == print_for("Oda Pell", tmp_path)
    (tmp_path / "a.pdf").write_bytes(made)
    with pikepdf.open(tmp_path / "a.pdf") as pdf:
        assert len(pdf.pages) == 1
        assert pdf.Root.MarkInfo.Marked
        assert "/StructTreeRoot" in pdf.Root
        assert str(pdf.Root.Lang) == "en"
        assert "Oda Pell" in str(pdf.open_metadata().get("dc:title"))


@pytest.mark.parametrize(
    "name", ["#panic()", '#read("/etc/passwd")', "*b* _i_ $x$ @a <b>", "= Head", "\\", '"]', "Ñuñez"]
)
def test_a_name_is_never_markup(name: str, tmp_path: Path) -> None:
    # The template tells the typesetter's own reading of the name by its length in the title.
    (tmp_path / "t.typ").write_text(
        "#let data = json(bytes(sys.inputs.data))\n#set document(title: data.claims.name, date: none)\n"
        '#set text(lang: "en")\n= #data.claims.name'
    )
    (tmp_path / "a.pdf").write_bytes(print_for(name, tmp_path / "in", tmp_path / "t.typ"))
    with pikepdf.open(tmp_path / "a.pdf") as pdf:
        assert str(pdf.open_metadata()["dc:title"]) == name
    assert print_for(name, tmp_path / "in").startswith(b"%PDF")


# What the record page takes at most, with blanks and without.
LONG_NAMES = ("Ñá Oda " * 17 + "W", "W" * 120, "Oda-Maria " * 12)


@pytest.mark.parametrize("name", [name.strip()[:120] for name in LONG_NAMES])
def test_the_longest_name_stands_whole_on_its_certificate(name: str, tmp_path: Path) -> None:
    asked = re.findall(r'id="bw-learner-\w+"[^>]* maxlength="(\d+)"', RECORD_PAGE.read_text(encoding="utf-8"))
    assert asked == ["120", "120"]
    assert len(name) > 110
    given, _ = give(tmp_path / "in", (name, "abc"))
    assert list(given) == [name]
    (page,) = extract_pages(BytesIO(print_for(name, tmp_path / "in")))
    lines = [line for box in page if isinstance(box, LTTextContainer) for line in box]
    read = "".join("".join(line.get_text() for line in lines if isinstance(line, LTTextLine)).split())
    assert "".join(name.split()) in read
    for line in lines:
        assert page.x0 + 72 <= line.x0 + 1  # margins of an inch
        assert line.x1 <= page.x1 - 72 + 1


@pytest.mark.parametrize(
    "name", ["\u3164", "\u2800", "\u2800 \u3164", "\u115f\u1160\uffa0", "\ufe0f", "\u034f", " \u0301"]
)
def test_a_name_that_shows_nothing_is_none(name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert give(tmp_path / "in", (name, "abc")) == ({}, {"": "name "})
    assert main(["start", str(tmp_path / "course")]) == 0
    course = load_outline(tmp_path / "course")
    marks = [{"lesson": lesson.id, "finished": "2026-11-03", "passed": True} for lesson in course.lessons]
    record = make_record("0123456789ab", course={"id": course.id}, learner={"name": name}, lessons=marks)
    records = write_records(tmp_path / "records", record)
    command = ["certificates", str(records), "--course", str(tmp_path / "course"), "--out", str(tmp_path / "out")]
    assert main([*command, "--key", str(tmp_path / "key"), "--make-key"]) == 0
    assert "None yet: '01234567': no name in the record, or one that shows nothing" in capsys.readouterr().out
    assert list((tmp_path / "out").glob("*.pdf")) == []


def test_a_template_with_a_fault_is_told(tmp_path: Path) -> None:
    (tmp_path / "t.typ").write_text("#nothing-of-this-name")
    with pytest.raises(CertificateError, match="nothing-of-this-name"):
        print_for("Oda Pell", tmp_path / "in", tmp_path / "t.typ")


def test_a_name_that_no_font_has_keeps_nobody_else_back(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["start", str(tmp_path / "course")]) == 0
    course = load_outline(tmp_path / "course")
    marks = [{"lesson": lesson.id, "finished": "2026-11-03", "passed": True} for lesson in course.lessons]
    names = {"a": "Oda Pell", "b": "小明", "c": "😀 Bo", "d": "Дарья"}
    records = [
        make_record(one, course={"id": course.id}, learner={"name": name}, lessons=marks) for one, name in names.items()
    ]
    folder = write_records(tmp_path / "records", *records)
    command = ["certificates", str(folder), "--course", str(tmp_path / "course"), "--key", str(tmp_path / "keys" / "k")]
    assert main([*command, "--make-key", "--out", str(tmp_path / "out")]) == 1
    told = capsys.readouterr().err
    assert "小明" in told
    assert "😀" in told
    assert "--template" in told
    listed = json.loads((tmp_path / "out" / "certificates.json").read_text(encoding="utf-8"))["certificates"]
    assert {one["name"] for one in listed} == {"Oda Pell", "Дарья"}
    assert {path.name for path in (tmp_path / "out").glob("*.pdf")} == {one["file"] for one in listed}


def test_from_records_to_a_verified_certificate(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["start", str(tmp_path / "course")]) == 0
    course = tmp_path / "course"
    text = (course / "content" / "course.yml").read_text(encoding="utf-8")
    course_id = next(line.split()[1] for line in text.splitlines() if line.startswith("id:"))
    lessons = [path.name[3:-11] for path in sorted((course / "content" / "modules").glob("*.lesson.yml"))]
    marks = [{"lesson": name, "finished": "2026-11-03", "minutes": 40, "passed": True} for name in lessons]
    oda = make_record("oda", course={"id": course_id}, learner={"name": "Oda Pell"}, lessons=marks)
    bo = make_record("bo", course={"id": course_id}, learner={"name": "Bo Quist"}, lessons=marks[:1])
    records = write_records(tmp_path / "records", oda, bo)
    key, out = tmp_path / "keys" / "mine", tmp_path / "out"
    command = ["certificates", str(records), "--course", str(course), "--out", str(out), "--date", "2026-11-25"]
    assert main([*command, "--key", str(key)]) == 1  # there is no key yet
    assert not out.exists()
    assert main([*command, "--key", str(key), "--make-key"]) == 0
    assert "None yet: 'Bo Quist'" in capsys.readouterr().out
    assert [path.name for path in out.glob("*.pdf")] == ["certificate-001-Oda-Pell.pdf"]
    assert main([*command, "--key", str(key)]) == 0  # the same day again: the same certificate
    (listed,) = json.loads((out / "certificates.json").read_text(encoding="utf-8"))["certificates"]
    verify = ["verify", listed["code"], "--key", str(key)]
    assert main([*verify, "--list", str(out / "certificates.json")]) == 0
    typed = [part for name in Claims.__slots__ for part in (f"--{name}", listed[name])]
    assert main([*verify, *typed]) == 0
    assert main([*verify, *typed, "--hours", "99"]) == 1
    assert "NOT VALID" in capsys.readouterr().out
    assert main([*command, "--key", str(course / "key"), "--make-key"]) == 1
    assert not (course / "key").exists()


@pytest.mark.parametrize("date", ["2027-W05-1", "20270131", "2027-02-30", "2027-1-31", "31.1.2027", "", " 2027-01-31"])
def test_a_date_of_issue_is_written_in_one_way(date: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["start", str(tmp_path / "course")]) == 0
    records = write_records(tmp_path / "records", make_record("oda"))
    command = ["certificates", str(records), "--course", str(tmp_path / "course"), "--out", str(tmp_path / "out")]
    assert main([*command, "--key", str(tmp_path / "key"), "--make-key", f"--date={date}"]) == 1
    assert f"--date is a day such as 2026-11-25, not {date!r}; write year-month-day" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
    assert not (tmp_path / "key").exists()


def test_of_a_device_that_never_ends_no_more_is_read_than_a_key_or_a_list_has(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    endless = Path("/dev/zero")
    with pytest.raises(KeyFileError, match="holds no key"):
        load_key(endless)
    make_key(tmp_path / "key")
    assert main(["verify", "--key", str(tmp_path / "key"), "--list", str(endless), "AAAA"]) == 1
    assert "too big to be a list" in capsys.readouterr().err


def test_certificates_of_another_day_join_those_that_are_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["start", str(tmp_path / "course")]) == 0
    course = load_outline(tmp_path / "course")
    marks = [{"lesson": lesson.id, "finished": "2026-11-03", "passed": True} for lesson in course.lessons]
    out, key = tmp_path / "out", ["--key", str(tmp_path / "keys" / "k")]
    names = ("Oda Pell", "Oda Pell", "Bo Quist")
    records = [
        make_record(f"l{n}", course={"id": course.id}, learner={"name": name}, lessons=marks)
        for n, name in enumerate(names)
    ]
    codes = []
    for day, folder in (
        ("2026-11-25", write_records(tmp_path / "first", *records[:2])),
        ("2026-12-02", write_records(tmp_path / "second", records[2])),
        ("2026-11-25", tmp_path / "first"),
    ):
        options = [str(folder), "--course", str(tmp_path / "course"), "--out", str(out), "--date", day, *key]
        assert main(["certificates", *options, "--make-key"]) == 0
        listed = json.loads((out / "certificates.json").read_text(encoding="utf-8"))["certificates"]
        codes = [one["code"] for one in listed]
        assert {path.name for path in out.glob("*.pdf")} == {one["file"] for one in listed}
    assert [(one["name"], one["date"], one["file"].split("-")[1]) for one in listed] == [
        ("Oda Pell", "2026-11-25", "001"),
        ("Oda Pell", "2026-11-25", "002"),
        ("Bo Quist", "2026-12-02", "003"),
    ]
    for code in codes:
        assert main(["verify", code, *key, "--list", str(out / "certificates.json")]) == 0
    (out / "certificates.json").write_text("{}", encoding="utf-8")
    capsys.readouterr()
    assert main(["certificates", *options]) == 1
    assert "no list of certificates; name another folder" in capsys.readouterr().err
    assert (out / "certificates.json").read_text(encoding="utf-8") == "{}"
