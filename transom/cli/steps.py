"""`transom steps`: the build in order, with clock times, and a checklist to print."""

from pathlib import Path
from typing import Annotated

import typer

from transom.cli.guard import FAILS, PASSES
from transom.cli.jobs import AsJson, Force, JobPath, apart, path_of, read
from transom.cli.mounted import DespiteFailure, Glue, mounted, unless_it_fails

From = Annotated[
    str | None,
    typer.Option(
        "--from", metavar="TIME", help='Start, such as "2026-11-30 08:00"; left out, day 1.', show_default=False
    ),
]
Pdf = Annotated[Path | None, typer.Option("--pdf", metavar="FILE", help="Write the checklist.", show_default=False)]


def steps(
    job: JobPath = None,
    start: From = None,
    glue: Glue = "structural epoxy",
    pdf: Pdf = None,
    despite_failure: DespiteFailure = False,
    force: Force = False,
    json: AsJson = False,
) -> None:
    """Build it in order: glue-up, boring, sealing, fitting, torque, when and after which cure."""
    from transom.catalogue import SHIPPED
    from transom.cli.log import log
    from transom.cli.stream import as_json, say, tell
    from transom.floor.building import build_of
    from transom.floor.clock import start_of, timed
    from transom.floor.screen import checklist, data, screen
    from transom.floor.steps import steps as listed
    from transom.job.files import write_atomic

    path = path_of(job)
    apart(path, pdf)
    begins = start_of(start)
    j = mounted(read(path))
    unless_it_fails(j, "The list of steps", despite_failure)
    b = build_of(j, SHIPPED, glue)
    told = timed(listed(b), begins)
    if pdf is not None:
        write_atomic(pdf, checklist(b, told, begins), force)
        log(j, path, "steps --pdf", [pdf])
        tell(f"{pdf}: written")
    if json:
        say(as_json(data(b, told, begins)))
    else:
        say(screen(b, told, begins))
    raise typer.Exit(PASSES if j.passes else FAILS)
