"""Large print: a booklet as a tagged PDF (PDF/UA-1), by typst where it is installed."""

from beadwright.render.print.typesetting import MISSING, PaperName, PrintError, PrintStyle, find_typst, print_booklet

__all__ = ["MISSING", "PaperName", "PrintError", "PrintStyle", "find_typst", "print_booklet"]
