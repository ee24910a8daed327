"""`--maps DIR`: the maps of a judged board, each file whole or not at all."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from transom.judge.records import Judgement

Maps = Annotated[
    Path | None,
    typer.Option(
        "--maps", metavar="DIR", help="Draw % of limit, deflection and pad pressure as SVG.", show_default=False
    ),
]


def drawn(j: "Judgement", job: Path, folder: Path, force: bool, command: str) -> list[str]:
    """Write the maps into the folder, which is made where it is missing, and log it; what was done, in lines.

    Raises:
        JobError: a file is there and not forced, or the folder cannot be made; nothing is written then.
    """
    from transom.cli.log import log
    from transom.cli.mounted import free_names
    from transom.job.files import write_atomic
    from transom.report.maps.pages import pages

    drawn = {f"{job.stem}-{name}.svg": text for name, text in pages(j).items()}
    if not drawn:
        return [f"{folder}: no maps, there is no mount that works"]
    found = dict(zip(free_names(folder, list(drawn), force), drawn.values(), strict=True))
    for path, text in found.items():
        write_atomic(path, text, force)
    log(j, job, f"{command} --maps {folder}", found)
    return [f"{path}: drawn" for path in found]
