"""Braille, large print and sound beside each lesson: offered, made, kept, and left out where they cannot be made."""

import shutil
from pathlib import Path
from urllib.parse import urljoin

import pytest
from bs4 import BeautifulSoup

from beadwright.render import load_words
from beadwright.render.braille import literary
from beadwright.render.editions import EditionStyle, list_missing, making
from tests.support.building import run_mkdocs
from tests.support.small_course import LESSON, configure, write_course


@pytest.fixture
def course(tmp_path: Path) -> Path:
    return write_course(tmp_path, editions="{}")


def build(course: Path, settings: str = "{}") -> Path:
    configure(course, editions=settings)
    done = run_mkdocs(course / "mkdocs.yml", course / "site", "--strict")
    assert done.returncode == 0, done.stdout + done.stderr
    return course / "site"


def list_files(site: Path) -> set[str]:
    return {path.relative_to(site).as_posix() for path in (site / "editions").rglob("*") if path.is_file()}


def name_papers(name: str, *ends: str) -> set[str]:
    """The files of a practice sheet and its key."""
    return {f"{name}-{part}{end}" for part in ("sheet", "key") for end in (".txt", *ends)}


def test_each_lesson_offers_its_forms_and_every_link_leads_to_a_file(course: Path) -> None:
    site = build(course)
    assert list_files(site) == {
        f"editions/{name}/{file}"
        for name in ("one", "two")
        for file in (
            *(f"{name}{end}" for end in ("-nemeth-40.brf", "-print-18.pdf", "-02.mp3")),
            *name_papers(name, "-nemeth-40.brf", "-print-18.pdf"),
        )
    }
    for name in ("one", "two"):
        page = BeautifulSoup((site / "modules" / f"{name}.html").read_text(encoding="utf-8"), "html5lib")
        section = page.select_one("section.bw-editions")
        assert section is not None
        links = [str(link["href"]) for link in section.select("a")]
        assert len(links) == 9
        for link in links:
            assert (site / urljoin(f"modules/{name}.html", link)).is_file()
        assert f"editions/{name}" in section.get_text()
        assert "fifty-three plus twenty-one" in section.get_text()


def list_entries(course: Path) -> dict[str, int]:
    """What is kept for the next build, by name, with its inode: one that is written anew has another."""
    return {path.name: path.lstat().st_ino for path in (course / ".cache" / "beadwright").iterdir()}


def test_lessons_that_have_not_changed_are_not_made_again(course: Path) -> None:
    site = build(course)
    first = list_entries(course)
    before = {name: (site / name).read_bytes() for name in list_files(site)}
    second = course / "content" / "modules" / "02-two.lesson.yml"
    second.write_text(LESSON % (2, "joy"), encoding="utf-8")
    site = build(course)
    again = list_entries(course)
    assert len(first) == 4  # of each lesson its page and its other forms
    assert len(set(again) - set(first)) == 2
    assert first.items() <= again.items()
    changed = {name for name, data in before.items() if (site / name).read_bytes() != data}
    assert changed == {"editions/two/two-nemeth-40.brf", "editions/two/two-print-18.pdf"}


def test_a_damaged_cache_is_made_anew(course: Path) -> None:
    site = build(course)
    before = {name: (site / name).read_bytes() for name in list_files(site)}
    for number, entry in enumerate(sorted((course / ".cache" / "beadwright").iterdir())):
        data = bytearray(entry.read_bytes())
        data[-9 if number % 2 else 70] ^= 1
        entry.write_bytes(data)
    site = build(course)
    assert {name: (site / name).read_bytes() for name in list_files(site)} == before


def test_settings_choose_forms_and_sizes(course: Path) -> None:
    site = build(course, "{sound: false, cells: [20, 40], size: 24, contracted: false}")
    assert {name.rpartition("/")[2] for name in list_files(site) if "/one/" in name} == {
        "one-nemeth-20.brf",
        "one-nemeth-40.brf",
        "one-print-24.pdf",
        *name_papers("one", "-nemeth-20.brf", "-nemeth-40.brf", "-print-24.pdf"),
    }
    narrow = (site / "editions/one/one-nemeth-20.brf").read_text("ascii")
    assert max(map(len, narrow.replace("\f", "").splitlines())) <= 20
    assert "WITH" in narrow


def test_the_code_is_the_courses(course: Path) -> None:
    with (course / "content" / "course.yml").open("a", encoding="utf-8") as file:
        file.write("braille_code: ueb\n")
    site = build(course, "{sound: false, print: false}")
    assert '#DH"6#CG' in (site / "editions/one/one-ueb-40.brf").read_text("ascii")


