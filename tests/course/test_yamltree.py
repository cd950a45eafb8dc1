"""The tree of a text: places as an editor counts them, values as written, and the same from either parser."""

from pathlib import Path

import pytest
import yaml

from beadwright.course import yamltree
from beadwright.course.yamltree import Lines, ListNode, MapNode, Node, Place, TextNode, parse_tree
from tests.support import ROOT

LESSONS = [*sorted((ROOT / "content").rglob("*.yml")), Path(__file__).with_name("every_kind.lesson.yml")]


def refuse(code: str, place: Place, /, **fields: str | int) -> None:
    raise AssertionError((code, place, fields))


def read(text: str) -> Node | None:
    """The tree of a text in which nothing is wrong."""
    return parse_tree(text, refuse)


def test_a_tree_knows_the_places_of_keys_and_values() -> None:
    root = read("# a remark\na: 1\nb:\n  - 'x'\n  - {c: }\n")
    assert isinstance(root, MapNode)
    assert [(e.key, e.key_place) for e in root.entries] == [("a", Place(2, 1)), ("b", Place(3, 1))]
    assert root.entries[0].value == TextNode(Place(2, 4), "1")
    inner = root.entries[1].value
    assert isinstance(inner, ListNode)
    assert inner.items[0] == TextNode(Place(4, 5), "x", plain=False)
    assert isinstance(inner.items[1], MapNode)
    (entry,) = inner.items[1].entries
    assert (entry.key, entry.key_place) == ("c", Place(5, 6))
    assert isinstance(entry.value, TextNode)
    assert entry.value.is_nothing


def test_columns_count_characters_not_bytes() -> None:
    root = read("größe: {weiß: ½}\n")
    assert isinstance(root, MapNode)
    inner = root.entries[0].value
    assert isinstance(inner, MapNode)
    assert (inner.entries[0].key_place, inner.entries[0].value.place) == (Place(1, 9), Place(1, 15))


@pytest.mark.parametrize(
    ("index", "place"), [(0, (1, 1)), (2, (1, 3)), (3, (2, 1)), (7, (3, 1)), (9, (4, 1)), (10, (4, 2))]
)
def test_lines_end_where_an_editor_ends_them(index: int, place: tuple[int, int]) -> None:
    assert Lines("ab\ncd\r\nx\ry").place(index) == Place(*place)


def test_a_line_separator_ends_no_line() -> None:
    # Editors show it inside a line, whatever the parser makes of it.
    assert Lines("a\u2028b\x85c").place(4) == Place(1, 5)


def test_nothing_is_not_empty_text() -> None:
    root = read("a:\nb: ''\n")
    assert isinstance(root, MapNode)
    values = [entry.value for entry in root.entries]
    assert [isinstance(value, TextNode) and value.is_nothing for value in values] == [True, False]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.name)
def test_both_parsers_give_the_same_tree(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    trees = [yamltree.build_tree(text, Lines(text), refuse, loader) for loader in (yaml.CSafeLoader, yaml.SafeLoader)]
    assert trees[0] == trees[1]
    assert trees[0] is not None


def test_tabs_are_refused_by_either_parser() -> None:
    # The parser in C would let a tab at the end of a line pass, the one in Python does not.
    noted = []
    assert parse_tree("a: b\t\nc: d\n", lambda code, place, /, **fields: noted.append((code, place))) is None
    assert noted == [("yaml-tab", Place(1, 5))]
