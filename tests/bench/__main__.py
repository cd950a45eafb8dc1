"""`python -m tests.bench [KIND …]`: measures and prints small tables. Another kind is a module and a line here."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable

from tests.bench import browser, cohort, engine, practice, site
from tests.bench.measure import Table

BENCHES: dict[str, Callable[[], list[Table]]] = {
    "engine": engine.run,
    "site": site.run,
    "practice": practice.run,
    "browser": browser.run,
    "cohort": cohort.run,
}


def main() -> int:
    """Run what is asked for, everything when nothing is named."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description="Measures, as ratios within one run")
    parser.add_argument("kinds", nargs="*", metavar="KIND", help=f"one of {', '.join(BENCHES)}")
    asked = parser.parse_args()
    unknown = set(asked.kinds) - set(BENCHES)
    if unknown:
        parser.error(f"nothing is called {', '.join(sorted(unknown))}")
    for kind in asked.kinds or BENCHES:
        for table in BENCHES[kind]():
            print(table, end="\n\n", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
