"""Every kind of finding is produced by a file that deserves it, at its exact place, in the words of the table."""

import os
import re
import sys
from pathlib import Path

import pytest

from beadwright.course import Finding, format_finding, format_findings, load_course, run_check, yamltree
from beadwright.course.messages import MESSAGES
from tests.course.cases import CASES, Case
from tests.course.writing import COURSE, FILE, HEAD, LESSON, brief, find_mark, load_lesson, write_course, write_lesson


def name_case(case: Case) -> str:
    """A test's name: the code and the marked line, so that the same code's cases tell themselves apart."""
    line = next(line for line in case.text.splitlines() or ["▸"] if "▸" in line)
    return f"{case.code}: {line.strip()[:50]}"


@pytest.fixture(params=["fast", "plain"])
def parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """The parser in C, and a machine that has none."""
    assert yamltree.FAST is not None, "this PyYAML has no parser in C, so one half of this test would test nothing"
    if request.param == "plain":
        monkeypatch.setattr(yamltree, "FAST", None)


@pytest.mark.usefixtures("parser")
@pytest.mark.parametrize("case", CASES, ids=name_case)
def test_a_broken_file_gives_its_finding_at_its_place(case: Case, tmp_path: Path) -> None:
    loaded = load_course(write_course(tmp_path, {case.file: case.text}))
    assert [brief(finding) for finding in loaded.findings] == [
        (case.code, f"content/{case.file}", *find_mark(case.text))
    ]
    assert not loaded.is_sound


def make_no_course(content: Path) -> None:
    (content / "course.yml").unlink()


def make_no_lessons(content: Path) -> None:
    (content / LESSON).unlink()


def make_odd_name(content: Path) -> None:
    (content / "modules" / "02-Both Partners.lesson.yml").write_text(write_lesson())


def make_wrong_end(content: Path) -> None:
    (content / "modules" / "02-b.yaml").write_text(write_lesson())


def make_same_id(content: Path) -> None:
    (content / "modules" / "02-a.lesson.yml").write_text(write_lesson())


def make_folder(content: Path) -> None:
    (content / LESSON).unlink()
    (content / LESSON).mkdir()


def make_pipe(content: Path) -> None:
    (content / LESSON).unlink()
    os.mkfifo(content / LESSON)


def make_dead_link(content: Path) -> None:
    (content / LESSON).unlink()
    (content / LESSON).symlink_to("nowhere.yml")


def make_endless_link(content: Path) -> None:
    (content / LESSON).unlink()
    (content / LESSON).symlink_to(Path(LESSON).name)


def make_link_out(content: Path) -> None:
    outside = content.parent / "outside.yml"
    outside.write_text("title: secret\n")
    (content / LESSON).unlink()
    (content / LESSON).symlink_to(outside)


def make_big(content: Path) -> None:
    (content / LESSON).write_text("# " + "x" * 512 * 1024)


def make_utf16(content: Path) -> None:
    (content / LESSON).write_bytes(write_lesson().encode("utf-16"))


def make_latin1(content: Path) -> None:
    (content / LESSON).write_bytes("title: A\nminutes: caf\xe9\n".encode("latin-1"))


def make_many_faults(content: Path) -> None:
    keys = "".join(f"key-{number}: x\n" for number in range(210))
    (content / LESSON).write_text(write_lesson() + keys)


def make_linked_folder(content: Path) -> None:
    (content / "again").symlink_to(".")


def make_linked_page(content: Path) -> None:
    (content / "secret.md").symlink_to("/etc/hostname")


def make_linked_picture(content: Path) -> None:
    (content / "pictures").mkdir()
    (content / "pictures" / "a.png").symlink_to("/etc/hostname")


def make_dead_picture(content: Path) -> None:
    (content / "a.png").symlink_to("nowhere.png")


def make_page_pipe(content: Path) -> None:
    os.mkfifo(content / "page.md")


