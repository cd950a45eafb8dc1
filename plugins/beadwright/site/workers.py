"""The same work on many things, on all cores where that is faster."""

from __future__ import annotations

import gc
import multiprocessing
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TypeVar

T = TypeVar("T")
R = TypeVar("R")

FEWEST_FORKED = 4
"""From so many things on, processes that share what is loaded already are faster than one."""
FEWEST_SPAWNED = 12
"""The same for processes that have to load everything anew, which takes one about as long as three lessons."""


def run_all(
    work: Callable[[T], R], things: Sequence[T], *, most: int | None = None, load: Callable[[], object] = lambda: None
) -> Iterator[R]:
    """What `work` gives for each of `things`, in their order, on `most` processes (as many as there are cores).

    `load` reads what all of them need; it is called once, where they share what is loaded. Raises what `work` raises.
    `work` and what it gives have to be values that can be pickled. A process that is ended from outside costs time
    alone: what is left is done here.
    """
    way = "fork" if _can_fork() else "spawn"
    fewest = FEWEST_FORKED if way == "fork" else FEWEST_SPAWNED
    count = min(most or _count_cores(), len(things))
    if count < 2 or len(things) < fewest:
        with _keep_loaded():
            yield from map(work, things)
        return
    if way == "fork":
        load()
    done = 0
    context: Any = multiprocessing.get_context(way)
    try:
        with ProcessPoolExecutor(count, mp_context=context, initializer=_begin, initargs=(work,)) as pool:
            for result in pool.map(_work, things):
                done += 1
                yield result
    except BrokenProcessPool:
        yield from map(work, things[done:])


@contextmanager
def _keep_loaded() -> Iterator[None]:
    """Look for no garbage among what is loaded by now.

    The work makes so much that all of it would be looked through again and again, a tenth of the time.
    """
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


def _count_cores() -> int:
    """The cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _can_fork() -> bool:
    """Whether this is Linux and this process has one thread: a lock that another one holds would be held for ever."""
    threads = Path("/proc/self/task")
    return sys.platform == "linux" and threads.is_dir() and len(list(threads.iterdir())) == 1


_given: list[Callable[[Any], Any]] = []


def _begin(work: Callable[[Any], Any]) -> None:
    gc.freeze()  # as `_keep_loaded`, until the process ends
    _given[:] = [work]


def _work(thing: Any) -> Any:
    return _given[0](thing)
