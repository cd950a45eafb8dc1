"""Items in turn from several lessons: whose turn it is, and a problem like those that its lesson practises."""

from __future__ import annotations

from collections import deque
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

from beadwright.course.models_course import Course
from beadwright.course.models_draw import Draw, Mix
from beadwright.course.models_items import DrawItem, MixItem, ProblemItem
from beadwright.course.models_lesson import LessonFile, Practice
from beadwright.course.resolve import Setting, resolve_frame, resolve_item, work
from beadwright.engine import EngineError, MethodError, Problem, Walkthrough, draw_walkthroughs
from beadwright.engine.chances import shuffle
from beadwright.engine.likeness import draw_like


@dataclass(frozen=True, slots=True)
class Kind:
    """What an item of a lesson asks to be worked, and how: a draw, or problems like a given one."""

    asked: Draw | Problem
    setting: Setting

    def draw(self, most: int, *, seed: str, banned: Collection[str]) -> tuple[Walkthrough, ...]:
        """`most` problems of this kind, none of them `banned`, or as many as there are.

        The given problem itself comes last, so that a learner meets it again only where there is no other.
        """
        frame, house, method = self.setting.frame, self.setting.house, self.setting.method
        if isinstance(self.asked, Draw):
            want = self.asked.want()
            want = replace(want, banned=want.banned | frozenset(banned))
            return draw_walkthroughs(want, most, frame=frame, seed=seed, house=house, method=method)
        try:
            given = work(self.asked, frame, house, method)
        except EngineError:
            return ()
        found = draw_like(given, most, frame=frame, seed=seed, house=house, method=method, banned=banned)
        return found if len(found) == most or str(self.asked) in banned else (*found, given)


class Mixed(NamedTuple):
    """One item of a mix: the lesson or objective whose turn it is, the kind of problem, and the item's own problem."""

    source: str
    kind: Kind
    own: Walkthrough

    @property
    def lesson(self) -> str:
        """The id of the lesson that teaches it."""
        return read_source(self.source).lesson


class Source(NamedTuple):
    """A lesson to mix from, or an objective of it."""

    lesson: str
    objective: str | None


def read_source(text: str) -> Source:
    """What an entry of a mix names.

    >>> read_source("partner-of-10/see-the-exchange")
    Source(lesson='partner-of-10', objective='see-the-exchange')
    """
    lesson, _, objective = text.partition("/")
    return Source(lesson, objective or None)


def find_sources(lesson: LessonFile) -> tuple[str, ...]:
    """The ids of the lessons that a lesson's items are mixed from, each once, in the order in which they are named."""
    mixes = [placed.item.mix for placed in lesson.items() if isinstance(placed.item, MixItem)]
    return tuple(dict.fromkeys(read_source(text).lesson for mix in mixes for text in mix.of))


def mix_own(
    course: Course, lessons: Mapping[str, LessonFile], practice: Practice, item: MixItem, *, seed: str
) -> tuple[Mixed, ...]:
    """The items of a mix with their own problems, each once, in the order in which a learner meets them.

    `lessons` has those that are mixed from, by id. `seed` names lesson and practice, as for `draw_own`. Raises
    `MethodError` when a lesson or an objective has too few problems.
    """
    mix = item.mix
    seed = name_seed(mix, seed)
    kinds = {
        text: deque(shuffle(list(dict.fromkeys(_find_kinds(course, lessons, practice, item, text))), f"{seed}/{text}"))
        for text in mix.of
    }
    taken = {str(problem) for problem in mix.ban}
    mixed: list[Mixed] = []
    for number, text in enumerate(_take_turns(mix, seed)):
        found = _draw_one(kinds[text], f"{seed}/{number}", taken)
        if found is None:
            before = sum(other.source == text for other in mixed)
            raise MethodError(
                "mix-too-few",
                f"Only {before} of the problems wanted can be drawn from {text}",
                "Ask for fewer, take it out of the mix, or name a lesson or an objective with more to work",
            )
        mixed.append(Mixed(text, *found))
        taken.add(str(found[1].problem))
    return tuple(mixed)


def name_seed(mix: Mix, seed: str) -> str:
    """What all chance of a mix comes from; mixes that ask otherwise get other problems."""
    return f"{seed}/{mix.seed}/{mix.ask}"


def _take_turns(mix: Mix, seed: str) -> Iterator[str]:
    """Whose turn it is, item by item: each source once a round, drawn anew each time, and never twice running."""
    last = None
    for start in range(0, mix.count, len(mix.of)):
        turn = shuffle(mix.of, f"{seed}/turn/{start}")
        if turn[0] == last:
            turn.append(turn.pop(0))
        last = turn[-1]
        yield from turn[: mix.count - start]


def _find_kinds(
    course: Course, lessons: Mapping[str, LessonFile], practice: Practice, mixing: MixItem, text: str
) -> Iterator[Kind]:
    """What the source's items ask to be worked; on the frame of the mix, where it or its practice names one."""
    source = read_source(text)
    lesson = lessons[source.lesson]
    own = [choice for choice in (mixing.frame, practice.frame) if choice is not None]
    for placed in lesson.items():
        item = placed.item
        if not isinstance(item, DrawItem | ProblemItem):
            continue
        setting = resolve_item(course, lesson, placed.practice, item)
        if source.objective not in (None, setting.objective):
            continue
        frame = resolve_frame(course, lesson, *own) if own else setting.frame
        # Only what decides how a problem is worked tells kinds apart.
        setting = replace(
            setting, frame=frame, objective=None, frame_is="shown", hints=True, timed=False, other_way=False
        )
        yield Kind(item.draw if isinstance(item, DrawItem) else item.problem, setting)


def _draw_one(kinds: deque[Kind], seed: str, taken: Collection[str]) -> tuple[Kind, Walkthrough] | None:
    """A problem of the kind whose turn it is, which then goes last; a kind that has none left is dropped."""
    while kinds:
        kind = kinds.popleft()
        found = kind.draw(1, seed=seed, banned=taken)
        if found:
            kinds.append(kind)
            return kind, found[0]
    return None
