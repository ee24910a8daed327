"""Nothing is written over what it is made of, nor through a link in a place that nobody named."""

import os
import re
from pathlib import Path

import pytest

from tests.fuzz.laws import jobs
from transom.cli.main import main


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_a_link_in_the_logs_place_is_not_followed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job, other = tmp_path / "job.toml", tmp_path / "other"
    job.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    other.write_text("mine", encoding="utf-8")
    job.with_name("job.log.jsonl").symlink_to(other)
    assert main(["steps", str(job), "--pdf", str(tmp_path / "steps.pdf")]) == 0
    assert other.read_text(encoding="utf-8") == "mine"
    assert "not logged" in capsys.readouterr().err


WRITERS = (
    ("steps", "JOB", "--pdf", "TARGET", "--despite-failure", "--force"),
    ("record", "JOB", "--pdf", "TARGET", "--despite-failure", "--force"),
    ("estimate", "JOB", "--csv", "TARGET", "--despite-failure", "--force"),
    ("estimate", "JOB", "--write-prices", "TARGET", "--force"),
    ("review", "JOB", "--html", "TARGET", "--force"),
)


@pytest.mark.parametrize("words", WRITERS, ids=lambda w: w[0] + w[2])
@pytest.mark.parametrize("trick", ["itself", "dots", "link"])
def test_paper_is_never_written_over_the_job_it_is_made_of(
    words: tuple[str, ...], trick: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    link = tmp_path / "link"
    link.symlink_to(job)
    target = {"itself": job, "dots": tmp_path / "." / ".." / tmp_path.name / "job.toml", "link": link}[trick]
    assert main([str(job) if w == "JOB" else str(target) if w == "TARGET" else w for w in words]) == 2
    assert job.read_text(encoding="utf-8") == jobs()["pontoon-40hp"]
    assert "is the job itself" in capsys.readouterr().err


@pytest.mark.parametrize(
    "words",
    [
        ("estimate", "JOB", "--buy", "--out", "OUT", "--despite-failure", "--force"),
        ("review", "JOB", "--maps", "OUT", "--force"),
    ],
    ids=["buy", "maps"],
)
def test_a_link_in_a_folder_of_papers_is_not_followed(
    words: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, out, other = tmp_path / "job.toml", tmp_path / "out", tmp_path / "other"
    job.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    out.mkdir()
    asked = [str(job) if w == "JOB" else str(out) if w == "OUT" else w for w in words]
    assert main(asked) == 0
    made = sorted(out.iterdir())
    assert made
    made[0].unlink()
    other.write_text("mine", encoding="utf-8")
    made[0].symlink_to(other)
    capsys.readouterr()
    assert main(asked) == 2
    assert "is a link" in capsys.readouterr().err
    assert other.read_text(encoding="utf-8") == "mine"


def test_a_chart_is_not_drawn_over_its_job(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job, link = tmp_path / "job.toml", tmp_path / "chart.svg"
    job.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    link.symlink_to(job)
    assert main(["chart", str(job), "--out", str(link), "--force"]) == 2
    assert "is the job itself" in capsys.readouterr().err


@pytest.mark.parametrize("over", ["table", "base", "link", "hard link"])
def test_a_batch_is_not_written_over_what_it_reads(
    over: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    base, rows, out = tmp_path / "out.csv.txt", tmp_path / "jobs.csv", tmp_path / "out.csv"
    base.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    rows.write_text("engine.power\nforty\n", encoding="utf-8")
    if over == "link":
        out.symlink_to(rows)
    if over == "hard link":
        out.hardlink_to(rows)
    before = {p: p.read_bytes() for p in tmp_path.iterdir()}
    target = rows if over == "table" else out
    assert main(["batch", str(rows), "--base", str(base), "--out", str(target), "--workers", "1", "--force"]) == 2
    assert re.search(r"is the (job|table of jobs) itself\. Choose another name", capsys.readouterr().err)
    assert {p: p.read_bytes() for p in tmp_path.iterdir()} == before


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
@pytest.mark.parametrize("how", ["--force", "--go-on"])
@pytest.mark.parametrize("ending", [".txt", ".unfinished"])
@pytest.mark.parametrize("there", [True, False])
def test_links_in_the_places_beside_a_batch_are_not_followed(
    how: str, ending: str, there: bool, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    rows, other = tmp_path / "jobs.csv", tmp_path / "other"
    rows.write_text("engine.power\nforty\n", encoding="utf-8")
    if there:
        other.write_text("mine", encoding="utf-8")
    (tmp_path / f"out.csv{ending}").symlink_to(other)
    assert main(["batch", str(rows), "--out", str(tmp_path / "out.csv"), "--workers", "1", how]) == 2
    assert "is a link" in capsys.readouterr().err
    assert (other.read_text(encoding="utf-8") == "mine") if there else not other.exists()


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_a_link_in_the_place_of_a_record_beside_its_job_is_not_followed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, other = tmp_path / "job.toml", tmp_path / "other"
    job.write_text(jobs()["pontoon-40hp"] + '[built]\nby = "x"\n', encoding="utf-8")
    other.write_text("mine", encoding="utf-8")
    (tmp_path / "job-record.pdf").symlink_to(other)
    assert main(["record", str(job), "--despite-failure", "--force"]) == 2
    assert "is a link" in capsys.readouterr().err
    assert other.read_text(encoding="utf-8") == "mine"
