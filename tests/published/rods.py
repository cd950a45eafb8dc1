"""How published examples with lettered rods are held against ours: the digits that rods show, state after state."""

from beadwright.engine import Frame, HouseStyle, Purpose, Walkthrough, build_frame, parse_problem, work_problem

USUAL = HouseStyle()


def work_on_rods(text: str, columns: int, house: HouseStyle = USUAL) -> Walkthrough:
    """The walkthrough on a five-and-four frame with as many columns as the source has rods."""
    return work_problem(parse_problem(text), build_frame(columns=columns), house=house)


def read_rods(walkthrough: Walkthrough) -> list[str]:
    """What all rods show, leftmost first, when the numbers are set and after each later step that moves beads."""
    sets = [step.number for step in walkthrough.steps if step.purpose is Purpose.SET]
    first = walkthrough.steps[sets[-1] - 1].after
    later = [step.after for step in walkthrough.steps[sets[-1] :] if step.moves]
    return [_read(frame) for frame in (first, *later)]


def _read(frame: Frame) -> str:
    return frame.digits(frame.columns, 1)


def find_missing_states(walkthrough: Walkthrough, states: list[str]) -> list[str]:
    """The published states that ours does not go through in this order, from the first state to the last.

    A source tells several of our steps in one, so ours may show more states between; the ends must be the same.
    """
    ours = read_rods(walkthrough)
    missing, position = [], 0
    for state in states:
        if state in ours[position:]:
            position = ours.index(state, position)
        else:
            missing.append(state)
    ends = [] if (ours[0], ours[-1]) == (states[0], states[-1]) else [f"{ours[0]} … {ours[-1]}"]
    return missing + ends
