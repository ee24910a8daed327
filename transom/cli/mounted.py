"""What the commands that make something from a mount share: the mount in the job or sized first, and whether it may be made."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from transom.cli.guard import FAILS

if TYPE_CHECKING:
    from transom.job.records import Job
    from transom.judge.records import Judgement

DespiteFailure = Annotated[
    bool,
    typer.Option(
        "--despite-failure", help="Make it from a mount that does not pass; every page then says DOES NOT PASS."
    ),
]
Folder = Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder for the files; made where it is missing.")]
Glue = Annotated[str, typer.Option(metavar="NAME", help="Glue, by its name in `transom materials cures`.")]


def mounted(job: "Job") -> "Judgement":
    """The mount in the job, judged; where there is none, the pick, or the nearest miss where nothing works.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    from transom.catalogue import SHIPPED
    from transom.cli.stream import tell
    from transom.judge.judging import judge
    from transom.sizing.sizing import size

    if job.mount is not None:
        return judge(job, SHIPPED, job.mount)
    sized = size(job, SHIPPED)
    if sized.mount is not None or sized.sizing is None or sized.sizing.nearest_miss is None:
        return sized
    tell("Nothing in stock works; the nearest miss stands in for it.")
    return judge(job, SHIPPED, sized.sizing.nearest_miss.mount)


def refusal(j: "Judgement", what: str) -> tuple[str, ...]:
    """Why nothing is made without --despite-failure, one line each; empty where the mount passes."""
    if j.passes:
        return ()
    from transom.drawing.identity import failures
    from transom.report.words import spelled

    said = [spelled(reason, j.job.head.units) for reason in failures(j)]
    return (
        *(f"DOES NOT PASS: {reason}" for reason in said),
        f"{what} was not made. Change the mount, or add --despite-failure: every page then says DOES NOT PASS.",
    )


def unless_it_fails(j: "Judgement", what: str, despite_failure: bool) -> None:
    """Go on where the mount passes, or where there is one and it was asked for all the same; else say why not and exit."""
    from transom.cli.stream import tell

    if not j.passes and (j.mount is None or not despite_failure):
        tell(*refusal(j, what))
        raise typer.Exit(FAILS)


def free_names(folder: Path, names: list[str], force: bool) -> list[Path]:
    """Where files go in a folder, made where it is missing; nothing is written yet.

    A link is never followed: what it points at lies elsewhere.

    Raises:
        JobError: something is there and not forced, or no folder can be made, one line each.
    """
    from transom.errors import JobError

    paths = [folder / name for name in names]
    faults = [
        f"{p}: is a link and may lead elsewhere. Remove it, or choose another folder." for p in paths if p.is_symlink()
    ]
    faults += [f"{p}: is a folder. Choose another place." for p in paths if p.is_dir() and not p.is_symlink()]
    if not force:
        faults += [
            f"{p}: is there already and is left as it is. Choose another folder, or add --force."
            for p in paths
            if p.is_file() and not p.is_symlink()
        ]
    if faults:
        raise JobError(*faults)
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise JobError(f"{folder}: no folder can be made there ({error.strerror}). Choose another place.") from None
    return paths
