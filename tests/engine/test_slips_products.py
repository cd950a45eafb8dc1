"""The slips of multiplying and dividing (PROCEDURES §5, common practice, no source).

Every wrong answer here was worked by hand; the reasoning stands beside it. Columns are numbered from the right.
"""

from random import Random
from typing import NamedTuple

import pytest

from beadwright.engine import (
    SLIPS,
    HouseStyle,
    KeptFactor,
    Prediction,
    Purpose,
    Rounding,
    Technique,
    Trial,
    Walkthrough,
    build_frame,
    build_slipped,
    find_slipped,
    parse_problem,
    predict_slips,
    work_problem,
)
from beadwright.engine.slips import predict_readings, prediction
from beadwright.engine.slips.products import find_wrong_facts
from tests.referee import check_slipped

TEN = {
    "product-one-column-off",
    "no-0-held",
    "multiplicand-digit-left",
    "multiplicand-digit-cleared-early",
    "product-skipped",
    "table-fact-wrong",
    "quotient-one-column-off",
    "remainder-not-checked",
    "zero-of-quotient-dropped",
    "decimal-marker-lost",
}
"""The slips of PROCEDURES §5 that belong to products and quotients."""

USUAL = HouseStyle()
ROUNDED = HouseStyle(trial=Trial.ROUNDED)
HALF_UP = HouseStyle(rounding=Rounding.HALF_UP)


def work(text: str, house: HouseStyle = USUAL, *, columns: int = 13) -> Walkthrough:
    return work_problem(parse_problem(text), build_frame(columns=columns), house=house)


class Case(NamedTuple):
    """A slip in a problem: the wrong answer it gives, and the column and step in which it happens."""

    slip: str
    problem: str
    wrong: str
    column: int
    step: int | None
    house: HouseStyle = USUAL


