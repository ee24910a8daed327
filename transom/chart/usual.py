"""The job with another engine on: an engine as is usual at its power, on the same boat, board and shelf."""

from dataclasses import replace

from transom.catalogue import Catalogue
from transom.job.records import Job
from transom.job.usual import as_usual
from transom.sizing.candidates import MARINE


def usual(job: Job, tables: Catalogue, power: float, panel: str) -> Job:
    """The job at another power (W) with boards of one panel, its own mount left out.

    A panel that is not on the job's shelf comes in every sheet that is sold of it.
    """
    engine = replace(as_usual(job.engine), power=power, power_low=power)
    sheets = job.stock.sheets if on_shelf(job, tables, panel) else ()
    stock = replace(job.stock, panels=(panel,), sheets=sheets)
    return replace(job, engine=engine, stock=stock, mount=None)


def panels_of(job: Job) -> tuple[str, ...]:
    """The panels on the job's shelf, else those that the tool tries."""
    return job.stock.panels or MARINE


def on_shelf(job: Job, tables: Catalogue, panel: str) -> bool:
    """True where the job's sheets are to be gone by: they name none, or some of this panel."""
    sold = {name for row in tables.sheets_of(panel) for name in (row.name, row.nominal)}
    return not job.stock.sheets or (panel in panels_of(job) and bool(sold & set(job.stock.sheets)))
