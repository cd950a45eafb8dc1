"""Items as QTI 3.0: choices and typed numbers, which the format has; and a list of what it has nothing for.

An export holds the question, the answers and the key. Feedback by slip, hints, worked examples and drawn problems
beyond an item's own stay in the course.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from beadwright.course import Course, Lesson, PracticeBlock
from beadwright.pack.archive import write_xml
from beadwright.practice import AnswerEntry, ChoiceEntry, PracticeItem, build_practice
from beadwright.render import Words, format_problem
from beadwright.render.prose import render_prose

ASI = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0"
IMSCP = "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1"
MATCH = "https://purl.imsglobal.org/spec/qti/v3p0/rptemplates/match_correct"
UNGRADED = ("reflect", "rating")
_TAGS = re.compile(r"<[^>]+>")
_INTEGER = re.compile(r"-?\d+")


@dataclass(frozen=True, slots=True)
class Export:
    """Files of the package by name, how many items it has, and a sentence for each graded item that is not in it."""

    files: dict[str, bytes]
    items: int
    unmapped: tuple[str, ...]


def build_export(course: Course, lessons: Sequence[Lesson], words: Words) -> Export:
    """The course's choice and answer items as a QTI package. Names of items are lesson and item."""
    files: dict[str, bytes] = {}
    unmapped: list[str] = []
    for name, title, item in _list_items(course, lessons, words):
        made = build_item(name, title, item, words)
        if made is None:
            reason = "rest" if isinstance(item.pool[0], AnswerEntry) else "kind"
            unmapped.append(words.text(f"pack.unmapped.{reason}", item=name))
        else:
            files[f"items/{name}.xml"] = made
    count = len(files)
    files["imsmanifest.xml"] = _build_manifest(course.id, sorted(files))
    return Export(files, count, tuple(unmapped))


def _list_items(course: Course, lessons: Sequence[Lesson], words: Words) -> Iterator[tuple[str, str, PracticeItem]]:
    # Only an item's own problem is written, so the rest of its pool need not be worked.
    lean = course.model_copy(update={"pool": 1})
    for lesson in lessons:
        for block in lesson.body:
            if isinstance(block, PracticeBlock):
                title = words.text("pack.qti_title", lesson=lesson.title, practice=block.practice.title)
                for item in build_practice(lean, lesson, block.practice).items:
                    if item.ask not in UNGRADED:
                        yield f"{lesson.id}--{item.id}", title, item


def build_item(name: str, title: str, item: PracticeItem, words: Words) -> bytes | None:
    """An item's file; None for what the format has nothing for."""
    entry = item.pool[0]
    if isinstance(entry, ChoiceEntry):
        return _build_choice(name, title, entry)
    if isinstance(entry, AnswerEntry) and item.ask == "answer" and entry.accept == "value":
        answer = entry.walkthrough.answer
        if answer.remainder is None and _INTEGER.fullmatch(answer.text):
            return _build_answer(name, title, format_problem(entry.walkthrough.problem, words), answer.text)
    return None


def _start(name: str, title: str, cardinality: str, kind: str, right: Sequence[str]) -> tuple[ET.Element, ET.Element]:
    """An item with its key; gives the item and its body, still empty."""
    ET.register_namespace("", ASI)
    item = ET.Element(
        f"{{{ASI}}}qti-assessment-item",
        {"identifier": f"ITEM-{name}", "title": title, "adaptive": "false", "time-dependent": "false"},
    )
    response = _add(
        item, "qti-response-declaration", {"identifier": "RESPONSE", "cardinality": cardinality, "base-type": kind}
    )
    correct = _add(response, "qti-correct-response")
    for value in right:
        _add(correct, "qti-value").text = value
    outcome = {"identifier": "SCORE", "cardinality": "single", "base-type": "float"}
    _add(_add(_add(item, "qti-outcome-declaration", outcome), "qti-default-value"), "qti-value").text = "0"
    return item, _add(item, "qti-item-body")


def _build_choice(name: str, title: str, entry: ChoiceEntry) -> bytes:
    right = [option.id for option in entry.options if option.right]
    item, body = _start(name, title, "single" if len(right) == 1 else "multiple", "identifier", right)
    most = {"response-identifier": "RESPONSE", "shuffle": "false", "max-choices": "1" if len(right) == 1 else "0"}
    asked = _add(body, "qti-choice-interaction", most)
    _add(asked, "qti-prompt").text = _plain(entry.question)
    for option in entry.options:
        _add(asked, "qti-simple-choice", {"identifier": option.id}).text = _plain(option.text)
    return _finish(item)


def _build_answer(name: str, title: str, problem: str, answer: str) -> bytes:
    item, body = _start(name, title, "single", "integer", [answer])
    line = _add(body, "p")
    line.text = f"{problem} = "
    _add(
        line, "qti-text-entry-interaction", {"response-identifier": "RESPONSE", "expected-length": str(len(answer) + 2)}
    )
    return _finish(item)


def _finish(item: ET.Element) -> bytes:
    _add(item, "qti-response-processing", {"template": MATCH})
    return write_xml(item)


def _plain(markdown: str) -> str:
    """What a text of the author's says, without its markup."""
    return html.unescape(" ".join(_TAGS.sub(" ", str(render_prose(markdown))).split()))


def _build_manifest(course: str, files: Sequence[str]) -> bytes:
    ET.register_namespace("", IMSCP)
    manifest = ET.Element(f"{{{IMSCP}}}manifest", {"identifier": f"QTI-{course}"})
    metadata = ET.SubElement(manifest, f"{{{IMSCP}}}metadata")
    ET.SubElement(metadata, f"{{{IMSCP}}}schema").text = "QTI Package"
    ET.SubElement(metadata, f"{{{IMSCP}}}schemaversion").text = "3.0.1"
    ET.SubElement(manifest, f"{{{IMSCP}}}organizations")
    resources = ET.SubElement(manifest, f"{{{IMSCP}}}resources")
    for number, file in enumerate(files, start=1):
        held = {"identifier": f"RESOURCE-{number}", "type": "imsqti_item_xmlv3p0", "href": file}
        ET.SubElement(ET.SubElement(resources, f"{{{IMSCP}}}resource", held), f"{{{IMSCP}}}file", {"href": file})
    return write_xml(manifest)


def _add(parent: ET.Element, name: str, attributes: dict[str, str] | None = None) -> ET.Element:
    return ET.SubElement(parent, f"{{{ASI}}}{name}", attributes or {})
