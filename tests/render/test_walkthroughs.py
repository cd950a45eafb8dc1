"""A walkthrough on a page: its data once and whole, its steps complete as text."""

from __future__ import annotations

import json

import pytest
from bs4 import BeautifulSoup, Tag

from beadwright.engine import (
    FIVE_AND_FOUR,
    HouseStyle,
    Walkthrough,
    Wording,
    build_frame,
    build_slipped,
    parse_problem,
    work_problem,
)
from beadwright.render import (
    build_walkthrough_data,
    format_script_data,
    load_words,
    render_figure,
    render_part,
    render_shapes,
    render_walkthrough,
    render_worked_frame,
)
from beadwright.render.templates import build_environment

WORDS = load_words("en")
SAID_305 = (
    "305: hundreds 3, tens 0, ones 5. On the hundreds 3 lower beads, on the tens no bead, on the ones the upper bead."
)


def work(problem: str) -> Walkthrough:
    return work_problem(parse_problem(problem), build_frame())


def find(soup: BeautifulSoup | Tag, selector: str) -> Tag:
    """The one element of a selector."""
    (found,) = soup.select(selector)
    return found


def test_the_data_has_the_schema_of_the_design_and_a_sentence_a_step() -> None:
    data = build_walkthrough_data(work("48 + 37"), WORDS)
    assert list(data)[:4] == ["schema", "language", "problem", "method"]
    assert (data["schema"], data["language"], data["problem"]) == ("beadwright/walkthrough/1", "en", "48 + 37")
    assert data["frame"] == {
        "name": "five-and-four", "columns": 13, "upper": 1, "lower": 4, "marks": [3, 6, 9, 12], "joined": None
    }  # fmt: skip
    step = data["steps"][3]
    assert step["work"] == {"action": "add", "digit": 7, "column": 1, "term": 2}
    assert step["moves"] == [
        {"column": 2, "bead": "lower", "change": 1},
        {"column": 1, "bead": "lower", "change": -3},
    ]
    assert step["short"] == (
        "Add 7 on the ones: set 1 on the tens, clear 3 on the ones. Now the tens read 8 and the ones 5."
    )
    assert step["say"].endswith(" The answer is 85.")


def test_the_data_is_still_the_engines_own() -> None:
    walkthrough = work("305 - 48 + 12.5")
    data = json.loads(json.dumps(build_walkthrough_data(walkthrough, WORDS)))
    assert Walkthrough.from_data(data).to_data() == walkthrough.to_data()


def test_a_slipped_example_keeps_its_own_schema() -> None:
    data = build_walkthrough_data(build_slipped(work("67 + 38"), "exchange-dropped"), WORDS)
    assert (data["schema"], data["language"], data["slip"]) == ("beadwright/slipped/1", "en", "exchange-dropped")
    assert all(step["say"] and step["short"] for step in data["steps"])


def test_data_can_stand_in_a_script_whatever_it_holds() -> None:
    held = {"a": "</script><!-- & \u2028", "b": 'say "7"'}
    text = str(format_script_data(held))
    assert "<" not in text
    assert "&" not in text
    assert "\u2028" not in text
    assert json.loads(text) == held


def test_the_part_is_a_named_list_of_steps_that_is_whole_without_scripts() -> None:
    soup = BeautifulSoup(render_walkthrough(work("48 + 37"), WORDS, walkthrough_id="w1"), "html.parser")
    part = find(soup, "#w1")
    assert part["role"] == "group"
    assert find(soup, f"#{part['aria-labelledby']}").get_text() == "48 + 37 step by step, on a five-and-four frame"
    steps = soup.select("ol > li")
    assert [step["id"] for step in steps] == ["w1-step-1", "w1-step-2", "w1-step-3", "w1-step-4"]
    said = [find(step, "p.bw-say").get_text() for step in steps]
    data = json.loads(find(soup, "script.walkthrough-data").get_text())
    assert said == [step["say"] for step in data["steps"]]
    assert [find(step, "svg")["aria-label"] for step in steps] == [
        "Frame: tens 4, ones 0",
        "Frame: tens 4, ones 8",
        "Frame: tens 7, ones 8",
        "Frame: tens 8, ones 5",
    ]
    assert all("hidden" not in step.attrs for step in steps)
    assert "hidden" in find(soup, ".bw-stepper-tools").attrs


def test_a_part_can_do_without_figures_or_data() -> None:
    soup = BeautifulSoup(
        render_walkthrough(work("48 + 37"), WORDS, walkthrough_id="w1", with_figures=False, with_data=False),
        "html.parser",
    )
    assert soup.select("svg, script") == []
    assert len(soup.select("p.bw-say")) == 4


