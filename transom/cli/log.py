"""One line in the job's log for a command that made paper."""

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from transom.judge.records import Judgement


def log(j: "Judgement", path: Path, command: str, made: Iterable[Path | str]) -> None:
    """Note beside the job in `path` what a command made of a judgement; what cannot be noted is a warning on stderr.

    `command` is what was asked for, "draw --out DIR"; `made` are the files, which exist by now.
    """
    from transom.cli.stream import tell
    from transom.job.log import log_paper

    tell(*log_paper(path, j.job, command, result_of(j), [str(each) for each in made]))


def result_of(j: "Judgement") -> str:
    """The judgement in the words of the log: "CUT, passes", "QUOTE, does not pass"."""
    return f"{j.paper}, {'passes' if j.passes else 'does not pass'}"