CASES = [
    # 93 × 26 starts in column 5, set by steps 3 and 4. 3 × 2 = 06 in 3 and 2 (step 6); 3 × 6 = 18 in 2 and 1 (7, 8); 3
    # cleared in 4 (9); 9 × 2 = 18 in 4 and 3 (10, 11); 9 × 6 = 54 in 3 and 2 (12, 13); 9 cleared in 5 (14). It is 2418.
    Case("no-0-held", "93 × 26", "2958", 3, 6),  # 600 in place of 60
    Case("product-one-column-off", "93 × 26", "2364", 3, 6),  # 6 in place of 60
    Case("product-one-column-off", "93 × 26", "798", 4, 10),  # 180 in place of 1800
    Case("product-one-column-off", "93 × 26", "1932", 3, 12),  # 54 in place of 540
    Case("product-skipped", "93 × 26", "2358", 3, 6),  # 60 less
    Case("product-skipped", "93 × 26", "2400", 2, 7),  # 18 less
    Case("product-skipped", "93 × 26", "618", 4, 10),
    Case("product-skipped", "93 × 26", "1878", 3, 12),
    Case("multiplicand-digit-left", "93 × 26", "5418", 4, 9),  # the 3 stays in column 4
    Case("multiplicand-digit-left", "93 × 26", "92418", 5, 14),
    Case("multiplicand-digit-cleared-early", "93 × 26", "2400", 4, 7),  # 3 × 6 is lost with the 3
    Case("multiplicand-digit-cleared-early", "93 × 26", "1878", 5, 12),
    Case("table-fact-wrong", "93 × 26", "2438", 2, 13),  # 9 × 6 = 56: 20 more; the tens are right
    Case("table-fact-wrong", "93 × 26", "2328", 3, 12),  # 9 × 6 = 45
    Case("table-fact-wrong", "93 × 26", "2388", 3, 6),  # 3 × 2 = 03
    Case("column-drift", "93 × 26", "24180", 5, 3),  # everything one column further left
    # 5 × 8 = 40 has its tens in 2 only, and 4 × 5 = 20 too; 45 in place of 20 needs both columns.
    Case("table-fact-wrong", "5 × 8", "45", 2, 4),
    Case("table-fact-wrong", "5 × 8", "32", 2, 4),
    # 405 × 7: 5 × 7 = 35 (6, 7), 5 cleared (8), 0 said, 4 × 7 = 28 (10, 11), 4 cleared (12).
    Case("multiplicand-digit-cleared-early", "405 × 7", "2800", 3, 6),
    Case("multiplicand-digit-left", "405 × 7", "3335", 3, 8),  # the 5 in column 3 meets the 8 of 28: 13 hundreds
    # 1.5 × 0.4 = 0.60 in columns 4 to 2.
    Case("decimal-marker-lost", "1.5 × 0.4", "60", 4, None),  # read without a marker
    Case("decimal-marker-lost", "1.5 × 0.4", "6.0", 4, None),  # one factor's place only
    Case("decimal-marker-lost", "12.5% of 80", "1000.0", 5, None),  # the percent's own place only
    Case("column-drift", "1.5 × 0.4", "0.06", 5, 4),
    Case("column-drift", "1.5 × 0.4", "6.00", 5, 4),
    # 927 ÷ 3: 3 in 5 (step 8), 09 taken (10), 9 in 3 (14), 27 taken (15, 16). Quotient 309.
    Case("zero-of-quotient-dropped", "927 ÷ 3", "390", 3, 14),  # 9 set beside the 3, in 4
    Case("zero-of-quotient-dropped", "927 ÷ 3", "39", 4, None),  # read over the column at rest
    Case("quotient-one-column-off", "927 ÷ 3", "39", 5, 8),  # 3 in 4
    Case("quotient-one-column-off", "927 ÷ 3", "390", 3, 14),  # 9 in 4
    # 9 tried for 309 is 8: 24 from 27 leaves 3, and it is not taken once more (step 18 of that work).
    Case("remainder-not-checked", "927 ÷ 3", "308 r 3", 3, 18),
    # 3 × 3 = 09 not taken: 9 holds 3 three times more, so 3 becomes 6; then 27 as before.
    Case("product-skipped", "927 ÷ 3", "609", 4, 10),
    # 3 × 3 = 06: 3 is left, so 3 becomes 4.
    Case("table-fact-wrong", "927 ÷ 3", "409", 4, 10),
    # 9 taken from column 2: 837 left; 8 holds 3 twice more: 5, and 237 left; 7, 9.
    Case("product-one-column-off", "927 ÷ 3", "579", 4, 10),
    # 95 ÷ 51: 1 in 4; 05 in 3 and 2 (9), 01 in 2 and 1 (11). The 1 taken from column 2: 45 − 10.
    Case("no-0-held", "95 ÷ 51", "1 r 35", 2, 11),
    # 3588 ÷ 46: 7 in 5 (9), 8 in 4 (16). 7 placed two columns left, in 6.
    Case("quotient-one-column-off", "3588 ÷ 46", "708", 5, 9),
    Case("remainder-not-checked", "3588 ÷ 46", "77 r 46", 4, 22),
    # With 46 rounded to 5 the second digit is tried as 7 and would be raised in step 22.
    Case("remainder-not-checked", "3588 ÷ 46", "77 r 46", 4, 22, ROUNDED),
    # 7 × 6 = 42 not taken: 78 holds 46 once more: 8, 328 left; 7 × 46 = 322, 6 left.
    Case("product-skipped", "3588 ÷ 46", "87 r 6", 3, 12),
    # 954 ÷ 23 = 41 r 11; the dividend one column left is 9540 = 23 × 414 + 18.
    Case("column-drift", "954 ÷ 23", "414 r 18", 3, 3),
    # 7 ÷ 8 to 3 places is 0.875, ones in 7; the dividend's ones stand in 5.
    Case("decimal-marker-lost", "7 ÷ 8 to 3 places", "875", 7, None),
    Case("decimal-marker-lost", "7 ÷ 8 to 3 places", "87.5", 7, None),
    Case("quotient-one-column-off", "7 ÷ 8 to 3 places", "8.075", 6, 9),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.slip} {case.problem} {case.wrong}")
def test_wrong_answers_worked_by_hand(case: Case) -> None:
    causes = predict_slips(work(case.problem, case.house)).get(case.wrong, ())
    assert (case.slip, case.column, case.step) in [(cause.slip, cause.column, cause.step) for cause in causes]


