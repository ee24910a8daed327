"""The questions as somebody goes through them: straight on, back, wrong, out; and through a real terminal."""

import os
import sys
import time
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest

from transom.cli import main as command
from transom.interview.dialogue import Talk, run
from transom.interview.keep import added_to, known_in, new_text
from transom.interview.questions import FULL, QUICK, Stop
from transom.job.read import load, loads

ROOT = Path(__file__).parents[2]
NINE = ["river job", "pontoon", "40", "50", "260", "bolts", "tiller", "24", "18", "fresh", "y", "bolts pulled in"]


def talk(stops: tuple[Stop, ...], typed: Iterable[str], **more: Any) -> tuple[Talk, list[str]]:
    said: list[str] = []
    talked, lines = Talk(), iter(typed)

    def ask(prompt: str) -> str:
        try:
            return next(lines)
        except StopIteration:
            raise EOFError from None

    run(stops, ask, said.append, talked, **more)
    return talked, said


def test_nine_questions_make_a_job_that_loads() -> None:
    talked, said = talk(QUICK, NINE)
    job = loads(new_text(talked.answers, si=False))
    assert job.head.name == "river job"
    assert job.head.history == "bolts pulled in"
    assert job.boat.kind == "pontoon"
    assert job.board.width == pytest.approx(609.6)
    assert "9 of 9  Signs of damage" in said


def test_all_unknown_but_the_kind_still_makes_a_job() -> None:
    talked, said = talk(FULL, ["", "", "", "glass hull", "?", "", *[""] * 60])
    text = new_text(talked.answers, si=False)
    assert 'kind = "glass hull"' in text
    assert f"{len(FULL)} of {len(FULL)}  Shop" in said
    with_power = text.replace('plate_power = "?"', 'plate_power = "none"').replace('power = "?"', 'power = "40 hp"', 1)
    assert loads(with_power).boat.kind == "glass hull"


def test_back_goes_to_the_question_before_and_shows_what_was_said() -> None:
    talked, said = talk(QUICK, ["river job", "glass", "b", "pontoon", *NINE[2:]])
    assert talked.answers["boat.kind"] == "pontoon"
    assert "  you said: glass hull" in said


def test_back_at_the_first_question_asks_it_again() -> None:
    talked, _ = talk(QUICK, ["b", "b", *NINE])
    assert talked.answers["job.name"] == "river job"


def test_back_skips_what_was_not_asked() -> None:
    """Without a trailer the strut is not asked for: back from the engine's power leads to the trailer itself."""
    start = ["", "", "", "pontoon", "", "", "fresh", "calm", "", "n", "b", "y", "strut", "40", "q"]
    talked, _ = talk(FULL, start)
    assert talked.answers["boat.trailer"] is True
    assert talked.answers["boat.road_support"] == "strut"
    assert talked.stopped


def test_wrong_units_are_said_and_asked_again() -> None:
    _, said = talk(QUICK, [*NINE[:4], "260 lb-ft", *NINE[4:]])
    assert any("did you mean 260 lb?" in line.lower() for line in said)
    assert sum(line.startswith("5 of 9") for line in said) == 1


def test_a_doubt_is_kept_by_enter_or_mended() -> None:
    kept, _ = talk(QUICK, [*NINE[:7], "60", "", *NINE[8:]])
    assert kept.answers["board.width"] == "60 in"
    mended, _ = talk(QUICK, [*NINE[:7], "2.4", "24", *NINE[8:]])
    assert mended.answers["board.width"] == "24 in"


def test_stop_keeps_what_was_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lines = iter([*NINE[:4], "q"])
    monkeypatch.setattr("builtins.input", lambda prompt: next(lines))
    assert command.main(["new", str(tmp_path / "job.toml"), "--quick"]) == 0
    assert known_in((tmp_path / "job.toml").read_text(encoding="utf-8"))["boat.plate_power"] == "50 hp"


