"""What authors write is what the models hold: every kind of block and item, and values exactly as written."""

from decimal import Decimal
from pathlib import Path

import pytest
from pydantic import ValidationError

import beadwright.course as room
from beadwright.course import (
    AnswerItem,
    CautionBlock,
    ChoiceItem,
    Course,
    DrawItem,
    FigureBlock,
    FindSlipItem,
    Lesson,
    Loaded,
    NextMoveItem,
    Objective,
    PartBlock,
    PracticeBlock,
    RatingBlock,
    ReadItem,
    ReflectBlock,
    SetItem,
    TextBlock,
    WalkthroughBlock,
    draw_own,
    load_course,
    resolve_frame,
    resolve_item,
    show_figure,
    work_example,
)
from beadwright.course.models_items import ITEM_KINDS
from beadwright.course.models_lesson import BLOCK_KINDS
from beadwright.engine import Number, Operation, Order, Technique, Trial, Wording, find_techniques, parse_problem
from tests.course.writing import COURSE, HEAD, LESSON, load_lesson, write_course, write_lesson

EVERY_KIND = Path(__file__).with_name("every_kind.lesson.yml").read_text(encoding="utf-8")
LISTED = COURSE.replace("modules: [a]", "modules: [partner-of-5, a]")


@pytest.fixture
def loaded(tmp_path: Path) -> Loaded:
    """The course with the lesson of every kind."""
    files = {"course.yml": LISTED, LESSON: EVERY_KIND, "modules/00-partner-of-5.lesson.yml": write_lesson()}
    return load_course(write_course(tmp_path, files))


@pytest.fixture
def course(loaded: Loaded) -> Course:
    assert loaded.course is not None
    return loaded.course


@pytest.fixture
def lesson(loaded: Loaded) -> Lesson:
    return loaded.lessons[1]


def test_a_lesson_of_every_kind_is_sound(loaded: Loaded) -> None:
    assert loaded.findings == ()
    assert loaded.is_sound
    assert [lesson.id for lesson in loaded.lessons] == ["partner-of-5", "a"]


def test_the_lesson_of_every_kind_has_every_kind(lesson: Lesson) -> None:
    assert {type(block) for block in lesson.body} == set(BLOCK_KINDS.values())
    assert {type(placed.item) for placed in lesson.items()} == {*ITEM_KINDS.values(), DrawItem}
    assert set(ITEM_KINDS) == {
        *("answer", "read", "set", "next-move", "order-moves", "find-slip"),
        *("carry-out", "heard", "choice", "reflect", "rating"),
    }


def test_what_stands_at_the_top_of_a_lesson(lesson: Lesson) -> None:
    assert (lesson.id, lesson.file) == ("a", "content/modules/01-a.lesson.yml")
    assert (lesson.title, lesson.minutes, lesson.needs) == ("Partner of 10", 50, ("partner-of-5",))
    assert lesson.objectives[1] == Objective(id="say-it", text="Say each move")


def test_blocks_hold_what_was_written(lesson: Lesson, course: Course) -> None:
    blocks = list(lesson.body)
    assert isinstance(blocks[0], RatingBlock)
    assert (blocks[0].rating.when, blocks[0].rating.items) == ("before", None)
    assert isinstance(blocks[1], PartBlock)
    assert (blocks[1].part.title, blocks[1].part.minutes) == ("A column that is too full", 12)
    assert isinstance(blocks[2], PartBlock)
    assert (blocks[2].part.title, blocks[2].part.minutes) == ("Another part", None)
    assert isinstance(blocks[3], TextBlock)
    assert blocks[3].text == "When nothing is at rest …\n\n- a list: of **Markdown**"
    cautions = [block for block in blocks if isinstance(block, CautionBlock)]
    assert [caution.name for caution in cautions] == ["shared-frames", None]
    assert course.cautions == {"shared-frames": "Clean it."}
    reflections = [block.reflect for block in blocks if isinstance(block, ReflectBlock)]
    assert [(reflect.question, reflect.model) for reflect in reflections] == [("Why?", "Because."), ("Who?", None)]


def test_figures_stand_on_their_frame(lesson: Lesson, course: Course) -> None:
    figures = [block.figure for block in lesson.body if isinstance(block, FigureBlock)]
    frames = [show_figure(course, lesson, figure) for figure in figures]
    assert [(frame.name, frame.columns, frame.value) for frame in frames] == [
        ("five-and-four", 13, 305),
        ("five-and-four", 3, 305),
        # 12.5 has one place, so its ones stand in column 4, left of the first unit mark (PROCEDURES §3.8): 12 and 5
        # tenths in columns 5, 4 and 3.
        ("nine-bead", 6, 12500),
    ]


