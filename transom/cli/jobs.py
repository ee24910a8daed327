"""What the commands that read a job share: the file, its job, the argument and options."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from transom.job.records import Job

JobPath = Annotated[
    Path | None,
    typer.Argument(metavar="JOB", help="Job file; left out, the only one in this folder.", show_default=False),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print the judgement as JSON.")]
Details = Annotated[
    bool, typer.Option("--details", help="Print every check, load, default and source behind the answer.")
]
Force = Annotated[bool, typer.Option("--force", help="Let files that are there be replaced.")]


def path_of(job: Path | None) -> Path:
    """The job's file, or the only one in the folder.

    Raises:
        JobError: there is none, or there are several.
    """
    from transom.job.files import the_only_job

    return the_only_job(Path.cwd()) if job is None else job


def read(path: Path) -> "Job":
    """The job in a file. Raises JobError with every fault."""
    from transom.job.read import load

    return load(path)


def apart(job: Path, *targets: Path | None, what: str = "the job") -> None:
    """See that nothing is to be written over what it is made of, by whatever name or link, forced or not.

    Raises:
        JobError: a target is the job.
    """
    from transom.errors import JobError

    for target in targets:
        if target is not None and (target.resolve() == job.resolve() or (target.exists() and target.samefile(job))):
            raise JobError(f"{target}: is {what} itself. Choose another name.")
