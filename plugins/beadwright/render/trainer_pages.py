"""Pages of the facilitators' edition alone: timings, keys, slips to expect, and sheets to fill in on paper."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from beadwright.course import Course, Lesson, PartBlock, PracticeBlock, WalkthroughBlock, work_example
from beadwright.engine import SLIPS, MethodError, Slipped, Walkthrough, build_slipped
from beadwright.practice import (
    AnswerEntry,
    CarryOutEntry,
    Entry,
    FindSlipEntry,
    NextMoveEntry,
    OrderEntry,
    build_practice,
)
from beadwright.render.course_pages import LessonLink
from beadwright.render.figures import render_figure
from beadwright.render.folds import Fold, build_fold
from beadwright.render.item_data import SharedData, show_answer
from beadwright.render.numbers import format_number, format_problem
from beadwright.render.pages import Page, escape_markdown, slot_line, write_front_matter
from beadwright.render.slips import name_slip
from beadwright.render.svg import render_shapes
from beadwright.render.words import Words

FOLDER = "facilitators"
SHEETS = ("first-lesson", "observation", "checklist")
"""The pages that are sheets to fill in; each has a slot `forms` for links to its other forms."""
MOST_SLIPS = 4
"""So many slips of a lesson are shown, the likeliest of its worked examples first."""


def write_trainer_pages(course: Course, links: Sequence[LessonLink], words: Words) -> dict[str, Page]:
    """The pages by their source path, in the order they are used: before a lesson, in it, and at a visit."""
    return {
        f"{FOLDER}/timings.md": _write_timings(course, links, words),
        f"{FOLDER}/keys.md": _write_keys(course, links, words),
        f"{FOLDER}/slips.md": _SlipWriter(course, words).write(links),
        f"{FOLDER}/first-lesson.md": _write_first_lesson(words),
        f"{FOLDER}/observation.md": _write_observation(words),
        f"{FOLDER}/checklist.md": _write_checklist(links, words),
    }


def _begin(name: str, words: Words) -> list[str]:
    title = words.text(f"facilitators.{name}.title")
    about = words.text(f"facilitators.{name}.about")
    return [write_front_matter(title, kind="facilitators"), f"# {escape_markdown(title)}", about]


def _begin_sheet(name: str, words: Words) -> list[str]:
    """A page that is a sheet to fill in, with the place for links to its other forms."""
    return [*_begin(name, words), slot_line("forms")]


def _write_start(name: str, words: Words) -> str:
    """What a sheet is about, to fill in: day, people."""
    return _table(_heads("start", words), [(line, "") for line in words.items(f"facilitators.{name}.start")])


def _finish(chunks: Sequence[str], slots: dict[str, str] | None = None) -> Page:
    return Page("\n\n".join(chunks) + "\n", slots or {})


def _table(heads: Sequence[str], rows: Sequence[Sequence[str | Markup]]) -> str:
    """A Markdown table; texts are escaped, markup is put on one line."""
    lines = [heads, ["---"] * len(heads), *([_cell(cell) for cell in row] for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def _cell(text: str | Markup) -> str:
    shown = str(text) if isinstance(text, Markup) else escape_markdown(text)
    return " ".join(shown.split()).replace("|", "&#124;") if isinstance(text, Markup) else " ".join(shown.split())


def _heads(name: str, words: Words) -> tuple[str, ...]:
    return words.items(f"facilitators.{name}.heads")


def _write_timings(course: Course, links: Sequence[LessonLink], words: Words) -> Page:
    """Each lesson's parts with their minutes, and what the lesson takes and gives in all."""
    hours = {module.lesson: module.credit for module in course.modules}
    chunks = _begin("timings", words)
    for link in links:
        lesson = link.lesson
        parts = [block.part for block in lesson.body if isinstance(block, PartBlock)]
        rows = [(part.title, "" if part.minutes is None else str(part.minutes)) for part in parts]
        credit = hours.get(lesson.id)
        given = "–" if credit is None else f"{credit.normalize():f}"
        total = words.text("facilitators.timings.total", minutes=lesson.minutes, hours=given)
        chunks += [f"## {link.number}. {escape_markdown(lesson.title)}", total]
        chunks += [_table(_heads("timings", words), rows)] if rows else []
    return _finish(chunks)


def _write_keys(course: Course, links: Sequence[LessonLink], words: Words) -> Page:
    """The key of every item's own problem, in the order of the lessons."""
    # Only an item's own problem has a place on paper, so the rest of its pool need not be worked.
    lean = course.model_copy(update={"pool": 1})
    chunks = _begin("keys", words)
    for link in links:
        rows = list(_list_keys(lean, link.lesson, words))
        if rows:
            chunks += [f"## {link.number}. {escape_markdown(link.lesson.title)}", _table(_heads("keys", words), rows)]
    return _finish(chunks)


