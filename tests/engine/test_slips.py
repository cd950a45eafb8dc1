"""The twelve slips of adding and taking away (PROCEDURES §5, common practice, no source).

Every wrong answer here was worked by hand on a five-and-four frame unless its comment says otherwise; the reasoning
stands beside it. t, h and o are the tens, hundreds and ones columns.
"""

from random import Random
from typing import NamedTuple

import pytest

from beadwright.engine import (
    SLIPS,
    MethodError,
    Prediction,
    ReplayError,
    Slip,
    Slipped,
    build_slipped,
    diagnose,
    find_slipped,
    predict_slips,
)
from beadwright.engine.slips import find_slips_alike
from tests.referee import check_slipped
from tests.support.frames import WAYS, Way, work


class Case(NamedTuple):
    """A slip in a problem: the wrong answer it gives, and the column and step in which it happens."""

    slip: str
    problem: str
    wrong: str
    column: int
    step: int | None
    way: Way = Way()
    columns: int | None = None


COUNTING = Way(method="counting")
NINE = Way("nine-bead")

CASES = [
    # 48 + 37: steps set 4, set 8, t + 3, o + 7. o: 8 + 7 is set 1 on t, clear 3. The 1 forgotten: t 7, o 8 − 3 = 5.
    Case("exchange-dropped", "48 + 37", "75", 1, 4),
    # The same with the other half forgotten: the 1 is set (t 8), the 3 are not cleared (o 8).
    Case("exchange-dropped", "48 + 37", "88", 1, 4),
    # 42 − 7: steps set 4, set 2, o − 7: clear 1 on t, set 3. The 1 stays: t 4, o 5. Or the 3 are not set: t 3, o 2.
    Case("exchange-dropped", "42 - 7", "45", 1, 3),
    Case("exchange-dropped", "42 - 7", "32", 1, 3),
    # The same by counting: 2, 1, 0, then 9 with 1 off t, 8, 7, 6, 5. Without the 1 off t: 45.
    Case("exchange-dropped", "42 - 7", "45", 1, 3, COUNTING),
    # 28 + 4: o 8 + 4: set 1 on t, clear the partner of 10, 6. The partner of 5 of 4 is 1: t 3, o 8 − 1 = 7.
    Case("five-for-ten", "28 + 4", "37", 1, 3),
    # 14 + 3: o 4 + 3: set the upper bead, clear 2. A ten in place of the five: t 2, o 4 − 2 = 2.
    Case("five-for-ten", "14 + 3", "22", 1, 3),
    # 31 − 4: clear 1 on t, set 6. Setting the partner of 5, 1: t 2, o 2.
    Case("five-for-ten", "31 - 4", "22", 1, 3),
    # 26 − 3: o 6 − 3: clear the upper bead, set 2. A ten in place of the five: t 1, o 6 + 2 = 8.
    Case("five-for-ten", "26 - 3", "18", 1, 3),
    # 48 + 37, o: 2 in place of 3 cleared: t 8, o 6. (4 in place of 3 are not there: three lower beads are set.)
    Case("partner-off-by-one", "48 + 37", "86", 1, 4),
    # 48 + 37, t: set the upper bead, clear 1 in place of 2: t 8, and after the ones 95. Clear 3: t 6, after them 75.
    Case("partner-off-by-one", "48 + 37", "95", 2, 3),
    Case("partner-off-by-one", "48 + 37", "75", 2, 3),
    # 16 + 5: o 6 + 5: set 1 on t, clear the upper bead. One bead more: t 2, o 0.
    Case("partner-off-by-one", "16 + 5", "20", 1, 3),
    # 65 + 7: o 5 + 7 by both: set 1 on t, clear the upper bead, set 2. Set 1: t 7, o 1; set 3: t 7, o 3.
    Case("partner-off-by-one", "65 + 7", "71", 1, 3),
    Case("partner-off-by-one", "65 + 7", "73", 1, 3),
    # 27 + 6 by counting: 28, 29, then 1 on t and the nine stay: 39. The column is full, so the next count is 40: 42.
    Case("exchange-dropped", "27 + 6", "42", 1, 3, COUNTING),
    # 23 − 5 by counting: 22, 21, 20, then 1 cleared on t and no nine set: 10. The next count: 9.
    Case("exchange-dropped", "23 - 5", "9", 1, 3, COUNTING),
    # By counting the slip is one count too many or too few: 48 + 6, 48 + 8.
    Case("partner-off-by-one", "48 + 7", "54", 1, 3, COUNTING),
    Case("partner-off-by-one", "48 + 7", "56", 1, 3, COUNTING),
    # On a nine-bead frame of two columns one count too many for 97 + 2 would need a third; one too few is left: 98.
    Case("partner-off-by-one", "96 + 3", "98", 1, 3, Way("nine-bead", "counting"), 2),
    Case("partner-off-by-one", "97 + 2", "98", 1, 3, Way("nine-bead", "counting"), 2),
    # 12 + 3: set the upper bead, clear 2. The 2 set: o 5 + 4 = 9.
    Case("set-and-clear-swapped", "12 + 3", "19", 1, 3),
    # 17 − 4: clear the upper bead, set 1. The 1 cleared: o 2 − 1 = 1.
    Case("set-and-clear-swapped", "17 - 4", "11", 1, 3),
    # 22 + 8: set 1 on t, clear 2. The 2 set: t 3, o 4.
    Case("set-and-clear-swapped", "22 + 8", "34", 1, 3),
    # 65 + 7: both partners of 7. The partner of 10, 3, set and not cleared: t 7, o 5 + 3 = 8.
    Case("set-and-clear-swapped", "65 + 7", "78", 1, 3),
    # 53 − 8 on nine beads: clear 1 on t, set 2. The 2 cleared: t 4, o 1.
    Case("set-and-clear-swapped", "53 - 8", "41", 1, 3, NINE),
    # 14 + 3: the upper bead is set, the 2 are not cleared: o 5 + 4 = 9.
    Case("lower-beads-left", "14 + 3", "19", 1, 3),
    # 48 + 7: t takes the 1 by the partner of 5: upper bead set, 4 not cleared: t 9, o 5.
    Case("lower-beads-left", "48 + 7", "95", 1, 3),
    # 26 − 3: the upper bead is cleared, the 2 are not set: o 1.
    Case("lower-beads-left", "26 - 3", "21", 1, 3),
    # 65 + 7: the upper bead is cleared, the 2 are not set: t 7, o 0.
    Case("lower-beads-left", "65 + 7", "70", 1, 3),
    # 48 + 37, o: the 1 goes two columns left, to h: h 1, t 7, o 5.
    Case("wrong-neighbour", "48 + 37", "175", 1, 4),
    # The same on three columns: h is the leftmost.
    Case("wrong-neighbour", "48 + 37", "175", 1, 4, Way(), 3),
    # 280 + 70: steps set 2, set 8, (0), t + 7: clear 3, the 1 goes to the right neighbour: h 2, t 5, o 1.
    Case("wrong-neighbour", "280 + 70", "251", 2, 4),
    # 9,170 + 50 on four columns: t 7 + 5 goes on to 1 on h. Two left stands a 9, which cannot take it; the right can:
    # thousands 9, h 1, t 7 − 5 = 2, o 1.
    Case("wrong-neighbour", "9170 + 50", "9121", 2, 5, Way(), 4),
    # 342 − 6: clear 1 on t, set 4. The 1 is cleared on h: h 2, t 4, o 6.
    Case("wrong-neighbour", "342 - 6", "246", 1, 4),
    # 97 + 8: clear 2; t holds 9, where the 1 is lost: t 9, o 5. Or the 9 is cleared and nothing set on h: o 5.
    Case("runs-out-at-nine", "97 + 8", "95", 1, 3),
    Case("runs-out-at-nine", "97 + 8", "5", 1, 3),
    # 1,995 + 7 = 2,002: two nines on the way. Both stay: 1,992. Both are cleared, the thousands stay: 1,002.
    Case("runs-out-at-nine", "1995 + 7", "1992", 1, 5),
    Case("runs-out-at-nine", "1995 + 7", "1002", 1, 5),
    Case("runs-out-at-nine", "97 + 8", "95", 1, 3, COUNTING),
    # 203 − 8: set 2; h gives 1, t should become 9 and stays 0: h 1, t 0, o 5.
    Case("borrow-through-zero", "203 - 8", "105", 1, 4),
    # 2,004 − 6 = 1,998: thousands 1, both zeros stay, o 8.
    Case("borrow-through-zero", "2004 - 6", "1008", 1, 5),
    Case("borrow-through-zero", "203 - 8", "105", 1, 4, COUNTING),
    # 48 + 37 with 37 one column left: 48 + 370; with 48 one column left: 480 + 37.
    Case("column-drift", "48 + 37", "418", 2, 3),
    Case("column-drift", "48 + 37", "517", 2, 1),
    # 85 + 30 with the 30 one column right: 85 + 3 (its 0 is no step).
    Case("column-drift", "85 + 30", "88", 2, 3),
    # 900 − 45 with 45 one column left: 900 − 450.
    Case("column-drift", "900 - 45", "450", 2, 4),
    # 35 + 2: all five beads set for the 5: 39 + 2. Rightly worked 37, its 7 read as 1 + 2: 33.
    Case("upper-bead-as-one", "35 + 2", "41", 1, 2),
    Case("upper-bead-as-one", "35 + 2", "33", 1, None),
    # 52 + 25 = 77, read with the upper bead as 1 in both columns, in t, in o.
    Case("upper-bead-as-one", "52 + 25", "33", 2, None),
    Case("upper-bead-as-one", "52 + 25", "37", 2, None),
    Case("upper-bead-as-one", "52 + 25", "73", 1, None),
    # 48 + 37 without one of its four digits: 8 + 37, 40 + 37, 48 + 7, 48 + 30.
    Case("digit-skipped", "48 + 37", "45", 2, 1),
    Case("digit-skipped", "48 + 37", "77", 1, 2),
    Case("digit-skipped", "48 + 37", "55", 2, 3),
    Case("digit-skipped", "48 + 37", "78", 1, 4),
    # 52 − 38: t 5 − 3 = 2; o holds 2, less than 8: 8 − 2 = 6.
    Case("wrong-way-round", "52 - 38", "26", 1, 4),
    # 302 − 178: h 3 − 1; t holds 0: 7 − 0; o holds 2: 8 − 2. It begins at t, step 5 (the 0 is step 2).
    Case("wrong-way-round", "302 - 178", "276", 2, 5),
    # 0.5 and 0.12 stand with their ones in column 4. 0.50 − 0.12: tenths 5 − 1; hundredths hold 0: 2 − 0.
    Case("wrong-way-round", "0.5 - 0.12", "0.42", 2, 4),
]


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.slip} {case.problem} = {case.wrong}")
def test_wrong_answers_worked_by_hand(case: Case) -> None:
    """The prediction has the answer, and the diagnosis names the slip with its column and step."""
    causes = diagnose(work(case.problem, case.way, columns=case.columns), case.wrong)
    found = [(cause.slip, cause.column, cause.step) for cause in causes]
    assert (case.slip, case.column, case.step) in found


