"""Practice sheets and contest rounds from one file each: drawn or given problems, in every medium, with keys."""

from beadwright.render.sheets.event import Event, Level, Section, build_event, build_sheet_problems
from beadwright.render.sheets.grades import GRADES, Grade, build_grade_orders
from beadwright.render.sheets.home import CONTEST_FOLDER, HomeLevel, HomeRound, build_home_round, load_rounds
from beadwright.render.sheets.making import Forms, Listed, Made, make_contest, make_sheet
from beadwright.render.sheets.spec import ContestSpec, LevelSpec, SheetSpec, SpecError, load_spec

__all__ = [
    "CONTEST_FOLDER",
    "GRADES",
    "ContestSpec",
    "Event",
    "Forms",
    "Grade",
    "HomeLevel",
    "HomeRound",
    "Level",
    "LevelSpec",
    "Listed",
    "Made",
    "Section",
    "SheetSpec",
    "SpecError",
    "build_event",
    "build_grade_orders",
    "build_home_round",
    "build_sheet_problems",
    "load_rounds",
    "load_spec",
    "make_contest",
    "make_sheet",
]
