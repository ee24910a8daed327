"""What is to be judged, one row after the other, from a folder, a table or one job; never a list of all."""

import hashlib
import json
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cached_property
from itertools import count
from pathlib import Path
from typing import Any

from transom.batch.cells import Table
from transom.batch.keyed import Changes, changed
from transom.batch.vary import Varied, combinations, grid
from transom.errors import JobError
from transom.frozen import dataclass
from transom.job.files import NOT_JOBS, looks_like_job, text_of
from transom.job.read import SHOP_FILE, of_tables, plain
from transom.job.records import Job
from transom.job.syntax import parse

_NAMES_SHOP = re.compile(r"\bshop[ \t\"']*=")


@dataclass(frozen=True)
class Row:
    """One job to judge, with all that it is read from, so that any machine can.

    `text` is the job's file, or the one that `changes` are made to; `shop` name and text of the shop's file
    beside it. `said` are the cells to print: what a table or `--vary` stated. `faults` is why it was not read.
    """

    number: int  # from 1
    job: str
    text: str
    shop: tuple[str, str] | None = None
    changes: Changes = ()
    said: tuple[tuple[str, str], ...] = ()
    faults: tuple[str, ...] = ()

    @cached_property
    def id(self) -> str:
        """Sixteen figures that stand for what is judged: the same for the same job, wherever it lies."""
        content = [self.text, self.shop, self.changes, self.faults]
        return hashlib.sha256(json.dumps(content, default=str).encode()).hexdigest()[:16]

    def read(self) -> Job:
        """The job. Raises JobError with every fault."""
        if self.faults:
            raise JobError(*self.faults)
        whole = changed(parse(plain(self.text)), self.changes)
        sha256 = hashlib.sha256((self.text if not self.changes else self.id).encode("utf-8", "surrogatepass"))
        return of_tables(whole, sha256.hexdigest(), self._beside)

    def _beside(self, name: str) -> str | None:
        return self.shop[1] if self.shop is not None and name == self.shop[0] else None


@dataclass(frozen=True)
class Jobs:
    """Where rows come from: files of jobs, or the lines of a table over one job; each in every combination varied."""

    files: tuple[Path, ...] = ()
    table: Table | None = None
    base: Path | None = None
    several: tuple[Varied, ...] = ()

    @property
    def said(self) -> tuple[str, ...]:
        """The columns of what is stated row by row."""
        return (*(self.table.keys if self.table else ()), *(v.path for v in self.several))

    @property
    def reads(self) -> tuple[Path, ...]:
        """The files that hold jobs; a shop's file may lie beside each."""
        return (*self.files, *((self.table.path,) if self.table else ()), *((self.base,) if self.base else ()))

    @property
    def total(self) -> int | None:
        """How many rows there are; None where only reading the table to its end tells."""
        return None if self.table else len(self.files) * combinations(self.several)

    def rows(self) -> Iterator[Row]:
        """Every row, numbered from 1."""
        number = count(1)
        for row in self._bare():
            for changes, texts in grid(self.several):
                said = (*row.said, *zip((v.path for v in self.several), texts, strict=True))
                yield replace(row, number=next(number), changes=(*row.changes, *changes), said=said)

    def _bare(self) -> Iterator[Row]:
        """Rows before anything is varied."""
        if self.table is None:
            yield from (_of_file(path) for path in self.files)
            return
        base = _of_file(self.base) if self.base else replace(Row(0, "", ""), shop=_shop("", self.table.path.parent))
        for line in self.table.lines():
            yield replace(base, job=f"{self.table.path.name}:{line.number}", changes=line.changes, said=line.said,
                          faults=line.faults)  # fmt: skip


def _of_file(path: Path) -> Row:
    """A job's file with what lies beside it; what cannot be read is the row's fault."""
    try:
        text = text_of(path)
        return Row(0, path.name, text, _shop(text, path.parent))
    except JobError as error:
        return Row(0, path.name, "", faults=error.faults)


def _shop(text: str, folder: Path) -> tuple[str, str] | None:
    """The shop's file that a job's text names or that lies beside it; the reader says where it is missing."""
    name = _named(text) if _NAMES_SHOP.search(text) else SHOP_FILE
    try:
        there = (folder / name).is_file()
    except (OSError, ValueError):  # no name a file can have
        return None
    return (name, text_of(folder / name)) if there else None


def _named(text: str) -> str:
    try:
        head: Any = parse(plain(text)).get("job")
    except JobError:  # told when the row is read
        return SHOP_FILE
    named = head.get("shop") if isinstance(head, Mapping) else None
    return named if isinstance(named, str) and named.isprintable() and named else SHOP_FILE


def found(jobs: Path, base: Path | None, several: Iterable[Varied]) -> tuple[Jobs, tuple[str, ...]]:
    """The jobs at a place, and what was passed over there, a line each.

    Raises:
        JobError: there are none, or the table's columns are no keys of a job.
    """
    several = tuple(several)
    if base is not None and jobs.suffix.lower() != ".csv":
        raise JobError(f"--base {base}: only a table (.csv) takes it; {jobs} holds whole jobs. Leave it out.")
    if jobs.is_dir():
        named = [p for p in sorted(jobs.glob("*.toml")) if not (p.name.startswith(".") or p.name.lower() in NOT_JOBS)]
        here = tuple(p for p in named if looks_like_job(p))
        others = sorted(set(named) - set(here))
        if not here:
            raise JobError(f"{jobs}: no job file in it. Name the folder of the jobs, a .csv, or one job.")
        return Jobs(here, several=several), tuple(f"{p}: passed over, has no [boat] and [engine]" for p in others)
    if jobs.suffix.lower() == ".csv":
        if base is not None:
            text_of(base)
        table = Table(jobs, several=tuple(v.path for v in several))
        if not table.keys:  # read now, so that its faults are told before any work
            raise JobError(f"{jobs}: no columns.")
        return Jobs(table=table, base=base, several=several), ()
    text_of(jobs)
    return Jobs((jobs,), several=several), ()