def _list_keys(course: Course, lesson: Lesson, words: Words) -> Iterator[tuple[str, str, str, str | Markup]]:
    shared = SharedData(words)
    for block in lesson.body:
        if isinstance(block, PracticeBlock):
            for number, item in enumerate(build_practice(course, lesson, block.practice).items, start=1):
                fold = build_fold(item.pool[0], shared)
                if fold is not None:
                    yield (
                        block.practice.title,
                        str(number),
                        _tell_problem(item.pool[0], words),
                        _tell_key(item.pool[0], fold),
                    )


def _tell_problem(entry: Entry, words: Words) -> str:
    """The problem that an item is about; nothing where it has none."""
    if isinstance(entry, FindSlipEntry):
        return format_problem(entry.slipped.right.problem, words)
    if isinstance(entry, AnswerEntry | CarryOutEntry | NextMoveEntry | OrderEntry):
        return format_problem(entry.walkthrough.problem, words)
    return ""


def _tell_key(entry: Entry, fold: Fold) -> str | Markup:
    """The answer; where it is a row of moves or of options, these in order."""
    if isinstance(entry, OrderEntry):
        return Markup("; ").join(fold.steps)
    return fold.answer if fold.answer != "" else Markup("; ").join(fold.steps)


class _SlipWriter:
    """Writes the page of slips, counting its figures as it goes."""

    def __init__(self, course: Course, words: Words) -> None:
        self._course = course
        self._words = words
        self._slots: dict[str, str] = {}

    def write(self, links: Sequence[LessonLink]) -> Page:
        """For each lesson the likeliest slips of its worked examples, and what a student's frame then shows."""
        chunks = [*_begin("slips", self._words), slot_line("shapes")]
        shapes = []
        for link in links:
            found = self._find_slips(link.lesson)
            if found:
                chunks.append(f"## {link.number}. {escape_markdown(link.lesson.title)}")
            for slipped in found:
                shapes.append(slipped.right.start.shape)
                chunks += self._tell(slipped)
        self._slots["shapes"] = render_shapes(list(dict.fromkeys(shapes)))
        return _finish(chunks, self._slots)

    def _find_slips(self, lesson: Lesson) -> list[Slipped]:
        examples = [
            work_example(self._course, lesson, block.walkthrough)
            for block in lesson.body
            if isinstance(block, WalkthroughBlock)
        ]
        found = (_make_slip(slip, examples) for slip in sorted(SLIPS, key=lambda name: -SLIPS[name].weight))
        return [slipped for slipped in found if slipped is not None][:MOST_SLIPS]

    def _tell(self, slipped: Slipped) -> Iterator[str]:
        words, right = self._words, slipped.right
        name = name_slip(slipped.slip, words)
        wrong = format_number(slipped.answer.text, words)
        said = words.text(
            "facilitators.slips.told",
            problem=format_problem(right.problem, words),
            wrong=wrong,
            right=show_answer(right, words),
            step=slipped.first_wrong_step,
        )
        place = f"slip-{len(self._slots) + 1}"
        caption = words.text("facilitators.slips.frame", number=wrong)
        self._slots[place] = render_figure(slipped.steps[-1].after, words, figure_id=place, caption=caption)
        yield f"### {escape_markdown(name[:1].upper() + name[1:])}"
        yield escape_markdown(said)
        yield slot_line(place)
        yield escape_markdown(words.text(f"slips.coach.{slipped.slip}"))


def _make_slip(slip: str, examples: Sequence[Walkthrough]) -> Slipped | None:
    """The first example that allows this slip, with it."""
    for walkthrough in examples:
        try:
            return build_slipped(walkthrough, slip)
        except MethodError:
            continue
    return None


def _write_first_lesson(words: Words) -> Page:
    """A plan to fill in for a first lesson with one student."""
    chunks = _begin_sheet("first_lesson", words)
    rows = [(line, "") for line in words.items("facilitators.first_lesson.lines")]
    return _finish([*chunks, _table(_heads("first_lesson", words), rows)])


def _write_observation(words: Words) -> Page:
    """The sheet for a coaching visit; its lines are the names that `visits.yml` takes."""
    chunks = [*_begin_sheet("observation", words), _write_start("observation", words)]
    for part in ("scores", "support"):
        rows = [(line, "", "", "", "") for line in words.items(f"facilitators.observation.{part}")]
        title = words.text(f"facilitators.observation.{part}_title")
        chunks += [f"## {escape_markdown(title)}", _table(_heads("observation", words), rows)]
    return _finish([*chunks, words.text("facilitators.observation.after")])


def _write_checklist(links: Sequence[LessonLink], words: Words) -> Page:
    """One student's skills, by the objectives of the lessons in order."""
    chunks = [*_begin_sheet("checklist", words), _write_start("checklist", words)]
    for link in links:
        rows = [(objective.text, "", "", "") for objective in link.lesson.objectives]
        chunks.append(f"## {link.number}. {escape_markdown(link.lesson.title)}")
        chunks.append(_table(_heads("checklist", words), rows))
    return _finish(chunks)
