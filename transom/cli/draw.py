"""`transom draw`: the mount for the bench, full size on paper, as a cut file and as views with dimensions."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from transom.cli.guard import FAILS, PASSES
from transom.cli.jobs import Force, JobPath, path_of, read
from transom.cli.mounted import DespiteFailure, Folder, free_names, mounted, unless_it_fails

if TYPE_CHECKING:
    from transom.drawing.records import Drawing
    from transom.judge.records import Judgement

Paper = Annotated[
    Literal["letter", "a4", "tabloid", "roll"] | None,
    typer.Option(
        help="Paper of the template: tabloid is 11 x 17 in, roll 36 in wide. Left out: letter, or a4 where results read"
        " in SI.",
        show_default=False,
    ),
]
HolesOnly = Annotated[
    bool,
    typer.Option("--holes-only", help="Center line, top edge and engine holes alone: the old board is the outline."),
]


Only = Annotated[
    Literal["bench", "cuts"] | None,
    typer.Option(help="The bench card or the cut list alone; its words go to the screen too.", show_default=False),
]


def draw(
    out: Folder,
    job: JobPath = None,
    paper: Paper = None,
    holes_only: HolesOnly = False,
    only: Only = None,
    despite_failure: DespiteFailure = False,
    force: Force = False,
) -> None:
    """Draw the mount: full-size template, cut file, section and faces, bench card, cut list."""
    from transom.cli.log import log
    from transom.cli.stream import say
    from transom.drawing.buildable import faults
    from transom.drawing.files import bench_files, drawn
    from transom.drawing.layout import drawing_of
    from transom.errors import JobError
    from transom.job.files import write_atomic

    path = path_of(job)
    j = mounted(read(path))
    unless_it_fails(j, "The drawing", despite_failure)
    drawing = drawing_of(j)
    if found := faults(drawing):
        raise JobError(*(f"{path}: {line}" for line in found))
    if holes_only and drawing.held_by == "clamps":
        raise JobError(f"{path}: clamp screws hold the engine, so there are no holes to draw. Leave out --holes-only.")
    on = paper or ("letter" if drawing.identity.units == "us" else "a4")
    files = drawn(drawing, on, holes_only) if only is None else {}
    if not holes_only:
        files |= {name: made for name, made in bench_files(j, drawing).items() if only in (None, name.split(".")[0])}
    places = free_names(out, [f"{path.stem}-{name}" for name in files], force)
    for place, content in zip(places, files.values(), strict=True):
        write_atomic(place, content, force)
    log(
        j,
        path,
        " ".join(["draw", f"--out {out}", *(["--holes-only"] * holes_only), *([f"--only {only}"] if only else [])]),
        places,
    )
    say(card(j, drawing, places) if only == "bench" else answer(drawing, places, on, cuts(j, drawing, only)))
    raise typer.Exit(PASSES if j.passes else FAILS)


def card(j: "Judgement", d: "Drawing", places: list[Path]) -> list[str]:
    """Where the bench card was drawn, and all that it says."""
    from transom.drawing.bench import bench_card
    from transom.drawing.benchtext import lines
    from transom.report.text import block

    return [*(line for place in places for line in block("DRAWN", f"{place}")), *lines(bench_card(j, d))]


def cuts(j: "Judgement", d: "Drawing", only: str | None) -> list[str]:
    """The cut list's words where it was asked for alone."""
    from transom.drawing import nestwords
    from transom.drawing.files import cuts_of

    return [*nestwords.lines(cuts_of(j, d), d.identity.units)] if only == "cuts" else []


def answer(d: "Drawing", places: list[Path], paper: str, told: list[str]) -> list[str]:
    """What was drawn, the paper's own words where one was asked for, what to know before it is used."""
    from transom.drawing import notes
    from transom.report.text import WIDTH, block, wrapped

    heading = (notes.paper_words(d.identity), notes.job_words(d.identity))
    said = [f" {line}" for words in heading for line in wrapped(words, WIDTH - 1)]
    for place in places:
        on = f" ({paper} paper; {notes.PRINT[:-1].lower()})" if place.name.endswith(FULL_SIZE) else ""
        said += block("DRAWN", f"{place}{on}")
    for words in (*notes.accepted_words(d.identity), *notes.reasons(d.identity), *d.doubts):
        said += block("", f"- {words}", at=2)
    said += [*told, " CAREFUL"]
    for words in notes.cautions(d):
        said += block("", f"- {words}", at=2)
    return said


FULL_SIZE = ("-template.pdf", "-holes.pdf")
