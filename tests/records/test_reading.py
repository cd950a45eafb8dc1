"""Files that learners hand over, whole, damaged and hostile."""

import json
import os
import random
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beadwright.records import SetAside, read_folder, read_record
from beadwright.records.reading import list_files
from beadwright.records.schema import MOST_ATTEMPTS, MOST_BYTES, Record
from tests.records.making import COURSE, make_attempt, make_record, write_records

GOOD = make_record("ada", make_attempt(1, "one", True))


def read_all(folder: Path) -> tuple[list[list[str]], list[SetAside]]:
    """The files of each learner, and those set aside."""
    found = list(read_folder(folder, COURSE))
    learners = [[name for name, _ in one] for one in found if not isinstance(one, SetAside)]
    return learners, [one for one in found if isinstance(one, SetAside)]


def read(record: Any) -> Record | SetAside:
    data = record if isinstance(record, bytes) else json.dumps(record).encode()
    return read_record(data, "a.json", COURSE)


def find_reason(record: Any) -> str | None:
    found = read(record)
    return found.reason if isinstance(found, SetAside) else None


def change(path: str, value: Any) -> dict[str, Any]:
    """The good record with one value in another's place; `path` is such as `attempts.0.right`."""
    record: Any = json.loads(json.dumps(GOOD))
    *way, last = [int(key) if key.isdigit() else key for key in path.split(".")]
    place = record
    for key in way:
        place = place[key]
    place[last] = value
    return dict(record)


def test_a_record_as_the_pages_save_it_is_read() -> None:
    record = read(GOOD)
    assert isinstance(record, Record)
    assert record.learner.name == "Name of ada"
    assert (record.attempts[0].item, record.attempts[0].right) == ("one", True)


def test_a_record_from_an_editor_that_marks_its_beginning_is_read() -> None:
    assert find_reason(b"\xef\xbb\xbf" + json.dumps(GOOD).encode()) is None


def test_keys_of_later_pages_are_passed_over() -> None:
    assert find_reason({**GOOD, "mood": ["fine"]}) is None


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"", "damaged"),
        (b"\x00\x01", "damaged"),
        (b'{"schema": "beadwright/record/1", "att', "damaged"),
        (json.dumps(GOOD).encode("utf-16"), "damaged"),
        (b"[" * 100_000 + b"]" * 100_000, "damaged"),
        (b'{"a":' * 100_000, "damaged"),
        (b'{"schema": "\\ud800"}', "damaged"),
        (b"[]", "shape"),
        (b"null", "shape"),
        (b'"beadwright/record/1"', "shape"),
        (b"9" * 5000, "damaged"),
        (b"{}", "shape"),
        (json.dumps(change("attempts.0.seconds", 1)).replace('"seconds": 1', '"seconds": NaN').encode(), "shape"),
        (json.dumps(change("attempts.0.seconds", 1)).replace('"seconds": 1', '"seconds": 1e999').encode(), "shape"),
    ],
    ids=lambda value: repr(value)[:40],
)
def test_what_is_no_record_is_set_aside(data: bytes, reason: str) -> None:
    assert find_reason(data) == reason


@pytest.mark.parametrize(
    ("path", "value", "reason"),
    [
        ("schema", "beadwright/record/2", "newer"),
        ("schema", "beadwright/record/10", "newer"),
        ("schema", "beadwright/record/0", "shape"),
        ("schema", "beadwright/record/01", "shape"),
        ("schema", "something/else", "shape"),
        ("schema", 1, "shape"),
        ("course.id", "another-course", "foreign"),
        ("course", [], "foreign"),
        ("learner.id", "", "shape"),
        ("learner.id", 7, "shape"),
        ("learner.id", None, "shape"),
        ("learner.name", {"$gt": ""}, "shape"),
        ("learner.name", "x" * 5000, "shape"),
        ("attempts", {}, "shape"),
        ("attempts.0", "right", "shape"),
        ("attempts.0.right", "true", "shape"),
        ("attempts.0.right", 1, "shape"),
        ("attempts.0.id", "", "shape"),
        ("attempts.0.hints", -1, "shape"),
        ("attempts.0.seconds", "21.4", "shape"),
        ("attempts.0.seconds", 1e12, "shape"),
        ("attempts.0.at", ["2026"], "shape"),
        ("lessons", [{"lesson": "sums", "minutes": "41"}], "shape"),
        ("ratings", [{"when": "before", "item": "add", "value": True, "of": 5}], "shape"),
    ],
)
def test_a_value_that_is_not_what_it_should_be_sets_the_record_aside(path: str, value: Any, reason: str) -> None:
    assert find_reason(change(path, value)) == reason


def test_the_place_of_what_is_wrong_is_told_without_its_text() -> None:
    found = read(change("attempts.0.right", "<script>alert(1)</script>"))
    assert isinstance(found, SetAside)
    assert found.detail == "attempts.1.right"


def test_a_newer_record_of_another_shape_is_newer_all_the_same() -> None:
    assert find_reason({"schema": "beadwright/record/3", "course": COURSE}) == "newer"


def test_more_answers_than_the_pages_keep_are_refused() -> None:
    attempt = json.dumps(make_attempt(1, "one", True))
    data = json.dumps(GOOD)[: json.dumps(GOOD).index('"attempts": [')] + '"attempts": ['
    many = data + ",".join([attempt] * (MOST_ATTEMPTS + 1)) + "]}"
    assert find_reason(many.encode()) == "shape"