def test_a_trainer_can_do_without(course: Path) -> None:
    site = build(course, "false")
    assert not (site / "editions").exists()
    assert "bw-editions" not in (site / "modules" / "one.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ("{size: 12}", "18 to 36"),
        ("{pace: 60}", "the pace is 80 to 300 words a minute, not 60"),
        ("{pace: -1}", "80 to 300"),
        ("{pace: 1000}", "80 to 300"),
        ("{pause: 61}", "a pause is 0 to 60 seconds, not 61"),
        ("{pause: .nan}", "0 to 60"),
        ("{cells: [10]}", "20 to 200 cells"),
        ("{brail: true}", "brail"),
        ("many", "should be keys"),
    ],
)
def test_a_wrong_setting_is_told(course: Path, settings: str, said: str) -> None:
    configure(course, editions=settings)
    done = run_mkdocs(course / "mkdocs.yml", course / "site", "--strict")
    assert done.returncode != 0
    assert said in done.stdout + done.stderr
    assert "Traceback" not in done.stderr


def test_a_character_that_braille_does_not_have_is_told_and_costs_that_file_alone(course: Path) -> None:
    first = course / "content" / "modules" / "01-one.lesson.yml"
    first.write_text(LESSON % (1, "scissors ✂"), encoding="utf-8")
    configure(course, editions="{}")
    done = run_mkdocs(course / "mkdocs.yml", course / "site")
    assert done.returncode == 0
    assert "01-one.lesson.yml: UEB has no cells for ✂ in " in done.stderr
    assert {name.rpartition("/")[2] for name in list_files(course / "site") if "/one/" in name} == {
        "one-print-18.pdf",
        "one-02.mp3",
        *name_papers("one", "-nemeth-40.brf", "-print-18.pdf"),
    }


def test_what_cannot_be_made_here_is_one_line_each(monkeypatch: pytest.MonkeyPatch) -> None:
    assert list_missing(EditionStyle()) == ()
    monkeypatch.setattr(literary.shutil, "which", lambda name: None)
    literary.find_liblouis.cache_clear()
    monkeypatch.setattr(making, "find_typst", lambda: False)
    monkeypatch.setattr(making.sound, "find_voice", lambda: False)
    try:
        lines = list_missing(EditionStyle())
    finally:
        literary.find_liblouis.cache_clear()
    assert len(lines) == 3
    assert all("\n" not in line and "install" in line.lower() for line in lines)
    assert list_missing(EditionStyle(braille=False, sound=False)) == (lines[1],)


def test_two_builds_leave_the_same_bytes_wherever_and_whenever_they_run(
    course: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "other place"
    shutil.copytree(course / "content", other / "content")
    places = ((course, "Pacific/Auckland", "1"), (other, "America/Los_Angeles", "77"), (other, "UTC", "0"))
    found = []
    for folder, zone, seed in places:  # cold, cold elsewhere, warm
        monkeypatch.setenv("TZ", zone)
        monkeypatch.setenv("PYTHONHASHSEED", seed)
        site = build(folder)
        found.append({p.relative_to(site).as_posix(): p.read_bytes() for p in site.rglob("*") if p.is_file()})
    for files in found[1:]:
        assert sorted(files) == sorted(found[0])
        assert [name for name, data in files.items() if data != found[0][name]] == []


def test_the_words_of_the_list_are_there_in_every_language() -> None:
    for language in ("en", "es"):
        assert load_words(language).text("editions.print", size=18)


def test_sheets_to_fill_in_are_in_the_facilitators_edition_alone(course: Path) -> None:
    forms = ("-nemeth-40.brf", "-print-18.pdf", ".txt")
    names = {f"{name}{form}" for name in ("first-lesson", "observation", "checklist") for form in forms}
    assert not any(name.rpartition("/")[2] in names for name in list_files(build(course)))
    configure(course, editions="{}", edition="facilitators")
    assert run_mkdocs(course / "mkdocs.yml", course / "site", "--strict").returncode == 0
    assert {file for file in list_files(course / "site") if "/facilitators/" in file} == {
        f"editions/facilitators/{name}" for name in names
    }
    page = BeautifulSoup((course / "site/facilitators/checklist.html").read_text(encoding="utf-8"), "html5lib")
    links = [str(link["href"]) for link in page.select("main a[href*=editions]")]
    assert len(links) == 3
    for link in links:
        assert (course / "site" / urljoin("facilitators/checklist.html", link)).is_file()
