"""Hypothesis for the engine: more examples than usual, and no clock, since the cores may be shared."""

from hypothesis import settings

settings.register_profile("engine", max_examples=250, deadline=None)
settings.load_profile("engine")
