"""Multiplying by adding again and again, dividing by taking away again and again (PROCEDURES §3.4).

The learner keeps the count, so a quotient stands in no column. Common practice in the trade, no source.
"""

from tests.referee.beads import read_all, read_columns, require
from tests.referee.factors import Due, compare_work, read_number
from tests.referee.seen import Seen
from tests.referee.sums import write

ADDING = "repeated-adding"
TAKING = "repeated-taking-away"


def is_repeated(seen: Seen) -> bool:
    """Whether a product or a quotient is worked by repeating."""
    return seen.method in (ADDING, TAKING)


def judge_repeated(seen: Seen) -> None:
    """Raise `RuleError` unless one number is worked as often as the other says."""
    if seen.method == ADDING:
        _judge_adding(seen)
    else:
        _judge_taking(seen)


def _find_ones(places: int) -> int:
    ones = 1
    while ones - 1 < places:
        ones += 3
    return ones


def _repeat(due: Due, seen: Seen, digits: str, highest: int, term: int, action: str) -> None:
    purpose = "count" if seen.house["inner"] == "counting" else action
    for index, digit in enumerate(digits):
        if digit != "0":
            due.work(purpose, action, int(digit), highest - index, {"term": term})


def _judge_adding(seen: Seen) -> None:
    numbers = [read_number(text) for text in seen.problem.split(" × ")]
    term = 1 if seen.house["first_factor"] == "multiplicand" else 2
    number, times = numbers[term - 1], numbers[2 - term]
    require(times.places == 0, "the count is not whole")
    ones = _find_ones(number.places)
    require(seen.ones_column == ones, "the ones column is", seen.ones_column)
    highest = ones - number.places + len(number.digits) - 1
    due = Due()
    if times.units > 0:
        due.set_number(number.digits, highest, term)
    for _ in range(times.units - 1):
        _repeat(due, seen, number.digits, highest, term, "add")
    compare_work(seen, due)
    total, answer = number.units * times.units, seen.answer
    require(answer["text"] == write(total, number.places), "the answer is", answer["text"])
    require(int(read_columns(seen.end, *answer["columns"])) == total, "the product does not stand there")
    require(read_all(seen.end) == total * 10 ** (ones - number.places - 1), "other columns are not at rest")


def _judge_taking(seen: Seen) -> None:
    dividend, divisor = (read_number(text) for text in seen.problem.split(" ÷ "))
    ones = _find_ones(divisor.places)
    require(seen.ones_column == ones, "the ones column is", seen.ones_column)
    scaled = dividend.units * 10 ** (divisor.places - dividend.places)
    times, left = divmod(scaled, divisor.units)
    due = Due()
    due.set_number(dividend.digits, ones - dividend.places + len(dividend.digits) - 1, 1)
    for _ in range(times):
        _repeat(due, seen, divisor.digits, ones - divisor.places + len(divisor.digits) - 1, 2, "take")
    compare_work(seen, due)
    answer, remainder = seen.answer, seen.answer["remainder"]
    require(answer["text"] == str(times), "the answer is", answer["text"])
    require(answer["columns"] is None, "the count stands in no column")
    require((remainder is None) is (left == 0), "the remainder is", remainder)
    if remainder is not None:
        require(remainder["text"] == write(left, divisor.places), "the remainder is", remainder["text"])
    require(read_all(seen.end) == left * 10 ** (ones - divisor.places - 1), "other columns are not at rest")
