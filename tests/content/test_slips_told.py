"""Where the course says which answer a slip gives, it does; and questions about beads have the right key."""

import re
from collections.abc import Iterator

from beadwright.course import ChoiceItem, PracticeBlock
from beadwright.engine import SLIPS, build_frame, parse_problem, predict_slips, work_problem
from beadwright.practice import FindSlipEntry, build_practice
from beadwright.render.words import load_words
from tests.content.lessons import list_taught, load_shipped
from tests.content.passages import find_tables, list_passages
from tests.referee.beads import FIVE_AND_FOUR
from tests.referee.rules import Style, rule_on

ANSWER_HEAD = re.compile(r"For (\d+ [-+−×÷] \d+) the answer")
STYLE = Style("partners", "left-first", "left-first")


def judge(held: int, action: str, digit: int) -> str:
    """The technique for a digit in a column that holds `held`, with a 1 on the left, by the referee's rules."""
    return rule_on(FIVE_AND_FOUR, ((0, 1), FIVE_AND_FOUR.show(held)), action, digit, 1, STYLE).technique


def find_told_slips() -> Iterator[tuple[str, str, str, str]]:
    """(place, problem, answer, slip) of each row of a table whose head names a problem and its answer."""
    for passage in list_passages():
        for heads, *rows in find_tables(passage.text):
            named = {number: ANSWER_HEAD.search(head) for number, head in enumerate(heads)}
            for column, found in named.items():
                if found is not None:
                    for cells in rows:
                        for answer in re.findall(r"\b\d+(?: r \d+)?\b", cells[column]):
                            yield passage.place, found[1], answer, cells[heads.index("The slip")]


def test_tables_of_slips_are_what_the_slips_give() -> None:
    told = list(find_told_slips())
    assert len(told) >= 10
    words = load_words("en")
    names = {words.text(f"practice.slips.{name}"): name for name in SLIPS}
    for place, problem, answer, slip in told:
        assert slip in names, f"{place}: {slip}"  # a slip goes by one name, in prose as in practice
        name = names[slip]
        causes = predict_slips(work_problem(parse_problem(problem), build_frame("five-and-four"))).get(answer, ())
        assert name in [cause.slip for cause in causes], f"{place}: {problem} with {slip} does not give {answer}"


def list_slipped() -> Iterator[tuple[str, FindSlipEntry]]:
    """(item, entry) of each worked example with a slip, those of “another one” among them."""
    course, lessons = load_shipped()
    for lesson in lessons:
        for practice in (block.practice for block in lesson.body if isinstance(block, PracticeBlock)):
            for item in build_practice(course, lesson, practice).items:
                yield from ((item.id, entry) for entry in item.pool if isinstance(entry, FindSlipEntry))


def test_one_slip_alone_explains_each_wrong_working() -> None:
    """Of the slips to choose from, no other one gives the same wrong answer at the same step."""
    slipped_items = list(list_slipped())
    assert len(slipped_items) >= 100
    for item, entry in slipped_items:
        slipped = entry.slipped
        causes = predict_slips(slipped.right).get(slipped.answer.full_text, ())
        same = {cause.slip for cause in causes if cause.step == slipped.first_wrong_step}
        assert same & set(entry.options) <= {slipped.slip}, f"{item}: {slipped.right.problem}"


def test_every_slip_of_the_trade_is_met() -> None:
    """But for two. A marker is lost in reading, and no bead moves: choices ask about it. A digit that is cleared too
    early leaves the same beads as a product passed over: a table tells of it.
    """
    met = {entry.slipped.slip for _, entry in list_slipped()}
    assert set(SLIPS) - met == {"decimal-marker-lost", "multiplicand-digit-cleared-early"}
    assert "a digit of the multiplicand was cleared too early" in {slip for *_, slip in find_told_slips()}
    lessons = {lesson.id: lesson for lesson in list_taught()}
    asked = [placed.item.id for placed in lessons["money-and-decimals"].items() if placed.item.objective is None]
    assert "ten-times" in asked


KIND_ASKED = re.compile(r"The column holds (\d), and you add (\d)\. What kind of move is it\?")
DIGITS_ASKED = re.compile(r"The column holds (\d)\. Which digits (.*)\? Choose all")
DIGITS = {
    "can be added directly": ("add", {"direct"}),
    "can be taken away directly": ("take", {"direct"}),
    "need the partner of 5": ("add", {"partner-of-5"}),
    "need both partners": ("add", {"both-partners"}),
    "need the left": ("add", {"partner-of-10", "both-partners"}),
}
KINDS = {
    "Direct": {"direct"},
    "Partner of 5": {"partner-of-5"},
    "Partner of 10": {"partner-of-10"},
    "Both partners": {"both-partners"},
    "Neither": {"partner-of-10", "both-partners"},
}


def list_choices() -> list[ChoiceItem]:
    """All choice items of the course."""
    return [placed.item for lesson in list_taught() for placed in lesson.items() if isinstance(placed.item, ChoiceItem)]


def find_asked(asked: re.Pattern[str]) -> list[tuple[ChoiceItem, re.Match[str]]]:
    """Choice items that ask about a column that holds a digit, in this form."""
    found = [(item, asked.search(item.question)) for item in list_choices()]
    return [(item, told) for item, told in found if told is not None]


def test_the_kind_of_move_is_the_right_one() -> None:
    asked = find_asked(KIND_ASKED)
    assert len(asked) >= 8
    for item, told in asked:
        technique = judge(int(told[1]), "add", int(told[2]))
        for option in item.options:
            assert option.right is (technique in KINDS[option.text]), (item.id, option.text)


def test_the_digits_named_are_the_right_ones() -> None:
    asked = find_asked(DIGITS_ASKED)
    assert len(asked) >= 5
    for item, told in asked:
        action, techniques = DIGITS[told[2]]
        for option in item.options:
            needs = judge(int(told[1]), action, int(option.text)) in techniques
            assert option.right is needs, (item.id, option.text)


def test_of_ninety_ways_to_add_so_many_are_of_each_kind() -> None:
    """Lessons 4 to 7 tell these numbers."""
    kinds = [judge(held, "add", digit) for held in range(10) for digit in range(1, 10)]
    told = {"direct": "thirty-five", "partner-of-5": "ten", "partner-of-10": "thirty-five", "both-partners": "ten"}
    numbers = {"ten": 10, "thirty-five": 35}
    assert len(kinds) == 90
    assert {kind: kinds.count(kind) for kind in told} == {kind: numbers[word] for kind, word in told.items()}
    prose = " ".join(" ".join(passage.text.split()) for passage in list_passages())
    assert "thirty-five of them are direct" in prose
    assert "thirty-five were direct and ten took the partner of 5. The forty-five that are left" in prose
    assert "For thirty-five of those the partner of 10 is enough" in prose
    assert "these are the last ten" in prose