# The ways of one slip, by the problem and the wrong answer.
VARIANTS = [
    ("decimal-marker-lost", "1.5 × 0.25", "375", "none", USUAL),
    ("decimal-marker-lost", "1.5 × 0.25", "37.5", "first-only", USUAL),
    ("decimal-marker-lost", "1.5 × 0.25", "3.75", "second-only", USUAL),
    ("decimal-marker-lost", "1.5 × 0.4", "6.0", "first-only", USUAL),  # the second alone is no other answer
    ("decimal-marker-lost", "12.5% of 80.4", "1005.00", "percent-only", USUAL),
    ("decimal-marker-lost", "7 ÷ 8 to 3 places", "875", "none", USUAL),
    ("decimal-marker-lost", "7 ÷ 8 to 3 places", "87.5", "dividend-marker", USUAL),
    # 70 ends in column 1, its ones in 2; 35 stands in 4 and 3, so the dividend's ones are one column right of it.
    ("decimal-marker-lost", "7 ÷ 2 to 1 place", "350", "dividend-marker", USUAL),
    ("zero-of-quotient-dropped", "927 ÷ 3", "390", "closed-up", USUAL),
    ("zero-of-quotient-dropped", "927 ÷ 3", "39", "read", USUAL),
    ("quotient-one-column-off", "927 ÷ 3", "39", "right", USUAL),
    ("quotient-one-column-off", "927 ÷ 3", "390", "left", USUAL),
    ("remainder-not-checked", "927 ÷ 3", "308 r 3", "too-small", USUAL),
    ("remainder-not-checked", "84 ÷ 7", "11 r 7", "too-small", USUAL),  # 1 in place of 2
    ("remainder-not-checked", "3588 ÷ 46", "77 r 46", "not-raised", ROUNDED),
    # 4 × 9: 30 from 52 leaves 2, the 6 takes from the quotient's 4 and leaves 396; 96 holds 19 five times more.
    ("lower-beads-left", "92 ÷ 19", "8 r 901", "here", USUAL),
    ("column-drift", "1.5 × 0.4", "6.00", "left", USUAL),
    ("column-drift", "1.5 × 0.4", "0.06", "right", USUAL),
    ("no-0-held", "23 × 4", "812", "left", USUAL),  # 12, and 8 where the 0 should be
    ("product-one-column-off", "23 × 4", "20", "right", USUAL),  # 12, and 08 one column right
    ("product-skipped", "23 × 4", "80", "skipped", USUAL),
    ("table-fact-wrong", "23 × 4", "96", "other-fact", USUAL),  # 16 for 12
    ("multiplicand-digit-left", "23 × 4", "392", "left", USUAL),
    ("multiplicand-digit-cleared-early", "23 × 4", "80", "cleared", USUAL),
]


@pytest.mark.parametrize(("slip", "text", "wrong", "variant", "house"), VARIANTS)
def test_which_way_of_a_slip_it_is(slip: str, text: str, wrong: str, variant: str, house: HouseStyle) -> None:
    found = [cause.variant for cause in predict_slips(work(text, house))[wrong] if cause.slip == slip]
    assert found == [variant]


def test_each_slip_is_shown() -> None:
    assert {case.slip for case in CASES} - {"column-drift"} == TEN <= set(SLIPS)


# Where the beads or the problem do not allow a slip, it is not predicted.
NOT_THERE = [
    ("no-0-held", "84 × 7", USUAL),  # 28 and 56: no product below ten
    ("no-0-held", "927 ÷ 3", USUAL),  # 9 from column 4 would come out of the quotient digit in 5
    ("product-one-column-off", "8 × 7", USUAL),  # its ones would stand right of column 1
    ("table-fact-wrong", "7 × 1", USUAL),
    ("multiplicand-digit-left", "84 ÷ 7", USUAL),
    ("zero-of-quotient-dropped", "84 ÷ 7", USUAL),
    ("zero-of-quotient-dropped", "840 ÷ 7", USUAL),  # a 0 at the end stands beside nothing
    ("remainder-not-checked", "840 ÷ 7", USUAL),  # the last digit is a 0
    ("remainder-not-checked", "7 ÷ 7", USUAL),  # none less than 1 is tried
    ("quotient-one-column-off", "5 ÷ 7", USUAL),  # nothing is placed
    ("decimal-marker-lost", "84 × 7", USUAL),
    ("decimal-marker-lost", "84 ÷ 7", USUAL),
    ("digit-skipped", "84 × 7", USUAL),  # a product that is skipped, or a digit that is not cleared, is another slip
]