# The slips of PROCEDURES §5 that apply to adding and taking away.
TWELVE = {
    "exchange-dropped",
    "five-for-ten",
    "partner-off-by-one",
    "set-and-clear-swapped",
    "lower-beads-left",
    "wrong-neighbour",
    "runs-out-at-nine",
    "borrow-through-zero",
    "column-drift",
    "upper-bead-as-one",
    "digit-skipped",
    "wrong-way-round",
}


def test_each_slip_is_shown() -> None:
    assert {case.slip for case in CASES} == TWELVE <= set(SLIPS)


# Where the beads do not allow a slip, it is not predicted.
NOT_THERE = [
    ("exchange-dropped", "12 + 25", Way()),  # no exchange
    ("five-for-ten", "12 + 25", Way()),  # nor a partner
    ("five-for-ten", "26 + 5", Way()),  # the partner of 10 of 5 is 5: there is none of 5 to be taken for it
    ("five-for-ten", "28 + 4", NINE),  # no upper bead, no fives
    ("lower-beads-left", "12 + 25", Way()),  # all direct
    ("lower-beads-left", "48 + 37", NINE),
    ("runs-out-at-nine", "48 + 37", Way()),  # t holds 7
    ("runs-out-at-nine", "203 - 8", Way()),  # taking away
    ("borrow-through-zero", "97 + 8", Way()),  # adding
    ("borrow-through-zero", "52 - 38", Way()),
    ("wrong-way-round", "48 + 37", Way()),
    ("wrong-way-round", "58 - 32", Way()),  # no digit smaller than what is taken
    ("upper-bead-as-one", "12 + 21", Way()),  # no upper bead anywhere
    ("upper-bead-as-one", "35 + 2", NINE),
    ("wrong-neighbour", "12 + 25", Way()),
    ("partner-off-by-one", "12 + 21", Way()),
    ("set-and-clear-swapped", "48 + 37", Way()),  # t: 2 more than 4 lower beads; o: 3 more than 3
]


