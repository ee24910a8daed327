"""`transom size`: the mount to build, or why there is none."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from transom.cli.answers import size_json, size_lines
from transom.cli.guard import FAILS, PASSES
from transom.cli.jobs import AsJson, Details, Force, JobPath, path_of, read
from transom.cli.maps import Maps, drawn

if TYPE_CHECKING:
    from transom.job.records import Job
    from transom.judge.records import Judgement
    from transom.sizing.field import Costs

Rank = Annotated[
    Literal["material", "mass", "thickness", "cost"],
    typer.Option(help="What to be sparing with: sheets to buy, weight, thickness, or cost."),
]
Prices = Annotated[
    Path | None, typer.Option(metavar="FILE", help="Price book; left out, the shop's.", show_default=False)
]
Write = Annotated[
    Path | None, typer.Option(metavar="FILE", help="Write the job with the mount filled in.", show_default=False)
]


def size(
    job: JobPath = None,
    rank: Rank = "material",
    prices: Prices = None,
    write: Write = None,
    maps: Maps = None,
    force: Force = False,
    json: AsJson = False,
    details: Details = False,
) -> None:
    """Find the mount to build: sheets, plates, bolts, torque, holes."""
    from transom.catalogue import SHIPPED
    from transom.cli.stream import say, tell
    from transom.sizing.sizing import size as sized

    path = path_of(job)
    stated = read(path)
    costs = costs_of(stated, path, rank, prices)
    j = sized(stated, SHIPPED, rank, costs=costs)
    if write is not None:
        tell(_written(path, stated, j, write, force))
    if maps is not None:
        tell("\n".join(drawn(j, path, maps, force, "size")))
    say(size_json(j) if json else size_lines(j, stated, rank, details))
    raise typer.Exit(PASSES if j.passes else FAILS)


def costs_of(job: "Job", path: Path, rank: str, prices: Path | None) -> "Costs | None":
    """What candidates cost, where they are ranked by it; says on stderr whose prices these are.

    Raises:
        JobError: a fault in the price book, or a price book that nothing is ranked by.
    """
    from transom.errors import JobError

    if rank != "cost":
        if prices is not None:
            raise JobError(f"--prices {prices}: nothing is ranked by them; add --rank cost, or ask `transom estimate`")
        return None
    from transom.cli.stream import tell
    from transom.estimate.rank import costs
    from transom.estimate.reading import book_for

    book = book_for(job, path.parent, prices)
    tell(f"ranked by cost with {book.source}: a guide among mounts; `transom estimate {path}` prices the pick")
    return costs(book)


def _written(path: Path, job: "Job", j: "Judgement", target: Path, force: bool) -> str:
    """Fill `[mount]` in the job's text and write it whole or not at all; what was done, in a line.

    Raises:
        JobError: something is there and not forced, or the text would not read back as this mount.
    """
    from transom.errors import JobError
    from transom.job.files import text_of, write_atomic
    from transom.job.read import loads
    from transom.job.write import with_mount

    if j.mount is None:
        return f"{target}: not written, there is no mount that works"
    text = with_mount(text_of(path), j.mount)
    back = loads(text, folder=target.parent)
    if back.mount != j.mount or back.stock != job.stock:
        raise JobError(
            f"{target}: would not be judged like {path} from there (another shop.toml?); write it beside the job"
        )
    write_atomic(target, text, force)
    return f"{target}: written, with its mount" + ("" if j.passes else "; a STOP stands, see the answer")
