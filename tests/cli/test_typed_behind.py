"""Words behind a command that mean something to a terminal: refused in lines, and nothing made."""

from pathlib import Path

import pytest

from tests.fuzz.bench import jobs
from transom.cli.main import main


@pytest.mark.parametrize(
    "words",
    [
        ("chart", "JOB", "--panels", "SAID"),
        ("chart", "JOB", "--power", "SAID"),
        ("chart", "JOB", "--out", "SAID"),
        ("chart", "JOB", "--csv", "SAID"),
        ("trial", "JOB", "--speed", "SAID"),
        ("trial", "JOB", "--push", "SAID", "--moved", "SAID", "--record"),
        ("compare", "SAID", "JOB"),
        ("batch", "SAID", "--out", "SAID.csv"),
        ("batch", "JOB", "--out", "SAID"),
        ("batch", "JOB", "--vary", "board.width=SAID", "--out", "SAID.csv"),
        ("explain", "JOB", "SAID"),
        ("steps", "JOB", "--glue", "SAID"),
        ("materials", "SAID"),
        ("SAID", "JOB"),
        ("size", "JOB", "--SAID"),
    ],
    ids=lambda w: "-".join(w[:3:2]),
)
def test_what_is_typed_behind_a_command_turns_no_terminal_and_makes_nothing(
    words: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "job.toml").write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    for said in ("\x1b[2J\n<b>\u202e", "\udcff =1+1 [red]\x07"):  # a zero byte no shell can hand over
        assert main([w.replace("SAID", said).replace("JOB", "job.toml") for w in words]) == 2
        out, err = capsys.readouterr()
        assert out == ""
        assert err.strip()
        assert all(c == "\n" or c.isprintable() for c in err)
        assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]