@pytest.mark.parametrize(("slip", "problem", "way"), NOT_THERE)
def test_a_slip_that_the_beads_do_not_allow_is_not_there(slip: str, problem: str, way: Way) -> None:
    walkthrough = work(problem, way)
    assert slip not in {cause.slip for causes in predict_slips(walkthrough).values() for cause in causes}
    with pytest.raises(MethodError) as refused:
        build_slipped(walkthrough, slip)
    assert refused.value.code == "slip-not-there"


# The ways of one slip, by the problem and the wrong answer of the cases above.
VARIANTS = [
    ("exchange-dropped", "48 + 37", "75", "left-missing"),
    ("exchange-dropped", "48 + 37", "88", "here-missing"),
    ("five-for-ten", "28 + 4", "37", "five"),
    ("five-for-ten", "14 + 3", "22", "ten"),
    ("partner-off-by-one", "65 + 7", "71", "too-few"),
    ("partner-off-by-one", "65 + 7", "73", "too-many"),
    ("partner-off-by-one", "48 + 37", "86", "too-few"),
    ("partner-off-by-one", "16 + 5", "20", "too-many"),
    ("lower-beads-left", "14 + 3", "19", "here"),
    ("lower-beads-left", "48 + 7", "95", "left"),
    ("wrong-neighbour", "48 + 37", "175", "two-left"),
    ("wrong-neighbour", "280 + 70", "251", "right"),
    ("runs-out-at-nine", "97 + 8", "95", "nine-stays"),
    ("runs-out-at-nine", "97 + 8", "5", "nine-cleared"),
    ("column-drift", "48 + 37", "418", "left"),
    ("column-drift", "85 + 30", "88", "right"),
    ("upper-bead-as-one", "52 + 25", "33", "read-all"),
    ("upper-bead-as-one", "52 + 25", "73", "read"),
    ("upper-bead-as-one", "35 + 2", "41", "set"),
    ("borrow-through-zero", "203 - 8", "105", "zero-stays"),
    ("set-and-clear-swapped", "12 + 3", "19", "five"),
    ("set-and-clear-swapped", "22 + 8", "34", "ten"),
    ("digit-skipped", "48 + 37", "78", "skipped"),
    ("wrong-way-round", "52 - 38", "26", "turned"),
]


