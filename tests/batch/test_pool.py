"""Processes: every row once however many there are, also where one of them dies."""

import os
import signal
import sys
import time
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest

from tests.batch.jobs import dead, echo, fatal, once_fatal
from transom.batch.pool import by_processes
from transom.batch.rows import Row

KILLS = pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL there")


def rows(count: int, text: str = "") -> list[Row]:
    return [Row(n, "a.toml", text) for n in range(1, count + 1)]


@pytest.mark.parametrize("workers", [1, 3])
def test_every_row_comes_back_once(workers: int) -> None:
    found = list(by_processes(rows(40), echo, dead, workers))
    assert sorted(c["row"] for c in found) == list(range(1, 41))
    assert list(by_processes([], echo, dead, workers)) == []


def test_few_rows_are_taken_from_the_source_at_once() -> None:
    taken = 0

    def counted() -> Iterator[Row]:
        nonlocal taken
        for row in rows(30):
            taken += 1
            yield row

    for done, _ in enumerate(by_processes(counted(), echo, dead, 1)):
        assert taken <= done + 4


@KILLS
def test_a_row_that_kills_its_process_twice_is_a_bad_row_and_the_others_are_done() -> None:
    found = list(by_processes(rows(9), fatal, dead, 2))
    assert sorted(c["row"] for c in found) == list(range(1, 10))
    assert [c["row"] for c in found if "faults" in c] == [3]


@KILLS
def test_a_process_killed_once_loses_nothing(tmp_path: Path) -> None:
    found = list(by_processes(rows(9, str(tmp_path / "marker")), once_fatal, dead, 2))
    assert sorted(c["row"] for c in found) == list(range(1, 10))
    assert not [c for c in found if "faults" in c]


def slow(row: Row) -> dict[str, object]:
    time.sleep(60)
    return {"row": row.number, "pid": os.getpid()}


@KILLS
def test_an_interrupt_ends_the_processes_at_once() -> None:
    began = time.monotonic()
    # A process started in a shell's background ignores interrupts.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    signal.signal(signal.SIGALRM, lambda *_: os.kill(os.getpid(), signal.SIGINT))
    signal.setitimer(signal.ITIMER_REAL, 1.0)
    try:
        with pytest.raises(KeyboardInterrupt):
            list(by_processes(rows(4), partial(slow), dead, 2))
    finally:
        signal.signal(signal.SIGINT, before)
    assert time.monotonic() - began < 20
