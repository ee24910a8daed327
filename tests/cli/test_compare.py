"""`transom compare A B`: jobs or saved judgements, what it prints and returns, and what it refuses."""

import json
from pathlib import Path

import pytest

from tests.report.jobs import EXAMPLE
from transom.cli import main as command

RUNABOUT = EXAMPLE.with_name("runabout-60hp.toml").read_text(encoding="utf-8")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "a.toml").write_text(RUNABOUT, encoding="utf-8")
    (tmp_path / "b.toml").write_text(RUNABOUT.replace('power = "60 hp"', 'power = "75 hp"'), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_jobs_and_saved_judgements_compare_alike(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["review", "a.toml", "--json"]) == 0
    saved = capsys.readouterr().out
    (folder / "a.json").write_text(saved, encoding="utf-8")
    (folder / "shell.json").write_text(saved, encoding="utf-16")
    assert command.main(["compare", "a.toml", "a.json"]) == 0
    assert "nothing differs" in capsys.readouterr().out
    assert command.main(["compare", "shell.json", "a.json"]) == 0
    assert "nothing differs" in capsys.readouterr().out
    assert command.main(["compare", "a.json", "b.toml", "--json"]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    value = json.loads(out)
    assert value["schema"] == "transom-comparison-1"
    assert value["same"] is False
    assert value["engine"]["thrust_moment"]["ratio"] > 1
    assert any("engine weight" in s for s in value["should_have_changed"])


def test_a_failing_job_is_an_answer_too(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["compare", "b.toml", "a.toml"]) == 0
    assert "FAILS" in capsys.readouterr().out


BROKEN = {
    "text": ("no json", "is no JSON"),
    "nan": ('{"schema": NaN}', "NaN is no number"),
    "list": ("[]", "no judgement"),
    "other": ('{"schema": "something-2"}', "no judgement"),
    "torn": ('{"schema": "transom-judgement-1"', "is no JSON"),
    "empty": ('{"schema": "transom-judgement-1"}', "missing"),
    "rows": (
        '{"schema": "transom-judgement-1", "tool": {"version": "1"}, "job": {"name": "", "revision": "", "sha256": ""},'
        ' "paper": "CUT", "passes": true, "cases": [], "checks": [{"id": 1}], "stops": []}',
        "checks[0]",
    ),
    "deep": ("[" * 100_000, "is no JSON"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_what_is_no_judgement_is_refused_in_a_line(name: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text, says = BROKEN[name]
    (folder / "x.json").write_text(text, encoding="utf-8")
    assert command.main(["compare", "x.json", "x.json"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert says in err
    assert "x.json" in err
    assert len(err.splitlines()) == len(set(err.splitlines()))
    assert "Traceback" not in err


def test_faults_of_both_come_in_one_run(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "c.toml").write_text(RUNABOUT.replace('power = "60 hp"', 'power = "60"'), encoding="utf-8")
    assert command.main(["compare", "c.toml", "nowhere.json"]) == 2
    err = capsys.readouterr().err
    assert "engine" in err
    assert "nowhere.json: no such file" in err
