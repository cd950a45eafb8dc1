"""The colours of the course, read from the style sheets: contrast by WCAG's formula, no colour outside the list."""

import re
from itertools import product
from pathlib import Path

import pytest

from tests.support import ROOT

THEME = ROOT / "site_templates" / "theme" / "assets" / "bw"
SHEETS = sorted((THEME / "css").glob("*.css"))
GROUNDS = ("paper", "raised", "sunken")
NOTES = ("right", "wrong", "caution", "facilitator", "reflect")

Scheme = dict[str, str]


def read_lists() -> dict[str, Scheme]:
    """The lists of colours of tokens.css by scheme; the dark one stands twice."""
    text = re.sub(r"/\*.*?\*/", "", (THEME / "css" / "tokens.css").read_text(encoding="utf-8"), flags=re.S)
    blocks = re.findall(r"([^{};]*:root[^{]*)\{([^{}]*)\}", text)
    found = [(rule.strip(), dict(re.findall(r"--bw-([\w-]+):\s*(#[0-9a-f]{6});", body))) for rule, body in blocks]
    lists = {rule: colours for rule, colours in found if "paper" in colours}
    assert set(lists) == {
        ":root",
        ':root[data-bw-scheme="dark"]',
        ":root:not([data-bw-scheme])",
        ':root[data-bw-scheme="contrast"]',
    }
    return lists


LISTS = read_lists()
SCHEMES = {
    "light": LISTS[":root"],
    "dark": LISTS[':root[data-bw-scheme="dark"]'],
    "contrast": LISTS[':root[data-bw-scheme="contrast"]'],
}


def measure_luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    channels = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def measure_contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, from 1 to 21."""
    low, high = sorted((measure_luminance(one), measure_luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_what_the_standard_says() -> None:
    assert measure_contrast("#000000", "#ffffff") == pytest.approx(21)
    assert measure_contrast("#777777", "#ffffff") == pytest.approx(4.478, abs=0.001)
    assert measure_contrast("#808080", "#808080") == 1


def test_both_dark_lists_are_the_same() -> None:
    assert LISTS[":root:not([data-bw-scheme])"] == SCHEMES["dark"]


@pytest.mark.parametrize("scheme", SCHEMES)
def test_each_scheme_names_every_colour(scheme: str) -> None:
    assert SCHEMES[scheme].keys() == SCHEMES["light"].keys()


@pytest.mark.parametrize("scheme", SCHEMES)
def test_text_reaches_seven_to_one(scheme: str) -> None:
    colours = SCHEMES[scheme]
    pairs = [
        *product(("ink", "soft", "link", "link-hover"), GROUNDS),
        *product(("ink", "link"), [f"{note}-ground" for note in NOTES]),
        *((note if note in ("right", "wrong") else f"{note}-text", f"{note}-ground") for note in NOTES),
        *product(("caution-text", "wrong", "right"), ("raised",)),
        ("on-accent", "accent"),
        ("on-accent", "accent-deep"),
        ("ink", "mark"),
        ("figure-text", "figure-ground"),
    ]
    short = {pair: measure_contrast(colours[pair[0]], colours[pair[1]]) for pair in pairs}
    assert {pair: ratio for pair, ratio in short.items() if ratio < 7} == {}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_edges_and_beads_reach_three_to_one(scheme: str) -> None:
    colours = SCHEMES[scheme]
    pairs = [
        *product(("edge", "accent"), GROUNDS),
        *product(
            ("figure-frame", "figure-bar", "figure-rod", "bead-rest-edge", "bead-set", "bead-changed"),
            ("figure-ground",),
        ),
        ("bead-set", "bead-rest"),
        ("bead-pip", "bead-set"),
        ("bead-rest-edge", "bead-rest"),
        ("figure-bar-mark", "figure-bar"),
        *((note if note in ("right", "wrong") else f"{note}-text", ground) for note in NOTES for ground in GROUNDS),
    ]
    short = {pair: measure_contrast(colours[pair[0]], colours[pair[1]]) for pair in pairs}
    assert {pair: ratio for pair, ratio in short.items() if ratio < 3} == {}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_one_tone_of_the_ring_stands_out_on_every_ground(scheme: str) -> None:
    colours = SCHEMES[scheme]
    inner, outer = colours["focus-inner"], colours["focus-outer"]
    assert measure_contrast(inner, outer) >= 7
    for name in (*GROUNDS, "accent", "beam", "mark", "figure-ground", *(f"{note}-ground" for note in NOTES)):
        ground = colours[name]
        assert max(measure_contrast(inner, ground), measure_contrast(outer, ground)) >= 3, name


@pytest.mark.parametrize(
    "sheet", [one for one in SHEETS if one.name not in ("tokens.css", "print.css")], ids=lambda p: p.name
)
def test_no_sheet_has_a_colour_of_its_own(sheet: Path) -> None:
    """Paper has black of its own; the darkening behind a dialog lies over whatever page there is."""
    text = re.sub(r"/\*.*?\*/", "", sheet.read_text(encoding="utf-8"), flags=re.S)
    text = re.sub(r"^@media print \{.*?^\}", "", text, flags=re.S | re.M)
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b(?=[^{]*;)", text) == []
    assert re.findall(r"\b(?:rgba?|hsla?|oklch)\([^)]*\)", text) in ([], ["rgb(20 10 18 / 65%)"])


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda p: p.name)
def test_every_property_used_is_named(sheet: Path) -> None:
    named = set(re.findall(r"(--bw-[\w-]+):", "".join(one.read_text(encoding="utf-8") for one in SHEETS)))
    used = set(re.findall(r"var\((--bw-[\w-]+)", sheet.read_text(encoding="utf-8")))
    assert used <= named


OWN_DRAWING = {"braille-cells.woff2"}
"""Drawn by tools/braille-font.py, so under the licence of the project itself."""


def test_each_typeface_has_its_licence_beside_it() -> None:
    fonts = THEME / "fonts"
    named = set(re.findall(r"fonts/([\w-]+\.woff2)", (THEME / "css" / "fonts.css").read_text(encoding="utf-8")))
    assert named == {file.name for file in fonts.glob("*.woff2")}
    for file in named - OWN_DRAWING:
        family = file.split("-latin")[0]
        assert "SIL OPEN FONT LICENSE" in (fonts / f"{family}-OFL.txt").read_text(encoding="utf-8").upper()
        assert (fonts / file).read_bytes()[:4] == b"wOF2"
