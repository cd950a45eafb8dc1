"""Pages served while they are written: a mistake is told on every page until it is put right."""

import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from time import monotonic, sleep
from urllib.error import URLError
from urllib.request import urlopen

import pytest

from tests.support.small_course import COURSE, LESSON, write_course


@pytest.fixture
def course(tmp_path: Path) -> Path:
    return write_course(tmp_path)


@contextmanager
def serve(course: Path) -> Iterator[str]:
    """The address of a server of the course, which is ended at the end."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    server = subprocess.Popen(
        [sys.executable, "-m", "mkdocs", "serve", "-a", address],
        cwd=course,
        env={**os.environ, "NO_MKDOCS_2_WARNING": "1"},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        yield f"http://{address}/"
    finally:
        server.terminate()
        server.wait()


def wait_for(address: str, text: str, *, seconds: float = 60) -> str:
    """The page at an address once the text is on it."""
    end, page = monotonic() + seconds, ""
    while monotonic() < end:
        try:
            with urlopen(address) as answer:
                page = answer.read().decode()
        except (URLError, ConnectionError):
            page = ""
        if text in page:
            return page
        sleep(0.2)
    raise AssertionError(f"{text!r} is not on the page within {seconds} seconds:\n{page[:2000]}")


def test_a_mistake_is_told_on_the_page_and_gone_when_it_is_put_right(course: Path) -> None:
    lesson = course / "content" / "modules" / "02-two.lesson.yml"
    with serve(course) as served:
        page = f"{served}modules/two.html"
        wait_for(page, "Work 48 + 37 with care")
        lesson.write_text((LESSON % (2, "care")).replace("20 + 3", "20 +"), encoding="utf-8")
        told = wait_for(page, "Something to put right")
        assert "content/modules/02-two.lesson.yml:12:" in told
        assert "problem" in told
        wait_for(served, "Something to put right")
        lesson.write_text(LESSON % (2, "joy"), encoding="utf-8")
        assert "Something to put right" not in wait_for(page, "Work 48 + 37 with joy")
        wait_for(served, "Start")


def test_a_mistake_in_the_courses_own_file_is_told_too(course: Path) -> None:
    with serve(course) as served:
        wait_for(f"{served}modules/two.html", "Work 48 + 37 with care")
        (course / "content" / "course.yml").write_text(COURSE.replace("title:", "titel:"), encoding="utf-8")
        assert "content/course.yml:2:" in wait_for(served, "Something to put right")
        (course / "content" / "course.yml").write_text(COURSE, encoding="utf-8")
        wait_for(f"{served}modules/two.html", "Work 48 + 37 with care")


def test_a_course_that_begins_with_a_mistake_is_served_too(course: Path) -> None:
    lesson = course / "content" / "modules" / "02-two.lesson.yml"
    lesson.write_text((LESSON % (2, "care")).replace("20 + 3", "20 +"), encoding="utf-8")
    with serve(course) as served:
        assert "02-two.lesson.yml:12:" in wait_for(served, "Something to put right")
        lesson.write_text(LESSON % (2, "joy"), encoding="utf-8")
        wait_for(f"{served}modules/two.html", "Work 48 + 37 with joy")
