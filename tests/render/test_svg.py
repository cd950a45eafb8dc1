"""Pictures count what they draw: every bead of the data is in the picture once, at its place, set or at rest."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from itertools import pairwise, product

import pytest

from beadwright.engine import FIVE_AND_FOUR, NINE_BEAD, Frame, build_frame, parse_problem, work_problem
from beadwright.render import draw_svg, render_shapes
from beadwright.render.layout import find_window

SVG = "{http://www.w3.org/2000/svg}"


def parse(markup: str) -> ET.Element:
    """The picture as a tree, in the namespace of SVG whether or not it names it."""
    text = markup if "xmlns=" in markup else str(markup).replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"', 1)
    return ET.fromstring(text)


def find_states() -> dict[str, tuple[list[int], list[int]]]:
    """Heights of the set beads and of those at rest in each shared column, by id."""
    root = parse(render_shapes([FIVE_AND_FOUR, NINE_BEAD]))
    states = {}
    for group in root.iter(f"{SVG}g"):
        if group.attrib["id"].startswith("bw-rod-"):
            uses = [(use.attrib["href"], int(use.attrib["y"])) for use in group.iter(f"{SVG}use")]
            set_beads = sorted(y for href, y in uses if href == "#bw-bead-set")
            at_rest = sorted(y for href, y in uses if href == "#bw-bead-rest")
            states[f"#{group.attrib['id']}"] = (set_beads, at_rest)
    return states


STATES = find_states()


def find_columns(svg: ET.Element) -> list[tuple[list[int], list[int]]]:
    """The drawn columns, leftmost first."""
    uses = [use for use in svg.iter(f"{SVG}use") if use.attrib["href"].startswith("#bw-rod-")]
    return [STATES[use.attrib["href"]] for use in sorted(uses, key=lambda use: int(use.attrib["x"]))]


def find_bar(svg: ET.Element) -> tuple[int, int]:
    """Upper and lower edge of the bar."""
    path = next(part.attrib["d"] for part in svg.iter(f"{SVG}path") if part.attrib["class"] == "bw-frame-bar")
    found = re.match(r"M\d+ (\d+)H\d+v(\d+)", path)
    assert found
    return int(found[1]), int(found[1]) + int(found[2])


@pytest.mark.parametrize(("name", "digit"), list(product(("five-and-four", "nine-bead"), range(10))))
def test_a_column_draws_each_bead_once_at_its_place(name: str, digit: int) -> None:
    frame = build_frame(name, columns=1).with_number(digit)
    svg = parse(draw_svg(frame, name="x"))
    ((set_beads, at_rest),) = find_columns(svg)
    top, bottom = find_bar(svg)
    upper, lower = divmod(digit, 5) if name == "five-and-four" else (0, digit)
    uppers = frame.shape.upper
    assert [len([y for y in set_beads if y < top]), len([y for y in set_beads if y > bottom])] == [upper, lower]
    assert len([y for y in at_rest if y < top]) == uppers - upper
    assert len([y for y in at_rest if y > bottom]) == frame.shape.lower - lower
    assert len(set(set_beads) | set(at_rest)) == uppers + frame.shape.lower


@pytest.mark.parametrize(("name", "digit"), list(product(("five-and-four", "nine-bead"), range(10))))
def test_set_beads_lie_at_the_bar_and_beads_at_rest_away_from_it(name: str, digit: int) -> None:
    frame = build_frame(name, columns=1).with_number(digit)
    svg = parse(draw_svg(frame, name="x"))
    ((set_beads, at_rest),) = find_columns(svg)
    top, bottom = find_bar(svg)
    below = {y - bottom for y in set_beads if y > bottom}
    assert below == {12 + 24 * place for place in range(len(below))}
    assert all(top - y == 12 for y in set_beads if y < top)
    assert all(top - y > 12 for y in at_rest if y < top)
    assert all(y - bottom > 12 + 24 * len(below) for y in at_rest if y > bottom)


@pytest.mark.parametrize("number", [0, 7, 305, 1_234_567_890_123, 9_999_999_999_999])
def test_a_picture_shows_the_digits_of_the_data(number: int) -> None:
    frame = build_frame().with_number(number)
    drawn = find_columns(parse(draw_svg(frame, name="x", columns=(13, 1))))
    assert [len(set_beads) for set_beads, _ in drawn] == [sum(beads) for beads in frame.beads]
    assert len(drawn) == 13


def test_the_columns_in_use_and_one_more_are_shown() -> None:
    assert find_window([build_frame().with_number(305)]) == (4, 1)
    assert find_window([build_frame()]) == (2, 1)
    assert find_window([build_frame().with_number(10**12)]) == (13, 1)
    walkthrough = work_problem(parse_problem("999 + 1"), build_frame())
    assert find_window(walkthrough.frames) == (5, 1)
    assert find_window([build_frame().with_number(50)], lowest=4) == (5, 1)
    assert len(find_columns(parse(draw_svg(build_frame().with_number(305), name="x")))) == 4


def test_a_frame_that_goes_on_is_left_open_there() -> None:
    whole = parse(draw_svg(build_frame(columns=2), name="x"))
    cut = parse(draw_svg(build_frame(columns=9), name="x", columns=(5, 2)))
    assert count(whole, "bw-frame-more") == 0
    assert count(cut, "bw-frame-more") == 2


def count(svg: ET.Element, kind: str) -> int:
    """How many parts of a class the picture has."""
    return sum(part.attrib.get("class") == kind for part in svg.iter())


def test_unit_marks_stand_left_of_every_third_column() -> None:
    svg = parse(draw_svg(build_frame(columns=13), name="x", columns=(13, 1)))
    marks = [int(part.attrib["d"].split()[0][1:]) for part in svg.iter() if part.attrib.get("class") == "bw-frame-mark"]
    rods = sorted(int(use.attrib["x"]) for use in svg.iter(f"{SVG}use"))
    # Columns 3, 6, 9 and 12 from the right stand at these places from the left; each mark halves the room before them.
    assert sorted(marks) == [rods[13 - column] - 22 for column in (12, 9, 6, 3)]


def test_the_decimal_marker_is_the_mark_right_of_the_ones() -> None:
    svg = parse(draw_svg(build_frame().with_number(12500), name="x", ones_column=4))
    marker = [part.attrib["d"] for part in svg.iter() if part.attrib.get("class") == "bw-frame-marker"]
    rods = sorted(int(use.attrib["x"]) for use in svg.iter(f"{SVG}use"))
    assert [int(path.split()[0][1:]) for path in marker] == [(rods[-4] + rods[-3]) // 2]


def test_two_frames_side_by_side_are_two_frames() -> None:
    frame = build_frame(columns=26)
    svg = parse(draw_svg(frame, name="x", columns=(26, 1)))
    assert count(svg, "bw-frame-edge") == 2
    assert len(find_columns(svg)) == 26
    rods = sorted(int(use.attrib["x"]) for use in svg.iter(f"{SVG}use"))
    gaps = [right - left for left, right in pairwise(rods)]
    assert [at for at, gap in enumerate(gaps, start=1) if gap > 44] == [13]


def find_pockets(svg: ET.Element, rods: list[int]) -> list[tuple[int, int, int]]:
    """Which columns (from the right) have a pocket, its top and its height."""
    found = []
    for part in svg.iter(f"{SVG}rect"):
        middle = int(part.attrib["x"]) + int(part.attrib["width"]) // 2
        column = len(rods) - rods.index(middle)
        found.append((column, round(float(part.attrib["y"])), int(part.attrib["height"])))
    return found


def test_the_beads_that_moved_lie_in_pockets_with_an_arrow_each() -> None:
    walkthrough = work_problem(parse_problem("5 + 7"), build_frame())
    step = walkthrough.steps[-1]  # set 1 on the tens; clear the upper bead and set 2 lower beads on the ones
    svg = parse(draw_svg(step.after, name="x", moves=step.moves))
    rods = sorted(int(u.attrib["x"]) for u in svg.iter(f"{SVG}use") if u.attrib["href"].startswith("#bw-rod-"))
    bottom = find_bar(svg)[1]
    assert sorted(find_pockets(svg, rods)) == [
        (1, 10, 23),  # the upper bead, cleared, at the top
        (1, bottom, 47),  # two lower beads, set, at the bar
        (2, bottom, 23),  # one lower bead, set, at the bar
    ]
    arrows = [use for use in svg.iter(f"{SVG}use") if use.attrib["href"] == "#bw-arrow"]
    assert [use.attrib.get("transform") for use in arrows].count(None) == 3  # all three went upwards


def test_arrows_point_the_way_the_beads_went() -> None:
    for problem, turned in (
        ("1 + 1", [None]),
        ("2 - 1", ["rotate(180)"]),
        ("1 + 5", ["rotate(180)"]),
        ("6 - 5", [None]),
    ):
        step = work_problem(parse_problem(problem), build_frame()).steps[-1]
        svg = parse(draw_svg(step.after, name="x", moves=step.moves))
        arrows = [use for use in svg.iter(f"{SVG}use") if use.attrib["href"] == "#bw-arrow"]
        assert [use.attrib.get("transform") for use in arrows] == turned, problem


def test_a_column_that_moved_there_and_back_shows_nothing() -> None:
    frame = build_frame().with_number(3)
    step = work_problem(parse_problem("3 + 1"), build_frame()).steps[-1]
    there, back = step.moves[0], step.moves[0]._replace(change=-1)
    assert parse(draw_svg(frame, name="x", moves=(there, back))).find(f"{SVG}rect") is None


def test_labels_are_written_below_the_columns_they_belong_to() -> None:
    frame = build_frame().with_number(305)
    for labels, written in (("digits", ["0", "3", "0", "5"]), ("columns", ["4", "3", "2", "1"]), ("none", [])):
        svg = parse(draw_svg(frame, name="x", labels=labels))  # type: ignore[arg-type]
        assert [part.text for part in svg.iter(f"{SVG}text")] == written


def test_a_picture_has_one_name_and_no_more() -> None:
    svg = parse(draw_svg(build_frame(), name='Frame "A" & <b>'))
    assert (svg.attrib["role"], svg.attrib["aria-label"]) == ("img", 'Frame "A" & <b>')
    assert svg.find(f"{SVG}title") is None
    assert "id" not in svg.attrib
    assert parse(draw_svg(build_frame(), name="x", figure_id="f1")).attrib["id"] == "f1"


@pytest.mark.parametrize("standalone", [True, False])
def test_colours_stand_in_the_style_sheet_alone(*, standalone: bool) -> None:
    markup = str(draw_svg(build_frame().with_number(7), name="x", standalone=standalone))
    body = re.sub(r"<style>.*?</style>", "", markup)
    assert not re.search(r'(fill|stroke|style)="', body)
    assert "#8a2b73" not in body


def test_a_picture_that_stands_by_itself_brings_all_it_uses() -> None:
    svg = parse(draw_svg(build_frame("nine-bead").with_number(37), name="x", standalone=True))
    ids = {part.attrib["id"] for part in svg.iter() if "id" in part.attrib}
    assert {use.attrib["href"].removeprefix("#") for use in svg.iter(f"{SVG}use")} <= ids
    style = svg.find(f"{SVG}style")
    assert style is not None
    assert style.text is not None
    defined = set(re.findall(r"(--bw-[a-z-]+):", style.text))
    wanted = set(re.findall(r"var\((--bw-(?:figure|bead|face)[a-z-]*)\)", style.text))
    assert wanted <= defined


def test_shared_parts_have_each_id_once() -> None:
    ids = re.findall(r' id="([^"]+)"', str(render_shapes([FIVE_AND_FOUR, NINE_BEAD])))
    assert len(ids) == len(set(ids)) == 3 + 10 + 10


def test_figures_of_a_page_stay_small() -> None:
    walkthrough = work_problem(parse_problem("4899 + 3713"), build_frame())
    frames: list[Frame] = [step.after for step in walkthrough.steps]
    window = find_window(frames)
    sizes = [len(draw_svg(s.after, name="x", columns=window, moves=s.moves)) for s in walkthrough.steps]
    assert max(sizes) < 3000
