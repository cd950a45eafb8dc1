"""The same work on many things: in their order, with errors raised, and a process that is ended costs time alone."""

import gc
import os
import signal
from functools import partial
from pathlib import Path

import pytest

from beadwright.site import workers
from beadwright.site.workers import run_all


def double(number: int) -> int:
    return 2 * number


def refuse_seven(number: int) -> int:
    if number == 7:
        raise ValueError("seven")
    return number


def die_once(mark: Path, number: int) -> int:
    """Ends its own process at the number 5, the first time."""
    if number == 5 and not mark.exists():
        mark.write_text("ended", encoding="utf-8")
        os.kill(os.getpid(), signal.SIGKILL)
    return 2 * number


def name_process(_: int) -> int:
    return os.getpid()


def count_frozen(_: int) -> int:
    return gc.get_freeze_count()


@pytest.mark.parametrize("forks", [True, False])
@pytest.mark.parametrize("count", [0, 1, 3, 20])
def test_results_come_in_order(monkeypatch: pytest.MonkeyPatch, count: int, forks: bool) -> None:
    monkeypatch.setattr(workers, "_can_fork", lambda: forks)
    assert list(run_all(double, range(count), most=2)) == [2 * number for number in range(count)]


def test_few_things_are_done_here_and_many_elsewhere() -> None:
    assert set(run_all(name_process, range(3), most=2)) == {os.getpid()}
    assert set(run_all(name_process, range(20), most=1)) == {os.getpid()}
    assert os.getpid() not in set(run_all(name_process, range(20), most=2))


def test_what_is_loaded_is_left_alone_by_the_collector_meanwhile() -> None:
    assert min(run_all(count_frozen, range(3), most=1)) > 10_000
    assert min(run_all(count_frozen, range(20), most=2)) > 10_000
    assert gc.get_freeze_count() == 0


def test_an_error_is_raised() -> None:
    with pytest.raises(ValueError, match="seven"):
        list(run_all(refuse_seven, range(20), most=2))


def test_a_process_that_is_ended_costs_time_alone(tmp_path: Path) -> None:
    mark = tmp_path / "mark"
    assert list(run_all(partial(die_once, mark), range(20), most=2)) == [2 * number for number in range(20)]
    assert mark.exists()