def make_no_home(content: Path) -> None:
    (content / "index.md").unlink()
    (content / "home.md").write_text("# Start\n", encoding="utf-8")


def make_picture_pipe(content: Path) -> None:
    os.mkfifo(content / "picture.svg")


def make_latin1_page(content: Path) -> None:
    (content / "page.md").write_bytes("# A\n\nCaf\xe9\n".encode("latin-1"))


def make_page_with_nothing(content: Path) -> None:
    (content / "page.md").write_bytes(b"# A\n\n\x00\n")


def make_unwritable_name(content: Path) -> None:
    with open(os.fsencode(content) + b"/pa\xffge.md", "w") as file:  # noqa: PTH123 - no Path takes such bytes
        file.write("# A\n")


ON_DISK = [
    ("file-link", make_linked_folder, "content/again", 1, 1),
    ("file-outside", make_linked_page, "content/secret.md", 1, 1),
    ("file-outside", make_linked_picture, "content/pictures/a.png", 1, 1),
    ("file-unreadable", make_dead_picture, "content/a.png", 1, 1),
    ("file-unreadable", make_page_pipe, "content/page.md", 1, 1),
    ("file-unreadable", make_picture_pipe, "content/picture.svg", 1, 1),
    ("file-encoding", make_latin1_page, "content/page.md", 3, 4),
    ("file-character", make_page_with_nothing, "content/page.md", 3, 1),
    ("file-letters", make_unwritable_name, "content/pa?ge.md", 1, 1),
    ("file-missing", make_no_course, "content/course.yml", 1, 1),
    ("file-missing", make_no_home, "content/index.md", 1, 1),
    ("file-missing", make_no_lessons, "content/modules", 1, 1),
    ("file-name", make_odd_name, "content/modules/02-Both Partners.lesson.yml", 1, 1),
    ("file-name", make_wrong_end, "content/modules/02-b.yaml", 1, 1),
    ("file-doubled", make_same_id, "content/modules/02-a.lesson.yml", 1, 1),
    ("file-unreadable", make_folder, FILE, 1, 1),
    ("file-unreadable", make_pipe, FILE, 1, 1),
    ("file-unreadable", make_dead_link, FILE, 1, 1),
    ("file-unreadable", make_endless_link, FILE, 1, 1),
    ("file-outside", make_link_out, FILE, 1, 1),
    ("file-big", make_big, FILE, 1, 1),
    ("file-encoding", make_utf16, FILE, 1, 1),
    ("file-encoding", make_latin1, FILE, 2, 13),
    ("file-more", make_many_faults, FILE, len(write_lesson().splitlines()) + 201, 1),
]


@pytest.mark.parametrize(("code", "make", "file", "line", "column"), ON_DISK)
def test_a_broken_folder_gives_its_finding(code, make, file, line, column, tmp_path: Path) -> None:
    content = write_course(tmp_path, {})
    make(content)
    findings = {brief(finding) for finding in load_course(content).findings}
    assert (code, file, line, column) in findings


# Two lessons that need each other; the first also has no confidence items to ask for.
ORDER = COURSE.replace("modules: [a]", "modules: [a, b]")
NEEDS_B = write_lesson(head=HEAD + "needs: [b]\n")
NEEDS_A = write_lesson(head=HEAD + "needs: [a]\n")


def test_a_lesson_that_is_needed_comes_before(tmp_path: Path) -> None:
    files = {"course.yml": ORDER, LESSON: NEEDS_B, "modules/02-b.lesson.yml": write_lesson()}
    findings = load_course(write_course(tmp_path, files)).findings
    assert [brief(finding) for finding in findings] == [("needs-order", FILE, 4, 9)]


def test_needs_do_not_go_round(tmp_path: Path) -> None:
    files = {"course.yml": ORDER, LESSON: NEEDS_B, "modules/02-b.lesson.yml": NEEDS_A}
    (finding,) = load_course(write_course(tmp_path, files)).findings
    assert brief(finding) == ("needs-circle", FILE, 4, 9)
    assert finding.message.endswith("a → b → a")