@pytest.mark.parametrize(("slip", "problem", "wrong", "variant"), VARIANTS)
def test_which_way_of_a_slip_it_is(slip: str, problem: str, wrong: str, variant: str) -> None:
    found = [cause.variant for cause in diagnose(work(problem), wrong) if cause.slip == slip]
    assert found == [variant]


def test_one_count_too_few_for_1_is_a_digit_skipped() -> None:
    assert {cause.slip for cause in diagnose(work("48 + 1", COUNTING), "48")} == {"digit-skipped"}


def test_the_likeliest_cause_is_named_first() -> None:
    """75 for 48 + 37: the 1 forgotten, or one bead too many cleared on the tens; the first is the commoner."""
    causes = diagnose(work("48 + 37"), "75")
    assert [(cause.slip, cause.column, cause.step) for cause in causes] == [
        ("exchange-dropped", 1, 4),
        ("partner-off-by-one", 2, 3),
    ]
    assert all(type(cause) is Prediction for cause in causes)
    assert [cause.weight for cause in causes] == [SLIPS[cause.slip].weight for cause in causes]
    assert [cause.weight for cause in causes] == sorted((cause.weight for cause in causes), reverse=True)


def test_no_diagnosis_without_a_slip() -> None:
    walkthrough = work("48 + 37")
    assert diagnose(walkthrough, "85") == ()
    assert diagnose(walkthrough, "3") == ()
    assert "85" not in predict_slips(walkthrough)


