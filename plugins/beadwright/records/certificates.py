"""Who has earned a certificate, and the certificate as a tagged PDF that claims PDF/UA-1."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from beadwright.paths import templates_dir
from beadwright.records.codes import Claims, make_code
from beadwright.records.merging import Who
from beadwright.records.outline import LessonOutline, Outline
from beadwright.records.standing import LessonStanding, Standing
from beadwright.render import Words

TEMPLATE = "certificate.typ"


class CertificateError(Exception):
    """The typesetter refused a certificate; the message is its own."""


@dataclass(frozen=True, slots=True)
class Award:
    """A certificate to be given: to whom, for the whole course or a path of it, and for which lessons."""

    who: Who
    award: str
    lessons: tuple[LessonOutline, ...]

    @property
    def hours(self) -> Decimal:
        """Hours of credit of its lessons."""
        return sum((lesson.credit for lesson in self.lessons if lesson.credit is not None), Decimal(0))


@dataclass(frozen=True, slots=True)
class Missing:
    """Somebody without a certificate, and one reason; `what` says which are lacking.

    `name` (none was typed), `lessons`, `objectives` (lesson/objective), `hours` (those reached, those asked), `ratings`
    (when).
    """

    who: Who
    reason: str
    what: tuple[str, ...] = ()


def find_awards(
    standings: Sequence[Standing], outline: Outline, *, path: str | None = None
) -> tuple[list[Award], list[Missing]]:
    """Who gets a certificate, and who does not yet and every reason why not.

    What is asked stands in the course (`certificate`). Where nothing stands there, every lesson of a way counts
    (finished and, where it has items, all objectives shown): of `path`, or of the whole course, or else of the longest
    path that somebody has done. Raises `KeyError` for no path.
    """
    ways = _list_ways(outline, path)
    given: list[Award] = []
    missing: list[Missing] = []
    for one in standings:
        counting = _find_counting(one, outline)
        done = {lesson.id for lesson in counting}
        found = next((way for way in ways if set(way[1]) <= done), None)
        lacking = [] if one.who.name != "" else [Missing(one.who, "name")]
        if found is None:
            wanted = min(ways, key=lambda way: len(set(way[1]) - done))[1]
            lacking.append(Missing(one.who, "lessons", tuple(name for name in wanted if name not in done)))
        lacking += _find_lacking(one, counting, outline)
        if lacking or found is None:
            missing += lacking
        else:
            of_way = tuple(lesson for lesson in outline.lessons if lesson.id in found[1])
            given.append(Award(one.who, found[0], of_way if outline.asked.hours is None else counting))
    return given, missing


def _find_counting(one: Standing, outline: Outline) -> tuple[LessonOutline, ...]:
    """The lessons that count: done, or only finished where the course says itself which objectives are asked."""
    if outline.asked.objectives is None:
        return one.done
    return tuple(standing.lesson for standing in one.lessons if standing.finished)


def _find_lacking(one: Standing, counting: Sequence[LessonOutline], outline: Outline) -> Iterator[Missing]:
    """What else the course asks and somebody has not."""
    asked = outline.asked
    shown = {f"{each.lesson.id}/{name}" for each in one.lessons for name in _list_shown(each)}
    objectives = tuple(name for name in asked.objectives or () if name not in shown)
    if objectives:
        yield Missing(one.who, "objectives", objectives)
    hours = sum((lesson.credit for lesson in counting if lesson.credit is not None), Decimal(0))
    if asked.hours is not None and hours < asked.hours:
        yield Missing(one.who, "hours", (format_hours(hours), format_hours(asked.hours)))
    rated = zip(("before", "after"), one.rated, strict=True)
    ratings = tuple(
        when for when, given in rated if asked.confidence in (when, "both") and not set(outline.rated) <= set(given)
    )
    if ratings:
        yield Missing(one.who, "ratings", ratings)


def _list_shown(standing: LessonStanding) -> Iterator[str]:
    """Objectives of a lesson that are shown; what an older edition saw passed stays passed, whole."""
    for objective in standing.lesson.objectives:
        if standing.passed or standing.objectives.get(objective) == "met":
            yield objective


def _list_ways(outline: Outline, path: str | None) -> list[tuple[str, tuple[str, ...]]]:
    """Titles and lessons of what can be done, the most lessons first."""
    paths = {name: (f"{outline.title}: {title}", lessons) for name, title, lessons in outline.paths}
    if path is not None:
        return [paths[path]]
    if outline.asked.lessons is not None:
        return [(outline.title, outline.asked.lessons)]
    whole = (outline.title, tuple(lesson.id for lesson in outline.lessons))
    return sorted([whole, *paths.values()], key=lambda way: -len(way[1]))


def build_claims(award: Award, outline: Outline, date: str) -> Claims:
    """What the certificate of this award says."""
    return Claims(outline.id, outline.edition, award.who.name, award.award, format_hours(award.hours), date)


def format_hours(hours: Decimal) -> str:
    """Hours without needless zeros.

    >>> format_hours(Decimal("9.750")), format_hours(Decimal("10"))
    ('9.75', '10')
    """
    text = f"{hours:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def print_certificate(
    award: Award, claims: Claims, key: bytes, outline: Outline, words: Words, template: Path | None = None
) -> bytes:
    """The certificate as a tagged PDF; the same bytes for the same claims.

    `template` is a trainer's own; it finds the same data, and files beside it. Names reach it as data, never as markup.
    Raises `CertificateError` when the typesetter refuses it, `ModuleNotFoundError` where typst is not installed.
    """
    import typst

    own = templates_dir() / "print" / TEMPLATE if template is None else template.resolve()
    data = {
        "language": outline.language,
        "claims": {name: getattr(claims, name) for name in Claims.__slots__},
        "course_title": outline.title,
        "code": make_code(key, claims),
        "lessons": [
            {"title": lesson.title, "hours": None if lesson.credit is None else format_hours(lesson.credit)}
            for lesson in award.lessons
        ],
        "words": words.section("certificate"),
        "hours_words": words.text("certificate.hours", hours=claims.hours),
    }
    try:
        made = typst.compile(
            str(own),
            root=str(own.parent),
            font_paths=[str(templates_dir() / "print" / "fonts")],
            ignore_system_fonts=template is None,
            format="pdf",
            sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
            pdf_standards=["ua-1"],
        )
    except typst.TypstError as error:
        raise CertificateError(str(error)) from error
    if not isinstance(made, bytes):
        raise CertificateError("the template makes no single file")
    return made
