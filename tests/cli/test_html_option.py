"""`review --html FILE`: one file beside the screen, for a failing mount too, never over another unless forced."""

import json
from pathlib import Path

import pytest

from tests.report.jobs import EXAMPLE
from transom.cli import main as command
from transom.report.html.page import Grounds

RUNABOUT = EXAMPLE.with_name("runabout-60hp.toml")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    text = RUNABOUT.read_text(encoding="utf-8")
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    layer = '[[mount.layers]]\nsheet = "douglas-fir-marine 1/2 in"\ngrain = "across"\n'
    assert layer in text
    (tmp_path / "weak.toml").write_text(text.replace(layer, ""), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    # What takes seconds has tests of its own.
    monkeypatch.setattr("transom.report.html.page.grounds", lambda j: Grounds())
    return tmp_path


def test_it_is_written_beside_the_screen_and_logged(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["review", "job.toml", "--html", "review.html"]) == 0
    out, err = capsys.readouterr()
    assert "WEAKEST LINK" in out
    assert "review.html: written" in err
    text = (folder / "review.html").read_text(encoding="utf-8")
    assert text.startswith("<!DOCTYPE html>")
    line = json.loads((folder / "job.log.jsonl").read_text(encoding="ascii"))
    assert line["command"] == "review --html review.html"
    assert line["made"] == ["review.html"]
    assert command.main(["review", "job.toml", "--html", "again.html", "--json"]) == 0
    assert (folder / "again.html").read_text(encoding="utf-8") == text
    assert json.loads(capsys.readouterr().out)["passes"]


def test_a_failing_mount_has_a_report_that_says_so(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["review", "weak.toml", "--html", "weak.html"]) == 1
    assert "DOES NOT PASS" in capsys.readouterr().out
    head = (folder / "weak.html").read_text(encoding="utf-8").split("</thead>")[0]
    assert '<b class="fails">DOES NOT PASS</b>' in head


def test_nothing_is_written_over_unless_forced(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    mine = folder / "mine.html"
    mine.write_text("mine", encoding="utf-8")
    assert command.main(["review", "job.toml", "--html", "mine.html"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "--force" in err
    assert mine.read_text(encoding="utf-8") == "mine"
    assert command.main(["review", "job.toml", "--html", "job.toml", "--force"]) == 2
    assert "is the job itself" in capsys.readouterr().err
    assert command.main(["review", "job.toml", "--html", "mine.html", "--force"]) == 0
    assert mine.read_text(encoding="utf-8") != "mine"
    assert command.main(["review", "job.toml", "--html", "no/such/place.html"]) == 2
