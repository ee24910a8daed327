"""`transom trial`: what to watch on the water, and what its figures say."""

from pathlib import Path
from typing import Annotated

import typer

from transom.cli.guard import FAILS, PASSES
from transom.cli.jobs import AsJson, JobPath, path_of, read
from transom.cli.mounted import mounted

Speed = Annotated[str | None, typer.Option(metavar="SPEED", help='Full throttle, or "no GPS".', show_default=False)]
EngineSpeed = Annotated[
    str | None,
    typer.Option("--engine-speed", metavar="RPM", help='Full throttle, or "no tachometer".', show_default=False),
]
Height = Annotated[
    str | None,
    typer.Option(
        metavar="LENGTH", help="Anti-ventilation plate above hull or tubes; minus if below.", show_default=False
    ),
]
Push = Annotated[
    str | None, typer.Option(metavar="WEIGHT", help="Ruler check: weight on the plate.", show_default=False)
]
Moved = Annotated[
    str | None, typer.Option(metavar="LENGTH", help="Ruler check: how far the top edge moved.", show_default=False)
]
Record = Annotated[bool, typer.Option("--record", help="Write the figures into the job; the old file stays as .bak.")]


def trial(
    job: JobPath = None,
    speed: Speed = None,
    engine_speed: EngineSpeed = None,
    height: Height = None,
    push: Push = None,
    moved: Moved = None,
    record: Record = False,
    json: AsJson = False,
) -> None:
    """Before: what to watch, and the limits. After: what the figures say of propeller, mount and board."""
    from transom.cli.stream import say, tell
    from transom.errors import JobError
    from transom.floor.keeping import kept

    path = path_of(job)
    typed = {"trial.speed": speed, "trial.engine_speed": engine_speed, "trial.height": height,
             "trial.push.weight": push, "trial.push.moved": moved}  # fmt: skip
    found = {key: value for key, value in typed.items() if value is not None}
    if record and not found:
        raise JobError("--record: nothing to write. Give figures, such as --speed and --engine-speed")
    if record:
        bak = kept(path, found)
        tell(f"{path}: written; as it was: {bak}")
    say_it, passes = _read_out(path, {} if record else found, json)
    say(say_it)
    raise typer.Exit(PASSES if passes else FAILS)


def _read_out(path: Path, found: dict[str, str], json: bool) -> tuple[list[str], bool]:
    """What to print, and whether nothing speaks against the mount."""
    from transom.catalogue import SHIPPED
    from transom.cli.stream import as_json
    from transom.errors import JobError
    from transom.floor.findings import tried
    from transom.floor.record import judged_as_built
    from transom.floor.trialscreen import after, before, data
    from transom.interview.keep import added_to
    from transom.job.files import text_of
    from transom.job.read import loads

    stated = loads(added_to(text_of(path), found), folder=path.parent) if found else read(path)
    j = mounted(stated)
    if j.mount is None:
        raise JobError(f"{path}: there is no mount that works, so there is nothing to try; see `transom size`")
    j = judged_as_built(j, SHIPPED)
    if stated.sea_trial is None:
        if json:
            raise JobError(f"{path}: no trial in the job yet, so there is nothing to print as JSON. Give figures")
        return before(j), j.passes
    t = tried(j, SHIPPED)
    if json:
        return as_json(data(t)), t.passes
    return after(t), t.passes