def test_a_rating_has_something_to_rate(tmp_path: Path) -> None:
    course = COURSE[: COURSE.index("confidence:")] + COURSE[COURSE.index("cautions:") :]
    files = {"course.yml": course, LESSON: write_lesson(body="- rating: before\n")}
    (finding,) = load_course(write_course(tmp_path, files)).findings
    assert brief(finding) == ("rating-none", FILE, 6, 11)


def test_every_code_of_the_table_is_produced_by_a_test() -> None:
    elsewhere = {"needs-order", "needs-circle", "rating-none"}
    elsewhere |= {"value-amount", "value-date"}  # of what a trainer keeps: tests/records/test_visits.py
    elsewhere |= {"sheet-problems"}  # tests/sheets/test_specs.py
    elsewhere |= {"mix-lesson", "mix-objective", "mix-impossible"}  # tests/course/test_mix.py
    produced = {case.code for case in CASES} | {code for code, *_ in ON_DISK} | elsewhere
    assert produced == set(MESSAGES)


@pytest.mark.parametrize("code", sorted(MESSAGES))
def test_a_message_says_what_should_be_and_gives_one_next_step(code: str) -> None:
    assert re.fullmatch("[a-z]+(-[a-z]+)*", code)
    assert MESSAGES[code].says.startswith("should ")
    assert MESSAGES[code].next_step.endswith((".", "{near}", "{make}"))


def test_a_finding_reads_as_the_design_says(tmp_path: Path) -> None:
    text = write_lesson(
        body="""\
- practice:
    id: p
    title: P
    items:
      - draw:
          operation: add
          digits: x
"""
    )
    (finding,) = load_lesson(tmp_path, text).findings
    assert format_finding(finding) == (
        "content/modules/01-a.lesson.yml:12:19: practice › items › draw › digits: should be two whole numbers, "
        'found "x" [item-digits]\n'
        "    Write how many digits (1 to 15) each number of the problem has, such as [2, 2]."
    )


def test_all_findings_of_all_files_are_shown_at_once_sorted_by_place(tmp_path: Path) -> None:
    lesson = """\
title: A lesson
minutes: ten
objectives: [{id: o, text: Do it}]
body:
- txt: Hello
- practice:
    id: p
    title: P
    objective: q
    items:
      - {ask: answer, problem: 48 +}
      - {ask: answer, problem: 3 - 5}
      - {ask: next-move, problem: 48 + 37}
- caution: shred-frames
"""
    files = {"course.yml": COURSE + "pass_mark: most\n", LESSON: lesson, "modules/02-b.lesson.yml": "a: b: c\n"}
    found = [brief(finding) for finding in load_course(write_course(tmp_path, files)).findings]
    assert found == [
        ("value-share", "content/course.yml", 12, 12),
        ("value-whole", FILE, 2, 10),
        ("block-kind", FILE, 5, 3),
        ("objective-unknown", FILE, 9, 16),
        ("problem-text", FILE, 11, 32),
        ("problem-frame", FILE, 12, 32),
        ("key-missing", FILE, 13, 9),
        ("caution-unknown", FILE, 14, 12),
        ("yaml-colon", "content/modules/02-b.lesson.yml", 1, 5),
    ]


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("minuets: 10", 'Did you mean "minutes"?'),
        ("Minutes: 10", 'Did you mean "minutes"?'),
        ("duration: 10", 'Did you mean "minutes"?'),
        ("prerequisites: [b]", 'Did you mean "needs"?'),
        ("zebra: 10", "Choose from title, summary, minutes, needs, objectives, frame and body."),
    ],
)
def test_an_unknown_key_leads_to_a_known_one(written: str, meant: str, tmp_path: Path) -> None:
    (finding,) = load_lesson(tmp_path, write_lesson() + written + "\n").findings
    assert (finding.code, finding.hint) == ("key-unknown", meant)


