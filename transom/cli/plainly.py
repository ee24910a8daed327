"""The lines a shop types all day, `transom size JOB` and `transom review JOB`, called straight.

Typer takes 0.1 s to build every command and to coerce a path through pydantic, as long as judging takes, and a fifth of
that to be imported. Whatever is not quite one of these lines goes to Typer, which also words every mistake.
"""

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from transom.cli import straight

COMMANDS: Mapping[str, Callable[..., int]] = {"size": straight.size, "review": straight.review}
SWITCHES = {"--json": "json", "--details": "details"}


def plain(arguments: Sequence[str]) -> Callable[[], int] | None:
    """What runs a plain line and returns its exit code; None for every other line."""
    name, *rest = arguments or [""]
    jobs = [a for a in rest if not a.startswith("-")]
    switches = [a for a in rest if a.startswith("-")]
    if name not in COMMANDS or len(jobs) != 1 or not all(jobs) or not set(switches) <= set(SWITCHES):
        return None
    given: dict[str, Any] = {SWITCHES[s]: True for s in switches}

    return lambda: COMMANDS[name](Path(jobs[0]), **given)
