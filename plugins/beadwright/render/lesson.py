"""A lesson as a page, block by block."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from beadwright.course import (
    CautionBlock,
    Course,
    Example,
    FacilitatorBlock,
    Figure,
    FigureBlock,
    Lesson,
    Part,
    PartBlock,
    Practice,
    PracticeBlock,
    RatingAsk,
    RatingBlock,
    ReflectBlock,
    Reflection,
    TextBlock,
    WalkthroughBlock,
    show_figure,
    work_example,
)
from beadwright.engine import ColumnShape, Frame, Walkthrough
from beadwright.practice import build_lone_item, build_practice
from beadwright.render.course_pages import LessonLink
from beadwright.render.figures import render_figure
from beadwright.render.items import PracticePage, name_item
from beadwright.render.numbers import format_number, format_problem
from beadwright.render.occurrences import note_example, note_item
from beadwright.render.pages import Occurrence, Page, escape_markdown, slot_line, write_front_matter
from beadwright.render.prose import render_prose
from beadwright.render.svg import render_shapes
from beadwright.render.templates import render_part
from beadwright.render.walkthroughs import render_walkthrough
from beadwright.render.words import Words


def write_lesson(
    course: Course, link: LessonLink, links: Sequence[LessonLink], words: Words, *, for_trainers: bool = False
) -> Page:
    """The page of the lesson `link`; the trainers' edition has the notes for the facilitator in it.

    `links` are all lessons of the course. Addresses are as seen from the folder of the lesson pages.
    """
    writer = _Writer(course, link, links, words, for_trainers=for_trainers)
    markdown = "\n\n".join(writer.write()) + "\n"
    return Page(markdown, writer.slots, tuple(writer.occurrences))


class _Writer:
    """Writes one lesson's page, counting parts, examples and figures as it goes."""

    def __init__(
        self, course: Course, link: LessonLink, links: Sequence[LessonLink], words: Words, *, for_trainers: bool
    ) -> None:
        self.slots: dict[str, str] = {}
        self.occurrences: list[Occurrence] = []
        self._course = course
        self._link = link
        self._lesson: Lesson = link.lesson
        self._links = links
        self._words = words
        self._for_trainers = for_trainers
        self._practice = PracticePage(
            words,
            self._lesson.id,
            course.edition,
            course.pass_mark,
            course.braille_code,
            for_trainers=for_trainers,
            pages={each.lesson.id: each for each in links},
        )
        self._counts: dict[str, int] = {}
        self._shapes: list[ColumnShape] = []

    def write(self) -> Iterator[str]:
        """The page chunk by chunk: front matter, title, head, blocks, end."""
        lesson, number = self._lesson, self._link.number
        yield write_front_matter(lesson.title, kind="lesson", lesson=lesson.id, number=number, minutes=lesson.minutes)
        yield f"# {escape_markdown(lesson.title)}"
        yield slot_line("head")
        for block in lesson.body:
            yield from self._write_block(block)
        yield self._keep("end", self._render_end())
        self._keep("head", self._render_head())

    def _render_head(self) -> str:
        before = [link for link in self._links if link.lesson.id in self._lesson.needs]
        # One drawing of each shape of column serves every figure of the page.
        shapes = render_shapes(self._shapes)
        return render_part(
            "lesson-head", link=self._link, total=len(self._links), before=before, shapes=shapes, words=self._words
        )

    def _render_end(self) -> str:
        send = render_prose(self._course.record.send)
        shared = self._practice.finish()
        return render_part("lesson-end", lesson=self._lesson, send=send, shared=shared, words=self._words)

    def _write_block(self, block: object) -> Iterator[str]:  # noqa: C901 - one case for each kind of block
        match block:
            case PartBlock(part=part):
                yield from self._write_part(part)
            case TextBlock(text=text):
                yield text
            case FigureBlock(figure=figure):
                yield self._write_figure(figure)
            case WalkthroughBlock(walkthrough=example):
                yield from self._write_example(example)
            case PracticeBlock(practice=practice):
                yield from self._write_practice(practice)
            case CautionBlock(caution=caution, name=name):
                yield self._write_aside("caution", caution if name is None else self._course.cautions[name])
            case FacilitatorBlock(facilitator=note):
                if self._for_trainers:
                    yield self._write_aside("facilitator", note)
            case ReflectBlock(reflect=asked):
                yield self._write_lone_item("reflect", asked)
            case RatingBlock(rating=asked):
                yield self._write_lone_item("rating", asked)
            case _:
                raise TypeError(f"a block without a page form: {block!r}")

    def _write_part(self, part: Part) -> Iterator[str]:
        name = self._next("part")
        if self._counts["part"] > 1:
            yield self._keep(f"stop-{name}", self._render_stop(part, name))
        minutes = "" if part.minutes is None else f' data-bw-minutes="{part.minutes}"'
        yield f"## {escape_markdown(part.title)} {{: #{name} .bw-part{minutes} }}"
        if part.minutes is not None:
            yield f"{self._words.text('lesson.part_minutes', count=part.minutes)}\n{{: .bw-minutes }}"

    def _render_stop(self, part: Part, name: str) -> str:
        """The end of the part before this one: how long the rest of the lesson takes, and this part of it."""
        parts = [block.part for block in self._lesson.body if isinstance(block, PartBlock)]
        before = sum(other.minutes or 0 for other in parts[: self._counts["part"] - 1])
        left = self._lesson.minutes - before
        return render_part(
            "lesson-stop", words=self._words, next=name, title=part.title, minutes=part.minutes, left=left
        )

    def _write_figure(self, figure: Figure) -> str:
        name = self._next("figure")
        frame = show_figure(self._course, self._lesson, figure)
        self._use(frame)
        _, ones = figure.columns
        picture = render_figure(frame, self._words, figure_id=name, caption=figure.caption or "", ones_column=ones)
        return self._keep(name, picture)

    def _write_example(self, example: Example) -> Iterator[str]:
        walkthrough = work_example(self._course, self._lesson, example)
        name = self._next("worked")
        self._use(walkthrough.start)
        yield self._heading(self._words.text("lesson.worked", problem=self._say_problem(walkthrough)), name)
        yield escape_markdown(self._say_answer(walkthrough))
        if example.note is not None:
            yield example.note
        self._practice.show_walkthrough(walkthrough, f"{name}-steps")
        self.occurrences.append(note_example(walkthrough, name, self._words))
        yield self._keep(
            name,
            render_walkthrough(
                walkthrough, self._words, walkthrough_id=f"{name}-steps", braille_code=self._course.braille_code
            ),
        )

    def _say_problem(self, walkthrough: Walkthrough) -> str:
        return format_problem(walkthrough.problem, self._words)

    def _say_answer(self, walkthrough: Walkthrough) -> str:
        answer = walkthrough.answer
        fields = {"problem": self._say_problem(walkthrough), "answer": format_number(answer.text, self._words)}
        if answer.remainder is None:
            return self._words.text("lesson.worked_answer", **fields)
        remainder = format_number(answer.remainder.text, self._words)
        return self._words.text("lesson.worked_remainder", **fields, remainder=remainder)

    def _write_practice(self, practice: Practice) -> Iterator[str]:
        yield self._heading(practice.title, practice.id)
        built = build_practice(self._course, self._lesson, practice)
        for item in built.items:
            if item.frame is not None:
                self._use(item.frame)
            noted = note_item(item.pool[0], item.ask, name_item(item.id), self._words)
            if noted is not None:
                self.occurrences.append(noted)
        yield self._keep(practice.id, self._practice.render_practice(built))

    def _write_lone_item(self, kind: str, asked: Reflection | RatingAsk) -> str:
        item = build_lone_item(self._course, self._lesson, asked)
        return self._keep(self._next(kind), self._practice.render_item(item))

    def _write_aside(self, kind: str, text: str) -> str:
        label = escape_markdown(self._words.text(f"lesson.{kind}"))
        start = f'<div class="bw-{kind}" role="note" markdown="1">'
        return f"{start}\n\n**{label}**\n{{: .bw-{kind}-label }}\n\n{text}\n\n</div>"

    def _heading(self, title: str, name: str) -> str:
        """A heading below the part it stands in, or a section of its own before the first part."""
        level = "###" if "part" in self._counts else "##"
        return f"{level} {escape_markdown(title)} {{: #{name} }}"

    def _use(self, frame: Frame) -> None:
        """Note that a figure with this shape of column stands on the page."""
        if frame.shape not in self._shapes:
            self._shapes.append(frame.shape)

    def _keep(self, name: str, html: str) -> str:
        if name in self.slots:
            raise ValueError(f"two slots are called {name} in {self._lesson.file}")
        self.slots[name] = html
        return slot_line(name)

    def _next(self, kind: str) -> str:
        self._counts[kind] = self._counts.get(kind, 0) + 1
        return f"{kind}-{self._counts[kind]}"