@pytest.mark.parametrize(("slip", "problem", "house"), NOT_THERE)
def test_slips_that_are_not_there(slip: str, problem: str, house: HouseStyle) -> None:
    found = {cause.slip for causes in predict_slips(work(problem, house)).values() for cause in causes}
    assert slip not in found


@pytest.mark.parametrize("text", ["103 × 3", "927 ÷ 30 to 1 place", "315.6 ÷ 3", "300 + 9"])
def test_only_a_whole_quotient_is_read_without_its_zeros(text: str) -> None:
    """309, which is no quotient, and 30.9 and 105.2, in which the marker tells that a column is passed over."""
    causes = [cause for found in predict_slips(work(text)).values() for cause in found]
    assert ("zero-of-quotient-dropped", "read") not in {(cause.slip, cause.variant) for cause in causes}


def test_where_no_bead_moves_nothing_goes_wrong() -> None:
    """The multiplicand 0 is not set, its products move nothing, and the end holds no upper bead to misread."""
    assert predict_slips(work("0 × 34")) == {}


def test_each_slipped_example_is_legal_and_wrong() -> None:
    """Judged by the referee: every bead move legal, the first wrong step as said, the wrong answer standing."""
    chance = Random("slips in products and quotients")
    shown: set[str] = set()
    for _ in range(25):
        a, b = chance.randrange(10, 1000), chance.randrange(2, 100)
        house = HouseStyle(trial=chance.choice(list(Trial)), kept_factor=chance.choice(list(KeptFactor)))
        for text in (f"{a} × {b}", f"{a} ÷ {b}", f"{a / 10} × {b}", f"{a} ÷ {b} to 1 place", f"{b}% of {a}"):
            walkthrough = work(text, house)
            for slipped in find_slipped(walkthrough):
                check_slipped(slipped.to_data())
                assert slipped.answer.full_text != walkthrough.answer.full_text
                shown.add(slipped.slip)
    assert shown >= TEN - {"decimal-marker-lost"}  # that one lies in the reading


@pytest.mark.parametrize(
    ("text", "misread"),
    [
        ("78 × 7", {"146": ("read", 3), "542": ("read", 1), "142": ("read-all", 3)}),  # 546
        ("24 × 3", {"32": ("read", 2)}),  # 72
        ("44 × 3", {}),  # 132: no upper bead
        ("62 ÷ 9", {"2 r 8": ("read", 3), "6 r 4": ("read", 1), "2 r 4": ("read-all", 3)}),  # 6 r 8
    ],
)
def test_upper_beads_read_as_one_at_the_end(text: str, misread: dict[str, tuple[str, int]]) -> None:
    """Each digit of 5 and more is read 4 too small, alone or all of them."""
    found = {
        wrong: (cause.variant, cause.column)
        for wrong, causes in predict_slips(work(text)).items()
        for cause in causes
        if cause.slip == "upper-bead-as-one" and cause.step is None
    }
    assert found == misread


def test_a_slip_where_it_is_asked_for() -> None:
    slipped = build_slipped(work("93 × 26"), "multiplicand-digit-left", step=9)
    assert slipped.to_data()["wrong_answer"] == "5418"
    assert slipped.steps[8].moves == ()
    assert slipped.steps[8].technique is None


def test_a_wrong_fact_is_worked_as_its_digits_need() -> None:
    """12 × 24: after 2 × 2 = 04 the tens hold 4; 10 for 2 × 4 sets 1 more by the partner of 5, no ones."""
    (slipped,) = (each for each in find_slipped(work("12 × 24"), slip="table-fact-wrong") if each.answer.text == "290")
    step = slipped.steps[slipped.first_wrong_step - 1]
    assert step.technique is Technique.PARTNER_OF_5
    assert {move.column for move in step.moves} == {2}


def test_a_wrong_answer_with_a_remainder_says_it() -> None:
    slipped = build_slipped(work("3588 ÷ 46"), "remainder-not-checked")
    assert (slipped.to_data()["wrong_answer"], slipped.to_data()["true_answer"]) == ("77 r 46", "78")


