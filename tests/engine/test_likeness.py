"""Problems like a given one."""

from fractions import Fraction

import pytest

from beadwright.engine import HouseStyle, Inner, Walkthrough, build_frame, find_techniques, parse_problem, work_problem
from beadwright.engine.likeness import draw_like

FRAME = build_frame()
USUAL = HouseStyle()


def draw(text: str, most: int = 12, *, banned: tuple[str, ...] = (), house: HouseStyle = USUAL) -> list[Walkthrough]:
    given = work_problem(parse_problem(text), FRAME, house=house)
    return list(draw_like(given, most, frame=FRAME, seed="like", house=house, banned=banned))


def shape(word: str) -> str:
    """A number with 5 for each digit that is not 0; a sign as it is."""
    return "".join("5" if sign in "123456789" else sign for sign in word)


def width(word: str) -> str:
    """A number with 5 for each digit; a sign as it is."""
    return "".join("5" if sign.isdigit() else sign for sign in word)


def runs_on(walkthrough: Walkthrough) -> bool:
    return any(step.runs_on for step in walkthrough.steps)


WHOLE_SUMS = [
    "48 + 37",
    "12 + 25",
    "99 + 13",
    "305 - 208",
    "86 - 31",
    "41 + 26 - 13",
    "41 - 13 + 26",
    "999 + 111 + 222",
]


@pytest.mark.parametrize("text", WHOLE_SUMS)
def test_sums_of_whole_numbers(text: str) -> None:
    given = work_problem(parse_problem(text), FRAME)
    found = draw(text)
    assert len(found) == len({str(other.problem) for other in found}) == 12
    for other in found:
        assert str(other.problem) != text
        assert width(str(other.problem)) == width(text)  # its signs in their order too
        assert ("0" in str(other.problem)) is ("0" in text)
        assert find_techniques(other) == find_techniques(given)
        assert runs_on(other) is runs_on(given)


@pytest.mark.parametrize("text", ["12.5 + 3.5", "0.75 + 1.3 - 0.2", "20 + 0", "3.05 - 1.2"])
def test_other_sums_keep_their_places_and_zeros(text: str) -> None:
    given = work_problem(parse_problem(text), FRAME)
    found = draw(text, 8)
    assert len(found) == len({str(other.problem) for other in found}) == 8
    for other in found:
        assert str(other.problem) != text
        assert shape(str(other.problem)) == shape(text)
        assert find_techniques(other) == find_techniques(given)


@pytest.mark.parametrize("text", ["23 × 4", "306 × 4", "40 × 27", "84 × 79"])
def test_products(text: str) -> None:
    found = draw(text)
    assert len(found) == 12
    for other in found:
        assert str(other.problem) != text
        assert width(str(other.problem)) == width(text)
        assert ("0" in str(other.problem)) is ("0" in text)


@pytest.mark.parametrize("text", ["927 ÷ 3", "837 ÷ 3", "954 ÷ 23", "100 ÷ 4", "913 ÷ 3", "75 ÷ 3"])
def test_quotients_come_out_alike(text: str) -> None:
    """927 ÷ 3 is 309, 913 ÷ 3 is 304 r 1, 837 ÷ 3 is 279, 954 ÷ 23 is 41 r 11, 100 ÷ 4 is 25: no 0 in that."""

    def look(problem: str) -> tuple[bool, bool]:
        dividend, divisor = (int(word) for word in problem.split(" ÷ "))
        quotient, left = divmod(dividend, divisor)
        return "0" in str(quotient), left > 0

    found = draw(text)
    assert len(found) == 12
    for other in found:
        assert str(other.problem) != text
        assert width(str(other.problem)) == width(text)
        assert look(str(other.problem)) == look(text)


@pytest.mark.parametrize("text", ["9 ÷ 4 to 2 places", "1.5 × 0.4", "9.6 ÷ 4", "√1444", "15% of 80", "3/4 + 1 1/8"])
def test_what_is_not_drawn(text: str) -> None:
    assert draw(text) == []


@pytest.mark.parametrize("text", ["48 + 37", "12.5 + 3.5", "23 × 4", "927 ÷ 3"])
def test_banned_ones_are_never_among_them(text: str) -> None:
    first = {str(other.problem) for other in draw(text)}
    others = {str(other.problem) for other in draw(text, banned=tuple(first))}
    assert len(others) == 12
    assert not first & others


def test_as_many_as_there_are() -> None:
    """One digit and one digit by the partner of 5 alone: 4 and 1; 3 and 1, 2; 2 and 3, 4; 1 and 4, and so on."""
    due = {f"{a} + {b}" for a in range(1, 5) for b in range(1, 5) if a + b >= 5}
    assert {str(other.problem) for other in draw("4 + 3", 99)} == due - {"4 + 3"}
    assert len(draw("4 + 3", 5)) == 5
    assert len(draw("0.4 + 0.3", 99)) == len(due) - 1
    assert len(draw("0.4 + 0.3", 5)) == 5


def test_in_the_house_style_of_the_course() -> None:
    counting = HouseStyle(inner=Inner.COUNTING)
    for text in ("48 + 37", "4.8 + 3.7"):
        found = draw(text, 4, house=counting)
        assert len(found) == 4
        for other in found:
            assert (other.method, other.house) == ("counting", counting)
            assert other.answer.text == str_exact(str(other.problem))


def str_exact(text: str) -> str:
    """The sum of a text of two numbers, with their places."""
    first, second = text.split(" + ")
    places = len(first.partition(".")[2])
    total = Fraction(first) + Fraction(second)
    return f"{float(total):.{places}f}"
