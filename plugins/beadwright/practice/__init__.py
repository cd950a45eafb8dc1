"""Practice: from a lesson's items to keys, pools, predicted slips and the facts of hints, as values."""

from beadwright.practice.building import build_lone_item, build_practice
from beadwright.practice.listing import list_drawn
from beadwright.practice.pools import draw_pools
from beadwright.practice.readings import READING_SLIPS
from beadwright.practice.values import (
    AnswerEntry,
    Ask,
    CarryOutEntry,
    Check,
    ChoiceEntry,
    Entry,
    FindSlipEntry,
    NextMoveEntry,
    Option,
    OrderEntry,
    PracticeItem,
    PracticeSet,
    Rated,
    RatingEntry,
    ReadEntry,
    ReflectEntry,
    SetEntry,
    name_move,
)

__all__ = [
    "READING_SLIPS",
    "AnswerEntry",
    "Ask",
    "CarryOutEntry",
    "Check",
    "ChoiceEntry",
    "Entry",
    "FindSlipEntry",
    "NextMoveEntry",
    "Option",
    "OrderEntry",
    "PracticeItem",
    "PracticeSet",
    "Rated",
    "RatingEntry",
    "ReadEntry",
    "ReflectEntry",
    "SetEntry",
    "build_lone_item",
    "build_practice",
    "draw_pools",
    "list_drawn",
    "name_move",
]
