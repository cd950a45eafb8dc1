"""A located tree -> a model, and every fault of the model as a finding at the author's own line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final, Generic, NamedTuple, TypeVar

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from beadwright.course.findings import Finding, Where, build_finding, quote
from beadwright.course.messages import MESSAGES
from beadwright.course.modelkeys import find_model, name_keys
from beadwright.course.models_base import Strict
from beadwright.course.models_items import DRAWN_KINDS, ITEM_KINDS
from beadwright.course.models_lesson import BLOCK_KINDS, Block
from beadwright.course.nearness import suggest_near
from beadwright.course.tags import is_tag
from beadwright.course.yamltree import ListNode, MapNode, Node, Place, TextNode

M = TypeVar("M", bound=Strict)

Path = tuple[str | int, ...]
_UNSAID = ("body",)  # every block stands under it, so naming it helps nobody
MOST_FAULTS = 250  # a file with more is told about these; looking at each of 50,000 would take minutes
KEY: Final = "[key]"  # pydantic's last path entry when the key of a dict is at fault


Tell = Callable[[type[Strict], "Located", ErrorDetails, Path], Finding]
"""Makes the finding of one of pydantic's own kinds of fault."""


class Nothing:
    """Stands for a value that was left out, and so is neither text nor list nor keys."""


NOTHING: Final = Nothing()


class Found(NamedTuple):
    """Where a path leads: the node there, its key's place if it has one, the keys passed, whether that is all of it."""

    node: Node
    key_place: Place | None
    keys: tuple[str, ...]
    whole: bool


@dataclass(frozen=True, slots=True)
class Located:
    """The tree of a file, which makes findings at paths of that tree. `file` as in findings.

    `digest` is the SHA-256 of the bytes that were read, in hexadecimal.
    """

    file: str
    root: MapNode
    digest: str = ""

    def find(self, path: Path) -> Found:
        """Where `path` leads, or the last place on it that there is."""
        found = Found(self.root, None, (), True)
        for part in path:
            found = _step(found, part)
            if not found.whole:
                break
        return found

    def finding(self, code: str, path: Path, *, on_key: bool = False, **fields: str | int) -> Finding:
        """The finding `code` at the value of `path`, or at its key; `{found}` is what stands there unless given."""
        found = self.find(path)
        place = found.node.place
        if found.key_place is not None and (on_key or (isinstance(found.node, TextNode) and found.node.is_nothing)):
            place = found.key_place
        where = Where(self.file, place.line, place.column, tuple(key for key in found.keys if key not in _UNSAID))
        return build_finding(code, where, **{"found": describe(found.node), **fields})


def _step(found: Found, part: str | int) -> Found:
    node = found.node
    if isinstance(node, MapNode) and isinstance(part, str):
        entry = node.entry(part)
        if entry is not None:
            return Found(entry.value, entry.key_place, (*found.keys, part), True)
    elif isinstance(node, ListNode) and isinstance(part, int) and part < len(node.items):
        return Found(node.items[part], None, found.keys, True)
    return found._replace(whole=False)


def describe(node: Node) -> str:
    """What stands at a node, in an author's words."""
    if isinstance(node, MapNode):
        return "keys with values"
    if isinstance(node, ListNode):
        return "a list" if node.items else "an empty list"
    return "nothing" if node.is_nothing else quote(node.text)


def to_data(node: Node) -> Any:
    """A tree as the dicts, tuples and texts that models read; what was left out as `NOTHING`."""
    if isinstance(node, MapNode):
        return {entry.key: to_data(entry.value) for entry in node.entries}
    if isinstance(node, ListNode):
        return tuple(to_data(item) for item in node.items)
    return NOTHING if node.is_nothing else node.text


@dataclass(frozen=True, slots=True)
class Bound(Generic[M]):
    """What came of reading a tree by a model: the model, or how it is at fault and at which paths.

    The empty path among `faults` says that there are more of them than anyone wants to know.
    """

    model: M | None
    findings: tuple[Finding, ...] = ()
    faults: tuple[Path, ...] = ()


def bind(model: type[M], located: Located) -> Bound[M]:
    """Read a tree by a model; every fault becomes a finding, and no path in it names a member of a union."""
    try:
        return Bound(model.model_validate(to_data(located.root)))
    except ValidationError as error:
        details = error.errors(include_url=False, include_input=False)
    told = [detail for detail in details[:MOST_FAULTS] if _is_real(located, detail)]
    findings = tuple(_translate(model, located, detail) for detail in told)
    if len(details) > MOST_FAULTS:
        return Bound(None, findings, ((),))
    return Bound(None, findings, tuple(_author_path(detail) for detail in told))


