"""`--uncertainty N` and `--with-uncertainty`: how often load outgrows strength, for comparison."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from transom.chance.sampling import Uncertainty
    from transom.judge.records import Judgement

LEAST, MOST = 100, 10_000_000

Samples = Annotated[
    int | None,
    typer.Option(
        "--uncertainty", metavar="N", show_default=False,
        help="Sample N mounts and loads as they scatter: how often each link goes over, for comparison only.",
    ),
]  # fmt: skip
WithUncertainty = Annotated[
    bool, typer.Option("--with-uncertainty", help="Put what --uncertainty finds into the HTML too.")
]


def refuse(n: int | None, with_it: bool, html: Path | None) -> None:
    """Refuse what does not go together, every fault in one run.

    Raises:
        JobError: one line for each.
    """
    from transom.errors import JobError

    faults = []
    if n is not None and not LEAST <= n <= MOST:
        faults.append(f"--uncertainty {n}: from {LEAST:,} to {MOST:,} samples; 10000 sees what happens once in 1,000")
    if with_it and n is None:
        faults.append("--with-uncertainty: there is nothing to put in; add --uncertainty 10000")
    if with_it and html is None:
        faults.append("--with-uncertainty: there is no page to put it in; add --html FILE")
    if faults:
        raise JobError(*faults)


def sampled(j: "Judgement", n: int | None) -> "Uncertainty | None":
    """The samples' answer, with a bar on stderr where that is a terminal; None where nobody asked."""
    if n is None:
        return None
    from transom.chance.sampling import uncertainty

    with progress(n) as step:
        return uncertainty(j, n, progress=step)


@contextmanager
def progress(n: int) -> Iterator[Callable[[int], None] | None]:
    """What to call with each number of samples done; None where stderr is no terminal."""
    if not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("samples", total=n)
        yield lambda done: bar.advance(task, done)
