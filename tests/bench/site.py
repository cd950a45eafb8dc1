"""Building a course, beside building plain pages of the same finished HTML with the stock theme.

Both are built by MkDocs in a process of their own, in turns, and compared by processor time. The lessons are those of
the course that ships, each several times under another name: realistic in length, examples and practice.
"""

from __future__ import annotations

import os
import re
import resource
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from statistics import median

from tests.bench.measure import Table
from tests.support import ROOT

COPIES = (2, 6)
ROUNDS = 3
_PLAIN = "site_name: Plain\ntheme:\n  name: material\nuse_directory_urls: false\nplugins: [search]\n"


def run() -> list[Table]:
    """Measure builds of a smaller and of a larger course."""
    with tempfile.TemporaryDirectory() as folder:
        rows = [measure_course(Path(folder) / str(copies), copies) for copies in COPIES]
    heads = ["lessons", "ours, s", "plain, s", "ratio", "our share, ms a lesson", "HTML, MB"]
    return [Table("Build: a course, beside plain pages of the same HTML in the stock theme", heads, rows)]


def measure_course(folder: Path, copies: int) -> list[str]:
    """One row: a course of `copies` times the lessons that ship."""
    course = write_course(folder / "course", copies)
    build(course, folder / "site")
    plain, lessons, size = write_plain(folder / "plain", folder / "site")
    times: dict[str, list[float]] = {"ours": [], "plain": []}
    for _ in range(ROUNDS):
        times["ours"].append(build(course, folder / "site"))
        times["plain"].append(build(plain, folder / "plain-site"))
    ours, theirs = median(times["ours"]), median(times["plain"])
    share = 1000 * (ours - theirs) / lessons
    return [str(lessons), f"{ours:.2f}", f"{theirs:.2f}", f"{ours / theirs:.2f}", f"{share:.0f}", f"{size / 1e6:.1f}"]


def write_course(folder: Path, copies: int) -> Path:
    """The course that ships with each lesson `copies` times; gives its `mkdocs.yml`."""
    shutil.copytree(ROOT / "content", folder / "content")
    modules = folder / "content" / "modules"
    names = []
    for path in sorted(modules.glob("*.lesson.yml")):
        number, _, lesson = path.name.removesuffix(".lesson.yml").partition("-")
        names.append(lesson)
        for copy in range(2, copies + 1):
            text = path.read_text(encoding="utf-8")
            (modules / f"{number}-{lesson}-{copy}.lesson.yml").write_text(text, encoding="utf-8")
    course = folder / "content" / "course.yml"
    listed = "".join(f"  - {name}-{copy}\n" for copy in range(2, copies + 1) for name in names)
    text = course.read_text(encoding="utf-8")
    course.write_text(re.sub(r"(?m)^modules:\n((?:  .*\n)+)", rf"modules:\n\1{listed}", text), encoding="utf-8")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    return folder / "mkdocs.yml"


def write_plain(folder: Path, site: Path) -> tuple[Path, int, int]:
    """Pages of the finished HTML for the stock theme; gives their `mkdocs.yml`, their number, their size in bytes."""
    docs = folder / "docs"
    docs.mkdir(parents=True)
    size = 0
    lessons = sorted(site.glob("modules/*.html"))
    for path in lessons:
        article = re.search(r"<article[^>]*>(.*)</article>", path.read_text(encoding="utf-8"), re.DOTALL)
        if article is None:
            raise ValueError(f"no article in {path}")
        html = re.sub(r"\n\s*\n", "\n", article[1])  # a blank line would end a block of HTML in Markdown
        (docs / f"{path.stem}.md").write_text(f"# {path.stem}\n\n<div>{html}</div>\n", encoding="utf-8")
        size += len(html.encode())
    (docs / "index.md").write_text("# Start\n", encoding="utf-8")
    (folder / "mkdocs.yml").write_text(_PLAIN, encoding="utf-8")
    return folder / "mkdocs.yml", len(lessons), size


def build(config: Path, site: Path) -> float:
    """Build once; gives the processor time in seconds that it took."""
    command = [sys.executable, "-m", "mkdocs", "build", "-q", "-f", str(config), "-d", str(site)]
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, check=True, env={**os.environ, "NO_MKDOCS_2_WARNING": "1"}, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
