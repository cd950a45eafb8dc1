"""`beadwright work`, from the outside. The steps expected are worked by hand after trade handbooks' procedures."""

import json
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from beadwright.cli import main
from beadwright.cli.work import FORMS
from beadwright.render import terminal

Captured = pytest.CaptureFixture[str]


def work(capsys: Captured, *arguments: str) -> str:
    """What `beadwright work` prints; it must succeed and complain of nothing."""
    status = main(["work", *arguments])
    out, err = capsys.readouterr()
    assert (status, err) == (0, "")
    return out


def refuse(capsys: Captured, *arguments: str) -> str:
    """What `beadwright work` says when it has to refuse; it must print nothing else."""
    status = main(["work", *arguments])
    out, err = capsys.readouterr()
    assert (status, out) == (1, "")
    assert err.startswith("beadwright work: ")
    assert "Traceback" not in err
    return err


def moves(text: str) -> list[list[tuple[int, str, int]]]:
    """The moves of each step of printed JSON: column, kind of bead, change."""
    steps = json.loads(text)["steps"]
    return [[(move["column"], move["bead"], move["change"]) for move in step["moves"]] for step in steps]


def test_the_text_has_a_line_a_step_and_the_frame_at_the_end(capsys: Captured) -> None:
    lines = work(capsys, "48 + 37").splitlines()
    assert "48 + 37" in lines[0]
    assert [line[:3] for line in lines[2:6]] == ["1. ", "2. ", "3. ", "4. "]
    assert lines[6] == ""
    assert lines[-9:] == ["O | |", "| O O", "=====", "| O |", "O O O", "O O O", "O | O", "O O O", "0 8 5"]


def test_the_frame_of_any_step_can_be_drawn(capsys: Captured) -> None:
    assert work(capsys, "48 + 37", "--step", "2").splitlines()[-1] == "0 4 8"
    assert work(capsys, "48 + 37", "--step", "0").splitlines()[-1] == "0 0 0"


def test_speech_is_the_sentences_of_the_data_and_no_more(capsys: Captured) -> None:
    said = work(capsys, "48 + 37", "--as", "speech").splitlines()
    data = json.loads(work(capsys, "48 + 37", "--as", "json"))
    assert said == [step["say"] for step in data["steps"]]
    assert len(said) == 4


def test_the_data_names_its_schema_and_language_and_is_one_document(capsys: Captured) -> None:
    data = json.loads(work(capsys, "48 + 37", "--as", "json"))
    assert (data["schema"], data["language"], data["answer"]["text"]) == ("beadwright/walkthrough/1", "en", "85")


def test_the_picture_stands_by_itself_and_says_what_it_shows(capsys: Captured) -> None:
    root = ET.fromstring(work(capsys, "48 + 37", "--as", "svg"))
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert root.attrib["role"] == "img"
    assert "8" in root.attrib["aria-label"]
    ids = {node.attrib["id"] for node in root.iter() if "id" in node.attrib}
    uses = {node.attrib["href"].removeprefix("#") for node in root.iter() if "href" in node.attrib}
    assert uses
    assert uses <= ids


def test_a_problem_without_quotes_is_put_together(capsys: Captured) -> None:
    assert work(capsys, "48", "+", "37") == work(capsys, "48 + 37")


def test_the_order_of_an_exchange_is_chosen(capsys: Captured) -> None:
    left = moves(work(capsys, "8 + 7", "--as", "json"))[1]
    right = moves(work(capsys, "8 + 7", "--as", "json", "--exchange", "right-first"))[1]
    assert left == [(2, "lower", 1), (1, "lower", -3)]
    assert right == [(1, "lower", -3), (2, "lower", 1)]


def test_the_order_when_taking_away_can_differ(capsys: Captured) -> None:
    orders = ("--exchange", "right-first", "--exchange-taking", "left-first")
    adding, taking = moves(work(capsys, "8 + 7 - 9", "--as", "json", *orders))[1:]
    assert adding == [(1, "lower", -3), (2, "lower", 1)]
    assert taking == [(2, "lower", -1), (1, "lower", 1)]


def test_the_frame_its_length_and_the_method_are_chosen(capsys: Captured) -> None:
    text = work(capsys, "8 + 7", "--frame", "nine-bead", "--columns", "3", "--method", "counting", "--as", "json")
    data = json.loads(text)
    assert data["frame"] | {"marks": None} == {
        "name": "nine-bead", "columns": 3, "upper": 0, "lower": 9, "marks": None, "joined": None
    }  # fmt: skip
    assert data["method"] == "counting"


def test_the_wording_moves_no_bead(capsys: Captured) -> None:
    texts = [work(capsys, "48 + 37", "--as", "json", "--wording", wording) for wording in ("reasons", "rules", "both")]
    assert moves(texts[0]) == moves(texts[1]) == moves(texts[2])
    assert len({json.loads(text)["steps"][3]["say"] for text in texts}) == 3


