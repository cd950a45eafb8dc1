"""What every lesson has: outcomes that items cover, minutes, kinds of practice, the parts of good teaching."""

import re
from collections import Counter
from itertools import groupby

import pytest

from beadwright.course import (
    CautionBlock,
    ChoiceItem,
    DrawItem,
    FacilitatorBlock,
    FigureBlock,
    Lesson,
    PartBlock,
    PracticeBlock,
    RatingBlock,
    ReflectBlock,
    TextBlock,
    WalkthroughBlock,
)
from tests.content.lessons import TEACHES, list_taught, load_shipped

LEAST_ITEMS = 20
LEAST_SLIPS = 4
LONGEST_PART = 15
LONGEST_RUN = 6  # of items of one kind
LEAST_WORDS = {"because": 4, "note": 18, "task": 30}  # fewer do not teach, help a trainer, or say what to do
_WORD = re.compile(r"[^\W_]+")
# Verbs of outcomes that somebody else can see or hear happen.
OBSERVED = frozenset(
    [
        "add",
        "bring",
        "carry",
        "cast",
        "check",
        "clear",
        "count",
        "decide",
        "explain",
        "find",
        "give",
        "name",
        "observe",
        "place",
        "read",
        "say",
        "set",
        "take",
        "watch",
        "work",
    ]
)
CAUTIONS = {  # PROCEDURES §9: each caution stands where it applies
    "small-parts": {"frames-hands-and-care"},
    "shared-frames": {"frames-hands-and-care"},
    "sore-hands": {"frames-hands-and-care", "both-partners"},
    "blindfold": {"frames-hands-and-care"},
    "team-decides": {"frames-hands-and-care", "several-columns", "watching-a-student"},
    "braille-proofread": {"several-columns"},
    "learner-records": {"readiness", "several-columns", "watching-a-student"},
}


@pytest.fixture(params=TEACHES)
def lesson(request: pytest.FixtureRequest) -> Lesson:
    """Each teaching lesson in turn."""
    return next(lesson for lesson in list_taught() if lesson.id == request.param)


def count_kinds(lesson: Lesson) -> Counter[str]:
    """How many items of each kind a learner meets."""
    kinds: Counter[str] = Counter()
    for placed in lesson.items():
        item = placed.item
        kinds[item.draw.ask if isinstance(item, DrawItem) else str(getattr(item, "ask", ""))] += placed.asked
    return kinds


def test_outcomes_start_with_a_verb_that_can_be_observed(lesson: Lesson) -> None:
    for objective in lesson.objectives:
        assert objective.text.split()[0].strip(",:").lower() in OBSERVED, objective.text


def test_each_outcome_is_covered_by_more_than_one_item(lesson: Lesson) -> None:
    covered: Counter[str | None] = Counter()
    for placed in lesson.items():
        covered[placed.item.objective or placed.practice.objective] += placed.asked
    assert {objective.id for objective in lesson.objectives} == set(covered)
    assert min(covered.values()) >= 2, covered


def test_minutes_of_parts_add_up(lesson: Lesson) -> None:
    minutes = [block.part.minutes for block in lesson.body if isinstance(block, PartBlock)]
    assert None not in minutes
    assert sum(minute for minute in minutes if minute is not None) == lesson.minutes
    assert max(minute for minute in minutes if minute is not None) <= LONGEST_PART


def test_every_lesson_begins_with_a_part(lesson: Lesson) -> None:
    assert isinstance(lesson.body[0], PartBlock)


def test_there_is_enough_practice_of_many_kinds(lesson: Lesson) -> None:
    kinds = count_kinds(lesson)
    assert sum(kinds.values()) >= LEAST_ITEMS, kinds
    assert kinds["find-slip"] >= LEAST_SLIPS, kinds
    assert kinds["carry-out"] >= 1, kinds
    assert len(kinds) >= 5, kinds


def test_items_have_lasting_ids(lesson: Lesson) -> None:
    written = [placed for placed in lesson.items() if not isinstance(placed.item, DrawItem)]
    missing = [placed.path for placed in written if placed.item.id is None]
    assert missing == []


def test_there_are_worked_examples_and_figures(lesson: Lesson) -> None:
    assert sum(isinstance(block, WalkthroughBlock) for block in lesson.body) >= 3
    assert all(block.walkthrough.note for block in lesson.body if isinstance(block, WalkthroughBlock))
    assert all(block.figure.caption for block in lesson.body if isinstance(block, FigureBlock))


def test_shown_together_alone(lesson: Lesson) -> None:
    texts = " ".join(block.text for block in lesson.body if isinstance(block, TextBlock))
    titles = [block.practice.title for block in lesson.body if isinstance(block, PracticeBlock)]
    assert texts.count("**Shown.**") >= 2
    assert texts.count("**Together.**") >= 2
    assert sum(title.startswith("Alone: ") for title in titles) >= 3


@pytest.mark.parametrize(
    "heading",
    ["### Why this matters for a student", "### Something to try with a student", "### In short"],
)
def test_the_standing_sections_are_there(lesson: Lesson, heading: str) -> None:
    texts = [block.text for block in lesson.body if isinstance(block, TextBlock)]
    assert sum(heading in text for text in texts) == 1


def test_there_is_a_reflection_with_a_model(lesson: Lesson) -> None:
    reflections = [block.reflect for block in lesson.body if isinstance(block, ReflectBlock)]
    assert reflections != []
    assert all(reflection.model for reflection in reflections)


