"""What builds keep for the next one: right or not there, whole or not there, and never needed."""

import os
import shutil
from pathlib import Path

import pytest

from beadwright.course import load_course
from beadwright.render.editions import EditionStyle
from beadwright.site import cache as caching
from beadwright.site.cache import Cache, EntryLostError, hash_parts
from beadwright.site.lessons import LessonStore, build_recipe
from tests.support.small_course import COURSE, write_content

FILES = {"one": b"first" * 100, "two": b"second"}
PLAIN = EditionStyle(braille=False, large_print=False, sound=False)


@pytest.fixture
def kept(tmp_path: Path) -> Cache:
    cache = Cache(tmp_path / "kept")
    cache.store("key", {"says": [1, None]}, FILES)
    return cache


def entry_path(cache: Cache) -> Path:
    (path,) = cache.folder.iterdir()
    return path


def test_an_entry_is_read_as_it_was_stored(kept: Cache) -> None:
    entry = kept.load("key")
    assert entry is not None
    assert entry.about == {"says": [1, None]}
    assert {name: entry.read(name) for name in entry.files} == FILES
    assert kept.load("other") is None


def test_no_cut_and_no_changed_byte_goes_unnoticed(kept: Cache) -> None:
    path = entry_path(kept)
    whole = path.read_bytes()
    for size in range(len(whole)):
        path.write_bytes(whole[:size])
        assert_noticed(kept, f"cut after {size} bytes")
    for at in range(len(whole)):
        path.write_bytes(whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :])
        assert_noticed(kept, f"byte {at} changed")


def assert_noticed(cache: Cache, what: str) -> None:
    """A damaged entry is not there, or says so when it is read, or gives the very bytes all the same."""
    entry = cache.load("key")
    if entry is None:
        return
    assert entry.about == {"says": [1, None]}, what
    for name, data in FILES.items():
        try:
            assert entry.read(name) == data, what
        except EntryLostError:
            return


def test_a_write_that_fails_leaves_what_was_there(kept: Cache, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(caching.Path, "replace", fail)
    with pytest.raises(OSError, match="No space"):
        kept.store("key", {"says": "new"}, {"one": b"new"})
    monkeypatch.undo()
    entry = kept.load("key")
    assert entry is not None
    assert entry.read("one") == FILES["one"]
    assert len(list(kept.folder.iterdir())) == 1


def test_the_folder_may_go_at_any_time(kept: Cache) -> None:
    entry = kept.load("key")
    shutil.rmtree(kept.folder)
    assert entry is not None
    with pytest.raises(EntryLostError):
        entry.read("one")
    assert kept.load("key") is None
    kept.drop_old()
    assert kept.store("key", None, FILES).read("two") == b"second"


def test_where_nothing_can_be_kept_a_build_keeps_for_itself_alone(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    cache = Cache(tmp_path / "file" / "kept")
    assert not cache.lasts
    assert cache.store("key", None, FILES).read("two") == b"second"
    cache.close()
    assert not cache.folder.exists()


def test_what_was_not_used_goes_oldest_first_and_what_was_used_stays(tmp_path: Path) -> None:
    first = Cache(tmp_path)
    sizes = {}
    for age, name in enumerate(("new", "older", "oldest")):
        path = first.store(name, None, {"one": bytes(1000)}).path
        os.utime(path, (10_000 - age, 10_000 - age))
        sizes[name] = path.stat().st_size
    later = Cache(tmp_path)
    assert later.load("oldest") is not None
    later.drop_old(sizes["new"])
    assert {path.stem for path in tmp_path.iterdir()} == {"new", "oldest"}
    later.drop_old(0)
    assert {path.stem for path in tmp_path.iterdir()} == {"oldest"}


def test_names_tell_apart_what_differs() -> None:
    parts: list[tuple[object, ...]] = [
        (),
        (None,),
        ("",),
        ("a", "b"),
        ("ab",),
        (["a", "b"],),
        (1,),
        ("1",),
        (True,),
        ("é",),
    ]
    assert len({hash_parts(*each) for each in parts}) == len(parts)


def list_keys(folder: Path, style: EditionStyle = PLAIN, *, for_trainers: bool = False) -> list[str]:
    loaded = load_course(folder)
    assert loaded.course is not None
    recipe = build_recipe(loaded.course, loaded, style, for_trainers=for_trainers)
    return [recipe.name_page(link) for link in recipe.links] + [recipe.name_editions(link) for link in recipe.links]


def test_a_key_changes_with_all_that_the_entry_is_made_from(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    course = write_content(tmp_path)
    first = list_keys(course)
    assert len(set(first)) == 4
    assert list_keys(course) == first
    # One lesson changed: its own keys, and no other's.
    changed = list_keys(write_content(tmp_path, second="joy"))
    assert [old == new for old, new in zip(first, changed, strict=True)] == [True, False, True, False]
    write_content(tmp_path)
    # For trainers the page is another one; other forms are the same.
    trainers = list_keys(course, for_trainers=True)
    assert [old == new for old, new in zip(first, trainers, strict=True)] == [False, False, True, True]
    larger = list_keys(course, EditionStyle(braille=False, sound=False))
    assert [old == new for old, new in zip(first, larger, strict=True)] == [True, True, False, False]
    # The course's file, and the program itself: all of them.
    (course / "course.yml").write_text(COURSE + "braille_code: ueb\n", encoding="utf-8")
    assert not set(first) & set(list_keys(course))
    (course / "course.yml").write_text(COURSE, encoding="utf-8")
    monkeypatch.setattr("beadwright.site.lessons.describe_program", lambda: "another")
    assert not set(first) & set(list_keys(course))


def test_a_lesson_that_mixes_others_is_made_again_with_them(tmp_path: Path) -> None:
    course = write_content(tmp_path)
    second = course / "modules" / "02-two.lesson.yml"
    mixing = second.read_text(encoding="utf-8").replace("minutes: 5\n", "minutes: 5\nneeds: [one]\n")
    mixing += "        - {mix: {of: [one, one/a], count: 2}}\n"
    second.write_text(mixing, encoding="utf-8")
    first = list_keys(course)
    write_content(tmp_path, first="joy")
    second.write_text(mixing, encoding="utf-8")
    assert not set(first) & set(list_keys(course))


def test_the_programs_name_covers_code_templates_and_words(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    templates = tmp_path / "site_templates"
    shutil.copytree(caching.templates_dir(), templates)
    monkeypatch.setattr(caching, "templates_dir", lambda: templates)

    def describe() -> str:
        caching.describe_program.cache_clear()
        return caching.describe_program()

    try:
        first = describe()
        assert describe() == first
        for file in ("words/en.yml", "parts/item.html"):
            with (templates / file).open("a", encoding="utf-8") as stream:
                stream.write("\n")
            assert describe() != first
            first = describe()
    finally:
        caching.describe_program.cache_clear()


def test_lessons_are_made_again_where_their_entries_go_meanwhile(tmp_path: Path) -> None:
    loaded = load_course(write_content(tmp_path / "content"))
    assert loaded.course is not None
    store = LessonStore(build_recipe(loaded.course, loaded, PLAIN, for_trainers=True), tmp_path / "kept")
    assert list(store.prepare()) == []
    before = [(store.markdown(uri), dict(store.slots(uri))) for uri in store.uris]
    trainers = store.read_trainer_pages()
    shutil.rmtree(tmp_path / "kept")
    assert [(store.markdown(uri), dict(store.slots(uri))) for uri in store.uris] == before
    assert store.read_trainer_pages() == trainers
