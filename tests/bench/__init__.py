"""Measures, as ratios within one run: `make bench`."""
