"""What is said at steps: against sentences written by hand (`sentences.yml`), and for every kind of step there is."""

from __future__ import annotations

from itertools import product
from pathlib import Path
from typing import Any

import pytest
import yaml

from beadwright.engine import (
    HouseStyle,
    Inner,
    KeptFactor,
    Order,
    Rounding,
    Trial,
    Walkthrough,
    Wording,
    build_frame,
    build_slipped,
    parse_problem,
    work_problem,
)
from beadwright.render.speech import say_steps
from beadwright.render.words import load_words

WORDS = load_words("en")
SENTENCES = yaml.safe_load(Path(__file__).with_name("sentences.yml").read_text(encoding="utf-8"))
SETTINGS = {"wording": Wording, "inner": Inner, "take_order": Order, "trial": Trial}


def work(problem: str, frame: str = "five-and-four", columns: int | None = None, **house: Any) -> Walkthrough:
    style = HouseStyle(**{name: SETTINGS[name](value) for name, value in house.items()})
    return work_problem(parse_problem(problem), build_frame(frame, columns=columns), house=style)


def say(problem: str) -> list[str]:
    """The full sentences of a problem's steps."""
    return [said.full for said in say_steps(work(problem), WORDS)]


@pytest.mark.parametrize("case", SENTENCES, ids=lambda case: f"{case['problem']} {case.get('wording', '')}".strip())
def test_the_sentences_are_those_of_a_teacher(case: dict[str, Any]) -> None:
    options = {name: value for name, value in case.items() if name not in ("problem", "from", "say")}
    said = [said.full for said in say_steps(work(case["problem"], **options), WORDS)]
    first = case["from"] - 1 if case["from"] > 0 else len(said) + case["from"]
    assert said[first : first + len(case["say"])] == case["say"]


def test_a_total_between_numbers_is_said() -> None:
    said = say("1200 + 300 - 100")
    assert said[4].endswith("Now the hundreds read 5. The frame reads 1,500.")
    assert said[5].endswith("Now the hundreds read 4. The answer is 1,400.")


def test_the_short_reading_has_act_moves_and_columns_only() -> None:
    walkthrough = work_problem(parse_problem("48 + 37"), build_frame())
    assert [said.short for said in say_steps(walkthrough, WORDS)] == [
        "Set 4 on the tens: 4 lower beads. Now the tens read 4.",
        "Set 8 on the ones: the upper bead and 3 lower beads. Now the ones read 8.",
        "Add 3 on the tens: set the upper bead and clear 2 lower beads on the tens. Now the tens read 7.",
        "Add 7 on the ones: set 1 on the tens, clear 3 on the ones. Now the tens read 8 and the ones 5.",
    ]


def test_a_slip_is_told_plainly_so_that_the_telling_does_not_give_it_away() -> None:
    slipped = build_slipped(work_problem(parse_problem("67 + 38"), build_frame()), "exchange-dropped")
    assert [said.full for said in say_steps(slipped, WORDS)] == [
        "To set 67, set 6 on the tens: the upper bead and 1 lower bead. Now the tens read 6.",
        "To set 67, set 7 on the ones: the upper bead and 2 lower beads. Now the ones read 7. The frame reads 67.",
        "To add 38, add 3 on the tens: set 3 on the tens. Now the tens read 9.",
        "To add 38, add 8 on the ones: clear 2 on the ones. Now the ones read 5. The frame reads 95.",
    ]


def test_a_digit_that_is_passed_over_moves_no_bead() -> None:
    slipped = build_slipped(work_problem(parse_problem("12 + 34"), build_frame()), "digit-skipped", step=3)
    assert say_steps(slipped, WORDS)[2].full == "To add 34, add 3 on the tens: no bead moves. Now the tens read 1."


def test_fractions_and_roots_say_their_turning_points() -> None:
    fractions = say("3/4 + 1 1/8")
    assert "The least common denominator of 4 and 8 is 8." in fractions
    assert "Change the numerator: 3 times 2." in fractions
    assert fractions[-1].endswith("The answer is 1 7/8.")
    root = say("√1444")
    assert root[-1] == "Check: 38 times 38 makes 1,444. The answer is 38."


