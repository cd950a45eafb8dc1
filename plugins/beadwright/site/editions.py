"""The setting `editions:` of the plugin: which other forms of a lesson there are, and how they are made."""

from __future__ import annotations

from mkdocs.config import config_options
from mkdocs.config.base import BaseConfigOption, Config, ValidationError

from beadwright.render.braille import Geometry
from beadwright.render.editions import EditionStyle
from beadwright.render.print import PaperName, PrintStyle
from beadwright.render.sound import SoundStyle


class EditionsConfig(Config):  # type: ignore[no-untyped-call]  # untyped in MkDocs
    """What a trainer may set under `editions:` of the plugin; `false` for a form leaves it out."""

    braille = config_options.Type(bool, default=True)
    """Braille files (BRF), arithmetic in the course's code."""
    print = config_options.Type(bool, default=True)
    """Large print (PDF)."""
    sound = config_options.Type(bool, default=True)
    """Sound of heard items (MP3)."""
    cells = config_options.ListOfItems(config_options.Type(int), default=[40])
    """Cells in a braille line; a file for each number, such as [40, 20]."""
    lines = config_options.Type(int, default=25)
    """Lines on a braille page."""
    contracted = config_options.Type(bool, default=True)
    """Contracted braille; uncontracted where false."""
    size = config_options.Type(int, default=18)
    """Points of large print, 18 to 36."""
    paper: config_options.Choice[PaperName] = config_options.Choice(("us-letter", "a4"), default="us-letter")
    """Paper of large print."""
    pace = config_options.Type(int, default=140)
    """Words a minute of the voice."""
    pause = config_options.Type((int, float), default=2.0)
    """Seconds after each number that the voice says."""


class Editions(BaseConfigOption[EditionStyle]):
    """The setting `editions:`: keys as in `EditionsConfig`, or false for none."""

    def __init__(self) -> None:
        super().__init__()
        self.default = {}  # what is not set is read like no keys

    def run_validation(self, value: object) -> EditionStyle:
        """The style; raises `ValidationError` that says what a setting should be."""
        if value is False:
            return EditionStyle(braille=False, large_print=False, sound=False)
        if value is not None and not isinstance(value, dict | bool):
            raise ValidationError("should be keys such as braille: false, or false for none")
        own = EditionsConfig()
        own.load_dict(value if isinstance(value, dict) else {})
        errors, warnings = own.validate()
        for key, problem in (*errors, *warnings):
            raise ValidationError(f"{key}: {problem}")
        try:
            return build_style(own)
        except ValueError as error:
            raise ValidationError(str(error)) from None


def build_style(own: EditionsConfig) -> EditionStyle:
    """The style that the settings give; raises `ValueError` for sizes and paces that nothing can be made in."""
    for cells in own.cells:
        Geometry(cells, own.lines)
    SoundStyle(pace=own.pace, pause=own.pause)
    return EditionStyle(
        braille=own.braille,
        large_print=own.print,
        sound=own.sound,
        cells=tuple(own.cells),
        lines=own.lines,
        contracted=own.contracted,
        print_style=PrintStyle(size=own.size, paper=own.paper),
        pace=own.pace,
        pause=float(own.pause),
    )
