"""The course that ships, by ear: one item of each kind gone to, answered wrong, then right, with keys alone.

Held against transcripts for people to read, `course-….txt`, as in `test_transcripts`.
"""

import pytest

from tests.support.by_ear import Hearer
from tests.support.pages import Visitor

pytestmark = pytest.mark.browser

TENS = "partner-of-10"
CARE = "frames-hands-and-care"


def hear(visit: Visitor, lesson: str, item: str) -> Hearer:
    """The item, gone to by Tab from the head of its lesson, and read through."""
    # The reader comes as a blob, which the course's own policy forbids.
    return Hearer(visit.open(f"modules/{lesson}.html", bypass_csp=True), f"#item-{item}")


def test_an_answer_is_typed(visit: Visitor) -> None:
    hearer = hear(visit, TENS, "add-46-9")
    hearer.tab_to("input[name=answer]", "go to the field")
    hearer.type("45")
    hearer.press("Enter")
    hearer.tab_to("[data-bw-do=hint]", "tab to Hint")
    hearer.press("Enter")
    hearer.tab_to("[data-bw-do=working]", "tab to Show the working")
    hearer.press("Enter")
    hearer.tab_to("input[name=answer]", "tab back to the field", back=True)
    hearer.press("Control+A", "select everything")
    hearer.type("55")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-answer")


def test_a_frame_is_read(visit: Visitor) -> None:
    hearer = hear(visit, CARE, "column-read-8")
    hearer.tab_to("input[name=answer]", "go to the field")
    hearer.type("4")
    hearer.press("Enter")
    hearer.press("Control+A", "select everything")
    hearer.type("8")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-read")


def test_a_number_is_set(visit: Visitor) -> None:
    hearer = hear(visit, CARE, "set-6")
    hearer.tab_to("[role=spinbutton]", "go to the frame")
    hearer.press("ArrowRight", "press right")
    hearer.press("PageUp", "press page up")
    hearer.tab_to("[data-bw-do=check]", "tab to Check the frame")
    hearer.press("Enter")
    hearer.tab_to("[role=spinbutton]", "tab back to the frame", back=True)
    hearer.press("ArrowUp", "press up")
    hearer.tab_to("[data-bw-do=check]", "tab to Check the frame")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-set")


def test_moves_are_chosen(visit: Visitor) -> None:
    hearer = hear(visit, TENS, "next-8-8")
    hearer.tab_to("[value='2l+1']", "go to Set 1 on the tens")
    hearer.press(" ", "press space")
    hearer.tab_to("[data-bw-do=check]", "tab to Check")
    hearer.press("Enter")
    hearer.tab_to("[value='1l-2']", "tab back to Clear 2 on the ones", back=True)
    hearer.press(" ", "press space")
    hearer.tab_to("[data-bw-do=check]", "tab to Check")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-next-move")


def test_moves_are_put_in_order(visit: Visitor) -> None:
    hearer = hear(visit, TENS, "order-9-6")
    hearer.tab_to("[data-bw-do=check]", "tab to Check")
    hearer.press("Enter")
    hearer.tab_to("li:nth-child(2) [data-bw-do=up]", "tab back to the second line", back=True)
    hearer.press("Enter")
    hearer.press("Enter")
    hearer.tab_to("[data-bw-do=check]", "tab to Check")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-order-moves")


def test_a_slip_is_found(visit: Visitor) -> None:
    hearer = hear(visit, TENS, "slip-48-37")
    hearer.tab_to("[data-bw-stage=step] input", "go to the steps")
    hearer.press("ArrowDown", "press down")
    hearer.tab_to("[data-bw-do=check]", "tab to Check")
    hearer.press("Enter")
    hearer.tab_to("[data-bw-stage=step] input", "tab back to the steps", back=True)
    hearer.press("ArrowDown", "press down")
    hearer.press("ArrowDown", "press down")
    hearer.press("Enter")
    hearer.press(" ", "press space")
    hearer.press("Enter")
    hearer.press("ArrowDown", "press down")
    hearer.press("Enter")
    hearer.type("Which hand moves first?")
    hearer.tab_to("[data-bw-do=coach]", "tab on to the next key")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-find-slip")


def test_a_problem_is_carried_out(visit: Visitor) -> None:
    hearer = hear(visit, TENS, "carry-out-37-25")
    hearer.tab_to("[role=spinbutton]", "go to the frame")
    hearer.press("ArrowRight", "press right")
    hearer.press("ArrowRight", "press right")
    hearer.press("3")
    check_digit(hearer)
    hearer.press("ArrowRight", "press right")
    hearer.press("7")
    check_digit(hearer)
    hearer.press("ArrowLeft", "press left")
    hearer.press("5")
    check_digit(hearer)
    hearer.press("ArrowRight", "press right")
    hearer.press("2")
    check_digit(hearer)
    hearer.press("ArrowLeft", "press left")
    hearer.press("6")
    hearer.tab_to("[data-bw-do=check]", "tab to Check this digit")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-carry-out")


def check_digit(hearer: Hearer) -> None:
    """Check what is on the frame, and come back to it."""
    hearer.tab_to("[data-bw-do=check]", "tab to Check this digit")
    hearer.press("Enter")
    hearer.tab_to("[role=spinbutton]", "tab back to the frame", back=True)


def test_a_problem_is_heard(visit: Visitor) -> None:
    hearer = hear(visit, TENS, "heard-90-45")
    hearer.tab_to("[data-bw-do=play]", "go to Play the problem")
    hearer.press("Enter")
    hearer.tab_to("input[name=answer]", "tab to the field")
    hearer.type("55")
    hearer.press("Enter")
    hearer.press("Control+A", "select everything")
    hearer.type("45")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-heard")


def test_one_answer_is_chosen(visit: Visitor) -> None:
    hearer = hear(visit, TENS, "reason-for-plus-8")
    hearer.tab_to("input", "go to the answers")
    hearer.press("ArrowDown", "press down")
    hearer.press("Enter")
    hearer.press("ArrowUp", "press up")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-choice")


def test_something_is_thought_over(visit: Visitor) -> None:
    hearer = hear(visit, CARE, "choose-reflect")
    hearer.tab_to("textarea", "go to the field")
    hearer.type("He counts by ones to 20.")
    hearer.tab_to("[data-bw-do=model]", "tab to the next key")
    hearer.press("Enter")
    hearer.go_on()
    hearer.hold("course-reflect")


def test_confidence_is_rated(visit: Visitor) -> None:
    hearer = hear(visit, CARE, "rating-01625970")
    hearer.tab_to("fieldset:nth-of-type(1) input", "go to the first")
    hearer.press(" ", "press space")
    for number in range(2, 7):
        hearer.tab_to(f"fieldset:nth-of-type({number}) input", "tab on")
        hearer.press("ArrowDown", "press down")
    hearer.go_on()
    hearer.hold("course-rating")
