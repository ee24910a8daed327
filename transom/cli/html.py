"""`--html FILE`: the review as one document, whole or not at all."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from transom.chance.sampling import Uncertainty
    from transom.judge.records import Judgement
    from transom.report.advice import Cure

Html = Annotated[
    Path | None,
    typer.Option(
        "--html", metavar="FILE", help="Write the whole review as one HTML file to read, print and sign.",
        show_default=False,
    ),
]  # fmt: skip


def written(
    j: "Judgement",
    cures: "Sequence[Cure]",
    job: Path,
    file: Path,
    force: bool,
    chance: "Uncertainty | None" = None,
) -> list[str]:
    """Write the document and log it; what was done, in lines.

    Raises:
        JobError: a file is there and not forced, or it cannot be written.
    """
    from transom.cli.jobs import apart
    from transom.cli.log import log
    from transom.job.files import free, write_atomic
    from transom.report.html.page import grounds, to_html

    apart(job, file)
    free(file, force)
    write_atomic(file, to_html(j, cures, grounds(j), chance), force)
    log(j, job, f"review --html {file}", [file])
    return [f"{file}: written"]
