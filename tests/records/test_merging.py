"""Several files of one learner are one learner; two learners stay two."""

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from beadwright.records import Cohort, Person, Record, build_cohort, merge_person, read_record
from tests.records.making import COURSE, make_attempt, make_record
from tests.records.test_report import OUTLINE


def merge(*records: dict[str, Any]) -> Person:
    return merge_person([(f"{number}.json", read(record)) for number, record in enumerate(records)])


def gather(*records: dict[str, Any]) -> Cohort:
    return build_cohort([((f"{number}.json", read(record)),) for number, record in enumerate(records)], OUTLINE)


def read(record: dict[str, Any]) -> Record:
    found = read_record(json.dumps(record).encode(), "a.json", COURSE)
    assert isinstance(found, Record)
    return found


def test_answers_of_two_files_are_counted_once_each() -> None:
    one, two, three = (make_attempt(number, f"item-{number}", True) for number in range(3))
    ada = merge(make_record("ada", one, two), make_record("ada", two, three))
    assert [attempt.id for attempt in ada.attempts] == ["attempt-0", "attempt-1", "attempt-2"]
    assert ada.clashes == 0


def test_an_answer_that_differs_between_two_files_counts_as_saved_first_and_is_reported() -> None:
    early = make_record("ada", make_attempt(1, "one", False), saved="2026-11-01T00:00:00.000Z")
    late = make_record("ada", make_attempt(1, "one", True), saved="2026-11-09T00:00:00.000Z")
    ada = merge(late, early)
    assert ada.attempts[0].right is False
    assert ada.clashes == 1


def test_first_and_latest_tries_follow_time_whatever_the_order_in_the_file() -> None:
    late = make_attempt("late", "one", True, at="2026-11-05T10:00:00.000Z")
    early = make_attempt("early", "one", False, at="2026-11-02T10:00:00.000Z")
    ada = merge(make_record("ada", late, early))
    assert ada.first["sums"]["one"].id == "attempt-early"
    assert ada.latest["sums"]["one"].id == "attempt-late"


def test_a_name_typed_later_counts() -> None:
    old = make_record("ada", learner={"name": "Ada", "group": "Tarn"}, saved="2026-11-01T00:00:00.000Z")
    new = make_record("ada", learner={"name": "Ada Quist", "group": ""}, saved="2026-11-09T00:00:00.000Z")
    ada = merge(new, old)
    assert (ada.who.name, ada.who.group) == ("Ada Quist", "Tarn")


def test_minutes_of_two_copies_are_not_added_up() -> None:
    one = make_record("ada", lessons=[{"lesson": "sums", "finished": None, "minutes": 30, "passed": True}])
    two = make_record("ada", lessons=[{"lesson": "sums", "finished": "2026-11-03", "minutes": 41, "passed": False}])
    ada = merge(one, two)
    mark = ada.marks["sums"]
    assert (mark.minutes, mark.finished, mark.passed) == (41, "2026-11-03", True)


def test_two_people_of_one_name_stay_two_and_are_reported() -> None:
    cohort = gather(
        make_record("one", learner={"name": "Ada Quist"}),
        make_record("two", learner={"name": " ada  quist"}),
        make_record("three", learner={"name": ""}),
        make_record("four", learner={"name": ""}),
    )
    assert len(cohort.standings) == 4
    assert [(name.casefold(), count) for name, count in cohort.same_names] == [("ada quist", 2)]


COMPOSED, DECOMPOSED = "Jos\u00e9 Pi\u00f1a", "Jose\u0301 Pin\u0303a"
"""The same letters, as most keyboards make them and as some do."""


def test_the_same_letters_are_the_same_name_and_group_however_they_are_made() -> None:
    people = [
        make_record(str(number), learner={"name": name, "group": name})
        for number, name in enumerate((COMPOSED, DECOMPOSED, DECOMPOSED.upper()))
    ]
    cohort = gather(*people)
    assert cohort.same_names == ((COMPOSED, 3),)
    assert {one.who.group for one in cohort.standings} == {COMPOSED, COMPOSED.upper()}
    found = [((f"{number}.json", read(record)),) for number, record in enumerate(people)]
    assert [len(build_cohort(found, OUTLINE, group=name).standings) for name in (COMPOSED, DECOMPOSED)] == [3, 3]


def test_answers_under_two_learners_are_reported() -> None:
    attempts = [make_attempt(number, "one", True) for number in range(3)]
    cohort = gather(make_record("ada", *attempts), make_record("bo", *attempts[:2], make_attempt(9, "one", True)))
    assert [(one.id, other.id, count) for one, other, count in cohort.shared] == [("ada", "bo", 2)]


@settings(max_examples=50, deadline=None)
@given(st.lists(st.lists(st.integers(0, 8), max_size=5), min_size=1, max_size=5), st.randoms())
def test_the_order_of_files_changes_nothing(files: list[list[int]], chance: Any) -> None:
    records = [
        make_record("ada", *(make_attempt(n, f"item-{n}", n % 2 == 0) for n in numbers), saved=f"2026-11-{day:02}")
        for day, numbers in enumerate(files, start=1)
    ]
    shuffled = records[:]
    chance.shuffle(shuffled)
    one, other = merge(*records), merge(*shuffled)
    assert one.attempts == other.attempts
    assert {attempt.id for attempt in one.attempts} == {f"attempt-{n}" for numbers in files for n in numbers}
