"""Sheets and contest papers as booklets: what is worked, keys, the teacher's page, the reader's script, fairness."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from beadwright.engine import Walkthrough
from beadwright.render.booklet import (
    Asked,
    Block,
    Booklet,
    Entry,
    FillIn,
    Heading,
    Listing,
    Papers,
    Paragraph,
    Spans,
    Table,
    find_formulas,
    read_prose,
)
from beadwright.render.entry_data import split_said
from beadwright.render.numbers import format_number, format_problem
from beadwright.render.sheets.dealing import count_amounts
from beadwright.render.sheets.event import Event, Level, Section
from beadwright.render.sheets.home import HomeLevel, HomeRound
from beadwright.render.sheets.spec import SheetSpec
from beadwright.render.words import Words

_AMOUNTS = ("direct", "partner-of-5", "partner-of-10", "both-partners", "count", "runs-on")


def show_answer(walkthrough: Walkthrough, words: Words) -> str:
    """The answer, with its remainder where it has one."""
    answer = format_number(walkthrough.answer.text, words)
    remainder = walkthrough.answer.remainder
    if remainder is None:
        return answer
    return words.text("sheet.remainder", answer=answer, remainder=format_number(remainder.text, words))


def write_sheet(spec: SheetSpec, problems: Sequence[Walkthrough], words: Words) -> Booklet:
    """The sheet itself."""
    note = () if spec.note is None else read_prose(spec.note)
    asked = _ask(problems, words, vertical=spec.vertical)
    return _bind(spec.title, spec.language, (*note, *asked))


def write_key(title: str, language: str, problems: Sequence[Walkthrough], words: Words) -> Booklet:
    """The key: every problem with its answer."""
    entries = [Entry(f"{n}.", _say_solved(problem, words)) for n, problem in enumerate(problems, start=1)]
    return _bind(words.text("sheet.key", title=title), language, (Listing(tuple(entries)),))


def write_teacher_page(spec: SheetSpec, problems: Sequence[Walkthrough], words: Words) -> Booklet:
    """Which technique each problem needs."""
    head: tuple[Spans, ...] = tuple((words.text(f"sheet.head_{name}"),) for name in ("problem", "answer", "needs"))
    rows: list[tuple[Spans, ...]] = [
        (
            find_formulas(words.text("sheet.problem", number=number, problem=format_problem(w.problem, words))),
            (show_answer(w, words),),
            (say_needs(w, words),),
        )
        for number, w in enumerate(problems, start=1)
    ]
    title = words.text("sheet.teacher", title=spec.title)
    intro = Paragraph((words.text("sheet.teacher_intro"),))
    return _bind(title, spec.language, (intro, Table(head, tuple(rows))))


def say_needs(walkthrough: Walkthrough, words: Words) -> str:
    """How often a problem needs each technique, in words."""
    amounts = count_amounts(walkthrough)
    said = [
        words.text("sheet.needs", technique=words.text(f"sheet.technique.{name}"), count=amounts[name])
        for name in _AMOUNTS
        if amounts[name] > 0
    ]
    return words.pattern("list.separator").join(said) or words.text("sheet.needs_none")


def name_section(level: Level, section: Section, words: Words) -> str:
    """A section by its level and medium, with its number where there are several of a medium."""
    medium = words.text(f"contest.medium.{section.medium}")
    key = "contest.section" if _is_only(level, section) else "contest.section_more"
    return words.text(key, level=level.spec.title, medium=medium, number=section.number)


def name_medium(level: Level, section: Section, words: Words) -> str:
    """A section where its level is known: by its medium, with its number where there are several of it."""
    medium = words.text(f"contest.medium.{section.medium}")
    if _is_only(level, section):
        return medium
    return words.text("contest.section_short", medium=medium, number=section.number)


def _is_only(level: Level, section: Section) -> bool:
    return sum(other.medium == section.medium for other in level.sections) == 1


def write_section(event: Event, level: Level, section: Section, words: Words) -> Booklet:
    """A section's paper: name, time, conditions, problems."""
    title = f"{event.spec.title}. {name_section(level, section, words)}"
    start: list[Block] = [
        FillIn((words.text("contest.name"),)),
        *(Paragraph((text,)) for text in say_conditions(level, words)),
    ]
    asked = _ask(section.problems, words, vertical=event.spec.vertical)
    return _bind(title, event.spec.language, (*start, *asked))


