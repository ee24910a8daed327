"""What was built: judged with its least thickness, what a record lacks, what to do where it came out thin."""

import json
from pathlib import Path

import pypdf
import pytest

from transom.catalogue import SHIPPED
from transom.cli import main as command
from transom.floor.photos import PHOTOS
from transom.floor.record import record_of, under, wood_in
from transom.floor.recordpaper import page
from transom.job.read import load
from transom.judge.judging import judge

WHOLE = f"""
[trial]
speed = "24 mph"
engine_speed = "5400 rpm"

[built]
date = 2026-11-30
by = "A. Builder"
hull = "XYZ12345A626"
engine_serial = "000123"
thickness = [THICK]
batches = ["ply lot 7", "epoxy B12"]
torque = ["16 lb-ft", "16 lb-ft", "16 lb-ft", "15 lb-ft"]
photos = {json.dumps([n for n, _ in PHOTOS])}
found = "lower edge black"
"""


def built(sized: Path, folder: Path, text: str) -> Path:
    path = folder / "job.toml"
    path.write_text(sized.read_text(encoding="utf-8") + text, encoding="utf-8")
    return path


def thick(mm: float) -> str:
    return WHOLE.replace("THICK", f'"{mm + 1.0:.2f} mm", "{mm:.2f} mm"')


def test_wood_by_hand() -> None:
    """40 mm finished, two coats of 0.3, two glue lines of 0.2: 39.0 mm of wood."""
    assert wood_in(40.0, 0.6, 0.4) == pytest.approx(39.0)


def test_as_thick_as_drawn_it_is_judged_the_same(sized: Path, tmp_path: Path) -> None:
    drawn = load(sized)
    assert drawn.mount is not None
    j = judge(drawn, SHIPPED, drawn.mount)
    f, lines = j.setup.factors, len(drawn.mount.layers) - 1
    job = load(built(sized, tmp_path, thick(j.wood + 2 * f.coat + lines * f.glue_line)))
    assert job.mount is not None
    r = record_of(judge(job, SHIPPED, job.mount), SHIPPED)
    assert r.wood == pytest.approx(j.wood, abs=0.01)
    assert r.built.governing.id == r.drawn.governing.id
    assert r.built.governing.utilisation == pytest.approx(j.governing.utilisation, rel=2e-3)
    assert r.missing == ()
    assert r.identity.paper == "RECORD"
    made = page(r)
    (tmp_path / "r.pdf").write_bytes(made)
    pages = pypdf.PdfReader(tmp_path / "r.pdf").pages
    assert len(pages) == 1
    text = " ".join(pages[0].extract_text().split())
    for word in ("RECORD", "XYZ12345A626", "000123", "ply lot 7", "this engine and this board only", "Not looked at"):
        assert word.lower() in text.lower()


def test_thicker_than_the_sheets_is_credited_with_nothing(sized: Path, tmp_path: Path) -> None:
    job = load(built(sized, tmp_path, thick(80.0)))
    assert job.mount is not None
    r = record_of(judge(job, SHIPPED, job.mount), SHIPPED)
    assert r.built.wood == pytest.approx(r.drawn.wood)


def test_too_thin_it_says_so_and_writes_no_page_unasked(
    sized: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = built(sized, tmp_path, thick(33.0))
    assert command.main(["record", str(path)]) == 1
    out = capsys.readouterr().out
    assert "DOES NOT PASS" in out
    assert "a further layer" in out
    assert not path.with_name("job-record.pdf").exists()
    assert command.main(["record", str(path), "--despite-failure"]) == 1
    for p in pypdf.PdfReader(path.with_name("job-record.pdf")).pages:
        assert "DOES NOT PASS" in p.extract_text()


def test_what_is_missing_is_listed_and_it_is_no_record(sized: Path, tmp_path: Path) -> None:
    job = load(built(sized, tmp_path, '\n[built]\ntorque = ["16 lb-ft"]\n'))
    assert job.mount is not None
    r = record_of(judge(job, SHIPPED, job.mount), SHIPPED)
    assert r.identity.paper != "RECORD"
    for lack in ("measured thickness", "torque of each of 4 bolts", "trial on the water", "photographs 1, 2"):
        assert any(lack in m for m in r.missing), lack


def test_without_what_was_built_there_is_none(sized: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["record", str(sized)]) == 2
    assert "[built] is not there" in capsys.readouterr().err


def test_bolts_turned_too_hard_do_not_pass(sized: Path, tmp_path: Path) -> None:
    """One bolt of four at 200 lb-ft: what it stretched or crushed stays so, however right the others are."""
    path = built(sized, tmp_path, '\n[built]\ntorque = ["16 lb-ft", "200 lb-ft", "16 lb-ft", "16 lb-ft"]\n')
    job = load(path)
    assert job.mount is not None
    r = record_of(judge(job, SHIPPED, job.mount), SHIPPED)
    assert r.drawn.passes
    assert not r.passes
    assert {c.case for c in r.built.failing} == {"bolt-up"}
    assert "torqued too hard" in under(r)[-1]


def test_the_trial_is_read_on_the_board_that_was_built(
    sized: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """33 mm where more was drawn: `trial` says no more than `record` does, before the run and after it."""
    path = built(sized, tmp_path, '\n[built]\nthickness = ["33 mm"]\n')
    assert command.main(["trial", str(path)]) == 1
    assert command.main(["trial", str(path), "--speed", "24 mph"]) == 1
    assert "FAILS" in capsys.readouterr().out
