"""`transom draw`: the mount for the bench, full size on paper, as a cut file and as views with dimensions."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from transom.cli.jobs import FAILS, PASSES, Force, JobPath, path_of, read
from transom.cli.mounted import DespiteFailure, free_names, mounted, refusal

if TYPE_CHECKING:
    from transom.drawing.records import Drawing

Out = Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder for the files; made where it is missing.")]
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


def draw(
    out: Out,
    job: JobPath = None,
    paper: Paper = None,
    holes_only: HolesOnly = False,
    despite_failure: DespiteFailure = False,
    force: Force = False,
) -> None:
    """Draw the mount: full-size template, cut file, section and faces with dimensions."""
    from transom.cli.stream import say, tell
    from transom.drawing.buildable import faults
    from transom.drawing.files import drawn
    from transom.drawing.layout import drawing_of
    from transom.errors import JobError
    from transom.job.files import write_atomic

    path = path_of(job)
    j = mounted(read(path))
    if not j.passes and (j.mount is None or not despite_failure):
        tell(*refusal(j, "The drawing"))
        raise typer.Exit(FAILS)
    drawing = drawing_of(j)
    if found := faults(drawing):
        raise JobError(*(f"{path}: {line}" for line in found))
    if holes_only and drawing.held_by == "clamps":
        raise JobError(f"{path}: clamp screws hold the engine, so there are no holes to draw. Leave out --holes-only.")
    on = paper or ("letter" if drawing.identity.units == "us" else "a4")
    files = drawn(drawing, on, holes_only)
    places = free_names(out, [f"{path.stem}-{name}" for name in files], force)
    for place, content in zip(places, files.values(), strict=True):
        write_atomic(place, content, force)
    say(answer(drawing, places, on))
    raise typer.Exit(PASSES if j.passes else FAILS)


def answer(d: "Drawing", places: list[Path], paper: str) -> list[str]:
    """What was drawn, what to know before it is used."""
    from transom.drawing import notes
    from transom.report.text import block, clean

    said = [f" {line}" for line in (notes.paper_words(d.identity), clean(notes.job_words(d.identity)))]
    for place in places:
        on = f" ({paper} paper; {notes.PRINT[:-1].lower()})" if place.suffix == ".pdf" else ""
        said += block("DRAWN", f"{place}{on}")
    for words in (*notes.accepted_words(d.identity), *notes.reasons(d.identity), *d.doubts):
        said += block("", f"- {words}", at=2)
    said += [" CAREFUL"]
    for words in notes.cautions(d):
        said += block("", f"- {words}", at=2)
    return said