def test_what_is_left_in_the_column_at_rest_counts_when_it_is_rounded() -> None:
    """17 ÷ 12 to 1 place: 4 is tried on 050, so 14 and 050 stand. 4 from the 5 by a ten in place of a five: 13 and 960.

    8 off is 952. Its 52 holds 12 four times more, so 17 and 904 stand in the end; twice 904 is not less than 12.
    """
    slipped = build_slipped(work("17 ÷ 12 to 1 place", HALF_UP), "five-for-ten", step=19, variant="ten")
    told, rounded = (step.remark for step in slipped.steps if step.remark is not None and "round" in step.remark.topic)
    assert told == ("round-up", (("remainder", 904), ("twice", 1808), ("divisor", "12")))
    assert rounded == ("quotient-rounded", (("quotient", "1.8"),))
    assert slipped.answer.full_text == "1.8"


def test_what_is_taken_for_a_fact() -> None:
    """Neighbours in the table, and 54 for 56; never the right one, never a fact of 1."""
    assert sorted(find_wrong_facts(7, 8)) == [48, 49, 54, 63, 64]
    assert 56 in find_wrong_facts(6, 9)
    assert sorted(find_wrong_facts(2, 3)) == [3, 4, 8, 9]
    assert find_wrong_facts(1, 8) == find_wrong_facts(8, 1) == []
    for first in range(2, 10):
        for second in range(2, 10):
            facts = find_wrong_facts(first, second)
            assert first * second not in facts
            assert len(set(facts)) == len(facts)
            assert all(0 < fact < 100 for fact in facts)


def test_a_digit_is_lost_as_easily_as_a_bead_among_odd_numbers() -> None:
    """√150: where the 20 of 21 is not taken from 50, 49 is left, 26 after 23, and 1 after 25; so too for that of 23.

    That this is as likely as a partner half known is common practice, no source.
    """
    by_odd, by_double = (
        predict_slips(work_problem(parse_problem("√150"), build_frame(), method=method))
        for method in ("odd-number", "double-root")
    )
    weights = [cause.weight for cause in by_odd["13 r 1"] if cause.slip == "digit-skipped"]
    assert set(weights) == {SLIPS["partner-off-by-one"].weight}
    skipped = {cause.weight for causes in by_double.values() for cause in causes if cause.slip == "digit-skipped"}
    assert min(skipped) == SLIPS["digit-skipped"].weight < min(weights)


def test_a_fact_is_wrong_wherever_it_reaches() -> None:
    """√4718 by the double root: once 9 is lowered to 8 and 120 is given back, 158 holds 8 × 8; 56 for 64 leaves 102."""
    walkthrough = work_problem(parse_problem("√4718"), build_frame(), method="double-root")
    assert [cause.slip for cause in predict_slips(walkthrough)["68 r 102"]] == ["table-fact-wrong"]


def find_slips_reading(readings: dict[int, tuple[Prediction, ...]], reading: int) -> set[str]:
    return {cause.slip for cause in readings.get(reading, ())}


def test_what_a_frame_reads_right_after() -> None:
    """93 × 26, step 6: 93 stands in 5 and 4, and 06 is due in 3 and 2."""
    readings = predict_readings(work("93 × 26"))
    assert "no-0-held" in find_slips_reading(readings[6], 93_600)
    assert "product-one-column-off" in find_slips_reading(readings[6], 93_006)
    assert "product-skipped" in find_slips_reading(readings[6], 93_000)
    assert "table-fact-wrong" in find_slips_reading(readings[6], 93_080)  # 4 × 2
    assert "multiplicand-digit-left" in find_slips_reading(readings[9], 93_078)
    assert "multiplicand-digit-cleared-early" in find_slips_reading(readings[7], 90_060)
    quotient = predict_readings(work("927 ÷ 3"))
    assert "quotient-one-column-off" in find_slips_reading(quotient[8], 3_927)
    assert "zero-of-quotient-dropped" in find_slips_reading(quotient[14], 39_027)


@pytest.mark.parametrize("text", ["48 + 37", "52 - 38", "93 × 26", "927 ÷ 3"])
def test_readings_are_wrong_and_their_likeliest_cause_stands_first(text: str) -> None:
    walkthrough = work(text)
    for number, readings in predict_readings(walkthrough).items():
        assert walkthrough.steps[number - 1].after.value not in readings
        for causes in readings.values():
            weights = [SLIPS[cause.slip].weight for cause in causes]
            assert weights == sorted(weights, reverse=True)


