"""Looking a method up: which there are, and what is said when none does the problem."""

import pytest

from beadwright.engine import METHODS, FrameError, HouseStyle, MethodError, build_frame, parse_problem, work_problem


def test_each_method_goes_by_its_name() -> None:
    assert {"partners", "counting"} <= set(METHODS)
    assert all(procedure.name == name for name, procedure in METHODS.items())


def test_a_method_that_is_not_there() -> None:
    with pytest.raises(MethodError) as refused:
        work_problem(parse_problem("48 + 37"), build_frame(), method="guessing")
    assert refused.value.code == "method-name"
    assert "guessing" in refused.value.reason
    assert "partners" in refused.value.next_step


@pytest.mark.parametrize(("text", "method"), [("√16", "partners"), ("√16", "counting")])
def test_a_method_that_does_not_do_this(text: str, method: str) -> None:
    with pytest.raises(MethodError) as refused:
        work_problem(parse_problem(text), build_frame(), method=method)
    assert refused.value.code == "method-not-for-this"
    assert refused.value.reason == f"{text} cannot be worked by the method '{method}'"


def test_a_problem_that_no_method_does_on_this_frame() -> None:
    """PROCEDURES §3.10 takes roots on five-and-four frames only."""
    with pytest.raises(MethodError) as refused:
        work_problem(parse_problem("√16"), build_frame("nine-bead", columns=8))
    assert not isinstance(refused.value, FrameError)
    assert refused.value.code == "method-not-for-this"
    assert refused.value.reason == "√16 cannot be worked on this frame"


# PROCEDURES §3: the problems that each method is for.
DOES = {
    "partners": "48 + 37",
    "counting": "48 + 37",
    "partial-products": "306 × 4",
    "trial-digits": "837 ÷ 3",
    "repeated-adding": "306 × 4",
    "repeated-taking-away": "837 ÷ 3",
    "fractions": "3/4 + 1 1/8",
    "odd-number": "√16",
    "double-root": "√16",
}


@pytest.mark.parametrize("name", DOES)
def test_a_method_lays_out_its_own_kind_of_problem_alone(name: str) -> None:
    procedure, frame = METHODS[name], build_frame()
    assert set(DOES) == set(METHODS)
    for text in DOES.values():
        problem = parse_problem(text)
        assert procedure.does(problem, frame) is (text == DOES[name])
        if text != DOES[name]:
            with pytest.raises(TypeError):
                procedure.plan(problem, frame, HouseStyle())