def test_each_slip_has_a_name_a_weight_and_a_reason() -> None:
    for name, slip in SLIPS.items():
        assert isinstance(slip, Slip)
        assert slip.name == name
        assert slip.weight > 0
        assert slip.because


# Common practice, no source: what is forgotten while two things are to be minded stands above what needs two
# misunderstandings at once. Slips on one line are as likely as each other.
LIKELIEST_FIRST = (
    "borrow-through-zero",
    "runs-out-at-nine",
    "zero-of-quotient-dropped",
    "exchange-dropped, partner-off-by-one",
    "no-0-held",
    "multiplicand-digit-left",
    "remainder-not-checked",
    "lower-beads-left",
    "quotient-one-column-off",
    "wrong-way-round",
    "product-one-column-off",
    "decimal-marker-lost",
    "five-for-ten",
    "table-fact-wrong",
    "set-and-clear-swapped",
    "product-skipped, multiplicand-digit-cleared-early",
    "digit-skipped",
    "wrong-neighbour",
    "column-drift",
    "upper-bead-as-one",
)


def test_which_slips_are_likelier_than_others() -> None:
    ranks = [[SLIPS[name].weight for name in line.split(", ")] for line in LIKELIEST_FIRST]
    assert all(len(set(weights)) == 1 for weights in ranks)
    assert [weights[0] for weights in ranks] == sorted({slip.weight for slip in SLIPS.values()}, reverse=True)
    assert sum(map(len, ranks)) == len(SLIPS)


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_each_slipped_example_is_legal_and_wrong(way: Way) -> None:
    """Judged by the referee: every bead move legal, the first wrong step as said, the wrong answer standing."""
    chance = Random(f"slips {way}")
    shown: set[str] = set()
    pairs = [(97, 8), (203, 8), *((chance.randrange(1000), chance.randrange(1000)) for _ in range(30))]
    for a, b in pairs:
        for text in (f"{a} + {b}", f"{max(a, b)} - {min(a, b)}"):
            for slipped in find_slipped(work(text, way, columns=5)):
                check_slipped(slipped.to_data())
                shown.add(slipped.slip)
    fives = {"five-for-ten", "lower-beads-left", "upper-bead-as-one"}
    partners = {"set-and-clear-swapped", "wrong-neighbour", "five-for-ten", "lower-beads-left"}
    missing = (fives if way.frame == "nine-bead" else set()) | (partners if way.method == "counting" else set())
    assert shown == TWELVE - missing


