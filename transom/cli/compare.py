"""`transom compare A B`: two jobs or saved judgements side by side."""

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, Any

import typer

First = Annotated[Path, typer.Argument(metavar="A", help="Job file or saved judgement, as it was.")]
Second = Annotated[Path, typer.Argument(metavar="B", help="Job file or saved judgement, as it is now.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print the comparison as JSON.")]


def compare(a: First, b: Second, json: AsJson = False) -> None:
    """Set two jobs or saved judgements side by side: what changed, and what should have and did not."""
    from transom.cli.stream import say
    from transom.errors import JobError
    from transom.report.compare.comparing import compare as compared
    from transom.report.compare.data import to_json
    from transom.report.compare.screen import screen

    found: list[Mapping[str, Any]] = []
    faults: list[str] = []
    for path in (a, b):
        try:
            found.append(_judged(path))
        except JobError as error:
            faults += error.faults
    if faults:
        raise JobError(*dict.fromkeys(faults))
    said = compared(*found)
    titles = (_title(a, found[0]), _title(b, found[1]))
    say([to_json(said, (str(a), str(b)))] if json else screen(said, titles, _units(found[1])))


def _judged(path: Path) -> Mapping[str, Any]:
    """The judgement in a file, or of the job in it: its own mount, else the one that is sized for it."""
    from transom.catalogue import SHIPPED
    from transom.cli.jobs import read
    from transom.cli.stream import tell
    from transom.judge.judging import judge
    from transom.report.compare.saved import is_saved, read_saved
    from transom.report.judgement import as_object
    from transom.sizing.sizing import size

    if is_saved(path):
        return read_saved(path)
    job = read(path)
    if job.mount is None:
        tell(f"{path}: no [mount] in it, so it is sized first")
        return as_object(size(job, SHIPPED))
    return as_object(judge(job, SHIPPED, job.mount))


def _title(path: Path, o: Mapping[str, Any]) -> str:
    return f"{o['job']['name'] or 'unnamed'}, rev {o['job']['revision']}   ({path})"


def _units(o: Mapping[str, Any]) -> str:
    """How results read: as the later job asks."""
    return "si" if o.get("inputs", {}).get("job.units", {}).get("value") == "si" else "us"
