"""`review --uncertainty N`: asked for or not there; faults in one run; a bar on a terminal only."""

import json
import sys
from pathlib import Path

import pytest

from tests.report.jobs import EXAMPLE
from transom.cli import main as command
from transom.cli.chance import progress
from transom.report.html.page import Grounds


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    text = EXAMPLE.with_name("runabout-60hp.toml").read_text(encoding="utf-8")
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    # What takes seconds has tests of its own.
    monkeypatch.setattr("transom.report.html.page.grounds", lambda j: Grounds())
    return tmp_path


def test_it_goes_into_json_and_into_the_page_that_asks(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["review", "job.toml", "--uncertainty", "200", "--html", "review.html", "--with-uncertainty", "--json"]
    assert command.main(asked) == 0
    out, err = capsys.readouterr()
    assert json.loads(out)["uncertainty"]["samples"] == 200
    assert "samples" not in err  # no bar where stderr is no terminal
    assert "outgrows strength" in (folder / "review.html").read_text(encoding="utf-8")


def test_the_screen_has_it_and_the_page_does_not_unless_asked(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["review", "job.toml", "--uncertainty", "200", "--html", "review.html"]) == 0
    assert "CHANCE THAT LOAD OUTGROWS STRENGTH, for comparison only" in capsys.readouterr().out
    assert "outgrows strength" not in (folder / "review.html").read_text(encoding="utf-8")


def test_without_asking_there_is_none_but_what_to_measure_first(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert command.main(["review", "job.toml"]) == 0
    out = capsys.readouterr().out
    assert "CHANCE" not in out
    assert "WHAT TO MEASURE FIRST" in out


def test_every_fault_is_told_in_one_run(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["review", "job.toml", "--with-uncertainty"]) == 2
    out, err = capsys.readouterr()
    assert not out
    assert "add --uncertainty" in err
    assert "add --html FILE" in err
    assert command.main(["review", "job.toml", "--uncertainty", "5"]) == 2
    assert "from 100 to 10,000,000" in capsys.readouterr().err


def test_a_bar_on_a_terminal_only(monkeypatch: pytest.MonkeyPatch) -> None:
    with progress(10) as step:
        assert step is None
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    with progress(10) as step:
        assert step is not None
        step(10)