def test_the_wording_changes_words_alone() -> None:
    def render(wording: Wording) -> BeautifulSoup:
        house = HouseStyle(wording=wording)
        walkthrough = work_problem(parse_problem("48 + 37"), build_frame(), house=house)
        return BeautifulSoup(render_walkthrough(walkthrough, WORDS, walkthrough_id="w"), "html.parser")

    reasons, rules = render(Wording.REASONS), render(Wording.RULES)
    assert [str(svg) for svg in reasons.select("svg")] == [str(svg) for svg in rules.select("svg")]
    assert find(rules, "#w-step-4 p").get_text().startswith("Plus 7 on the ones: set 1 left, clear 3.")


def test_decimals_name_every_place_they_use() -> None:
    soup = BeautifulSoup(render_walkthrough(work("2.5 + 0.25"), WORDS, walkthrough_id="w"), "html.parser")
    assert soup.select("svg")[-1]["aria-label"] == "Frame: ones 2, tenths 7, hundredths 5"
    assert soup.select("svg")[0]["aria-label"] == "Frame: every column at rest"


def test_six_walkthroughs_on_a_page_stay_small() -> None:
    problems = ("48 + 37", "999 + 1", "302 - 5", "4899 + 3713", "1000 - 1", "605 + 48")
    parts = [render_walkthrough(work(problem), WORDS, walkthrough_id=f"w{at}") for at, problem in enumerate(problems)]
    page = str(render_shapes([FIVE_AND_FOUR])) + "".join(parts)
    assert len(page) < 100_000


def test_no_part_can_be_rendered_with_something_missing() -> None:
    assert build_environment().autoescape is True
    with pytest.raises(Exception, match="is undefined"):
        render_part("figure", id="f")


def test_what_an_author_writes_is_escaped() -> None:
    part = render_figure(build_frame(), WORDS, figure_id="f", caption="<b>5 & 4</b>")
    assert "&lt;b&gt;5 &amp; 4&lt;/b&gt;" in part


def test_a_figure_has_its_twin_in_words() -> None:
    figure = render_figure(build_frame().with_number(305), WORDS, figure_id="f1", caption="A zero holds its column")
    soup = BeautifulSoup(figure, "html.parser")
    assert find(soup, "#f1 > svg")["aria-label"] == "Frame, told in words below"  # so that nothing is heard twice
    assert [p.get_text() for p in soup.select("#f1 > .bw-figure-words p")] == [
        "A zero holds its column",
        SAID_305,
    ]


def test_a_figure_that_is_to_be_read_does_not_give_its_number_away() -> None:
    figure = render_figure(build_frame().with_number(305), WORDS, figure_id="f1", digits=False)
    soup = BeautifulSoup(figure, "html.parser")
    assert find(soup, "svg")["aria-label"] == "Frame, told in words below"
    assert soup.select("text") == []
    assert find(soup, ".bw-figure-words").get_text(strip=True) == (
        "On the hundreds 3 lower beads, on the tens no bead, on the ones the upper bead."
    )


def test_a_frame_to_work_is_a_picture_until_its_script_runs() -> None:
    frame = build_frame().with_number(305)
    soup = BeautifulSoup(render_worked_frame(frame, WORDS, frame_id="m1", name="Frame for 305"), "html.parser")
    element = find(soup, "bw-frame#m1")
    columns = find(element, ".bw-worked-columns")
    assert (columns["role"], columns["aria-label"]) == (
        "img",
        SAID_305,
    )
    assert [column["data-column"] for column in element.select(".bw-column")] == ["4", "3", "2", "1"]
    assert [len(column.select(".bw-set")) for column in element.select(".bw-column")] == [0, 3, 0, 1]
    assert all("hidden" in button.attrs or button.find_parent(hidden=True) for button in element.select("button"))
    data = json.loads(str(element["data-frame"]))
    assert (data["upper"], data["lower"], data["marks"]) == (1, 4, [3, 6, 9, 12])
    assert data["beads"] == [list(beads) for beads in frame.beads]
    assert data["places"][:4] == ["ones", "tens", "hundreds", "thousands"]
    assert data["values"] == [
        "0, no bead", "1, 1 lower bead", "2, 2 lower beads", "3, 3 lower beads", "4, 4 lower beads",
        "5, the upper bead",
        "6, the upper bead and 1 lower bead", "7, the upper bead and 2 lower beads",
        "8, the upper bead and 3 lower beads", "9, the upper bead and 4 lower beads",
    ]  # fmt: skip


def test_a_frame_to_work_shows_what_it_is_asked_to() -> None:
    def columns(shown: int | None) -> int:
        part = render_worked_frame(build_frame(), WORDS, frame_id="m", shown=shown)
        return len(BeautifulSoup(part, "html.parser").select(".bw-column"))

    assert [columns(shown) for shown in (None, 1, 5, 13, 99)] == [2, 2, 5, 13, 13]
    whole = BeautifulSoup(render_worked_frame(build_frame(columns=2), WORDS, frame_id="m"), "html.parser")
    assert whole.select("[data-bw-do=more]") == []
