"""The same rows on a Dask cluster: its workers get all that a row is read from, and need transom alone."""

import logging
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import CancelledError
from contextlib import contextmanager
from typing import Any

from transom import __version__
from transom.batch.pool import AHEAD, Task
from transom.batch.rows import Row
from transom.batch.work import Cells
from transom.errors import JobError

PATIENCE = 30.0  # s for a scheduler to answer and for a first worker


def by_cluster(rows: Iterable[Row], task: Task, dead: Callable[[Row], Cells], address: str) -> Iterator[Cells]:
    """The cells of every row as they come; a row whose worker dies goes to another one, up to the scheduler's patience.

    Raises:
        JobError: no scheduler, no worker, or one without this version of transom.
    """
    with _client(address) as client:
        try:
            yield from _all(client, rows, task, dead)
        except (CancelledError, OSError, TimeoutError):
            says = "the scheduler is gone. What is done is kept: --go-on takes it up."
            raise JobError(f"--cluster {address}: {says}") from None


def _all(client: Any, rows: Iterable[Row], task: Task, dead: Callable[[Row], Cells]) -> Iterator[Cells]:
    from distributed import KilledWorker, as_completed

    waiting, held, coming = iter(rows), dict[str, Row](), as_completed(loop=client.loop, raise_errors=False)
    most = _room(client)

    def fill() -> None:
        while len(held) < most and (row := next(waiting, None)) is not None:
            future = client.submit(task, row, pure=False)
            held[future.key] = row
            coming.add(future)

    fill()
    for future in coming:
        row = held.pop(future.key)
        try:
            cells = future.result()
        except KilledWorker:
            cells = dead(row)
        future.release()
        yield cells
        most = _room(client) if row.number % 100 == 0 else most  # workers come and go
        fill()


def _room(client: Any) -> int:
    """How many rows to have in flight: a few for each thread of the workers there are."""
    threads: dict[str, int] = client.nthreads()
    return max(4, (1 + AHEAD) * sum(threads.values()))


@contextmanager
def _client(address: str) -> Iterator[Any]:
    try:
        from distributed import Client
    except ImportError:
        raise JobError('--cluster: Dask is not installed here. pip install "transom[cluster]"') from None
    for name in [n for n in logging.root.manager.loggerDict if n.split(".")[0] == "distributed"]:
        logging.getLogger(name).setLevel(logging.CRITICAL)  # what goes wrong is told in a line of our own
    try:
        client = Client(address, timeout=PATIENCE, set_as_default=False)
    except (OSError, ValueError, TimeoutError) as error:
        says = " ".join(str(error).split())[:100]
        raise JobError(f"--cluster {address}: no scheduler answers ({says}). Start one: dask scheduler") from None
    try:
        check(client, address)
        yield client
    finally:
        client.close()


def check(client: Any, address: str) -> None:
    """See that there are workers, and that they have this very version."""
    try:
        client.wait_for_workers(1, timeout=PATIENCE)
    except TimeoutError:
        raise JobError(f"--cluster {address}: has no workers. Start some: dask worker {address} --nthreads 1") from None
    versions: dict[str, Any] = client.run(_version, on_error="return")
    others = {w: v for w, v in versions.items() if v != __version__}
    if others:
        raise JobError(*(f"--cluster {address}: worker {w} has {_said(v)}, this is transom {__version__}. Install it there."
                         for w, v in sorted(others.items())))  # fmt: skip


def _version() -> str:
    """Where it runs."""
    from transom import __version__ as there

    return there


def _said(version: Any) -> str:
    return f"transom {version}" if isinstance(version, str) else "no transom"
