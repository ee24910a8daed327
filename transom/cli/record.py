"""`transom record`: one page of what was built, for owner, surveyor and warranty."""

from pathlib import Path
from typing import Annotated

import typer

from transom.cli.guard import FAILS, PASSES
from transom.cli.jobs import AsJson, Force, JobPath, apart, path_of, read
from transom.cli.mounted import DespiteFailure, mounted

Pdf = Annotated[
    Path | None,
    typer.Option("--pdf", metavar="FILE", help="Where to write it; left out, beside the job.", show_default=False),
]


def record(
    job: JobPath = None,
    pdf: Pdf = None,
    despite_failure: DespiteFailure = False,
    force: Force = False,
    json: AsJson = False,
) -> None:
    """Write the mount record: as built, measured, torqued, tried; what is missing; signatures."""
    from transom.catalogue import SHIPPED
    from transom.cli.log import log
    from transom.cli.stream import as_json, say, tell
    from transom.errors import JobError
    from transom.floor.record import record_of, sentence, under
    from transom.floor.recordpaper import data, page
    from transom.job.files import no_link, write_atomic

    path = path_of(job)
    apart(path, pdf)
    stated = read(path)
    if stated.built is None:
        raise JobError(
            f"{path}: [built] is not there: write what was built, at least thickness = [...] and torque = [...]"
        )
    if stated.mount is None:
        raise JobError(
            f"{path}: [mount] is not there, so nobody knows what was built; `transom size {path} --write FILE`"
        )
    r = record_of(mounted(stated), SHIPPED)
    place = pdf or path.with_name(f"{path.stem}-record.pdf")
    if pdf is None:
        no_link(place)
    if r.passes or despite_failure:
        write_atomic(place, page(r), force)
        log(r.built, path, "record", [place])
    if json:
        say(as_json(data(r)))
    else:
        say([sentence(r), *under(r), *([f"Missing for a RECORD: {'; '.join(r.missing)}."] if r.missing else [])])
        say([f"{place}: written"] if r.passes or despite_failure else
            ["No page was written; with --despite-failure it says DOES NOT PASS."])  # fmt: skip
    if not r.passes:
        tell("see what to do above")
    raise typer.Exit(PASSES if r.passes else FAILS)
