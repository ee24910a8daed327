"""Rows judged by processes of this machine: a few in flight, in any order; what a killed process held is judged again."""

import multiprocessing
import os
import signal
import sys
import threading
from collections import Counter, deque
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager

from transom.batch.rows import Row
from transom.batch.work import Cells
from transom.running import quick

AHEAD = 2  # rows waiting for each process
TWICE = 2  # deaths of a process with one row alone in flight: then it is the row
THREADS = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
Task = Callable[[Row], Cells]


def cores() -> int:
    """How many this process may use."""
    if sys.platform == "linux":
        return len(os.sched_getaffinity(0))
    return min(os.cpu_count() or 1, 60)  # Windows waits for no more than that


def by_processes(rows: Iterable[Row], task: Task, dead: Callable[[Row], Cells], workers: int) -> Iterator[Cells]:
    """The cells of every row as they come; `dead` gives those of a row that twice took its process with it."""
    waiting, suspects, deaths = iter(rows), deque[Row](), Counter[int]()
    while True:
        # One at a time after a death, so that the row whose process dies is known.
        alone = bool(suspects)
        with _crew(1 if alone else workers) as crew:
            lost = yield from _until_a_death(
                crew, _popped(suspects) if alone else waiting, task, 1 if alone else workers * (1 + AHEAD)
            )
        if not lost and not alone:
            return
        deaths.update(row.number for row in lost if alone)
        suspects.extend(row for row in lost if deaths[row.number] < TWICE)
        yield from (dead(row) for row in lost if deaths[row.number] >= TWICE)


def _until_a_death(
    crew: ProcessPoolExecutor, source: Iterator[Row], task: Task, most: int
) -> Generator[Cells, None, list[Row]]:
    """Cells as they come, until the source is dry or a process dies; returns the rows then in flight."""
    held: dict[Future[Cells], Row] = {}
    try:
        while True:
            while len(held) < most and (row := next(source, None)) is not None:
                held[_handed(crew, task, row)] = row
            if not held:
                return []
            # With a time to it, so that Windows lets an interrupt through.
            for future in wait(held, timeout=1.0, return_when=FIRST_COMPLETED).done:
                cells = future.result()
                del held[future]
                yield cells
    except BrokenProcessPool:
        return list(held.values())


def _handed(crew: ProcessPoolExecutor, task: Task, row: Row) -> Future[Cells]:
    """The row in flight; where the crew is already broken, a future that says so, so that the row is not lost."""
    try:
        with _deaf():
            return crew.submit(task, row)
    except BrokenProcessPool as error:
        broken: Future[Cells] = Future()
        broken.set_exception(error)
        return broken


def _popped(rows: deque[Row]) -> Iterator[Row]:
    while rows:
        yield rows.popleft()


@contextmanager
def _crew(workers: int) -> Iterator[ProcessPoolExecutor]:
    """Processes of our own, each with one thread of linear algebra; gone at the end, whatever ends it."""
    others = set(multiprocessing.active_children())
    before = {name: os.environ.get(name) for name in THREADS}
    os.environ |= dict.fromkeys(THREADS, "1")
    crew = ProcessPoolExecutor(workers, multiprocessing.get_context("spawn"), initializer=_begin)
    try:
        yield crew
    except BaseException:
        for process in set(multiprocessing.active_children()) - others:
            process.kill()
        raise
    finally:
        crew.shutdown(wait=True, cancel_futures=True)
        for name, value in before.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value


@contextmanager
def _deaf() -> Iterator[None]:
    """Processes started within do not hear Ctrl-C from their first moment: it is this one that ends them.

    Blocked, not ignored: one that comes meanwhile is heard here right after. Windows cannot, and shows a child's complaint.
    """
    if sys.platform == "win32":
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin() -> None:
    """In a new process: quick, deaf to Ctrl-C, and gone when its parent is, however that ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    quick()
    threading.Thread(target=_gone_with_parent, daemon=True).start()


def _gone_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
