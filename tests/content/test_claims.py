"""Whatever the course says about numbers is true."""

import pytest

from tests.content.claims import find_check_digit, find_claims, read_number
from tests.content.passages import Passage, find_tables, list_passages

MANY = 250  # the course makes more statements than this; finding fewer means that they are no longer found


@pytest.mark.parametrize(
    "text",
    [
        "48 + 37 is 85",
        "8 − 3 is 5",
        "124 + 89 + 256 = 469",
        "2,000 + 1,002 is 3,002",
        "7 is 5 + 2",
        "Seven is ten less three.",
        "1 and 4 are partners of 5",
        "3 is the **partner of 10** of 7",
        "the check digit of 478 is 1",
        "Eight and seven is fifteen",
        "34 × 27 is 918",
        "1.25 × 0.4 is 0.500",
        "Two times four is zero eight",
        "9 times 9 gives 81",
        "100 ÷ 7 is 14, remainder 2",
        "Half of thirty-two is sixteen",
        "25 % of 48 is 12",
        "The root of nine is three",
        "the root of 50 is 7, remainder 1",
    ],
)
def test_true_statements_hold(text: str) -> None:
    assert [claim.holds for claim in find_claims(text)] == [True]


@pytest.mark.parametrize(
    "text",
    [
        "48 + 37 is 86",
        "8 - 3 is 6",
        "124 + 89 + 256 is 459",
        "7 is 5 + 3",
        "seven is ten less four",
        "2 and 4 make 5",
        "4 is the partner of 10 of 7",
        "the check digit of 478 is 2",
        "34 × 27 is 908",
        "1.25 × 0.4 is 0.05",
        "Two times four is eight zero",
        "100 ÷ 7 is 14",
        "100 ÷ 7 is 13, remainder 9",
        "half of 38 is 18",
        "25 % of 48 is 1,200",
        "the root of 50 is 7",
    ],
)
def test_false_statements_do_not(text: str) -> None:
    assert [claim.holds for claim in find_claims(text)] == [False]


def test_what_only_resembles_a_statement_is_none() -> None:
    text = (
        "48 + 37 turns into 75. The column holds 6, and you add 7. Lesson 3 is about 1 column. 25 % of 48 is 25 × 48. "
        "6 ÷ 0.5 is 60 ÷ 5. 1/2 ÷ 3/4 is 1/2 × 4/3."
    )
    assert list(find_claims(text)) == []


def test_numbers_in_words() -> None:
    assert [read_number(text) for text in ("nine", "Forty-eight", "1,286")] == [9, 48, 1286]


def test_check_digits_are_the_sums_of_digits() -> None:
    def add_digits(number: int) -> int:
        return number if number < 10 else add_digits(sum(map(int, str(number))))

    assert all(find_check_digit(n) == add_digits(n) % 9 for n in range(10_000))


def speaks(passage: Passage) -> bool:
    """Whether the course says this itself; an option that is not right may say what is not so."""
    return not passage.wrong


def test_every_statement_of_the_course_is_true() -> None:
    claims = [(passage, claim) for passage in list_passages() if speaks(passage) for claim in find_claims(passage.text)]
    false = [f"{passage.place}: {claim.text}" for passage, claim in claims if not claim.holds]
    assert false == []
    assert len(claims) > MANY


_BEADS = {"upper bead": 5, "none": 0}


def _value(cell: str) -> int:
    """What a cell of a table of moves moves: `upper bead`, `3 lower beads`, `3`."""
    cell = cell.strip()
    return _BEADS[cell] if cell in _BEADS else int(cell.split()[0])


def find_gain(head: str, cell: str) -> int:
    """What the beads of a cell add to the number; 0 under a head that is about something else."""
    worth = 10 if head.endswith("on the left") else 1
    way = {"Set": 1, "Clear": -1}.get(head.split(maxsplit=1)[0], 0)
    return 0 if way == 0 else way * worth * _value(cell)


def test_tables_of_moves_add_up() -> None:
    """`| 7 | 7 is 10 less 3 | 1 | 3 |` under “Set on the left” and “Clear here”: what is set less what is cleared."""
    rows = 0
    for passage in list_passages():
        for heads, *lines in find_tables(passage.text):
            if heads[0] in ("To add", "To take away"):
                sign = 1 if heads[0] == "To add" else -1
                for cells in lines:
                    gain = sum(map(find_gain, heads[1:], cells[1:]))
                    assert gain == sign * int(cells[0]), f"{passage.place}: {cells}"
                    rows += 1
    assert rows == 4 + 4 + 9 + 4 + 4