plain = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(sorted(GOOD)), inner, max_size=4),
    max_leaves=12,
)


@settings(max_examples=150, deadline=None)
@given(plain)
def test_nothing_in_a_file_makes_reading_fail(value: Any) -> None:
    assert isinstance(read(value), SetAside)


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=60), st.integers(0, 400))
def test_nothing_in_damaged_bytes_makes_reading_fail(noise: bytes, at: int) -> None:
    data = json.dumps(GOOD).encode()
    read(data[:at] + noise + data[at + len(noise) :])


def test_a_folder_is_read_with_the_folders_in_it_and_every_other_file_is_named(tmp_path: Path) -> None:
    write_records(tmp_path / "tarn", GOOD, "{")
    write_records(tmp_path / "hill", make_record("bo"))
    (tmp_path / "notes.txt").write_text("call Bo")
    (tmp_path / ".hidden.json").write_text("{")
    learners, aside = read_all(tmp_path)
    assert learners == [["hill/record-1.json"], ["tarn/record-1.json"]]
    assert {(file.file, file.reason) for file in aside} == {
        ("tarn/record-2.json", "damaged"),
        ("notes.txt", "other"),
    }


def test_the_same_file_twice_is_counted_once(tmp_path: Path) -> None:
    learners, aside = read_all(write_records(tmp_path, GOOD, GOOD))
    assert learners == [["record-1.json"]]
    assert aside == [SetAside("record-2.json", "twice", "record-1.json")]


def test_the_files_of_a_learner_come_together_wherever_they_lie(tmp_path: Path) -> None:
    write_records(tmp_path / "a", GOOD, make_record("bo"))
    write_records(tmp_path / "b", make_record("bo", saved="2026-12-01"), {**GOOD, "saved": "2026-12-01"})
    learners, _ = read_all(tmp_path)
    assert learners == [["a/record-1.json", "b/record-2.json"], ["a/record-2.json", "b/record-1.json"]]


def test_a_file_that_goes_or_changes_meanwhile_is_told(tmp_path: Path) -> None:
    write_records(tmp_path, GOOD, make_record("bo"), make_record("cy"))

    def meddle(done: int, _total: int) -> None:
        if done == 3:  # all three have been gone through once
            (tmp_path / "record-1.json").unlink()
            (tmp_path / "record-2.json").write_text(json.dumps(make_record("di")), encoding="utf-8")

    found = list(read_folder(tmp_path, COURSE, meddle))
    assert {one.file: one.reason for one in found if isinstance(one, SetAside)} == {
        "record-1.json": "unreadable",
        "record-2.json": "unreadable",
    }
    assert [one[0][0] for one in found if not isinstance(one, SetAside)] == ["record-3.json"]


def test_a_folder_stands_where_its_name_does(tmp_path: Path) -> None:
    for name in ("a-b/x.json", "a/y.json", "a.json", "b/a/z.json", "b/a.json"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(name)
    assert list_files(tmp_path) == ["a/y.json", "a-b/x.json", "a.json", "b/a/z.json", "b/a.json"]


@pytest.mark.parametrize("spoilt", ["{", "[]", "null", '{"learner": {"id": "x"}}', '{"learner": {"id": 3}}', "\x00"])
def test_what_is_no_record_is_told_as_one_file_alone_would_be(spoilt: str, tmp_path: Path) -> None:
    _, (aside,) = read_all(write_records(tmp_path, spoilt))
    assert aside == read_record(spoilt.encode(), "record-1.json", COURSE)


def test_links_and_pipes_are_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    write_records(outside, GOOD)
    folder = tmp_path / "records"
    folder.mkdir()
    (folder / "link.json").symlink_to(outside / "record-1.json")
    (folder / "loop").symlink_to(folder)
    os.mkfifo(folder / "pipe.json")  # opened for reading it would wait for ever
    learners, aside = read_all(folder)
    assert learners == []
    assert {file.file: file.reason for file in aside} == {"link.json": "other", "pipe.json": "other"}


def test_a_huge_file_is_not_even_opened(tmp_path: Path) -> None:
    with (tmp_path / "huge.json").open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    assert read_all(tmp_path)[1] == [SetAside("huge.json", "big")]


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        read_all(tmp_path / "nowhere")


def test_who_waits_hears_how_far_it_is(tmp_path: Path) -> None:
    heard: list[tuple[int, int]] = []
    (tmp_path / "notes.txt").write_text("call Bo")
    list(read_folder(write_records(tmp_path, GOOD, "{"), COURSE, lambda done, total: heard.append((done, total))))
    # Files are gone through twice; what is no record's file needs no second look.
    assert heard == [(2, 6), (3, 6), (4, 6), (5, 6), (6, 6)]


def test_hundreds_of_spoilt_records_are_all_set_aside_and_the_good_ones_stay(tmp_path: Path) -> None:
    chance = random.Random(9)
    text = json.dumps(GOOD)
    spoilt = [text[: chance.randrange(1, len(text) - 1)] for _ in range(200)]
    spoilt += [json.dumps(change("learner.id", kind)) for kind in (None, 1, [], {}, True)]
    learners, aside = read_all(write_records(tmp_path, *spoilt, GOOD))
    assert len(learners) == 1
    assert len(aside) == len(spoilt)
