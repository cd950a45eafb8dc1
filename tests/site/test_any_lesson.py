"""A lesson that the checks call sound becomes a page and a booklet, whatever is asked in it: never a traceback."""

import tempfile
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st

from beadwright.course import load_course
from beadwright.engine import METHODS, SLIPS
from beadwright.render.booklet import build_lesson
from beadwright.render.editions import EditionStyle
from beadwright.site.lessons import build_recipe
from tests.course.writing import COURSE, LESSON, write_course, write_lesson

PLAIN = EditionStyle(braille=False, large_print=False, sound=False)
PROBLEMS = st.sampled_from(
    [
        *("48 + 37", "1 + 1", "99 + 1", "0 + 0", "5 - 5", "1000 - 1", "12 - 5 + 3 - 10", "4.05 + 0.9", "0.1 - 0.01"),
        *("7 × 8", "0 × 9", "12.5 × 0.4", "99 × 99", "954 ÷ 23", "7 ÷ 9", "0 ÷ 4", "1 ÷ 7 to 3 places", "100 ÷ 10"),
        *("3/4 + 1 1/8", "1/2 - 1/2", "2 ÷ 3/4", "3/4 × 8/9", "√1444", "√2", "√0", "15 % of 80", "12.5 % of 8"),
    ]
)
ASKS = st.sampled_from(["answer", "next-move", "order-moves", "carry-out", "find-slip", "heard"])
FRAMES = st.sampled_from(["five-and-four", "nine-bead", "{columns: 4}", "{nine-bead: {columns: 5}}", "{columns: 26}"])
TEXTS = st.sampled_from(
    ["A text.", "*a* [b](c) `d`", "<script>x</script>", "{{ x }} {% y %}", "$x$ #y", "| a |", "\u200b", "a\u202eb"]
)
EXTRAS = st.lists(
    st.one_of(
        st.builds("frame: {}".format, FRAMES),
        st.builds("method: {}".format, st.sampled_from(sorted(METHODS))),
        st.builds("at: {}".format, st.integers(1, 4)),
        st.builds("slip: {}".format, st.sampled_from(sorted(SLIPS))),
        st.builds("frame_is: {}".format, st.sampled_from(["shown", "start", "hidden"])),
        st.builds("wording: {}".format, st.sampled_from(["reasons", "rules", "both"])),
        st.builds("exchange: {}".format, st.sampled_from(["left-first", "right-first"])),
        st.builds("timed: {}".format, st.sampled_from(["yes", "no"])),
        st.builds("note: {!r}".format, TEXTS),
    ),
    max_size=2,
    unique_by=lambda text: text.partition(":")[0],
)
DRAWN = st.builds(
    "{{draw: {{operation: {}, digits: {}, count: {}, ask: {}}}}}".format,
    st.sampled_from(["add", "take", "add-take", "multiply", "divide"]),
    st.sampled_from(["1", "2", "[3, 1]", "[2, 2]"]),
    st.integers(1, 2),
    st.sampled_from(["answer", "carry-out", "find-slip", "next-move", "heard"]),
)
ASKED = st.builds(
    lambda ask, problem, extras: f"{{{', '.join([f'ask: {ask}', f'problem: {problem}', *extras])}}}",
    ASKS,
    PROBLEMS,
    EXTRAS,
)


def make_all(item: str, worked: str, text: str) -> bool:
    """Make page, trainers' pages and booklet of a lesson with these; False where it is not sound."""
    body = f"- walkthrough: {worked}\n- text: {text!r}\n- practice: {{id: p, title: {text!r}, items: [{item}]}}\n"
    with tempfile.TemporaryDirectory() as folder:
        files = {"course.yml": f"{COURSE}pool: 2\n", LESSON: write_lesson(body=body)}
        loaded = load_course(write_course(Path(folder), files))
    if loaded.course is None or not loaded.is_sound:
        return False
    recipe = build_recipe(loaded.course, loaded, PLAIN, for_trainers=True)
    for link in recipe.links:
        assert recipe.make_page(link).markdown != ""
        assert build_lesson(loaded.course, link, recipe.links, recipe.words).blocks != ()
    return recipe.make_trainer_pages() != {}


def test_what_is_varied_here_is_sound() -> None:
    assert make_all("{ask: answer, problem: 48 + 37}", "48 + 37", "A text.")


@settings(max_examples=60, deadline=None)
@given(ASKED | DRAWN, PROBLEMS, TEXTS)
@example("{ask: answer, problem: 0 + 0}", "48 + 37", "A text.")
@example("{ask: order-moves, problem: √1444}", "48 + 37", "A text.")  # more to order than the alphabet has letters
def test_a_sound_lesson_is_made(item: str, worked: str, text: str) -> None:
    make_all(item, worked, text)
