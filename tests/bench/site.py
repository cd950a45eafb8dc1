"""Building courses, beside building plain pages of the same finished HTML with the stock theme.

Each is built by MkDocs in a process of its own, in turns, and compared by processor time: cold (nothing kept), warm
(nothing changed) and with one lesson changed. Growth is from the smallest course to the largest, its lessons' number
taken out. `BENCH_LESSONS=100,300,1000` asks for other sizes.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median
from typing import NamedTuple

from tests.bench.courses import write_course, write_lesson
from tests.bench.measure import Table
from tests.support.carried import read_whole

SIZES = tuple(int(size) for size in os.environ.get("BENCH_LESSONS", "30,100").split(","))
ROUNDS = 3
_PLAIN = "site_name: Plain\ntheme:\n  name: material\nuse_directory_urls: false\nplugins: [search]\n"
_HEADS = ["lessons", "cold / plain", "share, ms a lesson", "warm / plain", "changed / plain", "cold, MB", "plain, MB"]


class Cost(NamedTuple):
    """What one build took: processor seconds of all its processes, and the most memory one of them held, in MB."""

    seconds: float
    memory: float


def run() -> list[Table]:
    """Measure builds of courses of several sizes."""
    with tempfile.TemporaryDirectory() as folder:
        measured = [measure_course(Path(folder) / str(size), size) for size in SIZES]
    rows = [row for row, _ in measured]
    first, last = measured[0][1], measured[-1][1]
    grown = [f"×{SIZES[-1] / SIZES[0]:.1f}", f"×{last[0] / first[0]:.1f}", "", f"×{last[1] / first[1]:.1f}", "", "", ""]
    title = "Build: courses, beside plain pages of the same HTML in the stock theme (last line: growth)"
    return [Table(title, _HEADS, [*rows, grown])]


def measure_course(folder: Path, lessons: int) -> tuple[list[str], tuple[float, float]]:
    """One row, and the seconds of a cold and of a warm build."""
    config = write_course(folder / "course", lessons)
    build(config, folder / "site")
    plain = write_plain(folder / "plain", folder / "site")
    found: dict[str, list[Cost]] = {"cold": [], "warm": [], "changed": [], "plain": []}
    for number in range(1, ROUNDS + 1):
        shutil.rmtree(folder / "course" / ".cache", ignore_errors=True)
        found["cold"].append(build(config, folder / "site"))
        found["plain"].append(build(plain, folder / "plain-site"))
        found["warm"].append(build(config, folder / "site"))
        changed = folder / "course" / "content" / "modules" / "0001-lesson-1.lesson.yml"
        changed.write_text(write_lesson(lessons + number).replace(f"Lesson {lessons + number}", "Lesson 1"), "utf-8")
        found["changed"].append(build(config, folder / "site"))
    seconds = {name: median(cost.seconds for cost in costs) for name, costs in found.items()}
    memory = {name: max(cost.memory for cost in costs) for name, costs in found.items()}
    ratios = {name: f"{seconds[name] / seconds['plain']:.2f}" for name in seconds}
    share = 1000 * (seconds["cold"] - seconds["plain"]) / lessons
    row = [str(lessons), ratios["cold"], f"{share:.0f}", ratios["warm"], ratios["changed"]]
    return [*row, f"{memory['cold']:.0f}", f"{memory['plain']:.0f}"], (seconds["cold"], seconds["warm"])


def write_plain(folder: Path, site: Path) -> Path:
    """Pages of the finished HTML for the stock theme; gives their `mkdocs.yml`."""
    docs = folder / "docs"
    docs.mkdir(parents=True)
    for path in sorted(site.glob("modules/*.html")):
        article = re.search(r"<article[^>]*>(.*)</article>", read_whole(path), re.DOTALL)
        if article is None:
            raise ValueError(f"no article in {path}")
        html = re.sub(r"\n\s*\n", "\n", article[1])  # a blank line would end a block of HTML in Markdown
        (docs / f"{path.stem}.md").write_text(f"# {path.stem}\n\n<div>{html}</div>\n", encoding="utf-8")
    (docs / "index.md").write_text("# Start\n", encoding="utf-8")
    (folder / "mkdocs.yml").write_text(_PLAIN, encoding="utf-8")
    return folder / "mkdocs.yml"


def build(config: Path, site: Path) -> Cost:
    """Build once, in a process that tells what it and its children took."""
    command = [sys.executable, "-c", _TELL, "-q", "-f", str(config), "-d", str(site)]
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    done = subprocess.run(command, check=True, env=environment, capture_output=True, text=True)
    seconds, memory = map(float, done.stdout.split()[-2:])
    return Cost(seconds, memory / 1024)


_TELL = """\
import resource, sys
from mkdocs.__main__ import cli
try:
    cli(["build", *sys.argv[1:]])
finally:
    used = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    print(sum(u.ru_utime + u.ru_stime for u in used), max(u.ru_maxrss for u in used))
"""