@pytest.mark.parametrize("way", WAYS, ids=str)
def test_predictions_agree_with_the_slips_worked_bead_by_bead(way: Way) -> None:
    """Predictions of a sum are reckoned by value; working each slip on the frame must give the same."""
    chance = Random(f"predictions {way}")
    for places, columns in ((0, 4), (0, 4), (0, 6), (0, 6), (1, 7), (1, 9), (2, 7), (2, 9)):
        a, b, c = (chance.randrange(10**places, 10 ** (places + 2)) for _ in range(3))
        first, second, third = (f"{number / 10**places:.{places}f}" for number in (a + b + c, a, b))
        walkthrough = work(f"{first} + {second} - {third}", way, columns=columns)
        worked = {(s.answer.text, s.slip, s.column, s.first_wrong_step) for s in find_slipped(walkthrough)}
        predicted = {
            (text, cause.slip, cause.column, cause.step)
            for text, causes in predict_slips(walkthrough).items()
            for cause in causes
            if cause.step is not None
        }
        assert predicted == worked


def test_a_slip_as_data() -> None:
    slipped = build_slipped(work("48 + 37"), "exchange-dropped")
    data = slipped.to_data()
    told = ("schema", "slip", "variant", "first_wrong_step", "wrong_answer", "true_answer")
    due = ("beadwright/slipped/1", "exchange-dropped", "left-missing", 4, "75", "85")
    assert tuple(data[key] for key in told) == due
    assert data["answer"] == {"text": "75", "columns": [2, 1], "decimals": 0, "remainder": None}
    assert (slipped.right.answer.text, slipped.column) == ("85", 1)


def test_a_slip_at_a_wanted_step() -> None:
    walkthrough = work("48 + 37")
    assert build_slipped(walkthrough, "digit-skipped", step=3).answer.text == "55"
    assert build_slipped(walkthrough, "digit-skipped", step=4).answer.text == "78"
    with pytest.raises(MethodError) as refused:
        build_slipped(walkthrough, "exchange-dropped", step=3)
    assert refused.value.code == "slip-not-there"
    with pytest.raises(MethodError) as unknown:
        build_slipped(walkthrough, "bead-swallowed")
    assert unknown.value.code == "slip-name"
    assert "exchange-dropped" in unknown.value.next_step


def test_a_digit_that_is_skipped_has_no_technique() -> None:
    skipped = build_slipped(work("48 + 37"), "digit-skipped", step=4).steps[3]
    assert (skipped.moves, skipped.technique, skipped.runs_on) == ((), None, False)


def test_counts_go_on_after_a_ten_that_is_not_cleared() -> None:
    """48 + 4: to 49; a ten is set and the 9 stays: 59; two more counts: the 9 is cleared for a ten, 60, and 61."""
    step = build_slipped(work("48 + 4", COUNTING), "exchange-dropped", variant="here-missing").steps[2]
    assert [(move.column, str(move.bead), move.change) for move in step.moves] == [
        (1, "lower", 1),
        (2, "upper", 1),
        (2, "lower", -4),
        (2, "lower", 1),
        (1, "upper", -1),
        (1, "lower", -4),
        (1, "lower", 1),
    ]


def test_which_slips_leave_the_same_beads_where_the_work_goes_wrong() -> None:
    """12 + 3: 5 set and 2 not cleared leaves 17, as no other slip does.

    14 - 8: who takes the 4 that stands from 8 leaves 4, as who skips the 8. 97 + 3: a 9 that stays is a ten dropped.
    """
    assert find_slips_alike(build_slipped(work("12 + 3"), "lower-beads-left")) == {"lower-beads-left"}
    assert find_slips_alike(build_slipped(work("14 - 8"), "digit-skipped", step=3)) == {
        "digit-skipped",
        "wrong-way-round",
    }
    nine = build_slipped(work("97 + 3"), "runs-out-at-nine", variant="nine-stays")
    assert find_slips_alike(nine) == {"runs-out-at-nine", "exchange-dropped"}


def test_no_slipped_example_can_be_built_that_does_not_replay() -> None:
    slipped = build_slipped(work("48 + 37"), "exchange-dropped")
    with pytest.raises(ReplayError):
        Slipped(slipped.right, slipped.slip, slipped.variant, slipped.column, 4, slipped.steps[:-1], slipped.answer)
    right = slipped.right
    with pytest.raises(ReplayError, match="does not change the answer"):
        Slipped(right, slipped.slip, slipped.variant, slipped.column, 4, right.steps, right.answer)
