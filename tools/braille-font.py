"""Makes the font that braille cells are shown with on a page: the 64 patterns of six dots, and nothing else.

Machines often have no font with braille patterns, and those there are differ in whether they show the dots that are not
raised. Here a raised dot is a disc and any other a small one, so that the place of a single dot can be seen; the blank
cell is empty. The drawing is our own. Run it in an environment with fonttools and brotli: python tools/braille-font.py
"""

from math import cos, pi, sin
from pathlib import Path

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

OUT = Path(__file__).resolve().parent.parent / "site_templates" / "theme" / "assets" / "bw" / "fonts"
FAMILY = "Bw Cells"
EM, WIDTH = 1000, 600
RAISED, FLAT = 88, 24
# Dots of a cell stand as far apart as those of the next cell lets them be told from these (common practice: 2.5 mm
# within a cell, 6 mm from cell to cell).
COLUMNS, ROWS = (175, 425), (640, 390, 140)
DOTS = [(x, y) for x in COLUMNS for y in ROWS]
ARCS = 8


def draw_disc(pen: TTGlyphPen, x: float, y: float, radius: float) -> None:
    """A disc of quadratic arcs; all points lie off the curve, and those on it between them are implied."""
    off = radius / cos(pi / ARCS)
    turns = [-2 * pi * (place + 0.5) / ARCS for place in range(ARCS)]
    pen.qCurveTo(*[(round(x + off * cos(turn)), round(y + off * sin(turn))) for turn in turns], None)
    pen.closePath()


def draw_cell(pattern: int) -> object:
    """The glyph of a pattern, whose bits are its dots from 1 to 6."""
    pen = TTGlyphPen(None)
    for dot, (x, y) in enumerate(DOTS):
        if pattern != 0:
            draw_disc(pen, x, y, RAISED if pattern >> dot & 1 else FLAT)
    return pen.glyph()


def main() -> None:
    """Write the font."""
    names = [".notdef", *(f"cell{pattern:02}" for pattern in range(64))]
    font = FontBuilder(EM, isTTF=True)
    font.setupGlyphOrder(names)
    font.setupCharacterMap({0x2800 + pattern: f"cell{pattern:02}" for pattern in range(64)})
    font.setupGlyf({".notdef": TTGlyphPen(None).glyph()} | {f"cell{n:02}": draw_cell(n) for n in range(64)})
    font.setupHorizontalMetrics(dict.fromkeys(names, (WIDTH, 0)))
    font.setupHorizontalHeader(ascent=800, descent=-100)
    font.setupNameTable({"familyName": FAMILY, "styleName": "Regular"})
    font.setupOS2(sTypoAscender=800, sTypoDescender=-100, usWinAscent=800, usWinDescent=100)
    font.setupPost(isFixedPitch=1)
    font.font["head"].created = font.font["head"].modified = 3_900_000_000
    font.font.recalcTimestamp = False
    font.font.flavor = "woff2"
    font.save(OUT / "braille-cells.woff2")


if __name__ == "__main__":
    main()
