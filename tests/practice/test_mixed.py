"""Items mixed from earlier lessons: worked as there, each problem once, listed for the trainer."""

from collections import Counter
from pathlib import Path

import pytest

from beadwright.course import Lesson, Loaded, PracticeBlock, load_course
from beadwright.engine import parse_problem
from beadwright.practice import AnswerEntry, PracticeItem, build_practice, list_drawn
from tests.course.writing import COURSE, HEAD, write_course, write_lesson

BODY = "- practice:\n    id: %s\n    title: P\n    objective: o\n%s    items:\n%s"


def write(needs: str, *items: str, more: str = "") -> str:
    """A lesson that needs another one, with these items."""
    head = HEAD + (f"needs: [{needs}]\n" if needs else "")
    return write_lesson(head=head, body=BODY % ("p", more, "".join(f"      - {item}\n" for item in items)))


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Loaded:
    """A lesson that counts on nine beads, one that divides, one that mixes both."""
    files: dict[str, str | bytes] = {
        "course.yml": COURSE.replace("[a]", "[a, b, c]"),
        "modules/01-a.lesson.yml": write(
            "",
            "{draw: {operation: add, digits: [1, 1], method: counting}}",
            more="    frame: {nine-bead: {columns: 3}}\n",
        ).replace("{ask: answer, problem: 1 + 1}", "{ask: read, reads: '7'}"),
        "modules/02-b.lesson.yml": write("a", "{ask: answer, problem: 86 ÷ 4}").replace(
            "{ask: answer, problem: 1 + 1}", "{ask: read, reads: '7'}"
        ),
        "modules/03-c.lesson.yml": write("b", "{id: m, mix: {of: [a, b], count: 6, pool: 5}, frame_is: start}"),
    }
    loaded = load_course(write_course(tmp_path_factory.mktemp("course"), files))
    assert loaded.findings == ()
    return loaded


def find_items(course: Loaded) -> list[PracticeItem]:
    """The items of the mix."""
    assert course.course is not None
    lesson = course.lessons[2]
    practice = [block.practice for block in lesson.body if isinstance(block, PracticeBlock)][1]
    return list(build_practice(course.course, lesson, practice).items)


def list_answers(items: list[PracticeItem]) -> list[list[AnswerEntry]]:
    """The entries of each item's pool."""
    return [[entry for entry in item.pool if isinstance(entry, AnswerEntry)] for item in items]


def test_each_item_is_worked_as_in_its_own_lesson(course: Loaded) -> None:
    items = find_items(course)
    assert [item.id for item in items] == [f"m-{number}" for number in range(1, 7)]
    seen: Counter[str] = Counter()
    for item, entries in zip(items, list_answers(items), strict=True):
        (sign,) = {str(entry.walkthrough.problem).split()[1] for entry in entries}
        seen[sign] += 1
        assert item.frame is not None
        methods = {(entry.walkthrough.method, entry.walkthrough.start.name) for entry in entries}
        assert {(item.frame.name, item.frame.columns)} == {("nine-bead", 3) if sign == "+" else ("five-and-four", 13)}
        assert (sign == "+") is (methods == {("counting", "nine-bead")})
        assert (item.objective, item.frame_is) == ("o", "start")
        assert item.taught == ("a" if sign == "+" else "b")
    assert seen == {"+": 3, "÷": 3}


def test_no_problem_comes_twice(course: Loaded) -> None:
    problems = [str(entry.walkthrough.problem) for pool in list_answers(find_items(course)) for entry in pool]
    assert len(problems) == len(set(problems)) == 6 * 5


def test_every_key_is_what_whole_numbers_give(course: Loaded) -> None:
    for pool in list_answers(find_items(course)):
        for entry in pool:
            first, sign, second = str(entry.walkthrough.problem).split()
            whole, left = divmod(int(first), int(second))
            due = str(int(first) + int(second)) if sign == "+" else f"{whole} r {left}" if left else str(whole)
            assert entry.walkthrough.answer.full_text == due


def test_where_there_are_few_problems_pools_share_them(tmp_path: Path) -> None:
    # 4 can be taken by partner of 5 from 5, 6, 7 and 8, 3 from 5, 6 and 7, 2 from 5 and 6, 1 from 5: ten in all.
    files: dict[str, str | bytes] = {
        "course.yml": COURSE.replace("[a]", "[a, b]"),
        "modules/01-a.lesson.yml": write(
            "", "{draw: {operation: take, digits: [1, 1], needs: partner-of-5, allow: []}}"
        ),
        "modules/02-b.lesson.yml": write("a", "{mix: {of: [a/o, a], count: 4, pool: 12}}"),
    }
    loaded = load_course(write_course(tmp_path, files))
    assert loaded.course is not None
    assert loaded.findings == ()
    lesson: Lesson = loaded.lessons[1]
    practice = [block.practice for block in lesson.body if isinstance(block, PracticeBlock)][1]
    pools = list_answers(list(build_practice(loaded.course, lesson, practice).items))
    own = [str(pool[0].walkthrough.problem) for pool in pools]
    assert len(set(own)) == 4
    for number, pool in enumerate(pools):
        problems = [str(entry.walkthrough.problem) for entry in pool]
        assert len(set(problems)) == len(problems) > 1
        assert not set(problems[1:]) & set(own), number


def test_the_trainer_sees_what_is_mixed(course: Loaded) -> None:
    assert course.course is not None
    lines = list(list_drawn(course.course, course.lessons[2:]))
    assert lines[0] == "content/modules/03-c.lesson.yml: p"
    told = [line for line in lines if line.startswith("  m-")]
    assert [line.split(" ")[2] for line in told] == [f"m-{number}" for number in range(1, 7)]
    for line in lines[1:]:
        parse_problem(line.split(" is ")[0].split(": ")[-1].strip().removeprefix("or "))
