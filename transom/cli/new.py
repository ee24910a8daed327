"""`transom new`: a job file to fill in, or the shipped example."""

from pathlib import Path
from typing import Annotated

import typer


def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Where to write it.")],
    blank: Annotated[bool, typer.Option("--blank", help="Every question in tape order, to type over.")] = False,
    example: Annotated[bool, typer.Option("--example", help="The shipped example, invented.")] = False,
    force: Annotated[bool, typer.Option("--force", help="Replace a file that is there.")] = False,
) -> None:
    """Write a job file: a blank one, or the example."""
    from transom.cli.stream import tell
    from transom.errors import JobError
    from transom.job.files import write_atomic
    from transom.job.write import blank as blank_text
    from transom.job.write import example_text

    if blank == example:
        raise JobError(f"{file}: say which, --blank or --example" + (", not both" if blank else ""))
    write_atomic(file, blank_text() if blank else example_text(), force)
    after = 'type over each "?", then' if blank else "now"
    tell(f"{file}: written; {after} `transom size {file}`")
