"""A frame as a picture for paper: black on white, thick outlines, set beads full and beads at rest hollow."""

from __future__ import annotations

import re

from beadwright.render.booklet import FrameShown
from beadwright.render.svg import draw_svg

_STYLE = """
.bw-frame-edge{fill:#000}
.bw-frame-ground{fill:#fff}
.bw-frame-more{fill:none;stroke:#fff;stroke-width:3;stroke-dasharray:3 7}
.bw-frame-rod{fill:none;stroke:#000;stroke-width:2.5}
.bw-frame-bar{fill:#000}
.bw-frame-dot{fill:#fff}
.bw-frame-mark,.bw-frame-marker{fill:none;stroke:#000;stroke-width:4;stroke-linecap:round}
.bw-frame-marker{stroke-width:8}
.bw-bead{stroke:#000;stroke-width:2.5;stroke-linejoin:round}
.bw-bead-set{fill:#000}
.bw-bead-rest{fill:#fff}
.bw-bead-pip{fill:none;stroke:#fff;stroke-width:3;stroke-linecap:round}
"""


def draw_picture(shown: FrameShown) -> str:
    """The picture as SVG that needs nothing else; it has no text, since all of it is said beside it."""
    svg = draw_svg(shown.frame, name=shown.name, columns=shown.columns, ones_column=shown.ones_column, standalone=True)
    return re.sub(r"<style>.*?</style>", f"<style>{_STYLE}</style>", svg, count=1, flags=re.DOTALL)


def find_shape(svg: str) -> float:
    """A picture's height by its width."""
    found = re.search(r'viewBox="0 0 (\d+) (\d+)"', svg)
    if found is None:
        raise ValueError("a picture without a size")
    return int(found[2]) / int(found[1])
