"""A table of jobs, CSV: a row a job, columns named by the job's keys; an empty cell leaves the base job's value."""

import csv
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path
from typing import Any

from transom.batch.keyed import Changes, keys_of, value
from transom.errors import JobError
from transom.frozen import dataclass
from transom.job.files import why
from transom.job.keys import Key


@dataclass(frozen=True)
class Line:
    """One row of the table: the line it ends on, its changes, its cells as typed, and what is wrong with it."""

    number: int
    changes: Changes = ()
    said: tuple[tuple[str, str], ...] = ()
    faults: tuple[str, ...] = ()


@dataclass(frozen=True)
class Table:
    """A CSV file read row by row, each time anew. `several` are keys varied besides, which it may not state too."""

    path: Path
    several: tuple[str, ...] = ()

    @cached_property
    def keys(self) -> dict[str, Key]:
        """Its columns.

        Raises:
            JobError: it cannot be read, or a column is no key; one line each.
        """
        with self._opened() as lines:
            header = [cell.strip() for cell in next(lines, [])]
        if not any(header):
            raise JobError(f"{self.path}: no header. The first line names the columns: engine.power,board.width")
        if len(header) == 1 and any(c in header[0] for c in ";\t"):
            raise JobError(f"{self.path}: columns are not parted by commas. Save it as CSV with commas.")
        keys = keys_of(header, f"{self.path}: column")
        twice = [
            f"{self.path}: column {name}: --vary states it too. Leave one out."
            for name in header
            if name in self.several
        ]
        if twice:
            raise JobError(*twice)
        return keys

    def lines(self) -> Iterator[Line]:
        """Its rows; those without any cell filled are passed over.

        Raises:
            JobError: what is behind a certain line cannot be read.
        """
        with self._opened() as lines:
            next(lines, None)
            for cells in lines:
                if any(cell.strip() for cell in cells):
                    yield self._line(lines.line_num, cells)

    def _line(self, number: int, cells: Sequence[str]) -> Line:
        said = tuple((name, cell.strip()) for name, cell in zip(self.keys, cells, strict=False))
        if len(cells) != len(self.keys):
            fault = f"line {number}: {len(cells)} cells under {len(self.keys)} columns. Put a text with a comma in double quotes."
            return Line(number, said=said, faults=(fault,))
        return Line(number, tuple((name, value(self.keys[name], cell)) for name, cell in said if cell), said)

    @contextmanager
    def _opened(self) -> Iterator[Any]:
        try:
            with self.path.open(encoding="utf-8-sig", newline="") as file:
                lines = csv.reader(file, strict=False)
                try:
                    yield lines
                except (csv.Error, UnicodeDecodeError) as error:
                    where = f"{self.path}, line {lines.line_num + 1}"
                    raise JobError(f"{where}: cannot be read ({error}). Save it as CSV, UTF-8, with commas.") from None
        except OSError as error:
            raise JobError(f"{self.path}: cannot be read ({why(error)}). Name a folder, a .csv, or one job.") from None
