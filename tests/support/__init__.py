"""What tests of several rooms share; a test module imports it as `tests.support…`."""

from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