def test_examples_are_worked_in_their_own_manner(lesson: Lesson, course: Course) -> None:
    examples = [block.walkthrough for block in lesson.body if isinstance(block, WalkthroughBlock)]
    plain, full, nine = (work_example(course, lesson, example) for example in examples)
    assert (str(plain.problem), plain.answer.text, plain.house.wording) == ("48 + 37", "85", Wording.REASONS)
    assert (str(full.problem), full.answer.text) == ("1048 + 37 - 12", "1073")
    assert (full.house.wording, full.house.trial) == (Wording.BOTH, Trial.ROUNDED)
    assert (full.house.add_order, full.house.take_order) == (Order.RIGHT_FIRST, Order.LEFT_FIRST)
    assert examples[1].note == "Look at the tens."
    assert (nine.start.name, nine.start.columns, nine.answer.text) == ("nine-bead", 3, "15")
    assert (nine.house.add_order, nine.house.take_order) == (Order.RIGHT_FIRST, Order.RIGHT_FIRST)


def test_items_hold_what_was_written(lesson: Lesson) -> None:
    items = [placed.item for placed in lesson.items()]
    assert isinstance(items[2], NextMoveItem)
    assert (items[2].id, items[2].problem, items[2].at) == ("next-1", parse_problem("48 + 37"), 3)
    assert isinstance(items[3], AnswerItem)
    assert (items[3].accept, items[3].timed) == ("form", False)
    assert isinstance(items[4], ReadItem)
    assert items[4].reads == Number(305)
    assert isinstance(items[5], ReadItem)
    assert items[5].beads == ((1, 4),)
    assert isinstance(items[6], SetItem)
    assert items[6].reads == Number(305)
    assert isinstance(items[9], FindSlipItem)
    assert (items[9].slip, items[9].at) == ("exchange-dropped", None)
    choice = next(item for item in items if isinstance(item, ChoiceItem))
    assert [(option.text, option.right) for option in choice.options] == [("yes", True), ("no", False)]
    assert not choice.has_several


def test_a_draw_is_what_was_written(lesson: Lesson) -> None:
    draw = next(placed.item for placed in lesson.items() if placed.item.id == "drawn")
    assert isinstance(draw, DrawItem)
    want = draw.draw.want()
    assert (want.operation, want.digits, want.runs_on, want.zeros) == (Operation.ADD_TAKE, (2, 2, 2), True, False)
    assert want.needs == {Technique.PARTNER_OF_10}
    assert want.banned == {"48 + 37", "11 + 22 + 33", "98 + 7 - 12"}
    assert (draw.draw.count, draw.draw.pool, draw.draw.ask) == (2, 4, "find-slip")
    assert (draw.prompt, draw.note) == ("Work it with your hands.", "For the trainer.")


def test_what_counts_for_an_item(lesson: Lesson, course: Course) -> None:
    placed = list(lesson.items())
    settings = [resolve_item(course, lesson, p.practice, p.item) for p in placed]
    assert (settings[0].frame_is, settings[0].hints, settings[0].timed) == ("start", False, True)
    assert (settings[1].frame_is, settings[1].hints, settings[1].timed) == ("hidden", True, True)
    assert (settings[0].objective, settings[1].objective) == ("see-the-exchange", "say-it")
    assert settings[3].timed is False
    assert (settings[6].frame.name, settings[6].frame.columns) == ("nine-bead", 3)
    assert settings[11].method == "counting"
    assert resolve_frame(course, lesson).columns == 13


def test_a_draw_has_its_pins_and_then_what_is_needed(lesson: Lesson, course: Course) -> None:
    own = []
    for placed in lesson.items():
        if isinstance(placed.item, DrawItem):
            setting = resolve_item(course, lesson, placed.practice, placed.item)
            own.append(draw_own(placed.item.draw, setting, seed="a/your-turn"))
    plain, pinned = own
    assert [len(plain), len(pinned)] == [6, 2]
    assert str(pinned[0].problem) == "98 + 7 - 12"
    assert all(Technique.PARTNER_OF_10 in find_techniques(walkthrough) for walkthrough in plain)
    assert len({str(walkthrough.problem) for walkthrough in (*plain, *pinned)}) == 8


def test_all_there_are_can_be_asked_for_and_not_one_more(tmp_path: Path) -> None:
    # One digit added to one digit by partner of 5 (PROCEDURES §3.1, 2): the column holds 1 to 4, the sum is 5 to 8.
    by_rule = ["1 + 4", "2 + 3", "2 + 4", "3 + 2", "3 + 3", "3 + 4", "4 + 1", "4 + 2", "4 + 3", "4 + 4"]
    item = "- {{draw: {{operation: add, digits: 1, needs: partner-of-5, count: {count}, allow: []}}}}"
    body = f"- practice:\n    id: p\n    title: P\n    items:\n      {item}\n"
    loaded = load_lesson(tmp_path, write_lesson(body=body.format(count=10)))
    assert loaded.course is not None
    (lesson,) = loaded.lessons
    *_, placed = lesson.items()
    assert isinstance(placed.item, DrawItem)
    setting = resolve_item(loaded.course, lesson, placed.practice, placed.item)
    own = draw_own(placed.item.draw, setting, seed="a/p")
    assert sorted(str(walkthrough.problem) for walkthrough in own) == by_rule
    (finding,) = load_lesson(tmp_path, write_lesson(body=body.format(count=11))).findings
    assert (
        finding.message
        == "should be problems that exist, found too few: only 10 of 11 problems of this kind can be drawn"
    )