def test_an_alias_bomb_is_refused_where_it_stands(tmp_path: Path) -> None:
    bomb = "a: &a [x, x]\n" + "".join(f"{b}: &{b} [*{a}, *{a}]\n" for a, b in zip("abcdefgh", "bcdefghi", strict=True))
    findings = load_lesson(tmp_path, bomb).findings
    assert ("yaml-anchor", FILE, 1, 4) in map(brief, findings)
    assert ("yaml-alias", FILE, 2, 8) in map(brief, findings)


def test_check_prints_findings_and_counts_them(tmp_path: Path, capsys) -> None:
    content = write_course(tmp_path, {LESSON: write_lesson() + "minuets: 1\n", "course.yml": COURSE + "x: 1\n"})
    assert run_check(content, sys.stdout) == 1
    out = capsys.readouterr().out
    assert out.startswith("content/course.yml:12:1: file: should be a known key")
    assert out.endswith("2 things to put right in 2 files.\n")


def test_check_takes_the_folder_around_the_content(tmp_path: Path, capsys) -> None:
    write_course(tmp_path, {})
    assert run_check(tmp_path, sys.stdout) == 0
    assert capsys.readouterr().out == "1 lesson checked, nothing to put right.\n"


@pytest.mark.parametrize("name", ["README.md", "index.markdown", "index.html"])
def test_whatever_becomes_the_home_page_is_one(tmp_path: Path, name: str) -> None:
    content = write_course(tmp_path, {})
    (content / "index.md").rename(content / name)
    assert load_course(content).findings == ()


@pytest.mark.parametrize(
    ("settings", "where"),
    [
        ("docs_dir: other/en\n", "other/en"),
        ("plugins: [!ENV [A, b]]\ndocs_dir: 'other'\nx: !!python/name:os.path\n", "other"),
        ("site_name: Frames\n", "docs"),  # where MkDocs looks when nothing is said
        ("docs_dir: [", "content"),
        ("docs_dir: [a]\n", "docs"),
        ("", "docs"),
        ("- a\n", "docs"),
    ],
)
def test_check_follows_the_settings_to_the_content(tmp_path: Path, settings: str, where: str, capsys) -> None:
    (tmp_path / where).parent.mkdir(exist_ok=True)
    write_course(tmp_path / "made", {}).rename(tmp_path / where)
    (tmp_path / "mkdocs.yml").write_text(settings, encoding="utf-8")
    assert run_check(tmp_path, sys.stdout) == 0, capsys.readouterr().out
    assert run_check(tmp_path / where, sys.stdout) == 0


def test_check_writes_to_a_terminal_that_knows_few_characters(tmp_path: Path) -> None:
    content = write_course(tmp_path, {LESSON: write_lesson(body="- figure: {reads: x}\n")})
    target = tmp_path / "out.txt"
    with target.open("w", encoding="ascii") as out:
        assert run_check(content, out) == 1
    assert "figure ? reads: should be a number" in target.read_text(encoding="ascii")


def test_a_file_whose_name_is_no_text_is_a_finding(tmp_path: Path) -> None:
    content = write_course(tmp_path, {})
    name = os.fsencode(content / "modules") + b"/02-caf\xe9.lesson.yml"
    with Path(os.fsdecode(name)).open("w", encoding="utf-8") as file:
        file.write(write_lesson())
    (finding,) = load_course(content).findings
    assert finding.code == "file-name"
    assert "02-caf?.lesson.yml" in format_findings([finding])


def test_a_finding_is_a_value() -> None:
    one = Finding("not-text", "a.yml", 1, 1, (), "should be", "Do.")
    assert {one, Finding("not-text", "a.yml", 1, 1, (), "should be", "Do.")} == {one}
