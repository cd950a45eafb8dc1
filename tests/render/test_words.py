"""The language table is strict: whatever is missing or malformed is named, and nothing is passed over."""

from pathlib import Path

import pytest

from beadwright.render.words import WordsError, load_words, parse_words

TABLE = """\
shell:
  next: Next step
  place: Step {number} of {count}
  found: {one: One page, other: "{count} pages"}
  "on": on
list: [a, b]
"""


def write(folder: Path, text: str) -> Path:
    path = folder / "xx.yml"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_pattern_is_filled_in(tmp_path: Path) -> None:
    words = parse_words("xx", write(tmp_path, TABLE))
    assert words.text("shell.place", number=2, count=8) == "Step 2 of 8"
    assert words.text("shell.on") == "on"
    assert words.items("list") == ("a", "b")


def test_a_plural_is_chosen_by_count_alone(tmp_path: Path) -> None:
    words = parse_words("xx", write(tmp_path, TABLE))
    assert [words.text("shell.found", count=count) for count in (0, 1, 2)] == ["0 pages", "One page", "2 pages"]


def test_a_section_is_plain_data_for_scripts(tmp_path: Path) -> None:
    words = parse_words("xx", write(tmp_path, TABLE))
    assert words.section("shell") == {
        "next": "Next step",
        "place": "Step {number} of {count}",
        "found": {"one": "One page", "other": "{count} pages"},
        "on": "on",
    }


@pytest.mark.parametrize(
    ("key", "fields", "said"),
    [
        ("shell.nxet", {}, "xx.yml has no text for shell.nxet"),
        ("shell", {}, "xx.yml has no text for shell"),
        ("list", {}, "xx.yml has no text for list"),
        ("shell.place", {"count": 3}, "xx.yml: shell.place needs the field 'number'"),
        ("shell.found", {}, "xx.yml: shell.found needs the field 'count', a whole number"),
    ],
)
def test_what_is_missing_is_named(tmp_path: Path, key: str, fields: dict[str, int], said: str) -> None:
    words = parse_words("xx", write(tmp_path, TABLE))
    with pytest.raises(WordsError) as raised:
        words.text(key, **fields)
    assert str(raised.value) == said


def test_a_missing_section_or_list_is_named(tmp_path: Path) -> None:
    words = parse_words("xx", write(tmp_path, TABLE))
    with pytest.raises(WordsError, match="no section practice"):
        words.section("practice")
    with pytest.raises(WordsError, match=r"no list for shell\.next"):
        words.items("shell.next")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("a: b\na: c\n", "xx.yml:2: a stands twice"),
        ("a:\n  b: x\n  b: y\n", "xx.yml:3: a.b stands twice"),
        ("a: '{count'\n", "xx.yml:1: a has braces that do not match"),
        ("a: '{0}'\n", "xx.yml:1: a has a field that is not a plain name: {0}"),
        ("a: '{x.y}'\n", "xx.yml:1: a has a field that is not a plain name: {x.y}"),
        ("a: '{x!r}'\n", "xx.yml:1: a has a field that is not a plain name: {x}"),
        ("a: [[b]]\n", "xx.yml:1: a should be text"),
        ("a b: c\n", "xx.yml:1: a b is not a key"),
        ("- a\n", "xx.yml should be a mapping of sections"),
        ("a: [\n", "xx.yml is not YAML"),
    ],
)
def test_a_malformed_table_is_refused_with_its_line(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(WordsError) as raised:
        parse_words("xx", write(tmp_path, text))
    assert said in str(raised.value)


@pytest.mark.parametrize("language", ["zz", "../en", "EN", ""])
def test_a_language_without_a_table_is_named(language: str) -> None:
    with pytest.raises(WordsError, match="no language table for"):
        load_words(language)


def test_a_table_is_read_once() -> None:
    assert load_words("en") is load_words("en")
