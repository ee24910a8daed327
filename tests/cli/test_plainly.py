"""The lines called without Typer: which they are, and that Typer would have called the same."""

import inspect
from functools import wraps
from typing import Any

import pytest
import typer

from transom.cli import plainly
from transom.cli.plainly import COMMANDS, plain

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
@pytest.mark.parametrize("name", COMMANDS)
def test_typer_would_have_called_the_same(name: str, line: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    signature, calls = inspect.signature(COMMANDS[name]), list[dict[str, Any]]()

    @wraps(COMMANDS[name])
    def called(*given: Any, **named: Any) -> None:
        bound = signature.bind(*given, **named)
        bound.apply_defaults()
        calls.append(dict(bound.arguments))
        raise typer.Exit(len(calls) + 4)

    monkeypatch.setattr(plainly, "COMMANDS", {name: called})
    straight = plain([name, *line])
    assert straight is not None
    assert straight() == 5
    app = typer.Typer(add_completion=False)
    app.command()(called)
    assert typer.main.get_command(app).main(line, prog_name=name, standalone_mode=False) == 6
    assert calls[0] == calls[1]
    assert calls[0]["job"] is not None


def test_a_command_that_ends_without_a_code_is_0(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(plainly, "COMMANDS", {"size": lambda job: None})
    straight = plain(["size", "job.toml"])
    assert straight is not None
    assert straight() == 0
