"""`transom pack`: all paper of a job in one folder, with a page that leads to it."""

from dataclasses import replace
from typing import Annotated

import typer

from transom.cli.guard import FAILS, PASSES
from transom.cli.jobs import Force, JobPath, path_of, read
from transom.cli.mounted import DespiteFailure, Folder, Glue, free_names, mounted, unless_it_fails

From = Annotated[
    str | None, typer.Option("--from", metavar="TIME", help="Start of the build, for its steps.", show_default=False)
]


def pack(
    out: Folder,
    job: JobPath = None,
    start: From = None,
    glue: Glue = "structural epoxy",
    despite_failure: DespiteFailure = False,
    force: Force = False,
) -> None:
    """Write all paper at once: to build, to check, to price; index.html leads to it."""
    from transom.cli.log import log
    from transom.cli.stream import say
    from transom.floor.pack import index, issue_quote, pack_of
    from transom.job.files import text_of, write_atomic

    path = path_of(job)
    j = mounted(read(path))
    unless_it_fails(j, "The pack", despite_failure)
    made = pack_of(j, path, text_of(path), start, glue)
    names = {s.name: f"{path.stem}-{s.name}" for s in made.sheets}
    places = free_names(out, [*names.values(), "index.html"], force)
    for place, sheet in zip(places, made.sheets, strict=False):
        write_atomic(place, sheet.content, force)
    issued, none = issue_quote(made.priced, path, out)
    whole = replace(made, sheets=(*made.sheets, *issued), left_out=(*made.left_out, *none))
    names |= {s.name: s.name for s in issued}
    write_atomic(places[-1], index(whole, names), force)
    log(j, path, f"pack --out {out}", [*places, *(out / s.name for s in issued)])
    say([*(f"{place}" for place in places), *(f"{out / s.name}" for s in issued)])
    say([f"not in it: {line}" for line in whole.left_out] or ["nothing left out"])
    raise typer.Exit(PASSES if j.passes else FAILS)