@pytest.mark.parametrize(
    ("text", "columns", "step", "drifts"),
    [
        ("48 + 7", 13, 3, {(118, "left")}),  # right of the ones is no column
        ("480 + 70", 13, 4, {(1180, "left"), (487, "right")}),
        ("980 + 7", 3, 4, set()),  # 7 tens more would need a fourth column
        ("48 + 37", 13, 4, set()),  # the 7 goes where the 3 before it went
    ],
)
def test_a_number_drifts_as_a_whole_and_where_a_column_is(
    text: str, columns: int, step: int, drifts: set[tuple[int, str]]
) -> None:
    found = {
        (reading, cause.variant)
        for reading, causes in predict_readings(work(text, columns=columns))[step].items()
        for cause in causes
        if cause.slip == "column-drift"
    }
    assert found == drifts


def test_a_quotient_digit_is_misplaced_where_it_is_set() -> None:
    """3588 ÷ 46 by first digits sets 8 and 9 and lowers both; to lower a digit that stands is not to place one."""
    walkthrough = work("3588 ÷ 46", HouseStyle(trial=Trial.FIRST_DIGIT))
    steps = {
        cause.step
        for causes in predict_slips(walkthrough).values()
        for cause in causes
        if cause.slip == "quotient-one-column-off"
    }
    assert steps
    assert steps <= {step.number for step in walkthrough.steps if step.purpose is Purpose.QUOTIENT}


def test_what_has_no_column_does_not_hide_what_has() -> None:
    """2 × 3, step 5: 2 stands in 3, and 6 is due in 1. Right of that is no column; in 2 is one, and 8 is a fact."""
    readings = predict_readings(work("2 × 3"))
    assert {reading: find_slips_reading(readings[5], reading) for reading in (260, 208)} == {
        260: {"no-0-held"},
        208: {"table-fact-wrong"},
    }


def test_likeliest_first() -> None:
    """39 for 309: the 0 passed over, in reading, before a digit placed by the wrong rule."""
    slips = [cause.slip for cause in predict_slips(work("927 ÷ 3"))["39"]]
    assert slips == ["zero-of-quotient-dropped", "quotient-one-column-off"]


def test_slips_in_repeated_work_come_to_an_end() -> None:
    """23 ÷ 4 with the smaller digit taken from the larger goes 21, 23, 21 … for ever: nobody makes that slip."""
    chance = Random("slips in repeated work")
    texts = ["23 ÷ 4", *(f"{chance.randrange(100)} ÷ {chance.randrange(1, 30)}" for _ in range(40))]
    texts += [f"{chance.randrange(30)} × {chance.randrange(12)}" for _ in range(20)]
    for text in texts:
        for frame in (build_frame("nine-bead", columns=3), build_frame()):
            method = "repeated-adding" if "×" in text else "repeated-taking-away"
            for slipped in find_slipped(work_problem(parse_problem(text), frame, method=method)):
                check_slipped(slipped.to_data())
    causes = predict_slips(work_problem(parse_problem("23 × 4"), build_frame("nine-bead"), method="repeated-adding"))
    assert "digit-skipped" in {cause.slip for cause in causes["89"]}  # the 3 is added three times


def test_long_work_is_searched_for_slips_as_far_as_is_allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is found then is some of what a whole search finds, and in a whole search nothing is left out."""
    frame = build_frame("nine-bead", columns=13)
    walkthrough = work_problem(parse_problem("60 ÷ 3"), frame, method="repeated-taking-away")
    whole = {text: {(cause.slip, cause.step) for cause in found} for text, found in predict_slips(walkthrough).items()}
    tried = sum(len(slipped.steps) for slipped in find_slipped(walkthrough))
    assert tried < prediction.MOST_STEPS
    monkeypatch.setattr(prediction, "MOST_STEPS", tried // 4)
    parts = {text: {(cause.slip, cause.step) for cause in found} for text, found in predict_slips(walkthrough).items()}
    assert parts
    assert all(found <= whole[text] for text, found in parts.items())
    assert sum(map(len, parts.values())) < sum(map(len, whole.values()))