@pytest.mark.parametrize("end", [KeyboardInterrupt, EOFError])
def test_an_interrupt_keeps_what_was_said_and_says_130(
    end: type[BaseException], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = iter(NINE[:4])

    def ask(prompt: str) -> str:
        for line in lines:
            return line
        raise end

    monkeypatch.setattr("builtins.input", ask)
    assert command.main(["new", str(tmp_path / "job.toml"), "--quick"]) == 130
    assert known_in((tmp_path / "job.toml").read_text(encoding="utf-8"))["engine.power"] == "40 hp"


def test_nothing_said_writes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("builtins.input", lambda prompt: "q")
    assert command.main(["new", str(tmp_path / "job.toml")]) == 0
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_there_is_not_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "job.toml").write_text("mine", encoding="utf-8")
    assert command.main(["new", str(tmp_path / "job.toml")]) == 2
    assert "--go-on" in capsys.readouterr().err
    assert (tmp_path / "job.toml").read_text(encoding="utf-8") == "mine"


def test_going_on_asks_what_is_open_and_keeps_comments(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    talked, _ = talk(QUICK, NINE)
    path = tmp_path / "job.toml"
    path.write_text("# by hand\n" + new_text(talked.answers, si=False), encoding="utf-8")
    asked: list[str] = []

    def ask(prompt: str) -> str:
        asked.append(prompt)
        return "2026-05-04" if len(asked) == 2 else "q" if len(asked) == 3 else "77"

    monkeypatch.setattr("builtins.input", ask)
    assert command.main(["new", str(path), "--go-on"]) == 0
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# by hand\n")
    assert 'number = "77"' in text
    assert "# your work order" in text
    assert load(path).head.number == "77"
    assert 'width = "24 in"' in text


def test_answers_go_into_sections_that_a_file_does_not_have() -> None:
    text = added_to(
        '[boat]\nkind = "pontoon" # looked\n', {"crossmembers.bolts.size": "3/8 in", "boat.kind": "glass hull"}
    )
    assert known_in(text) == {"boat.kind": "glass hull", "crossmembers.bolts.size": "3/8 in"}
    assert "# looked" in text


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminal")
def test_questions_in_a_terminal(tmp_path: Path) -> None:
    """a whole run, with a wrong unit and a step back; what it writes is sized."""
    import pty

    path = tmp_path / "job.toml"
    typed = [*NINE[:3], "b", "40", *NINE[3:4], "260 furlongs", *NINE[4:]]
    child, fd = pty.fork()
    if child == 0:  # pragma: no cover - the other process
        os.chdir(ROOT)
        os.execv(sys.executable, [sys.executable, "-m", "transom", "new", str(path), "--quick"])
    heard = b""
    for line in typed:
        heard = _until(fd, heard, b"> ")
        os.write(fd, f"{line}\n".encode())
        heard = heard.replace(b"> ", b">_")
    heard = _until(fd, heard, b"is open")
    _, status = os.waitpid(child, 0)
    assert os.waitstatus_to_exitcode(status) == 0
    assert b"9 of 9" in heard
    assert b"did you mean 260 lb?" in heard.lower()
    assert load(path).engine.mass == pytest.approx(117.93, abs=0.01)
    assert command.main(["size", str(path)]) in (0, 1)


def _until(fd: int, heard: bytes, mark: bytes) -> bytes:
    """Read the terminal until this has come."""
    import select

    end = time.monotonic() + 30
    while mark not in heard:
        ready, _, _ = select.select([fd], [], [], max(0.0, end - time.monotonic()))
        assert ready, heard.decode()
        try:
            heard += os.read(fd, 4096)
        except OSError:
            break
    return heard


def test_a_file_that_is_no_toml_is_told_by_its_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.toml"
    path.write_text('[boat]\nkind = "pontoon" "1"\n', encoding="utf-8")
    assert command.main(["trial", str(path), "--speed", "20 mph"]) == 2
    assert "line 2" in capsys.readouterr().err
