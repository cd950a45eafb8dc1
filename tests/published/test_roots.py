"""Published examples of square roots and fractions, state by state where the method is ours, else by result alone.

Sources
-------
*A series on square roots*: K. Tonegawa, blog.goo.ne.jp/ktonegaw: the double root; √164836.
*Traditional Abacus and Bead Arithmetic*, Wikibooks, “Roots/Square root” and “Resources for contributors”: the double
root; the table for 456.7890123.
*Abacus Arithmetic*: Welton J. Crook, 1958 (the year from memory), as quoted at totton.idirect.com: odd numbers; the
values for √144 follow by arithmetic from its rule.
*Abacus: Mystery of the Bead*: Totton Heffelfinger and Gary Flom, page “SqRt2”: √2 by half remainders. That method is
not built, so only the digits of its result are compared.
*Mathematics Made Easy*: M. N. G. Mani, A. Plernchaivanich, G. R. Ramesh, L. Campbell, *Mathematics Made Easy for
Children with Visual Impairment*, ON-NET 2005 (the year from memory), page 74: mixed numbers are made improper first.
It puts numerator and denominator at the ends of two frames; our groups stand side by side, so values are compared.
"""

import pytest

from beadwright.engine import Purpose, Walkthrough, build_frame, parse_problem, work_problem


def work_root(text: str, method: str = "double-root", columns: int = 26) -> Walkthrough:
    return work_problem(parse_problem(f"√{text}"), build_frame(columns=columns), method=method)


def find_remarks(walkthrough: Walkthrough, topic: str) -> list[dict[str, object]]:
    remarks = [step.remark.to_data() for step in walkthrough.steps if step.remark is not None]
    return [remark for remark in remarks if remark["topic"] == topic]


def test_164836() -> None:
    """*A series on square roots*: 16|48|36. 4² leaves 0, double root 8; 4 < 8: 0, then 80; 483 ÷ 80 = 6; 6²: 0 left."""
    walkthrough = work_root("164836", columns=13)
    assert find_remarks(walkthrough, "root-first") == [{"topic": "root-first", "holds": 16, "digit": 4}]
    tried = [(r["left"], r["register"], r["digit"]) for r in find_remarks(walkthrough, "root-trial")]
    assert tried == [(4, 8, 0), (483, 80, 6)]
    assert walkthrough.answer.full_text == "406"
    # After 6 × 8 and 6 × 0 are taken from 483, 3 is left, with the last digit 36: exactly 6².
    square = [step.number for step in walkthrough.steps if step.purpose is Purpose.PRODUCT][-2:]
    before = walkthrough.steps[square[0] - 2].after
    assert before.digits(6, 1) == "000036"
    assert walkthrough.steps[square[1] - 1].after.digits(6, 1) == "000000"


def test_456_7890123_begins_with_a_group_of_one_digit() -> None:
    """*Resources for contributors*: 4|56|78|90|12|3(0). 2 leaves 0; 4 and 56: 1 leaves 15; 42 and 78: 3, then 309."""
    walkthrough = work_root("456.7890123")
    tried = [(r["left"], r["register"], r["digit"]) for r in find_remarks(walkthrough, "root-trial")]
    assert tried[:2] == [(5, 4, 1), (157, 42, 3)]
    # −12, −06 and −09 from 1578.
    taken = [
        step.work
        for step in walkthrough.steps
        if step.work is not None and step.purpose is Purpose.PRODUCT and step.work.source.to_data()["factors"][0] == 3
    ]
    products = [work.source.to_data()["product"] for work in taken]
    assert products == ["12", "12", "06", "09"]


# (the group's digits, the radicand so far, the root so far, what is left), as the source lists them.
TABLE = [
    ("4", 4, 2, 0),
    ("56", 456, 21, 15),
    ("78", 45678, 213, 309),
    ("90", 4567890, 2137, 1121),
    ("12", 456789012, 21372, 26628),
]


@pytest.mark.parametrize("method", ["double-root", "odd-number"])
def test_the_table_for_456_7890123(method: str) -> None:
    """*Roots/Square root*: after each group the root so far and what is left, on the frame when the group is done.

    Groups end in columns 11, 9, 7, 5, 3; what is left is read down to there.
    """
    walkthrough = work_root("456.7890123", method)
    topic = {"odd-number": "odd-first", "double-root": "root-trial"}[method]
    begins = [step for step in walkthrough.steps if step.remark is not None and step.remark.topic == topic]
    if method == "odd-number":
        begins = begins[1:]  # the first of them begins the first group
    for (group, so_far, root, left), step, end in zip(TABLE, begins, (11, 9, 7, 5, 3), strict=True):
        frame = step.after
        assert walkthrough.steps[0].after.columns == 26
        assert int(frame.digits(11, end)) == left == so_far - root**2
        done = len(str(root))
        if method == "odd-number":
            assert frame.digits(26, 26 - done + 1) == str(root)
        else:
            assert int(frame.digits(26, 26 - done)) == 2 * root
        assert str(so_far).endswith(group)
    assert walkthrough.answer.text == "21.3726"


def test_the_whole_number_pairs_otherwise() -> None:
    """*Resources for contributors*: 4567890123 would pair 45|67|89|01|23 and has the root 67586."""
    walkthrough = work_root("4567890123")
    assert find_remarks(walkthrough, "root-first")[0]["holds"] == 45
    assert walkthrough.answer.text == "67586"


def test_144_by_odd_numbers() -> None:
    """*Abacus Arithmetic*: 1 − 1 is 0; 44 with 21: 23; 23 − 23: 0. One step and two steps: 12."""
    walkthrough = work_root("144", "odd-number", 13)
    odd: dict[object, str] = {}
    for step in walkthrough.steps:
        if step.purpose is Purpose.TAKE and step.work is not None:
            odd[step.work.source.to_data()["odd_number"]] = step.after.digits(3, 1)
    assert odd == {"1": "044", "21": "023", "23": "000"}
    assert walkthrough.answer.full_text == "12"


def test_a_root_digit_of_0_by_odd_numbers() -> None:
    """*Abacus Arithmetic*: when the next is too big a 0 is put after the last one taken, and 11 added.

    √164836: 7 is the last taken from 16, 9 too big. 70 + 11 = 81 is more than 48: digit 0. The rule says last *taken*,
    so 700 + … does not follow from 81: twice 400, and 1, is 801.
    """
    walkthrough = work_root("164836", "odd-number", 13)
    assert [r["odd"] for r in find_remarks(walkthrough, "odd-first")] == [1, 81, 801]
    assert walkthrough.answer.full_text == "406"


def test_2_by_half_remainders_by_its_result_alone() -> None:
    """*Abacus: Mystery of the Bead*: the root of 2 begins 1; worked by half remainders there, by ours here."""
    assert work_root("2.00000000").answer.text == "1.4142"


def test_5_and_2_twelfths_is_62_twelfths() -> None:
    """*Mathematics Made Easy*, page 74: 12 × 5 = 60, and 2 is 62. Only values: the groups stand elsewhere there."""
    walkthrough = work_problem(parse_problem("5 2/12 × 1/1"), build_frame())
    readings = [{read.part: read.text for read in step.reads} for step in walkthrough.steps]
    assert {"whole": "0", "numerator": "62", "denominator": "12"} in readings
    assert walkthrough.answer.text == "5 1/6"
