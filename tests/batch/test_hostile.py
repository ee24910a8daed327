"""Words that mean something to whoever reads them next, through tables of jobs, names of files and of results: words they stay."""

import csv
import io
import json
import os
import sys
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

import pytest

from tests.batch.jobs import BASE, read_csv, read_jsonl
from tests.fuzz.corpus import HOSTILE
from tests.fuzz.mutants import quoted
from transom.batch.pool import Task
from transom.batch.rows import Row, found
from transom.batch.run import Outcome, Plan, run
from transom.batch.vary import varied
from transom.batch.work import Cells, How
from transom.cli.main import main
from transom.errors import JobError

NAMES = tuple(h for h in HOSTILE if not set(h) & set("/\x00") and 0 < len(h.encode("utf-8", "surrogatepass")) < 200)
# What a job's text may hold: it is read, and stands in the row.
SHOWN = tuple(h for h in HOSTILE if h.isprintable() and 2 < len(h) < 90)
FEW = 3  # are judged: the others differ in words alone


def here(rows: Iterable[Row], task: Task, dead: Callable[[Row], Cells]) -> Iterator[Cells]:
    """Every row in this process."""
    return map(task, rows)


def ran(jobs: Path, out: Path, base: Path | None = None) -> Outcome:
    source, _ = found(jobs, base, ())
    return run(Plan(source, out, How("material", careful=False)), here, lambda done, kept: None)


def as_table(folder: Path, rows: list[tuple[str, ...]]) -> Path:
    text = io.StringIO()
    csv.writer(text).writerows([("engine.power", "job.name", "stock.sheets", "boat.kind"), *rows])
    path = folder / "jobs.csv"
    path.write_text(text.getvalue(), encoding="utf-8", newline="")
    return path


@pytest.fixture(scope="module")
def results(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """What is made of a table whose cells are hostile, and of a folder whose files' names are, by name."""
    folder = tmp_path_factory.mktemp("hostile")
    base = folder / "base.toml"
    base.write_text(BASE, encoding="utf-8")
    cells = [h for h in HOSTILE if "\x00" not in h and h.encode("utf-8", "ignore").decode() == h]
    rows = [("40 hp", h, "3/4 in", "pontoon") for h in SHOWN[:FEW]] + [(h, h, h, h) for h in cells]
    table, many = as_table(folder, rows), folder / "many"
    many.mkdir()
    for i, name in enumerate(NAMES):
        text = BASE.replace("40 hp", "forty" if i else "40 hp").replace('"=SUM(A1), river pontoon"', quoted("<b>=1+1"))
        (many / f"{name}.toml").write_text(text, encoding="utf-8")
    if sys.platform == "linux":
        Path(os.fsdecode(os.fsencode(many) + b"/\xff\x1b[2J.toml")).write_text(BASE, encoding="utf-8")
    for ending in ("csv", "jsonl"):
        assert ran(table, folder / f"table.{ending}", base).code == 2
        assert ran(many, folder / f"\x1b[2J many.{ending}").code == 2
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file() and p not in (base, table)}


def test_no_cell_is_a_formula_or_turns_a_terminal(results: dict[str, bytes]) -> None:
    files = [v.decode("utf-8") for k, v in results.items() if k.endswith(".csv")]
    assert len(files) == 2
    for text in files:
        rows = list(csv.reader(io.StringIO(text, newline="")))
        assert len({len(row) for row in rows}) == 1
        for cell in (cell for row in rows for cell in row):
            assert not cell.startswith(("=", "+", "@", "-", "\t", "\r")), cell
            assert cell.isprintable()
    assert any("'=1+1" in text for text in files)
    assert any(r"\x1b[2J" in text for text in files)


def test_a_row_a_job_whatever_it_is_called_and_the_words_as_they_were_in_json(results: dict[str, bytes]) -> None:
    lines = [json.loads(line) for line in results["\x1b[2J many.jsonl"].splitlines()]
    assert {f"{name}.toml" for name in NAMES if not name.startswith(".")} <= {line["job"] for line in lines}
    said = [json.loads(line) for line in results["table.jsonl"].splitlines()]
    assert [line["job.name"] for line in said[:FEW]] == [h.strip() for h in SHOWN[:FEW]]
    assert all(line.isascii() for name, v in results.items() if name.endswith(".jsonl") for line in v.splitlines())


def test_faults_are_lines_and_the_note_beside_turns_no_terminal(results: dict[str, bytes]) -> None:
    notes = [v.decode("utf-8") for k, v in results.items() if k.endswith(".txt")]
    assert len(notes) == 4
    assert all(c == "\n" or c.isprintable() for note in notes for c in note)
    lines = [json.loads(line) for name, v in results.items() if name.endswith(".jsonl") for line in v.splitlines()]
    refused = [line for line in lines if line["exit"] == 2]
    assert len(refused) > 100
    assert all(line["faults"] and line["faults"].isprintable() for line in refused)


@pytest.mark.parametrize("words", HOSTILE)
def test_what_is_varied_is_read_or_refused_in_lines(words: str) -> None:
    for option in (f"job.name={words}", f"engine.power={words}", f"{words}=40 hp", words):
        faults: tuple[str, ...] = ()
        try:
            varied([option])
        except JobError as error:
            faults = error.faults
        assert all(fault.isprintable() and len(fault) < 400 for fault in faults)


@pytest.mark.parametrize(
    "header", ["\x1b[2J,=1+1", "engine.power,\x00", "<script>", "job.name\x85engine.power", "\ufeff\ufeffjob.name"]
)
def test_a_header_is_refused_in_lines(header: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table = tmp_path / "a\x1b[2J\nb.csv"
    table.write_text(f"{header}\n40 hp,x\n", encoding="utf-8")
    assert main(["batch", str(table), "--out", str(tmp_path / "=out\x1b[2J.csv"), "--workers", "1"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert all(c == "\n" or c.isprintable() for c in err)
    assert [p.name for p in tmp_path.iterdir()] == [table.name]


def test_the_readers_of_the_other_tests_read_these_too(results: dict[str, bytes], tmp_path: Path) -> None:
    for name, read in (("table.csv", read_csv), ("table.jsonl", read_jsonl)):
        (tmp_path / name).write_bytes(results[name])
        assert len(read(tmp_path / name)) > FEW
