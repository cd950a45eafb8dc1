"""Items mixed from earlier lessons: what a mix may name, and that there is enough to draw."""

import itertools
from pathlib import Path

import pytest

from beadwright.course import Loaded, MixItem, load_course, mix_own
from tests.course.writing import COURSE, FILE, HEAD, LESSON, MARK, brief, find_mark, write_course, write_lesson

# The lesson that mixes is read first, as file names go, and comes last in the course.
ORDER = COURSE.replace("modules: [a]", "modules: [d, c, b, a]")
PRACTICE = "- practice:\n    id: %s\n    title: P\n    objective: o\n    items:\n%s"


NINE_OF_TEN = ["5 - 1", "5 - 2", "5 - 3", "5 - 4", "6 - 2", "6 - 3", "6 - 4", "7 - 3", "7 - 4"]


def write_source(*items: str, needs: str = "") -> str:
    """A lesson with two objectives; the first item shows `o`, the others `second`."""
    head = HEAD.replace("[{id: o, text: Do it}]", "[{id: o, text: Do it}, {id: second, text: Do more}]")
    lines = [f"      - {items[0]}\n", *(f"      - {item[:-1]}, objective: second}}\n" for item in items[1:])]
    return f"{head}{needs}body:\n" + PRACTICE % ("p", "".join(lines))


SOURCES = {
    "course.yml": ORDER,
    "modules/02-b.lesson.yml": write_source(
        "{draw: {operation: add, digits: [2, 2], needs: partner-of-10}}",
        "{ask: answer, problem: 8 - 4}",
        needs="needs: [c]\n",
    ),
    "modules/03-c.lesson.yml": write_source(
        "{ask: carry-out, problem: 12 × 3}", "{ask: answer, problem: 84 ÷ 4}", "{ask: read, reads: '7'}"
    ),
    "modules/04-d.lesson.yml": write_source("{ask: answer, problem: 1 + 1}", "{ask: read, reads: '7'}"),
}


def write_mix(mix: str, *, beside: str = "") -> str:
    """A lesson that needs `b`, and through it `c`, and has this mix."""
    body = PRACTICE % ("mixed", f"      - {{mix: {mix}{beside}}}\n")
    return write_lesson(head=HEAD + "needs: [b]\n", body=body)


def load_mix(folder: Path, mix: str, *, beside: str = "", more: dict[str, str] | None = None) -> Loaded:
    """The course with a lesson that has this mix."""
    files: dict[str, str | bytes] = {**SOURCES, **(more or {}), LESSON: write_mix(mix, beside=beside)}
    return load_course(write_course(folder, files))


def draw_mix(loaded: Loaded) -> list[tuple[str, str]]:
    """Whose turn it is and the problem, item by item."""
    assert loaded.findings == ()
    assert loaded.course is not None
    lesson = next(lesson for lesson in loaded.lessons if lesson.id == "a")
    lessons = {other.id: other for other in lesson.mixed}
    (placed,) = [placed for placed in lesson.items() if isinstance(placed.item, MixItem)]
    assert isinstance(placed.item, MixItem)
    mixed = mix_own(loaded.course, lessons, placed.practice, placed.item, seed="a/mixed")
    return [(each.source, str(each.own.problem)) for each in mixed]


@pytest.mark.parametrize(
    ("code", "mix"),
    [
        ("mix-lesson", "{of: [b, ▸nobody], count: 2}"),
        ("mix-lesson", "{of: [b, ▸d], count: 2}"),  # it comes before, and this lesson does not build on it
        ("mix-lesson", "{of: [▸a, b], count: 2}"),
        ("mix-lesson", "{of: [▸a/o, c], count: 2}"),
        ("mix-objective", "{of: [b/o, ▸c/secund], count: 2}"),
        # By partner of 5 alone, 1 to 4 can be taken from 5, 2 to 4 from 6, 3 and 4 from 7, 4 from 8: ten in all.
        ("mix-impossible", f"▸{{of: [b/o, b/second], count: 4, ban: [{', '.join(NINE_OF_TEN)}]}}"),
    ],
)
def test_a_fault_is_told_at_its_place(tmp_path: Path, code: str, mix: str) -> None:
    (finding,) = load_mix(tmp_path, mix).findings
    assert brief(finding) == (code, FILE, *find_mark(write_mix(mix)))
    assert MARK not in finding.message


def test_too_few_names_the_source(tmp_path: Path) -> None:
    """One column holds what `b` takes away, and nothing that `c` multiplies or divides."""
    (finding,) = load_mix(tmp_path, "{of: [b/second, c], count: 4}", beside=", frame: {columns: 1}").findings
    assert finding.message == (
        "should be problems that exist, found too few: only 0 of the problems wanted can be drawn from c"
    )


def test_a_source_that_could_not_be_read_whole_is_not_complained_about_twice(tmp_path: Path) -> None:
    broken = SOURCES["modules/03-c.lesson.yml"].replace("12 × 3", "12 ×")
    findings = load_mix(tmp_path, "{of: [b, c/o], count: 4}", more={"modules/03-c.lesson.yml": broken}).findings
    assert {(finding.code, finding.file) for finding in findings} == {
        ("problem-text", "content/modules/03-c.lesson.yml")
    }


def test_turns_are_fair_and_nobody_has_two_running(tmp_path: Path) -> None:
    mixed = draw_mix(load_mix(tmp_path, "{of: [b/o, b/second, c/o, c/second], count: 11}"))
    turns = [source for source, _ in mixed]
    assert all(one != other for one, other in itertools.pairwise(turns))
    for source in ("b/o", "b/second", "c/o", "c/second"):
        assert turns.count(source) in (2, 3)
    assert len({problem for _, problem in mixed}) == 11


def test_problems_are_of_the_source_and_new(tmp_path: Path) -> None:
    mixed = draw_mix(load_mix(tmp_path, "{of: [b/o, b/second, c/o, c/second], count: 12}"))
    signs = {source: {problem.split()[1] for own, problem in mixed if own == source} for source, _ in mixed}
    assert signs == {"b/o": {"+"}, "b/second": {"-"}, "c/o": {"×"}, "c/second": {"÷"}}
    # What the lessons themselves ask is not asked again while there is something else.
    assert not {"8 - 4", "12 × 3", "84 ÷ 4"} & {problem for _, problem in mixed}


def test_the_same_files_give_the_same_mix_and_another_seed_another(tmp_path: Path) -> None:
    first, again, other = (
        draw_mix(load_mix(tmp_path / name, f"{{of: [b, c], count: 8, seed: {seed}}}"))
        for name, seed in (("x", 0), ("y", 0), ("z", 1))
    )
    assert first == again
    assert first != other


def test_what_is_banned_is_not_drawn(tmp_path: Path) -> None:
    mixed = draw_mix(load_mix(tmp_path / "x", "{of: [b, c], count: 4}"))
    banned = mixed[0][1]
    after = draw_mix(load_mix(tmp_path / "y", f"{{of: [b, c], count: 4, ban: {banned}}}"))
    assert banned not in {problem for _, problem in after}


def test_a_problem_of_the_source_comes_again_only_where_there_is_no_other(tmp_path: Path) -> None:
    """Others like a sum of fractions are not drawn."""
    fractions = write_source("{ask: answer, problem: 3/4 + 1/8}", "{ask: answer, problem: 5/6 - 1/2}")
    mixed = draw_mix(load_mix(tmp_path, "{of: [c/o, c/second], count: 2}", more={"modules/03-c.lesson.yml": fractions}))
    assert sorted(mixed) == [("c/o", "3/4 + 1/8"), ("c/second", "5/6 - 1/2")]
