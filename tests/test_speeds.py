"""The README's table of speeds: its shape, whose figures stand in it, and that writing it touches nothing else."""

import importlib
import json
import re
import sys
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[1]
BENCH = ROOT / "tests" / "bench"
README = (ROOT / "README.md").read_text(encoding="utf-8")
RATIO = re.compile(r"[\d.,]+(x|%)|[\d.]+ of \S+")


@pytest.fixture(scope="module")
def bench() -> Any:
    sys.path.insert(0, str(BENCH))
    try:
        yield importlib.import_module("all")
    finally:
        sys.path.remove(str(BENCH))


def test_every_row_names_its_script_and_has_a_ratio(bench: Any) -> None:
    rows = bench.rows_of(README)
    assert {r.script for r in rows} >= set(bench.SCRIPTS)
    for r in rows:
        assert (BENCH / r.script).is_file(), r.script
        assert RATIO.fullmatch(r.ratio), r.ratio
        assert r.what
        assert re.search(r"\d", r.ours), r.ours
        assert r.beside


def test_what_was_to_be_reached_stands_beside_what_was(bench: Any) -> None:
    wanted = {r.wanted for r in bench.rows_of(README)}
    assert {"2.5x or less", "100x or more", "2e7 or more", "20% or less"} <= wanted


def test_a_table_is_read_back_as_it_was_written(bench: Any) -> None:
    rows = tuple(
        bench.Row(f"thing {n}", "1 ms", "2 ms", "2x", "" if n else "more", script)
        for n, script in enumerate(bench.SCRIPTS)
    )
    text = f"before\n{bench.BEGIN}\nold\n{bench.END}\nafter\n"
    once = bench.written(text, rows, "here")
    assert bench.rows_of(once) == rows
    assert once.startswith("before\n")
    assert once.endswith("\nafter\n")
    assert bench.written(once, rows, "here") == once


def test_what_batch_kept_becomes_rows(bench: Any, tmp_path: Path) -> None:
    measured = {
        "linear 100": {"cpu": 30.0, "wall": 20.0}, "linear 1000": {"cpu": 250.0, "wall": 150.0},
        "memory 10000": {"cpu": 2525.0, "wall": 1500.0, "most": 300.0, "slope": 0.01, "samples": 900},
        "workers 200": {"batch": 1.8, "control": 1.9, "ratio": 0.947},
    }  # fmt: skip
    (tmp_path / "measured.json").write_text(json.dumps(measured), encoding="utf-8")
    rows = tuple(bench.kept(tmp_path))
    assert [r.ratio for r in rows] == ["1.2x", "1.01x", "0.947x", "0.75x"]
    assert all(r.script == bench.BATCH and RATIO.fullmatch(r.ratio) for r in rows)
    assert bench.rows_of(bench.written(f"{bench.BEGIN}{bench.END}", rows, "here")) == rows


def test_rows_of_scripts_that_were_not_run_stay(bench: Any) -> None:
    old = tuple(bench.Row("old", "1 ms", "2 ms", "2x", "", s) for s in (*bench.SCRIPTS, bench.BATCH))
    new = (bench.Row("new", "1 ms", "3 ms", "3x", "", bench.SCRIPTS[1]),)
    found = bench.merged(old, new)
    assert [r.what for r in found] == ["old", "new", "old", "old"]
    assert [r.script for r in found] == [*bench.SCRIPTS, bench.BATCH]