@pytest.mark.parametrize("title", ["no", "010", "1:30", "2026-11-25", "~", "null", "1e3", "0x1F", "yes", "Yes", "3.10"])
def test_a_value_means_what_was_written(title: str, tmp_path: Path) -> None:
    loaded = load_lesson(tmp_path, write_lesson(head=HEAD.replace("A lesson", title)))
    assert [lesson.title for lesson in loaded.lessons] == [title]


def test_course_values(tmp_path: Path) -> None:
    course = COURSE.replace("modules: [a]", "modules: [{lesson: a, credit: 1.25}]") + (
        "pass_mark: 75 %\nbraille_code: ueb\nframe: {columns: 26}\nlanguage: no\n"
        "house_style: {exchange: {take: right-first}, wording: rules, number_words: with-and}\n"
    )
    loaded = load_course(write_course(tmp_path, {"course.yml": course}))
    assert loaded.findings == ()
    assert loaded.course is not None
    assert loaded.course.modules[0].credit == Decimal("1.25")
    assert loaded.course.pass_mark == Decimal("0.75")
    assert (loaded.course.braille_code, loaded.course.language) == ("ueb", "no")
    assert loaded.course.frame.build().columns == 26
    house = loaded.course.house_style.build()
    assert (house.add_order, house.take_order, house.wording) == (Order.LEFT_FIRST, Order.RIGHT_FIRST, Wording.RULES)
    assert loaded.course.house_style.number_words == "with-and"


def test_lessons_come_in_the_order_of_the_course(tmp_path: Path) -> None:
    files = {
        "course.yml": COURSE.replace("modules: [a]", "modules: [c, a, b]"),
        "modules/02-b.lesson.yml": write_lesson(),
        "modules/03-c.lesson.yml": write_lesson(),
    }
    assert [lesson.id for lesson in load_course(write_course(tmp_path, files)).lessons] == ["c", "a", "b"]


def test_a_faulty_lesson_is_no_lesson_and_leaves_the_others(tmp_path: Path) -> None:
    files = {
        "course.yml": COURSE.replace("modules: [a]", "modules: [a, b]"),
        "modules/02-b.lesson.yml": write_lesson(head=HEAD.replace("10", "ten")),
    }
    loaded = load_course(write_course(tmp_path, files))
    assert [lesson.id for lesson in loaded.lessons] == ["a"]
    assert loaded.course is not None
    assert not loaded.is_sound


def test_line_ends_and_a_byte_order_mark_are_no_matter(tmp_path: Path) -> None:
    text = write_lesson(body="- figure: {reads: x}\n")
    plain = load_lesson(tmp_path, text).findings
    assert [(finding.line, finding.column) for finding in plain] == [(6, 19)]
    assert load_lesson(tmp_path, b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode()).findings == plain
    assert load_lesson(tmp_path, text.replace("\n", "\r").encode()).findings == plain


def test_a_glossary(tmp_path: Path) -> None:
    text = "terms:\n  - {term: Bar, meaning: The separation bar, see: Set}\n  - {term: set, meaning: Move to the bar}\n"
    loaded = load_course(write_course(tmp_path, {"glossary.yml": text}))
    assert loaded.findings == ()
    assert loaded.glossary is not None
    assert [term.term for term in loaded.glossary.terms] == ["Bar", "set"]


def test_models_never_change_and_take_nothing_unknown() -> None:
    objective = Objective(id="o", text="Do it")
    with pytest.raises(ValidationError):
        objective.text = "Do something else"  # type: ignore[misc]
    with pytest.raises(ValidationError):
        Objective.model_validate({"id": "o", "text": "Do it", "more": "no"})


def test_a_draw_can_be_compared_and_kept_in_sets(lesson: Lesson) -> None:
    draws = [placed.item.draw for placed in lesson.items() if isinstance(placed.item, DrawItem)]
    assert len({*draws, *draws}) == 2


def test_practice_blocks_know_their_items(lesson: Lesson) -> None:
    (practice,) = (block.practice for block in lesson.body if isinstance(block, PracticeBlock))
    assert len(practice.items) == len(list(lesson.items()))
    assert sum(placed.asked for placed in lesson.items()) == len(practice.items) - 2 + 6 + 2


@pytest.mark.parametrize("name", room.__all__)
def test_every_public_name_is_there_and_says_what_it_is(name: str) -> None:
    assert getattr(room, name).__doc__ or name in ("ITEM_KINDS", "BLOCK_KINDS", "FrameIs")
