"""What would make a mount work where this one, or all of them, fail: other stock, another bracket; each sized whole."""

from collections.abc import Iterator
from dataclasses import replace

from transom.catalogue import Catalogue
from transom.errors import TransomError
from transom.frozen import dataclass
from transom.job.records import Job, Stock
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import dual, percent
from transom.report.mounts import short_words
from transom.report.words import case_words, check_words
from transom.sizing.sizing import picked

MOST_SHEETS = 4


@dataclass(frozen=True)
class MountCure:
    """A change that was tried: what it is, and the judgement that it leads to."""

    change: str
    judgement: Judgement

    def words(self, units: str) -> str:
        """The change, and what then works with how much to spare."""
        j = self.judgement
        if j.mount is None:
            return self.change
        return (
            f"{self.change}: {short_words(j.mount, j.setup.tables, units)}{self._bolts(units)}. That works:"
            f" {show.length(j.total, units, towards='up')} in all, weakest link {percent(j.governing.utilisation)}"
            f" ({check_words(j.governing, j.job)}, {case_words(j.governing.case, j.job.cases)})"
        )

    def _bolts(self, units: str) -> str:
        mount, tables = self.judgement.mount, self.judgement.setup.tables
        if mount is None or mount.engine_bolts is None:
            return ""
        b = mount.engine_bolts
        return f"; bolts {b.thread} x {dual(b.length, units, metric=tables.thread(b.thread).system == 'metric')}"


def cures_where_nothing_works(job: Job, tables: Catalogue, rank: str = "material") -> tuple[MountCure, ...]:
    """Changes that make a board work which has none: each is sized, and only what passes its checks is told."""
    found = []
    for change, other in _changes(job):
        j = _first(other, tables, rank)
        if j is not None and not j.failing:
            found.append(MountCure(change, j))
            break
    return tuple(found)


def _first(job: Job, tables: Catalogue, rank: str) -> Judgement | None:
    """The best ranked mount that passes, judged; None where there is none. No nearest miss is looked for."""
    try:
        return picked(job, tables, rank)
    except TransomError:
        return None


def _changes(job: Job) -> Iterator[tuple[str, Job]]:
    """The smallest change first."""
    free = Stock(most_sheets=max(MOST_SHEETS, job.stock.most_sheets), measured=job.stock.measured)
    wide = replace(job, engine=replace(job.engine, takes=None))
    if job.stock != free:
        yield "with any sheet, plate and bolt in the shipped tables", replace(job, stock=free)
    if job.engine.takes is not None and job.setback is None:
        yield "if the bracket took a thicker board", wide
        yield "with other stock, if the bracket took a thicker board", replace(wide, stock=free)


def joints_alone(j: Judgement) -> bool:
    """True where only bolts of frame and pod fail, and what can be added to them cures it."""
    failing = {c.part for c in j.failing}
    cured = {a.joint for a in j.could_add if a.holds}
    return bool(failing) and failing <= cured


def cures_of_failing_mount(job: Job, tables: Catalogue) -> tuple[MountCure, ...]:
    """For a mount that fails: what the same stock would make, else what `cures_where_nothing_works` finds."""
    j = _first(job, tables, "material")
    return cures_where_nothing_works(job, tables) if j is None or j.failing else (MountCure("from your stock", j),)