def _is_real(located: Located, detail: ErrorDetails) -> bool:
    """False for a list called short only because entries in it are at fault."""
    node = located.find(_author_path(detail)).node
    return detail["type"] != "too_short" or len(getattr(node, "items", ())) < detail["ctx"]["min_length"]


def _author_path(detail: ErrorDetails) -> Path:
    """The path in the author's file: tags taken out, and what a finding is told to point at added."""
    path: Path = tuple(part for part in detail["loc"] if not is_tag(part) and part != KEY)
    context = detail.get("ctx", {})
    return (*path, context["at"]) if "at" in context else path


def _translate(model: type[Strict], located: Located, detail: ErrorDetails) -> Finding:
    code, path = detail["type"], _author_path(detail)
    context = {name: value for name, value in detail.get("ctx", {}).items() if name not in ("at", "code")}
    if code in MESSAGES:
        return located.finding(code, path, on_key=detail["loc"][-1:] == (KEY,), **_with_key(context, detail))
    return _SHAPES[code](model, located, detail, path)


def _with_key(context: dict[str, Any], detail: ErrorDetails) -> dict[str, Any]:
    """A bad key is itself what was found."""
    return {"found": quote(str(detail["loc"][-2])), **context} if detail["loc"][-1:] == (KEY,) else context


def _tell_missing(model: type[Strict], located: Located, detail: ErrorDetails, path: Path) -> Finding:
    return located.finding("key-missing", path[:-1], key=str(path[-1]))


def _tell_unknown(model: type[Strict], located: Located, detail: ErrorDetails, path: Path) -> Finding:
    key, owner = str(path[-1]), find_model(model, detail["loc"][:-1])
    at_key = located.finding("key-unknown", path, on_key=True, found=quote(key), near="")
    where = Where(at_key.file, at_key.line, at_key.column, at_key.path[:-1])
    if issubclass(owner, Block) and key in BLOCK_KINDS:
        return build_finding("block-two", where, key=key)
    drawn = next((name for name, kind in DRAWN_KINDS.items() if owner is kind), None)
    if drawn is not None and key == "ask":
        return build_finding("item-ask", where, key=drawn)
    return build_finding("key-unknown", where, found=quote(key), near=suggest_near(key, name_keys(owner)))


def _tell_kind(model: type[Strict], located: Located, detail: ErrorDetails, path: Path) -> Finding:
    """A block without a known key, or an item that neither asks nor draws anything known."""
    node = located.find(path).node
    if not isinstance(node, MapNode):
        return located.finding("not-keys", path)
    if "items" in path:
        asked = node.entry("ask")
        if asked is None:
            return located.finding(
                "item-kind", path, found="neither ask, draw nor mix", near=suggest_near("", ITEM_KINDS)
            )
        text = asked.value.text if isinstance(asked.value, TextNode) else ""
        return located.finding("item-kind", (*path, "ask"), near=suggest_near(text, ITEM_KINDS))
    keys = [entry.key for entry in node.entries]
    near = suggest_near(keys[0] if keys else "", BLOCK_KINDS)
    return located.finding("block-kind", path, found=quote(keys[0]) if keys else "no key", near=near)


def _tell_length(model: type[Strict], located: Located, detail: ErrorDetails, path: Path) -> Finding:
    context = detail.get("ctx", {})
    if detail["type"] == "too_short":
        return located.finding("list-short", path, least=context["min_length"], found=context["actual_length"])
    return located.finding("list-long", path, most=context["max_length"])


def _tell_not(code: str) -> Tell:
    def tell(model: type[Strict], located: Located, detail: ErrorDetails, path: Path) -> Finding:
        return located.finding(code, path)

    return tell


_SHAPES: dict[str, Tell] = {
    "missing": _tell_missing,
    "extra_forbidden": _tell_unknown,
    "union_tag_not_found": _tell_kind,
    "union_tag_invalid": _tell_kind,
    "too_short": _tell_length,
    "too_long": _tell_length,
    "tuple_type": _tell_not("not-list"),
    "model_type": _tell_not("not-keys"),
    "model_attributes_type": _tell_not("not-keys"),
    "dict_type": _tell_not("not-keys"),
}
"""Pydantic's own kinds of fault that our models can meet. Another kind is a gap in this table, and so a bug."""
