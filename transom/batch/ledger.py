"""Rows already judged, one line of JSON each, behind a head that says by what: what a killed run left is taken up.

A line is written in one go and never changed. The last one may be torn; it is cut off, and its row judged again.
A row counts as done where its number and its id are the same.
"""

import json
import os
from array import array
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, BinaryIO

from transom.batch.work import Cells
from transom.errors import JobError
from transom.job.files import why
from transom.job.locks import try_lock, unlock

NOT_THERE = -1
Head = Mapping[str, Any]


def place_of(results: Path) -> Path:
    """The ledger of a table of results, beside it."""
    return results.with_name(f"{results.name}.unfinished")


class Ledger:
    """The open ledger. Memory: sixteen bytes a row."""

    def __init__(self, path: Path, head: Head, go_on: bool) -> None:
        """Open it and take it up, or begin anew.

        Raises:
            JobError: it cannot be written, another process writes it, or it was begun otherwise.
        """
        self.path = path
        self._at, self._ids = array("q"), array("Q")
        try:
            self._file: BinaryIO = os.fdopen(
                os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o666), "r+b"
            )
        except OSError as error:
            raise JobError(f"{path}: cannot be written ({why(error)}). Choose another place for RESULTS.") from None
        try:
            self._begin(head, go_on)
        except BaseException:
            self._file.close()
            raise

    def _begin(self, head: Head, go_on: bool) -> None:
        if not try_lock(self._file.fileno()):
            raise JobError(
                f"{self.path}: another `transom batch` is writing it. Wait for it, or choose another RESULTS."
            )
        end = self._taken_up(head) if go_on else 0
        self._file.truncate(end)
        self._file.seek(end)
        if not end:
            self._write(head)

    def _taken_up(self, head: Head) -> int:
        """Where the whole lines end."""
        self._file.seek(0)
        first = _whole(self._file.readline())
        if first is None:
            return 0
        if first != json.loads(json.dumps(head)):
            raise JobError(f"{self.path}: was begun with other options, columns or another version. Repeat those, or start"
                           " anew with --force.")  # fmt: skip
        end = self._file.tell()
        for line in self._file:
            cells = _whole(line)
            if cells is not None:
                self._note(cells, end)
            elif not line.endswith(b"\n"):
                break
            end += len(line)
        return end

    def _note(self, cells: Cells, at: int) -> None:
        number = int(str(cells["row"]))
        more = number + 1 - len(self._at)
        self._at.extend([NOT_THERE] * more)
        self._ids.extend([0] * more)
        self._at[number], self._ids[number] = at, int(str(cells["id"]), 16)

    def has(self, number: int, row_id: str) -> bool:
        """Whether the row is done."""
        return number < len(self._at) and self._at[number] != NOT_THERE and self._ids[number] == int(row_id, 16)

    @property
    def empty(self) -> bool:
        """Whether no row is done."""
        return not self._at

    def add(self, cells: Cells) -> None:
        """Keep one more row. Raises JobError where the disk does not take it."""
        self._note(cells, self._file.seek(0, os.SEEK_END))
        self._write(cells)

    def _write(self, cells: Mapping[str, Any]) -> None:
        try:
            self._file.write(json.dumps(cells, allow_nan=False).encode("ascii") + b"\n")
            self._file.flush()
        except OSError as error:
            raise JobError(f"{self.path}: cannot be written ({why(error)}). Make room, then --go-on.") from None

    def rows(self, most: int) -> Iterator[Cells]:
        """Rows 1 to `most` in their order. Raises LookupError where one is missing."""
        for number in range(1, most + 1):
            if number >= len(self._at) or self._at[number] == NOT_THERE:
                raise LookupError(f"row {number} was never judged")
            self._file.seek(self._at[number])
            yield json.loads(self._file.readline())

    def close(self, done: bool = False) -> None:
        """Let it go; `done` takes it off the disk."""
        unlock(self._file.fileno())
        self._file.close()
        if done:
            self.path.unlink(missing_ok=True)


def _whole(line: bytes) -> Any:
    """What a line holds, or None where it is torn."""
    if not line.endswith(b"\n"):
        return None
    try:
        found = json.loads(line)
    except ValueError:
        return None
    return found if isinstance(found, dict) else None
