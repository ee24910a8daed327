"""`transom explain`: a check from what enters to its share of the limit, one formula a line; or what all rests on."""

from typing import TYPE_CHECKING, Annotated

import typer

from transom.cli.guard import PASSES
from transom.cli.jobs import JobPath, path_of, read

if TYPE_CHECKING:
    from transom.judge.records import Judgement

CheckName = Annotated[
    str | None,
    typer.Argument(
        metavar="CHECK", help="An id, the beginning of one, or a part, as board; left out, the weakest link.",
        show_default=False,
    ),
]  # fmt: skip
AsMarkdown = Annotated[bool, typer.Option("--markdown", help="Print the derivation as Markdown.")]
AsLatex = Annotated[bool, typer.Option("--latex", help="Print the derivation as a LaTeX document.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print the derivation, or the ledger, as JSON.")]
AsLedger = Annotated[
    bool, typer.Option("--ledger", help="Print what the answer rests on instead, row by row, and what on memory.")
]


def explain(
    job: JobPath = None,
    check: CheckName = None,
    markdown: AsMarkdown = False,
    latex: AsLatex = False,
    json: AsJson = False,
    ledger: AsLedger = False,
) -> None:
    """Show where a number comes from: one formula a line, to redo with a calculator."""
    from transom.cli.mounted import mounted
    from transom.cli.stream import say
    from transom.errors import JobError

    if job is not None and check is None and not job.suffix and not job.exists():
        # One word that is no file: a check of the only job here.
        job, check = None, str(job)
    if markdown + latex + json > 1:
        raise JobError("--markdown, --latex, --json: one form at a time; leave the others out")
    if ledger and (markdown or latex or check is not None):
        raise JobError("--ledger: is of the whole answer, on the screen or with --json; leave CHECK and the form out")
    j = mounted(read(path_of(job)))
    say(_ledger(j, json) if ledger else _derivation(j, check, markdown, latex, json))
    raise typer.Exit(PASSES)


def _derivation(j: "Judgement", check: str | None, markdown: bool, latex: bool, json: bool) -> list[str]:
    from transom.derivation.derive import derive
    from transom.report.explain import markup
    from transom.report.explain.data import derivation_json
    from transom.report.explain.pick import picked
    from transom.report.explain.screen import explain_screen

    found, also = picked(j, check)
    (d,) = derive(j, [found])
    if json:
        return [derivation_json(j, d)]
    if latex:
        return markup.latex(j, d)
    return markup.markdown(j, d) if markdown else explain_screen(j, d, also)


def _ledger(j: "Judgement", json: bool) -> list[str]:
    from transom.derivation.ledger import ledger
    from transom.report.explain.data import ledger_json
    from transom.report.explain.ledger import ledger_screen

    found = ledger(j)
    return [ledger_json(j, found)] if json else ledger_screen(j, found)