# Problems that between them reach every purpose, source and topic the engine has, on frames that just hold them.
EVERY_KIND: tuple[tuple[str, str, int, str | None], ...] = (
    *(("five-and-four", problem, 26, None) for problem in (
        "48 + 37", "12.5 + 0.4 - 3", "306 × 40", "203 × 45", "12.5 × 0.4", "15% of 80", "954 ÷ 23", "1 ÷ 8 to 3 places",
        "2 ÷ 3 to 2 places", "8016 ÷ 4", "1 ÷ 3 to 1 place", "3 ÷ 7", "0.5 ÷ 0.25", "9100 ÷ 91", "612 ÷ 306",
        "3/4 + 1 1/8", "2 1/4 - 3/4", "1 1/2 × 2/3", "3/4 ÷ 1/2", "1/2 - 1/2", "2 1/2 + 2/3", "√12.25", "99 ÷ 18",
        "10000 ÷ 99",
    )),
    ("five-and-four", "√1444", 13, "odd-number"),
    ("five-and-four", "√1450", 13, "odd-number"),
    ("five-and-four", "√1444", 13, "double-root"),
    ("five-and-four", "0.0026 × 0.3", 5, None),
    ("five-and-four", "0.0026 ÷ 2 to 6 places", 7, None),
    ("five-and-four", "1.2345678901234 + 2", 26, None),
    ("five-and-four", "0.0000012345 × 0.00006", 26, None),
    ("nine-bead", "12 × 3", 3, "repeated-adding"),
    ("nine-bead", "12 × 1", 3, "repeated-adding"),
    ("nine-bead", "12 × 0", 3, "repeated-adding"),
    ("nine-bead", "38 ÷ 12", 3, "repeated-taking-away"),
)  # fmt: skip
STYLES = (
    HouseStyle(),
    HouseStyle(wording=Wording.BOTH, trial=Trial.ROUNDED, kept_factor=KeptFactor.SET, rounding=Rounding.HALF_UP),
    HouseStyle(wording=Wording.RULES, trial=Trial.FIRST_DIGIT, inner=Inner.COUNTING),
)


def work_every_kind() -> list[Walkthrough]:
    """Every problem in every style that its frame has room for."""
    found = []
    for (frame, problem, columns, method), style in product(EVERY_KIND, STYLES):
        start = build_frame(frame, columns=columns + (13 if style.kept_factor is KeptFactor.SET else 0))
        found.append(work_problem(parse_problem(problem), start, house=style, method=method))
    given = HouseStyle(trial=Trial.GIVEN, trial_digits=(3,))
    found.append(work_problem(parse_problem("954 ÷ 23"), build_frame(), house=given))
    return found


def test_every_kind_of_step_is_said_whole() -> None:
    for walkthrough in work_every_kind():
        for said in say_steps(walkthrough, WORDS):
            for text in said:
                assert text[0].isupper() or text[0].isdigit(), text
                assert text.endswith("."), text
                assert "{" not in text, text
                assert ". ." not in text, text
        assert walkthrough.answer.text.partition(".")[0] in said.full.replace(",", "")


def test_there_are_words_for_the_steps_there_are_and_no_others() -> None:
    topics, leads = set(), set()
    for step in (step for walkthrough in work_every_kind() for step in walkthrough.steps):
        if step.remark is not None:
            topics.add(step.remark.topic)
        if step.work is not None:
            done = {"count": str(step.work.action)}.get(str(step.purpose), str(step.purpose))
            source = type(step.work.source).__name__.removeprefix("From").lower().replace("oddnumber", "odd")
            both = f"{done}-{step.work.action}-{source}" if done != step.work.action else f"{done}-{source}"
            leads.add(both)
    assert set(WORDS.names("speech.topic")) == topics
    assert set(WORDS.names("speech.lead")) == leads