def test_every_setting_of_the_house_is_heeded(capsys: Captured) -> None:
    settings = {
        "--exchange-add": ("right-first", "exchange", {"add": "right-first", "take": "left-first"}),
        "--exchange-take": ("right-first", "exchange", {"add": "left-first", "take": "right-first"}),
        "--inner": ("counting", "inner", "counting"),
        "--kept-factor": ("set", "kept_factor", "set"),
        "--first-factor": ("multiplier", "first_factor", "multiplier"),
        "--trial": ("rounded", "trial", "rounded"),
        "--rounding": ("half-up", "rounding", "half-up"),
    }
    for option, (value, name, expected) in settings.items():
        data = json.loads(work(capsys, "8 + 7", "--as", "json", option, value))
        assert data["house_style"][name] == expected


def test_trial_digits_that_are_given_are_tried(capsys: Captured) -> None:
    said = work(capsys, "98 ÷ 23", "--trial-digits", "5", "--as", "speech")
    assert "Try 5, as given." in said
    assert "5 is too large." in said
    assert said.splitlines()[-1] == "The quotient is 4, remainder 6."


def test_a_worked_example_with_a_slip_says_which_and_tells_its_steps_plainly(capsys: Captured) -> None:
    lines = work(capsys, "67 + 38", "--slip", "exchange-dropped").splitlines()
    assert lines[1] == "With a slip in step 4: half of an exchange was left out. It gives 95; right is 105."
    assert lines[6] == (
        "4. To add 38, add 8 on the ones: clear 2 on the ones. Now the ones read 5. The frame reads 95."
    )
    data = json.loads(work(capsys, "67 + 38", "--slip", "exchange-dropped", "--as", "json"))
    assert (data["schema"], data["first_wrong_step"], data["wrong_answer"]) == ("beadwright/slipped/1", 4, "95")
    assert all(step["say"] for step in data["steps"])


def test_malformed_text_is_pointed_at(capsys: Captured) -> None:
    said = refuse(capsys, "48 + ? 7").splitlines()
    assert said[-2:] == ["  48 + ? 7", "       ^"]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("99 + 99", "--frame", "nine-bead"), "column"),
        (("3 - 8",), "below zero"),
        (("48 + 37", "--columns", "0"), "0 columns"),
        (("48 + 37", "--method", "magic"), "magic"),
        (("48 + 37", "--slip", "magic"), "magic"),
        (("48 + 31", "--slip", "exchange-dropped"), "cannot happen"),
        (("48 + 37", "--slip", "exchange-dropped", "--at", "1"), "at step 1"),
        (("48 + 37", "--at", "1"), "--slip"),
        (("98 ÷ 23", "--trial-digits", "x"), "trial digits"),
        (("48 + 37", "--step", "9"), "there is no step 9"),
        (("48 + 37", "--step", "-1"), "there is no step -1"),
        (("",), "problem"),
    ],
)
def test_what_cannot_be_worked_is_refused_with_a_reason(
    capsys: Captured, arguments: tuple[str, ...], said: str
) -> None:
    assert said in refuse(capsys, *arguments)


@pytest.mark.parametrize("form", FORMS)
def test_a_terminal_that_knows_ascii_alone_gets_no_traceback(form: str) -> None:
    command = [Path(sys.executable).with_name("beadwright"), "work", "302 - 5", "--as", form]
    environment = {**os.environ, "PYTHONIOENCODING": "ascii"}
    done = subprocess.run(command, env=environment, capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.decode("utf-8")


def test_the_reader_of_the_output_may_leave() -> None:
    command = f"{Path(sys.executable).with_name('beadwright')} work '302 - 5' --as json | head -n 1"
    done = subprocess.run(command, shell=True, capture_output=True, text=True, check=False)
    assert (done.stdout, done.stderr) == ("{\n", "")


def test_the_command_offers_every_form_that_there_is() -> None:
    assert set(FORMS) == set(terminal.FORMS)


COMMAND = f'"{sys.executable}" -c "from beadwright.cli import main; exit(main())" work'


@pytest.mark.parametrize("closed", [">&-", "2>&-", "<&- >&- 2>&-"])
def test_nothing_open_to_write_to_is_no_fault(closed: str) -> None:
    done = subprocess.run(["sh", "-c", f'{COMMAND} "1 + 1" {closed}'], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert (done.stdout == "") == (closed != "2>&-")


def test_a_reason_that_nobody_can_be_told_is_not_told_elsewhere() -> None:
    done = subprocess.run(["sh", "-c", f'{COMMAND} "1 +" 2>&-'], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (1, "")


def test_a_full_disk_behind_the_output_is_told() -> None:
    done = subprocess.run(["sh", "-c", f'{COMMAND} "1 + 1" >/dev/full'], stderr=subprocess.PIPE, text=True, check=False)
    assert done.returncode == 1
    assert done.stderr.startswith("beadwright: No space left")
    assert done.stderr.count("\n") == 1
