"""Makes the fonts of large print from those of the site: static TrueType, which the typesetter reads.

Run it after the site's fonts have changed, in an environment with fonttools and brotli: python tools/print-fonts.py
"""

from pathlib import Path
from tempfile import TemporaryDirectory

from fontTools.merge import Merger
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

ROOT = Path(__file__).resolve().parent.parent
SOURCES = ROOT / "site_templates" / "theme" / "assets" / "bw" / "fonts"
OUT = ROOT / "site_templates" / "print" / "fonts"
NEXT, MONO = "Atkinson Hyperlegible Next", "Atkinson Hyperlegible Mono"
FONTS = [
    (NEXT, ("latin", "latin-ext"), 400, "Regular"),
    (NEXT, ("latin", "latin-ext"), 700, "Bold"),
    (MONO, ("latin",), 400, "Regular"),  # for problems in columns, whose digits stand one below the other
]


def main() -> None:
    """Write each font, and the licence of its family beside it."""
    OUT.mkdir(parents=True, exist_ok=True)
    for family, parts, weight, style in FONTS:
        stem = family.lower().replace(" ", "-")
        with TemporaryDirectory() as folder:
            made = [make_static(SOURCES / f"{stem}-{part}-wght-normal.woff2", weight, Path(folder)) for part in parts]
            font = Merger().merge([str(path) for path in made])
        name_font(font, family, weight, style)
        font.save(OUT / f"{stem}-{weight}.ttf")
        (OUT / f"{stem}-OFL.txt").write_bytes((SOURCES / f"{stem}-OFL.txt").read_bytes())


def make_static(source: Path, weight: int, folder: Path) -> Path:
    """One part of a family's characters at one weight, as TrueType without layout tables."""
    font = TTFont(source, recalcTimestamp=False)
    static = instantiateVariableFont(font, {"wght": weight})
    static.flavor = None
    for table in ("GSUB", "GPOS", "GDEF", "STAT", "HVAR", "MVAR", "DSIG"):
        if table in static:
            del static[table]
    path = folder / f"{source.stem}.ttf"
    static.save(path)
    return path


def name_font(font: TTFont, family: str, weight: int, style: str) -> None:
    """Name the font so that a typesetter finds regular and bold in one family."""
    font["OS/2"].usWeightClass = weight
    font["OS/2"].fsSelection = 0x20 if style == "Bold" else 0x40
    font["head"].macStyle = 1 if style == "Bold" else 0
    font["head"].modified = font["head"].created
    names = font["name"]
    names.names = [record for record in names.names if record.nameID in (0, 13, 14)]
    for number, text in {1: family, 2: style, 4: f"{family} {style}", 6: f"{family} {style}".replace(" ", "-")}.items():
        names.setName(text, number, 3, 1, 0x409)


if __name__ == "__main__":
    main()
