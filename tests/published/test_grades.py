"""A public grading table (chambers of commerce and a federation in Japan, April 2002): what drawing meets.

Rows and digits of sums, digits of both factors, of divisor and quotient; grades 7 to 9 as an older sheet splits them.
"""

import pytest

from beadwright.engine import Problem, Product, Quotient, Sum
from beadwright.render.sheets import ContestSpec, build_event

# grade: rows, digits of a row; digits of multiplicand and multiplier; of divisor and quotient; how many of each
TABLE = {
    1: (10, 10, 11, 10, (10, 20, 20)),
    2: (10, 8, 9, 8, (10, 20, 20)),
    3: (10, 6, 7, 6, (10, 20, 20)),
    4: (10, 5, 7, 6, (10, 20, 20)),
    5: (10, 4, 6, 5, (10, 20, 20)),
    6: (10, 3, 5, 4, (10, 20, 20)),
    7: (10, 2, 4, 4, (10, 10, 10)),
    8: (8, 2, 4, 3, (10, 10, 10)),
    9: (5, 2, 3, 0, (10, 20, 0)),
}
SPLIT = {7: ((2, 2), (1, 3)), 8: ((3, 1), (1, 2)), 9: ((2, 1), None)}


def draw(grade: int) -> list[Problem]:
    level = {"id": "a", "title": "A", "minutes": 30, "grade": grade, "sections": ["print"], "tie_break": 0}
    event = build_event(ContestSpec.model_validate({"title": "Grades", "levels": [level]}))
    return [walkthrough.problem for walkthrough in event.levels[0].sections[0].problems]


@pytest.mark.parametrize("grade", TABLE)
def test_a_paper_of_the_grade_has_its_rows_and_digits(grade: int) -> None:
    rows, digits, product, quotient, counts = TABLE[grade]
    problems = draw(grade)
    sums = [p for p in problems if isinstance(p, Sum)]
    products = [p for p in problems if isinstance(p, Product)]
    quotients = [p for p in problems if isinstance(p, Quotient)]
    assert (len(sums), len(products), len(quotients)) == counts
    assert len(set(map(str, problems))) == sum(counts)
    for problem in sums:
        assert [len(str(term.number)) for term in problem.terms] == [digits] * rows
        total = 0
        for term in problem.terms:
            total += term.number.units if term.sign == "+" else -term.number.units
            assert total >= 0
    for multiplied in products:
        assert len(str(multiplied.first)) + len(str(multiplied.second)) == product
    for divided in quotients:
        answer, left = divmod(divided.dividend.units, divided.divisor.units)
        assert left == 0
        assert len(str(divided.divisor)) + len(str(answer)) == quotient


@pytest.mark.parametrize("grade", SPLIT)
def test_lower_grades_split_their_digits_as_the_sheet_does(grade: int) -> None:
    factors, division = SPLIT[grade]
    for problem in draw(grade):
        if isinstance(problem, Product):
            assert (len(str(problem.first)), len(str(problem.second))) == factors
        if isinstance(problem, Quotient):
            answer = problem.dividend.units // problem.divisor.units
            assert (len(str(problem.divisor)), len(str(answer))) == division
