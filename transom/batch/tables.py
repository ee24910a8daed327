"""The table of results as CSV, JSON lines or Parquet: written row by row, the same rows in each."""

import csv
import io
import json
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import islice
from pathlib import Path
from typing import Any, BinaryIO

from transom.batch.columns import Cell, Column
from transom.batch.work import Cells
from transom.errors import JobError
from transom.report.text import harmless

GROUP = 1000  # rows of Parquet at once
Writer = Callable[[BinaryIO, Sequence[Column], Iterable[Cells]], None]


def writer_for(results: Path) -> Writer:
    """What writes a table of this name.

    Raises:
        JobError: its name ends in none of .csv, .jsonl and .parquet, or pyarrow is missing.
    """
    found = {".csv": to_csv, ".jsonl": to_jsonl, ".parquet": to_parquet}.get(results.suffix.lower())
    if found is None:
        raise JobError(f"--out {results}: ends in none of .csv, .jsonl and .parquet. Give it a name that does.")
    if found is to_parquet:
        try:
            import pyarrow.parquet  # noqa: F401
        except ImportError:
            raise JobError(
                f'--out {results}: pyarrow is not installed. pip install "transom[parquet]", or take .csv'
            ) from None
    return found


def to_csv(out: BinaryIO, columns: Sequence[Column], rows: Iterable[Cells]) -> None:
    """CRLF ends, quoted where needed, true and false, empty for none; a text like a formula begins with an apostrophe."""
    text = io.TextIOWrapper(out, encoding="utf-8", newline="")
    lines = csv.writer(text, lineterminator="\r\n")
    lines.writerow(harmless(c.name) for c in columns)
    for row in rows:
        lines.writerow(_cell(row.get(c.name)) for c in columns)
    text.flush()
    text.detach()


def _cell(value: Cell) -> str | int | float:
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    return harmless(value) if isinstance(value, str) else value


def to_jsonl(out: BinaryIO, columns: Sequence[Column], rows: Iterable[Cells]) -> None:
    """One object a line, ASCII, every column in each, null for none."""
    for row in rows:
        out.write(json.dumps({c.name: row.get(c.name) for c in columns}, allow_nan=False).encode("ascii") + b"\n")


def to_parquet(out: BinaryIO, columns: Sequence[Column], rows: Iterable[Cells]) -> None:
    """Columns of their kind: text, int64, double, bool."""
    import pyarrow as pa
    from pyarrow.parquet import ParquetWriter

    kinds: dict[str, Any] = {"text": pa.string(), "whole": pa.int64(), "number": pa.float64(), "flag": pa.bool_()}
    schema = pa.schema([(c.name, kinds[c.kind]) for c in columns])
    with ParquetWriter(out, schema) as file:
        for some in _groups(rows):
            file.write_table(
                pa.Table.from_pylist([{c.name: r.get(c.name) for c in columns} for r in some], schema=schema)
            )


def _groups(rows: Iterable[Cells]) -> Iterator[list[Cells]]:
    source = iter(rows)
    while some := list(islice(source, GROUP)):
        yield some
