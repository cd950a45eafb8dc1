"""Slips: wrong procedures that can be run, so that their wrong answers can be predicted and an answer diagnosed."""

from beadwright.engine.slips.cause import Prediction, build_prediction, likelihood
from beadwright.engine.slips.checkpoints import predict_readings
from beadwright.engine.slips.digits import Place, Variant
from beadwright.engine.slips.occurrences import find_digit_slips, find_places
from beadwright.engine.slips.prediction import (
    Slipped,
    build_slipped,
    diagnose,
    find_slipped,
    find_slips_alike,
    predict_slips,
)
from beadwright.engine.slips.table import SLIPS, Slip

__all__ = [
    "SLIPS",
    "Place",
    "Prediction",
    "Slip",
    "Slipped",
    "Variant",
    "build_prediction",
    "build_slipped",
    "diagnose",
    "find_digit_slips",
    "find_places",
    "find_slipped",
    "find_slips_alike",
    "likelihood",
    "predict_readings",
    "predict_slips",
]
