"""A content folder -> a checked course, or all findings of all its files at once."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from hashlib import sha256
from itertools import chain, groupby
from operator import attrgetter
from pathlib import Path
from typing import TypeVar

from beadwright.course.binding import bind
from beadwright.course.checks import check_parts
from beadwright.course.drafts import Draft, build_draft
from beadwright.course.findings import Finding, Where, build_finding, sort_findings
from beadwright.course.folders import HOMES, check_files
from beadwright.course.mixing import find_sources
from beadwright.course.models_base import Strict
from beadwright.course.models_course import Course, Glossary
from beadwright.course.models_lesson import Lesson, LessonFile
from beadwright.course.parts import YAML_LOST, Parts
from beadwright.course.sources import Source, check_names, list_lessons, load_tree, name_source

M = TypeVar("M", bound=Strict)

COURSE_NAME = "course.yml"
GLOSSARY_NAME = "glossary.yml"
MODULES = "modules"
MOST_FINDINGS = 200


@dataclass(frozen=True, slots=True)
class Loaded:
    """What a content folder holds.

    `lessons` has the sound lessons in the order of the course, those that it does not list last; `course` is None when
    its file is not sound. With any finding at all, nothing should be built. `digests` has the SHA-256 of each file that
    could be read, by its name in findings: of the very bytes that were read.
    """

    course: Course | None
    lessons: tuple[Lesson, ...]
    glossary: Glossary | None
    findings: tuple[Finding, ...]
    digests: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_sound(self) -> bool:
        """Whether there is nothing to put right."""
        return self.course is not None and not self.findings

    @property
    def digest(self) -> str:
        """One SHA-256 for all these files, wherever their folder is and whatever it is called."""
        below = sorted((file.partition("/")[2], digest) for file, digest in self.digests.items())
        return sha256(json.dumps(below).encode()).hexdigest()


def load_course(content_dir: Path) -> Loaded:
    """Load and check `course.yml`, `glossary.yml` (if any) and `modules/*.lesson.yml` of a content folder.

    Of what else is in it, only that it can be part of a site is checked. Raises nothing for whatever the files hold;
    what is wrong is among the findings, sorted by place, each once.
    """
    sources, findings = check_names(list(list_lessons(content_dir)))
    reader = _Reader(content_dir, findings)
    course = reader.load(Course, COURSE_NAME)
    if course is not None and not any((content_dir / name).is_file() for name in HOMES):
        findings.append(reader.find_missing(HOMES[0], "Make it: it is the home page, and other pages lead back to it."))
    has_glossary = (content_dir / GLOSSARY_NAME).exists()
    glossary = reader.load(Glossary, GLOSSARY_NAME) if has_glossary else None
    drafts = {lesson_id: reader.load_source(LessonFile, source) for lesson_id, source in sources.items()}
    if not sources:
        findings.append(reader.find_missing(MODULES, "Make a lesson there, such as 01-first-touch.lesson.yml."))
    lessons = {lesson_id: lesson for lesson_id, lesson in drafts.items() if lesson is not None}
    parts = Parts(course, lessons, tuple(sources), glossary)
    findings.extend(check_parts(parts))
    findings.extend(check_files(content_dir))
    return Loaded(
        course=_sound(course),
        lessons=_order_lessons(parts),
        glossary=_sound(glossary),
        findings=_thin_out(sort_findings(findings)),
        digests=reader.digests,
    )


class _Reader:
    """Reads the files of a content folder by their models and keeps what is wrong with them."""

    def __init__(self, content_dir: Path, findings: list[Finding]) -> None:
        self.content_dir = content_dir
        self.findings = findings
        self.digests: dict[str, str] = {}

    def load(self, model: type[M], name: str) -> Draft[M] | None:
        """What is sound in the file `name`, which should be there."""
        source = name_source(self.content_dir / name, self.content_dir)
        if not source.path.exists():
            self.findings.append(self.find_missing(name, "Make it, or say which folder holds the course."))
            return None
        return self.load_source(model, source)

    def load_source(self, model: type[M], source: Source) -> Draft[M] | None:
        """What is sound in a file that is there."""
        located, findings = load_tree(source, self.content_dir)
        self.findings.extend(findings)
        if located is None:
            return None
        self.digests[located.file] = located.digest
        bound = bind(model, located)
        # What the YAML itself lacks has been said already; its consequence at the same place need not be.
        said = {(finding.line, finding.column) for finding in findings}
        self.findings.extend(f for f in bound.findings if (f.line, f.column) not in said)
        drafted = build_draft(model, located, bound)
        return None if drafted is None else replace(drafted, lost=drafted.lost | ({YAML_LOST} if findings else set()))

    def find_missing(self, name: str, make: str) -> Finding:
        """The finding for a file that should be there."""
        source = name_source(self.content_dir / name, self.content_dir)
        return build_finding("file-missing", Where(source.file), make=make)


def _sound(draft: Draft[M] | None) -> M | None:
    return None if draft is None or draft.lost else draft.model


def _order_lessons(parts: Parts) -> tuple[Lesson, ...]:
    """The sound lessons as the course lists them; others after them by name."""
    course = parts.course_with("modules")
    listed = () if course is None else course.lessons_in_order()
    order = {lesson_id: number for number, lesson_id in enumerate(listed)}
    sound = [(lesson_id, draft) for lesson_id, draft in parts.lessons.items() if not draft.lost]
    lessons = {
        lesson_id: _build_lesson(lesson_id, draft)
        for lesson_id, draft in sorted(sound, key=lambda pair: order.get(pair[0], len(order)))
    }
    return tuple(_add_mixed(lesson, lessons) for lesson in lessons.values())


def _build_lesson(lesson_id: str, draft: Draft[LessonFile]) -> Lesson:
    """The lesson with the id and file that its contents do not say; all of it has been checked already."""
    written = {name: getattr(draft.model, name) for name in LessonFile.model_fields}
    return Lesson.model_construct(**written, id=lesson_id, file=draft.located.file)


def _add_mixed(lesson: Lesson, lessons: Mapping[str, Lesson]) -> Lesson:
    """The lesson with those that its items are mixed from."""
    mixed = tuple(lessons[name] for name in find_sources(lesson) if name in lessons)
    return lesson.model_copy(update={"mixed": mixed}) if mixed else lesson


def _thin_out(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """At most `MOST_FINDINGS` of each file, and one more that says so, where the first left out stands."""
    return tuple(chain.from_iterable(_cut_file(list(group)) for _, group in groupby(findings, key=attrgetter("file"))))


def _cut_file(findings: list[Finding]) -> list[Finding]:
    if len(findings) <= MOST_FINDINGS:
        return findings
    first = findings[MOST_FINDINGS]
    more = build_finding("file-more", Where(first.file, first.line, first.column, first.path))
    return [*findings[:MOST_FINDINGS], more]
