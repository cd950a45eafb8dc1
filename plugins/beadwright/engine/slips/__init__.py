"""Slips: wrong procedures that can be run, so that their wrong answers can be predicted and an answer diagnosed."""

from beadwright.engine.slips.cause import Prediction
from beadwright.engine.slips.prediction import (
    Slipped,
    build_slipped,
    diagnose,
    find_slipped,
    predict_slips,
)
from beadwright.engine.slips.table import SLIPS, Slip

__all__ = [
    "SLIPS",
    "Prediction",
    "Slip",
    "Slipped",
    "build_slipped",
    "diagnose",
    "find_slipped",
    "predict_slips",
]
