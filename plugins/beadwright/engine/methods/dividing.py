"""A division laid out: each quotient digit is placed by comparing, tried, and its partial products taken away.

Source: PROCEDURES §3.7 and §3.8, common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from beadwright.engine.errors import FrameError
from beadwright.engine.frame import Column, Frame
from beadwright.engine.hand import Action, FromQuotient
from beadwright.engine.house import Trial
from beadwright.engine.methods.digits import set_number, work_number, work_product
from beadwright.engine.methods.trials import Guess, clamp_digit, find_trial
from beadwright.engine.problem import Quotient
from beadwright.engine.room import QuotientRoom
from beadwright.engine.solution import count_zeros_added
from beadwright.engine.walkthrough import Answer, Owner, Purpose, Remainder
from beadwright.engine.working import Working

SECOND_LEFT = "second-left"
FIRST_LEFT = "first-left"


class Place(NamedTuple):
    """Where the next quotient digit stands: in `column`, by `rule`. What is left begins in `first` with `digits`."""

    first: int
    digits: str
    column: Column
    rule: str

    @property
    def source(self) -> FromQuotient:
        """What digits worked for this quotient digit come from."""
        return FromQuotient(self.column, self.rule)


@dataclass(frozen=True, slots=True)
class QuotientPlan:
    """A quotient laid out on a frame. `free` is the highest column that no divisor and no rest beside it takes.

    `given` are trial digits by the order in which quotient digits are tried; None leaves one to `trial`.
    """

    problem: Quotient
    room: QuotientRoom
    free: int
    trial: Trial
    given: tuple[int | None, ...]
    rounds: bool

    @property
    def ones_column(self) -> Column:
        """The column of the ones of dividend and remainder."""
        return self.room.ones_column

    def work(self, working: Working) -> Answer:
        """Set divisor and dividend, find quotient digits until no further one has a column, say what is left."""
        self._set_numbers(working)
        tried, before = 0, self.free + 1
        place = self._find_place(working.frame, self.free)
        while place is not None and self.room.last <= place.column < before:
            if tried > 0:
                _say_zeros(working, before - 1, place.column + 1)
            _say_place(working, self.room.divisor, place)
            self._work_digit(working, place, tried)
            tried, before = tried + 1, place.column
            place = self._find_place(working.frame, place.first)
        if tried > 0:
            _say_zeros(working, before - 1, self.room.last)
        return self._stop(working, place, tried)

    # Place

    def _find_place(self, frame: Frame, highest: int) -> Place | None:
        """The next quotient digit's place, reading what is left from `highest` rightwards; None for nothing left."""
        held = frame.digits(highest, 1)
        rest = held.lstrip("0")
        if rest == "":
            return None
        size = len(self.room.divisor)
        digits = rest[:size].ljust(size, "0")
        if self.room.divisor > digits:
            return Place(len(rest), digits, Column(len(rest) + 1), FIRST_LEFT)
        return Place(len(rest), digits, Column(len(rest) + 2), SECOND_LEFT)

    # Take, lower, raise

    def _work_digit(self, working: Working, place: Place, tried: int) -> None:
        """Set the trial digit and take its products away; lower it where that cannot be, raise it where more is left.

        What is left never reaches left of the column where it began, so it is read from there: the trade reads from
        the column right of the quotient digit, which is the same column or one at rest.
        """
        digit = self._try_digit(working, place, tried)
        working.owners = (*self._own_divisor(working), *self._share(place.column))
        working.set(place.column, digit, place.source, Purpose.QUOTIENT)
        worked = 0
        while worked < len(self.room.divisor):
            factor = int(self.room.divisor[worked])
            if self._held(working, place, worked) < digit * factor:
                self._lower(working, place, (digit, factor), worked)
                digit -= 1
            else:
                work_product(working, Action.TAKE, (digit, factor), place.column - 1 - worked)
                worked += 1
        self._raise(working, place, digit)

    def _try_digit(self, working: Working, place: Place, tried: int) -> int:
        left = working.frame.digits(place.first, self._end(place, len(self.room.divisor) - 1))
        given = self.given[tried] if tried < len(self.given) else None
        if given is None:
            guess = find_trial(self.trial, self.room.divisor, left)
        else:
            guess = Guess(Trial.GIVEN, clamp_digit(given), left, self.room.divisor)
        working.say(
            f"trial-{guess.style}", left=guess.left, divisor=guess.divisor, digit=guess.digit, column=place.column
        )
        return guess.digit

    def _end(self, place: Place, worked: int) -> int:
        """The column of the ones of the product with this divisor digit (0 is the first)."""
        return place.column - 2 - worked

    def _held(self, working: Working, place: Place, worked: int) -> int:
        """What stands where the product with this divisor digit is taken, and left of it."""
        return int(working.frame.digits(place.first, self._end(place, worked)))

    def _lower(self, working: Working, place: Place, factors: tuple[int, int], worked: int) -> None:
        """Take 1 from the quotient digit and give back one divisor as far as it has been worked."""
        working.say(
            "trial-too-large",
            digit=factors[0],
            factor=factors[1],
            product=f"{factors[0] * factors[1]:02d}",
            left=self._held(working, place, worked),
            column=place.column,
        )
        working.take(place.column, 1, place.source, Purpose.LOWER)
        given_back = self.room.divisor[:worked]
        work_number(working, Action.ADD, given_back, place.column - 2, place.source, Purpose.GIVE_BACK)

    def _raise(self, working: Working, place: Place, digit: int) -> None:
        """Add 1 to the quotient digit and take the divisor once more, as often as it is still there."""
        divisor, last = self.room.divisor, len(self.room.divisor) - 1
        for raised in range(digit, digit + self._held(working, place, last) // int(divisor)):
            if raised == 9:
                raise _stuck(self.problem)
            left = self._held(working, place, last)
            working.say("trial-too-small", digit=raised, divisor=divisor, left=left, column=place.column)
            working.add(place.column, 1, place.source, Purpose.RAISE)
            work_number(working, Action.TAKE, divisor, place.column - 2, place.source, Purpose.RAISE)

    # End

    def _stop(self, working: Working, place: Place | None, tried: int) -> Answer:
        """Say why no further digit is tried, what the quotient is and what is left; round if the course does."""
        if tried == 0:
            working.say("dividend-smaller", dividend=str(self.problem.dividend), divisor=str(self.problem.divisor))
        elif place is None:
            working.say("nothing-left")
        else:
            working.say("quotient-stop", divisor=self.room.divisor, column=place.column, last_column=self.room.last)
        working.owners = (*self._own_divisor(working), self._own_quotient(), self._own_remainder(working.frame))
        if self.rounds:
            self._round(working)
        answer = self.answer(working)
        if self.rounds:
            working.say("quotient-rounded", quotient=answer.text)
        elif answer.remainder is None:
            working.say("quotient-exact", quotient=answer.text)
        else:
            working.say("quotient-done", quotient=answer.text, remainder=answer.remainder.text)
        return answer

    def _round(self, working: Working) -> None:
        """Half up: twice the remainder at least the divisor adds 1 to the last place."""
        left = int(working.frame.digits(self.room.last - 1, self.room.lowest))
        if left == 0:
            return
        up = 2 * left >= int(self.room.divisor)
        working.say("round-up" if up else "round-down", remainder=left, twice=2 * left, divisor=self.room.divisor)
        if up:
            working.add(self.room.last, 1)

    def answer(self, working: Working) -> Answer:
        """Quotient and remainder in the columns that own them; a rounded quotient has no remainder."""
        quotient = self._own_quotient().read(working.frame)
        left = self._own_remainder(working.frame).read(working.frame)
        nothing = self.rounds or left.text.strip("0.") == ""
        marker = self.room.quotient_ones_column
        return Answer(
            quotient.text,
            quotient.columns,
            self.room.places,
            None if nothing else Remainder(left.text, left.columns),
            None if marker == self.ones_column else marker,
        )

    # Setting and owning

    def _set_numbers(self, working: Working) -> None:
        room = self.room
        self._say_places(working)
        working.owners = self._own_divisor(working)
        if room.kept:
            set_number(working, room.divisor, working.frame.columns, 2)
        else:
            working.say("divisor-remembered", divisor=room.divisor)
        dividend = Owner("dividend", room.highest, room.lowest, self.ones_column)
        working.owners = (*self._own_divisor(working), dividend)
        set_number(working, self.problem.dividend.digits, room.highest, 1)

    def _say_places(self, working: Working) -> None:
        room, zeros = self.room, count_zeros_added(self.problem)
        dividend, divisor = self.problem.dividend.digits, room.divisor
        working.say("quotient-start", dividend=dividend, divisor=divisor, column=room.highest, last_column=room.last)
        if zeros > 0:
            working.say("zeros-added", count=zeros)
        if room.shift > 0:
            working.say("rest-at-right", count=room.shift)
        beyond = room.quotient_ones_column - working.frame.columns
        if beyond > 0:
            working.say("quotient-marker-beyond", count=room.places, ones_column=self.ones_column, beyond=beyond)
        elif room.on_mark:
            marker = room.quotient_ones_column
            working.say("quotient-markers", count=room.places, ones_column=self.ones_column, quotient_column=marker)

    def _share(self, column: int) -> tuple[Owner, Owner]:
        """The quotient owns the columns from its newest digit leftwards, what is left those right of it."""
        ones = max(column, self.room.quotient_ones_column)
        quotient = Owner("quotient", self.free, column, ones)
        return quotient, Owner("left", column - 1, self.room.lowest, self.ones_column)

    def _own_quotient(self) -> Owner:
        return Owner("quotient", self.free, self.room.last, self.room.quotient_ones_column)

    def _own_remainder(self, frame: Frame) -> Owner:
        """Right of the column at rest; after a slip, what is left may reach into that column."""
        reaches = frame.digit(self.room.last - 1) > 0
        return Owner("remainder", self.room.last - (1 if reaches else 2), self.room.lowest, self.ones_column)

    def _own_divisor(self, working: Working) -> tuple[Owner, ...]:
        if not self.room.kept:
            return ()
        highest = working.frame.columns
        lowest = highest - len(self.room.divisor) + 1
        return (Owner("divisor", highest, lowest, lowest),)


def _say_zeros(working: Working, highest: int, lowest: int) -> None:
    """Quotient columns that are passed over stay at rest: they are zeros of the quotient."""
    if highest >= lowest:
        working.say("quotient-zeros", count=highest - lowest + 1, highest_column=highest, lowest_column=lowest)


def _say_place(working: Working, divisor: str, place: Place) -> None:
    topic = f"compare-{place.rule}"
    working.say(topic, divisor=divisor, left=place.digits, first_column=place.first, column=place.column)


def _stuck(problem: Quotient) -> FrameError:
    return FrameError(
        "quotient-stuck",
        f"Working {problem}, a quotient digit would have to be more than 9",
        "Look for an earlier slip",
    )
