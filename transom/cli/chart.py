"""`transom chart`: thickness of wood against engine power for the job's board, panel beside panel."""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from transom.cli.jobs import Force, JobPath, apart, path_of, read

if TYPE_CHECKING:
    from transom.chart.records import Chart
    from transom.job.records import Job

Out = Annotated[
    Path | None, typer.Option("--out", metavar="FILE.svg", help="Draw the chart as SVG.", show_default=False)
]
Csv = Annotated[
    Path | None, typer.Option("--csv", metavar="FILE.csv", help="Write its points as CSV.", show_default=False)
]
Power = Annotated[
    str | None,
    typer.Option(
        "--power", metavar="RANGE", help='From and to which power, "15 to 150 hp"; left out, all that fit.',
        show_default=False,
    ),
]  # fmt: skip
Panels = Annotated[
    str | None,
    typer.Option(
        "--panels", metavar="NAMES", help="Panels to compare, commas between; left out, those in stock.",
        show_default=False,
    ),
]  # fmt: skip
AsJson = Annotated[bool, typer.Option("--json", help="Print the chart as JSON.")]
MOST_PANELS = 4


def chart(
    job: JobPath = None,
    out: Out = None,
    csv: Csv = None,
    power: Power = None,
    panels: Panels = None,
    force: Force = False,
    json: AsJson = False,
) -> None:
    """Thickness of wood against engine power, panel beside panel."""
    from transom.catalogue import SHIPPED
    from transom.chart.data import to_json
    from transom.chart.points import chart as charted
    from transom.chart.screen import chart_screen
    from transom.cli.stream import say, tell

    path = path_of(job)
    stated = read(path)
    files = list(_file_faults(path, out, csv, force))
    powers, names, left_out = _asked(stated, power, panels, files)
    with _progress(1 + len(powers) * len(names)) as done:
        c = charted(stated, SHIPPED, powers, names, left_out, done)
    tell(*_written(c, path, out, csv, force))
    say([to_json(c)] if json else chart_screen(c))


def _asked(
    job: "Job", power: str | None, panels: str | None, faults: list[str]
) -> tuple[tuple[float, ...], tuple[str, ...], tuple[str, ...]]:
    """Powers, panels and what cannot be judged of the usual powers; `faults` are those of the files.

    Raises:
        JobError: every fault of the options, one line each.
    """
    from transom.catalogue import SHIPPED
    from transom.chart.powers import judged, told, usual_powers
    from transom.errors import JobError

    names = _panels(job, panels, faults)
    wanted = usual_powers(job, SHIPPED) if power is None else _powers(power, faults)
    if faults:
        raise JobError(*faults)
    bad = judged(job, SHIPPED, wanted, names[0])
    says = told(bad, job.head.units)
    if len(bad) == len(wanted) or (bad and power is not None):
        raise JobError(*says)
    return tuple(p for p in wanted if p not in bad), names, says


def _file_faults(job: Path, out: Path | None, csv: Path | None, force: bool) -> Iterator[str]:
    from transom.errors import JobError
    from transom.job.files import free

    for path, option, ending in ((out, "--out", ".svg"), (csv, "--csv", ".csv")):
        if path is None:
            continue
        if path.suffix.lower() != ending:
            yield f"{option} {path}: has to end in {ending}; name it {path.with_suffix(ending).name}"
            continue
        try:
            apart(job, path)
            free(path, force)
        except JobError as error:
            yield from error.faults


def _panels(job: "Job", text: str | None, faults: list[str]) -> tuple[str, ...]:
    """The panels asked for, each once; what is wrong with them goes to `faults`."""
    from transom.chart.usual import panels_of
    from transom.job.faults import Fault
    from transom.job.names import in_table

    if text is None:
        return panels_of(job)[:MOST_PANELS]
    found = []
    for name in (part.strip() for part in text.split(",")):
        try:
            found.append(in_table("panels", name))
        except Fault as fault:
            faults.append(f'--panels "{name}": {fault.rule}; {fault.next_step}')
    if len(set(found)) > MOST_PANELS:
        faults.append(f"--panels: {len(set(found))} of them; at most {MOST_PANELS} can be told apart on one chart")
    return tuple(dict.fromkeys(found))


def _powers(text: str, faults: list[str]) -> tuple[float, ...]:
    """The powers to work out, W; what is wrong with the range goes to `faults`."""
    from transom.catalogue import SHIPPED
    from transom.chart.powers import asked
    from transom.quantity import QuantityError, read_range, show

    try:
        low, high = read_range(text, "power")
    except QuantityError as error:
        faults.append(f"--power: {error}")
        return ()
    most = SHIPPED.factor("scope.power_max_W").value
    if not 0 < low <= high <= most:
        faults.append(
            f'--power "{text}": out of range; more than nothing, and up to {show.power(most, "us", towards="down")}'
            f" ({show.power(most, 'si')}), which is the largest engine sized"
        )
        return ()
    return asked(low, high)


def _written(c: "Chart", path: Path, out: Path | None, csv: Path | None, force: bool) -> Iterator[str]:
    """Write what was asked for and log it; what was done, in lines."""
    from transom.chart.page import chart_svg
    from transom.chart.table import to_csv
    from transom.cli.log import log
    from transom.job.files import write_atomic

    made: Sequence[tuple[Path | None, Callable[[Chart], str]]] = ((out, chart_svg), (csv, to_csv))
    for target, written in made:
        if target is not None:
            write_atomic(target, written(c), force)
            yield f"{target}: written"
    files = [target for target, _ in made if target is not None]
    if files:
        log(c.own, path, "chart", files)


@contextmanager
def _progress(n: int) -> Iterator[Callable[[], None]]:
    """What to call after each board worked out; a bar on stderr where that is a terminal."""
    import sys

    if not sys.stderr.isatty():
        yield lambda: None
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("boards", total=n)
        yield lambda: bar.advance(task, 1)
