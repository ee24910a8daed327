"""`transom draw` on the command line: what it writes, what it refuses, and that nothing is lost or left half done."""

import io
import json
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from transom.cli.main import main

EXAMPLES = Path(__file__).parents[2] / "examples"
RUNABOUT = (EXAMPLES / "runabout-60hp.toml").read_text(encoding="utf-8")
# What the bracket takes is not measured, so that the paper is a draft whatever else decides.
PASSING = RUNABOUT.replace('takes = ["1-5/8 in", "2-3/4 in"]', 'takes = "?"')
assert PASSING != RUNABOUT
FAILING = (EXAMPLES / "uprights-90hp.toml").read_text(encoding="utf-8")
NAMES = ["template.pdf", "board.dxf", "section.svg", "aft.svg", "forward.svg", "bench.pdf", "cuts.pdf"]


def job(folder: Path, text: str = PASSING, name: str = "my job.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_it_writes_its_files_in_the_folder_and_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, out = job(tmp_path), tmp_path / "bench"
    assert main(["draw", str(path), "--out", str(out)]) == 0
    assert sorted(p.name for p in out.iterdir()) == sorted(f"my job-{n}" for n in NAMES)
    said = capsys.readouterr().out
    assert all(len(line) < 80 for line in said.splitlines() if str(tmp_path) not in line)
    assert said.split()[0] in ("QUOTE", "CUT")
    assert "print at 100 %, never fit" in " ".join(said.split())
    assert "Mark the real ones through from the frame" in " ".join(said.split())
    assert sorted(p.name for p in tmp_path.iterdir()) == ["bench", "my job.log.jsonl", "my job.toml"]
    before = {p: p.read_bytes() for p in out.iterdir()}
    assert main(["draw", str(path), "--out", str(out), "--force"]) == 0
    assert {p: p.read_bytes() for p in out.iterdir()} == before


def test_an_endless_name_is_folded_and_cut_short_in_sight(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    named = PASSING.replace('name = "', 'name = "' + "endless name " * 12, 1)
    assert main(["draw", str(job(tmp_path, named)), "--out", str(tmp_path / "bench"), "--holes-only"]) == 0
    said = capsys.readouterr().out
    assert "..." in said
    assert all(len(line) < 80 for line in said.splitlines() if str(tmp_path) not in line)


def test_nothing_is_written_over_without_force(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, out = job(tmp_path), tmp_path / "bench"
    out.mkdir()
    for name in ("my job-template.pdf", "my job-aft.svg"):
        (out / name).write_text("mine", encoding="utf-8")
    assert main(["draw", str(path), "--out", str(out)]) == 2
    assert len(list(out.iterdir())) == 2
    assert (out / "my job-aft.svg").read_text(encoding="utf-8") == "mine"
    err = capsys.readouterr().err
    assert err.count("is there already and is left as it is") == 2


def test_no_link_is_followed_out_of_the_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, out, elsewhere = job(tmp_path), tmp_path / "bench", tmp_path / "elsewhere.pdf"
    out.mkdir()
    elsewhere.write_text("mine", encoding="utf-8")
    try:
        (out / "my job-holes.pdf").symlink_to(elsewhere)
    except OSError:
        pytest.skip("no links here")
    assert main(["draw", str(path), "--out", str(out), "--holes-only", "--force"]) == 2
    assert elsewhere.read_text(encoding="utf-8") == "mine"
    assert "is a link" in capsys.readouterr().err


def test_a_folder_that_cannot_be_made_is_a_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = job(tmp_path)
    assert main(["draw", str(path), "--out", str(tmp_path / "no" / "such"), "--holes-only"]) == 2
    assert "no folder can be made there" in capsys.readouterr().err


def test_holes_only_is_one_file(tmp_path: Path) -> None:
    out = tmp_path / "bench"
    assert main(["draw", str(job(tmp_path)), "--out", str(out), "--holes-only", "--paper", "tabloid"]) == 0
    (only,) = out.iterdir()
    reader = PdfReader(io.BytesIO(only.read_bytes()))
    assert only.name == "my job-holes.pdf"
    assert "HOLES ONLY" in reader.pages[0].extract_text()
    assert sorted(float(v) for v in reader.pages[-1].mediabox[2:]) == pytest.approx([792.0, 1224.0])


def test_a_mount_that_fails_is_drawn_only_when_asked_and_says_so_everywhere(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "bench"
    assert main(["draw", str(job(tmp_path, FAILING)), "--out", str(out)]) == 1
    assert not out.exists()
    said = capsys.readouterr()
    assert said.out == ""
    assert "DOES NOT PASS: " in said.err
    assert "--despite-failure" in said.err
    assert main(["draw", str(job(tmp_path, FAILING)), "--out", str(out), "--despite-failure"]) == 1
    assert "DOES NOT PASS" in capsys.readouterr().out
    for path in out.iterdir():
        if path.suffix == ".pdf":
            assert all("DOES NOT PASS" in p.extract_text() for p in PdfReader(path).pages)
        else:
            assert "DOES NOT PASS" in path.read_text(encoding="utf-8")


def test_results_in_si_come_on_a4(tmp_path: Path) -> None:
    out = tmp_path / "bench"
    assert main(["draw", str(job(tmp_path, FAILING)), "--out", str(out), "--despite-failure", "--holes-only"]) == 1
    (only,) = out.iterdir()
    sizes = {tuple(sorted(round(float(v) / 72 * 25.4) for v in p.mediabox[2:])) for p in PdfReader(only).pages}
    assert sizes == {(210, 297)}


def test_what_cannot_be_built_is_refused_with_the_pair_and_the_distance(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    drain = 'openings = [{ y = "-9 in", down = "16 in", diameter = "1-1/4 in", what = "drain tube" }]'
    assert drain in PASSING
    moved = drain.replace('"-9 in", down = "16 in"', '"-6 in", down = "2 in"')
    path, out = job(tmp_path, PASSING.replace(drain, moved)), tmp_path / "bench"
    assert main(["draw", str(path), "--out", str(out), "--despite-failure"]) == 2
    assert not out.exists()
    err = capsys.readouterr().err
    assert "engine hole A (1 in bore) and opening drain tube (1-1/4 in hole)" in err
    assert "in each other" in err


def test_the_bench_card_alone_is_said_in_full(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, out = job(tmp_path), tmp_path / "bench"
    assert main(["draw", str(path), "--out", str(out), "--only", "bench"]) == 0
    assert [p.name for p in out.iterdir()] == ["my job-bench.pdf"]
    said = capsys.readouterr().out
    assert all(len(line) < 80 for line in said.splitlines() if str(tmp_path) not in line)
    assert "BENCH CARD - QUOTE - DRAFT" in said
    assert said.count("CAREFUL") == 1
    assert "DRILLS, IN THE ORDER" in said
    logged = [json.loads(line) for line in path.with_name("my job.log.jsonl").read_text("ascii").splitlines()]
    assert [(e["command"], e["result"], e["made"]) for e in logged] == [
        (f"draw --out {out} --only bench", "QUOTE, passes", [str(out / "my job-bench.pdf")])
    ]


def test_the_cut_list_alone_is_said_in_full(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, out = job(tmp_path), tmp_path / "bench"
    assert main(["draw", str(path), "--out", str(out), "--only", "cuts"]) == 0
    assert [p.name for p in out.iterdir()] == ["my job-cuts.pdf"]
    said = capsys.readouterr().out
    assert "BUY      1 half sheet of 3/4 in Douglas-fir marine plywood" in said
    assert "layer 1 (18-1/2 x 24-1/2 in)" in " ".join(said.split())
    assert "CAREFUL" in said
    assert all(len(line) < 80 for line in said.splitlines() if str(tmp_path) not in line)


def test_a_log_that_cannot_be_written_holds_up_no_paper(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, out = job(tmp_path), tmp_path / "bench"
    (tmp_path / "my job.log.jsonl").mkdir()
    assert main(["draw", str(path), "--out", str(out), "--only", "cuts"]) == 0
    assert "not logged" in capsys.readouterr().err
    assert len(list(out.iterdir())) == 1


def test_clamps_have_no_holes_to_draw(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = (
        '[boat]\nkind = "pontoon"\nplate_power = "20 hp"\n[engine]\npower = "9.9 hp"\nheld_by = "clamps"\n'
        '[board]\nwidth = "24 in"\nheight = "18 in"\n[frame]\nkind = "pod"\n[mount]\n'
        'layers = [{ sheet = "douglas-fir-marine 3/4 in", grain = "across" },'
        ' { sheet = "douglas-fir-marine 3/4 in", grain = "across" }]\n'
    )
    path, out = job(tmp_path, text), tmp_path / "bench"
    assert main(["draw", str(path), "--out", str(out), "--holes-only", "--despite-failure"]) == 2
    assert "no holes to draw" in capsys.readouterr().err
    assert main(["draw", str(path), "--out", str(out), "--despite-failure"]) in (0, 1)
    assert len(list(out.iterdir())) == len(NAMES)


def test_where_nothing_works_the_nearest_miss_stands_in_and_is_called_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from transom.catalogue import SHIPPED
    from transom.cli import mounted
    from transom.job.read import loads
    from transom.judge.judging import judge, without_mount
    from transom.judge.records import Option, Sizing

    stated = loads(FAILING)
    assert stated.mount is not None
    j = judge(stated, SHIPPED, stated.mount)
    miss = Option(stated.mount, j.wood, j.total, j.mass, 1, j.governing, j.failing)
    found = replace(without_mount(stated, SHIPPED), sizing=Sizing("material", 1, (), None, (), miss))
    monkeypatch.setattr("transom.sizing.sizing.size", lambda *_: found)
    drawn = mounted.mounted(replace(stated, mount=None))
    assert drawn.mount == stated.mount
    assert not drawn.passes
    assert "nearest miss" in capsys.readouterr().err
