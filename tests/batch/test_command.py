"""`transom batch` as a shop runs it: one table whatever ends a run, however many work on it, in any of its forms."""

import math
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.batch.jobs import BASE, read_csv, read_jsonl, table
from transom.batch.columns import columns
from transom.catalogue import SHIPPED
from transom.cli.main import main
from transom.job.read import loads
from transom.judge.always import ALWAYS
from transom.report.text import harmless
from transom.sizing.sizing import size

ROOT = Path(__file__).parents[2]
GOOD, BAD = 2, 30
KILLS = pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL there")


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a table of jobs and what it gives, undisturbed: `whole.csv`."""
    folder = tmp_path_factory.mktemp("shop floor")
    table(folder, GOOD, BAD)
    assert run(folder, "whole.csv", "--workers", "1") == 2
    return folder


def run(folder: Path, out: str, *more: str) -> int:
    given = ["batch", str(folder / "jobs.csv"), "--base", str(folder / "base.toml"), "--pencil"]
    return main([*given, "--out", str(folder / out), *more])


def started(folder: Path, out: str, *more: str) -> "subprocess.Popen[str]":
    given = [
        "batch",
        str(folder / "jobs.csv"),
        "--base",
        str(folder / "base.toml"),
        "--pencil",
        "--out",
        str(folder / out),
    ]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONWARNINGS": "error"}
    return subprocess.Popen([sys.executable, "-m", "transom", *given, *more], env=environment, text=True,
                            stdout=subprocess.PIPE, stderr=subprocess.PIPE)  # fmt: skip


def test_good_and_bad_rows_stand_side_by_side(shop: Path) -> None:
    rows = read_csv(shop / "whole.csv")
    assert [int(r["row"]) for r in rows] == list(range(1, GOOD + BAD + 1))
    assert [r["job.number"] for r in rows] == [str(i) for i in range(GOOD + BAD)]
    bad = [r for r in rows if r["verdict"] == "CANNOT BE JUDGED"]
    assert len(bad) == BAD
    assert all('[engine] power = "forty"' in r["faults"] and r["exit"] == "2" and not r["passes"] for r in bad)
    good = [r for r in rows if r["exit"] != "2"]
    assert all(r["sheets"] and float(r["percent_of_limit"]) > 0 and not r["faults"] for r in good)
    assert not (shop / "whole.csv.unfinished").exists()


def test_a_row_says_what_sizing_the_job_says(shop: Path) -> None:
    row = next(r for r in read_csv(shop / "whole.csv") if r["exit"] != "2")
    text = BASE.replace("40 hp", row["engine.power"]).replace("260 lb", row["engine.weight"])
    j = size(loads(text), SHIPPED, careful=False)
    assert j.sizing is not None
    assert j.mount is not None
    assert float(row["wood_mm"]) == pytest.approx(j.wood, rel=1e-8)
    assert float(row["mass_kg"]) == pytest.approx(j.mass, rel=1e-8)
    assert row["check"] == j.governing.id
    assert float(row["percent_of_limit"]) == pytest.approx(100 * j.governing.utilisation, rel=1e-8)
    assert float(row["needs_mm"]) == max(r.thickness for r in j.sizing.required if math.isfinite(r.thickness))
    assert row["sheets"].split("; ") == [f"{x.sheet} {x.grain}" for x in j.mount.layers]
    assert int(row["candidates"]) == j.sizing.candidates
    assert row["passes"] == str(j.passes).lower()


def test_screening_says_so_in_every_row_and_is_no_paper_to_cut_from(shop: Path) -> None:
    for row in read_csv(shop / "whole.csv"):
        assert "SCREENING ONLY" in row["method"]
        assert row["paper"] in ("QUOTE", "")
        assert "plate model" not in row["cautions"]
        assert row["cautions"]
        assert row["exit"] == "2" or "before anything is quoted or cut" in row["cautions"]


def test_cautions_stand_beside_the_table_and_on_the_screen(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    note = " ".join((shop / "whole.csv.txt").read_text(encoding="utf-8").split())
    assert all(caution in note for caution in ALWAYS)
    assert all(f"{c.name} " in note for c in columns(("engine.power", "engine.weight", "job.number")))
    capsys.readouterr()
    assert run(shop, "screen.jsonl", "--workers", "2") == 2
    out, err = capsys.readouterr()
    assert all(caution in " ".join(out.split()) for caution in ALWAYS)
    assert f"{GOOD + BAD} jobs" in out
    assert "a second" in err
    assert max(map(len, out.replace(str(shop), "").splitlines())) < 80


def test_no_cell_is_a_formula_to_a_spreadsheet(shop: Path) -> None:
    rows = read_csv(shop / "whole.csv")
    assert any(r["name"] == "'=SUM(A1), river pontoon" for r in rows)
    assert not [cell for r in rows for cell in r.values() if cell.startswith(("=", "+", "@", "\t"))]


@pytest.mark.parametrize("workers", [3])
def test_any_number_of_workers_gives_the_same_bytes(shop: Path, workers: int) -> None:
    out = f"by {workers}.csv"
    assert run(shop, out, "--workers", str(workers)) == 2
    assert (shop / out).read_bytes() == (shop / "whole.csv").read_bytes()


def as_csv(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return str(value).lower()
    return harmless(value) if isinstance(value, str) else str(value)


def test_json_lines_and_parquet_hold_what_the_csv_holds(shop: Path) -> None:
    if not (shop / "screen.jsonl").exists():
        assert run(shop, "screen.jsonl", "--workers", "2") == 2
    lines, rows = read_jsonl(shop / "screen.jsonl"), read_csv(shop / "whole.csv")
    assert [{k: as_csv(v) for k, v in line.items()} for line in lines] == rows
    pq = pytest.importorskip("pyarrow.parquet")
    assert run(shop, "rows.parquet", "--workers", "2") == 2
    assert pq.read_table(shop / "rows.parquet").to_pylist() == lines


@KILLS
@pytest.mark.parametrize(
    "how, after", [(signal.SIGINT, 1), (signal.SIGKILL, 5), (signal.SIGINT, 15), (signal.SIGKILL, 25)]
)
def test_a_run_that_was_ended_is_taken_up_without_redoing_or_doubling_a_row(
    shop: Path, capsys: pytest.CaptureFixture[str], how: signal.Signals, after: int
) -> None:
    out = f"{how.name} {after}.csv"
    unfinished = shop / f"{out}.unfinished"
    process = started(shop, out, "--workers", "2")
    end = time.monotonic() + 60
    while process.poll() is None and time.monotonic() < end:
        if unfinished.exists() and unfinished.read_bytes().count(b"\n") > after:
            break
        time.sleep(0.002)
    process.send_signal(how)
    _, err = process.communicate(timeout=60)
    if process.returncode not in (130, -9):
        pytest.skip("the run was over first")
    assert "Traceback" not in err
    assert not (shop / out).exists()
    kept = unfinished.read_bytes().count(b"\n") - 1
    assert kept >= after
    capsys.readouterr()
    assert run(shop, out) == 2
    assert "--go-on" in capsys.readouterr().err
    assert run(shop, out, "--go-on", "--workers", "1") == 2
    assert (shop / out).read_bytes() == (shop / "whole.csv").read_bytes()
    assert f"{kept} of them from before" in capsys.readouterr().err
    assert not unfinished.exists()


def test_nothing_is_written_over_without_leave(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = (shop / "whole.csv").read_bytes()
    for more in ([], ["--go-on"]):
        assert run(shop, "whole.csv", *more) == 2
        out, err = capsys.readouterr()
        assert out == ""
        assert "--force" in err
    (shop / "noted.csv.txt").write_text("mine")
    assert run(shop, "noted.csv") == 2
    assert (shop / "noted.csv.txt").read_text() == "mine"
    assert (shop / "whole.csv").read_bytes() == before
    assert not list(shop.glob("*.unfinished"))


def test_a_run_taken_up_with_other_options_is_refused(shop: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (shop / "other.jsonl.unfinished").write_text('{"schema": "transom-batch-1"}\n')
    assert run(shop, "other.jsonl", "--go-on") == 2
    assert "other options" in capsys.readouterr().err


@pytest.mark.parametrize(
    "arguments",
    [["batch"], ["batch", "none", "--out", "r.csv"], ["batch", "base.toml"], ["batch", "base.toml", "--out", "r.xls"],
     ["batch", "base.toml", "--out", "none/r.csv"], ["batch", "base.toml", "--out", "r.csv", "--workers", "0"],
     ["batch", "base.toml", "--out", "r.csv", "--vary", "power=40 hp"],
     ["batch", "base.toml", "--out", "r.csv", "--base", "base.toml"],
     ["batch", "base.toml", "--out", "r.csv", "--workers", "2", "--cluster", "tcp://127.0.0.1:1"],
     ["batch", "empty.csv", "--out", "r.csv"]],
)  # fmt: skip
def test_what_cannot_be_begun_is_2_and_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], arguments: list[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("base.toml").write_text(BASE, encoding="utf-8")
    Path("empty.csv").write_text("engine.power\n", encoding="utf-8")
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert len(err.strip().splitlines()) == 1
    assert sorted(p.name for p in tmp_path.iterdir()) == ["base.toml", "empty.csv"]