def say_conditions(level: Level, words: Words) -> tuple[str, ...]:
    """Time and conditions, as they are printed and said."""
    return (
        words.text("contest.minutes", count=level.spec.minutes),
        words.text(f"contest.conditions.{level.spec.conditions}"),
        words.text("contest.answer_how"),
    )


def write_home_level(played: HomeRound, level: HomeLevel, language: str, words: Words) -> Papers:
    """The first set of a round's level to work on paper, and its key."""
    title = played.title if level.title == played.title else f"{played.title}. {level.title}"
    told = [words.text("contest.minutes", count=level.minutes)] if level.minutes is not None else []
    told += [words.text(f"contest.conditions.{level.conditions}")] if level.conditions is not None else []
    problems = level.sets[0]
    asked = _ask(problems, words, vertical=False)
    sheet = _bind(title, language, (*(Paragraph((text,)) for text in told), *asked))
    return Papers(sheet, write_key(title, language, problems, words))


def write_section_key(event: Event, level: Level, section: Section, words: Words) -> Booklet:
    """The key of a section."""
    title = f"{event.spec.title}. {name_section(level, section, words)}"
    return write_key(title, event.spec.language, section.problems, words)


def write_script(event: Event, level: Level, section: Section, words: Words) -> Booklet:
    """What the reader of a heard section says, with its pauses."""
    title = words.text("contest.script", title=f"{event.spec.title}. {name_section(level, section, words)}")
    intro = " ".join(say_conditions(level, words))
    blocks: list[Block] = [
        Paragraph((words.text("contest.script_how"),)),
        Paragraph((words.text("contest.script_lines", count=level.spec.pause),)),
        Paragraph((words.text("contest.script_start", text=intro),)),
    ]
    for number, problem in enumerate(section.problems, start=1):
        blocks.append(_write_said(problem, number, level, words))
    return _bind(title, event.spec.language, tuple(blocks))


def _write_said(problem: Walkthrough, number: int, level: Level, words: Words) -> Listing:
    """A problem as it is said, a line for each number and its pause; at the end the pause for the answer."""
    last = words.text("contest.pause", count=level.spec.answer_pause)
    lines = (*split_said(problem, words), last)
    start = Entry("", (words.text("contest.script_problem", number=number),))
    return Listing((start, *(Entry("", (line,), 1) for line in lines)), kept=True)


def write_tie_break(event: Event, level: Level, words: Words) -> Booklet:
    """The problems kept for a tie, in words and figures, with their answers."""
    title = f"{event.spec.title}. {words.text('contest.tie_break', level=level.spec.title)}"
    entries = [Entry(f"{n}.", _say_solved(problem, words)) for n, problem in enumerate(level.tie_break, start=1)]
    how = Paragraph((words.text("contest.tie_break_how"),))
    return _bind(title, event.spec.language, (how, Listing(tuple(entries))))


def write_fairness(event: Event, level: Level, words: Words) -> Booklet:
    """The figures: each technique in each section, and how far apart they are."""
    amounts = level.compare_sections()
    names = [name for name in (*_AMOUNTS, "digits") if any(each[name] for each in amounts)]
    titles = [name_medium(level, section, words) for section in level.sections]
    head = (words.text("contest.fairness_technique"), *titles, words.text("contest.fairness_difference"))
    rows = []
    for name in names:
        counts = [each[name] for each in amounts]
        said = (words.text(f"sheet.technique.{name}"), *map(str, counts), str(max(counts) - min(counts)))
        rows.append(tuple((text,) for text in said))
    title = f"{event.spec.title}. {words.text('contest.fairness', level=level.spec.title)}"
    how = Paragraph((words.text("contest.fairness_how"),))
    return _bind(title, event.spec.language, (how, Table(tuple((text,) for text in head), tuple(rows))))


def _ask(problems: Sequence[Walkthrough], words: Words, *, vertical: bool) -> Iterator[Asked]:
    for number, walkthrough in enumerate(problems, start=1):
        yield Asked(number, walkthrough.problem, format_problem(walkthrough.problem, words), vertical)


def _say_solved(walkthrough: Walkthrough, words: Words) -> Spans:
    return find_formulas(f"{format_problem(walkthrough.problem, words)} = {show_answer(walkthrough, words)}")


def _bind(title: str, language: str, blocks: Sequence[Block]) -> Booklet:
    return Booklet(title, language, (Heading(1, find_formulas(title)), *blocks))