def test_each_part_has_notes_for_the_trainer_with_its_minutes(lesson: Lesson) -> None:
    parts: list[tuple[int | None, list[str]]] = []
    for block in lesson.body:
        if isinstance(block, PartBlock):
            parts.append((block.part.minutes, []))
        elif isinstance(block, FacilitatorBlock):
            parts[-1][1].append(block.facilitator)
    for minutes, notes in parts:
        assert any(note.startswith(f"**Timing: {minutes} minutes") for note in notes), (minutes, notes)
    everything = " ".join(note for _, notes in parts for note in notes)
    assert everything.count("*Likely question:") >= 3


def test_choices_have_one_option_that_is_right_unless_they_ask_for_all(lesson: Lesson) -> None:
    for placed in lesson.items():
        if isinstance(placed.item, ChoiceItem):
            asks_all = "Choose all" in placed.item.question
            assert placed.item.has_several is asks_all, placed.item.id


def list_choices(lesson: Lesson) -> list[ChoiceItem]:
    """The choice items of a lesson."""
    return [placed.item for placed in lesson.items() if isinstance(placed.item, ChoiceItem)]


def test_what_is_said_to_each_option_teaches(lesson: Lesson) -> None:
    for item in list_choices(lesson):
        told = [option.because for option in item.options]
        assert all(len(_WORD.findall(because)) >= LEAST_WORDS["because"] for because in told), item.id
        assert len(set(told)) == len(told), item.id


def test_the_right_option_is_not_found_by_its_place(lesson: Lesson) -> None:
    places = Counter(
        next(place for place, option in enumerate(item.options) if option.right)
        for item in list_choices(lesson)
        if not item.has_several
    )
    assert max(places.values()) <= max(2, places.total() * 2 // 3), places


def test_right_options_of_several_do_not_all_come_first(lesson: Lesson) -> None:
    several = [[option.right for option in item.options] for item in list_choices(lesson) if item.has_several]
    assert all(rights != sorted(rights, reverse=True) for rights in several)


def test_no_kind_of_item_goes_on_and_on(lesson: Lesson) -> None:
    for practice in [block.practice for block in lesson.body if isinstance(block, PracticeBlock)]:
        asks = [str(getattr(item, "ask", "draw")) for item in practice.items]
        assert max(len(list(run)) for _, run in groupby(asks)) <= LONGEST_RUN, practice.id


def test_more_than_one_slip_is_met(lesson: Lesson) -> None:
    slips = [str(getattr(placed.item, "slip", None)) for placed in lesson.items()]
    assert len(set(slips) - {"None"}) >= 2


def test_notes_and_tasks_say_enough(lesson: Lesson) -> None:
    notes = [block.facilitator for block in lesson.body if isinstance(block, FacilitatorBlock)]
    assert min(len(_WORD.findall(note)) for note in notes) >= LEAST_WORDS["note"]
    texts = "\n".join(block.text for block in lesson.body if isinstance(block, TextBlock))
    task = texts.split("### Something to try with a student")[1].split("###")[0]
    assert len(_WORD.findall(task)) >= LEAST_WORDS["task"]


def test_cautions_stand_where_they_apply() -> None:
    course, lessons = load_shipped()
    found: dict[str, set[str]] = {name: set() for name in course.cautions}
    for lesson in lessons:
        for block in lesson.body:
            if isinstance(block, CautionBlock) and block.name is not None:
                found[block.name].add(lesson.id)
    assert set(CAUTIONS) == set(course.cautions)
    for name, where in CAUTIONS.items():
        assert where <= found[name], name


def test_confidence_is_asked_before_and_after() -> None:
    _, lessons = load_shipped()
    asked = [
        (lesson.id, block.rating.when) for lesson in lessons for block in lesson.body if isinstance(block, RatingBlock)
    ]
    assert asked == [("frames-hands-and-care", "before"), ("looking-back", "after")]


def test_every_path_asks_for_confidence_at_its_start_and_at_its_end() -> None:
    course, _ = load_shipped()
    for path in course.paths:
        assert (path.lessons[0], path.lessons[-1]) == ("frames-hands-and-care", "looking-back"), path.id


def test_paths_keep_the_order_and_what_lessons_need() -> None:
    course, lessons = load_shipped()
    order = course.lessons_in_order()
    needs = {lesson.id: lesson.needs for lesson in lessons}
    assert [path.id for path in course.paths] == ["teacher", "paraprofessional", "parent"]
    assert course.paths[0].lessons == order
    lengths = [len(path.lessons) for path in course.paths]
    assert lengths == sorted(lengths, reverse=True)
    for path in course.paths:
        assert list(path.lessons) == [lesson for lesson in order if lesson in path.lessons]
        for lesson in path.lessons:
            assert set(needs[lesson]) <= set(path.lessons), (path.id, lesson)


def test_parts_fit_into_forty_minutes() -> None:
    """A paraprofessional has forty minutes at a time; the longest lesson of that path is three such times at most."""
    course, lessons = load_shipped()
    minutes = {lesson.id: lesson.minutes for lesson in lessons}
    path = next(path for path in course.paths if path.id == "paraprofessional")
    assert max(minutes[lesson] for lesson in path.lessons) <= 3 * 40
