"""The lines called without Typer: which they are, and that Typer would have called the same."""

import inspect
import subprocess
import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

import pytest
import typer

from transom.cli import main, plainly, review, size, start
from transom.cli.plainly import COMMANDS, SWITCHES, plain

JOB = Path(__file__).parents[2] / "examples" / "runabout-60hp.toml"

LINES = [
    ["job.toml"],
    ["a b.toml", "--json"],
    ["--details", "job.toml"],
    ["--json", "folder/job.toml", "--details"],
    ["job.toml", "--json", "--json"],
]
NOT_PLAIN = [
    [],
    ["size"],
    ["size", ""],
    ["size", "a", "b"],
    ["size", "job.toml", "--rank", "mass"],
    ["size", "job.toml", "--rank=mass"],
    ["size", "job.toml", "--force"],
    ["size", "job.toml", "--js"],
    ["size", "--help"],
    ["size", "-h", "job.toml"],
    ["size", "--", "job.toml"],
    ["size", "-"],
    ["draw", "job.toml"],
    ["--json", "size", "job.toml"],
    ["sizes", "job.toml"],
]


@pytest.mark.parametrize("line", NOT_PLAIN)
def test_every_other_line_goes_to_typer(line: list[str]) -> None:
    assert plain(line) is None


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize(("name", "command"), [("size", size.size), ("review", review.review)])
def test_typer_would_have_called_the_same(
    name: str, command: Callable[..., None], line: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    signature, calls = inspect.signature(command), list[dict[str, Any]]()

    @wraps(command)
    def called(*given: Any, **named: Any) -> int:
        bound = signature.bind(*given, **named)
        bound.apply_defaults()
        calls.append(dict(bound.arguments))
        return 5

    monkeypatch.setattr(plainly, "COMMANDS", {name: called})
    straight = plain([name, *line])
    assert straight is not None
    assert straight() == 5
    app = typer.Typer(add_completion=False)
    app.command()(called)
    typer.main.get_command(app).main(line, prog_name=name, standalone_mode=False)
    assert calls[0] == calls[1]
    assert calls[0]["job"] is not None


@pytest.mark.parametrize(("name", "command"), [("size", size.size), ("review", review.review)])
def test_what_is_called_straight_takes_what_the_command_does(name: str, command: Callable[..., None]) -> None:
    """Under the same names, with the same defaults."""
    straight, whole = (inspect.signature(f).parameters for f in (COMMANDS[name], command))
    assert set(SWITCHES.values()) < set(straight)
    assert all(straight[switch].default == whole[switch].default for switch in SWITCHES.values())
    assert {"job", *SWITCHES.values()} == set(straight) < set(whole)


@pytest.mark.parametrize(("name", "switches"), [("size", ["--json"]), ("review", ["--details"]), ("review", [])])
def test_straight_and_through_typer_say_the_same(
    name: str, switches: list[str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    line = [name, str(JOB), *switches]
    straight = start.main(line), capsys.readouterr()
    monkeypatch.setattr(main, "plain", lambda line: None)
    assert straight == (main.main(line), capsys.readouterr())
    assert straight[1].out


@pytest.mark.parametrize(
    ("line", "code"), [(["size", "not-there.toml"], 2), (["review", "not-there.toml"], 2), ([], 0)]
)
def test_where_it_begins_faults_are_lines_and_codes(
    line: list[str], code: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert start.main(line) == code
    said = capsys.readouterr()
    assert "not-there.toml: no such file" in said.err if line else "Usage" in said.out


def test_a_plain_line_imports_no_typer() -> None:
    asked = f"import sys; from transom.cli.start import main; main(['review', {str(JOB)!r}, '--json']); print('typer' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1] == "False"
