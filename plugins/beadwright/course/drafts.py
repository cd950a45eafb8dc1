"""What can still be checked of a file with faults: the same tree without the faulty blocks and items.

So one faulty block does not keep the findings of all the others until it is put right.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Generic, TypeVar

from beadwright.course.binding import Bound, Located, Path, bind
from beadwright.course.models_base import Strict
from beadwright.course.models_course import Course, Glossary
from beadwright.course.models_lesson import LessonFile
from beadwright.course.yamltree import ListNode, MapNode, Node, Place, parse_tree

M = TypeVar("M", bound=Strict)

MOST_ROUNDS = 8  # taking a block's last item out makes the block faulty, and so on upwards


@dataclass(frozen=True, slots=True)
class Draft(Generic[M]):
    """A model of what is sound in a file, the tree it was read from, and the top keys where something is lost."""

    model: M
    located: Located
    lost: frozenset[str] = frozenset()


def build_draft(model: type[M], located: Located, bound: Bound[M]) -> Draft[M] | None:
    """The draft of a file that `bound` was read from; None when too little of it is sound."""
    lost: set[str] = set()
    for _ in range(MOST_ROUNDS):
        if bound.model is not None:
            return Draft(bound.model, located, frozenset(lost))
        if () in bound.faults:
            return None
        lost |= {str(path[0]) for path in bound.faults}
        located = Located(located.file, _cut_all(located.root, bound.faults, _STAND_INS[model]))
        bound = bind(model, located)
    return None


def _cut_all(root: MapNode, faults: tuple[Path, ...], stand_ins: MapNode) -> MapNode:
    cuts = {_find_cut(path) for path in faults}
    # Later entries first, so that the numbers of earlier ones still hold.
    for cut in sorted(cuts, key=lambda path: [part for part in path if isinstance(part, int)], reverse=True):
        root = _replace_key(root, cut[0], stand_ins) if len(cut) == 1 else _map_without(root, cut)
    return root


def _find_cut(path: Path) -> Path:
    """The item, or else the block, or else the top key that a fault lies in."""
    if path[0] != "body" or len(path) == 1:
        return path[:1]
    return path[:5] if path[2:4] == ("practice", "items") and len(path) > 4 else path[:2]


def _replace_key(root: MapNode, key: str | int, stand_ins: MapNode) -> MapNode:
    kept = tuple(entry for entry in root.entries if entry.key != key)
    stand_in = stand_ins.entry(str(key))
    return replace(root, entries=kept if stand_in is None else (*kept, stand_in))


def _map_without(node: MapNode, path: Path) -> MapNode:
    """Keys without the list entry that `path` leads to."""
    key, rest = path[0], path[1:]
    return replace(
        node,
        entries=tuple(replace(e, value=_without(e.value, rest)) if e.key == key else e for e in node.entries),
    )


def _without(node: Node, path: Path) -> Node:
    if isinstance(node, MapNode):
        return _map_without(node, path)
    if not isinstance(node, ListNode):
        return node
    index, rest = path[0], path[1:]
    if not rest:
        return replace(node, items=tuple(item for number, item in enumerate(node.items) if number != index))
    return replace(
        node, items=tuple(_without(item, rest) if number == index else item for number, item in enumerate(node.items))
    )


def _parse_stand_ins(text: str) -> MapNode:
    root = parse_tree(text, _refuse)
    return root if isinstance(root, MapNode) else MapNode(Place(1, 1), ())


def _refuse(code: str, place: Place, /, **fields: str | int) -> None:
    raise AssertionError(f"a stand-in is faulty: {code}")


# What takes the place of a faulty key that a model cannot do without. Nothing of it is ever checked or shown.
_STAND_INS: dict[type[Strict], MapNode] = {
    LessonFile: _parse_stand_ins(
        "{title: lost, minutes: 600, objectives: [{id: lost, text: lost}], body: [{text: lost}]}"
    ),
    Course: _parse_stand_ins(
        "{id: lost, title: lost, edition: lost, contact: [{name: lost}], record: {send: lost}, modules: [lost]}"
    ),
    Glossary: _parse_stand_ins("{terms: [{term: lost, meaning: lost}]}"),
}
