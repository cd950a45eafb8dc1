"""Learners' records: reading them, and the whole report, beside only parsing the same files.

Each runs in a process of its own, in turns, by processor time and by the most memory it held.
`BENCH_RECORDS=10000,100000` asks for other numbers of records; a hundred thousand take half an hour and 2 GB of disk.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median

from beadwright.cli.courses import load_outline
from tests.bench.learners import write_learners
from tests.bench.measure import Table
from tests.support import ROOT

SIZES = tuple(int(size) for size in os.environ.get("BENCH_RECORDS", "1000,10000").split(","))
ANSWERS = 40
ROUNDS = 3
LONG = 50_000
"""So many records are measured once: chance weighs little in minutes."""
CONTENT = ROOT / "content"
_HEADS = ["records", "read / parse", "report / parse", "µs a record", "parse, MB", "report, MB"]

_PARSE = """
for path in list_files(folder):
    json.loads((folder / path).read_bytes())
"""
_READ = """
read_cohort(folder, outline)
"""
_REPORT = """
write_report(build_report(read_cohort(folder, outline), outline), words, out)
"""
# The course is the same for all three and is loaded before the clock starts.
_TELL = """\
import json, resource, sys, time
from pathlib import Path
from beadwright.cli.courses import load_outline
from beadwright.records import build_report, read_cohort
from beadwright.records.output import write_report
from beadwright.records.reading import list_files
from beadwright.render import load_words
folder, out, outline, words = Path(sys.argv[1]), Path(sys.argv[2]), load_outline(Path(sys.argv[3])), load_words("en")
started = time.process_time()
%s
print(time.process_time() - started, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def run() -> list[Table]:
    """Measure cohorts of several sizes."""
    outline = load_outline(CONTENT)
    rows, grown = [], []
    for size in SIZES:
        with tempfile.TemporaryDirectory() as folder:
            records = write_learners(Path(folder) / "records", outline, size, ANSWERS)
            row, seconds = _measure(records, Path(folder) / "out", size)
            rows.append(row)
            grown.append(seconds)
    last = [f"×{SIZES[-1] / SIZES[0]:.1f}", "", f"×{grown[-1] / grown[0]:.1f}", "", "", ""]
    return [Table(f"Records of {ANSWERS} answers, beside only parsing them (last line: growth)", _HEADS, [*rows, last])]


def _measure(records: Path, out: Path, size: int) -> tuple[list[str], float]:
    codes = {"parse": _PARSE, "read": _READ, "report": _REPORT}
    turns = ROUNDS if size < LONG else 1
    rounds = [{name: _spend(code, records, out) for name, code in codes.items()} for _ in range(turns)]
    seconds = {name: median(taken[name][0] for taken in rounds) for name in codes}
    memory = {name: max(taken[name][1] for taken in rounds) / 1024 for name in codes}
    ratios = [f"{seconds[name] / seconds['parse']:.2f}" for name in ("read", "report")]
    each = f"{1e6 * seconds['report'] / size:.0f}"
    return [str(size), *ratios, each, f"{memory['parse']:.0f}", f"{memory['report']:.0f}"], seconds["report"]


def _spend(code: str, records: Path, out: Path) -> tuple[float, float]:
    """Processor seconds, and the most memory in KB."""
    command = [sys.executable, "-c", _TELL % code, str(records), str(out), str(CONTENT)]
    done = subprocess.run(command, check=True, capture_output=True, text=True)
    seconds, memory = map(float, done.stdout.split())
    return seconds, memory
