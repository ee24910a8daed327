"""`transom new`: a job file by questions, a blank one to fill in, or the shipped example."""

from pathlib import Path
from typing import Annotated, Any

import typer


def new(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Where to write it.")],
    quick: Annotated[
        bool, typer.Option("--quick", help="The estimator's nine questions; the rest is assumed.")
    ] = False,
    go_on: Annotated[bool, typer.Option("--go-on", help="Ask what FILE leaves open, and put it in.")] = False,
    si: Annotated[bool, typer.Option("--si", help="Bare numbers are mm, kg, kW; else in, lb, hp.")] = False,
    blank: Annotated[bool, typer.Option("--blank", help="No questions: a file to type over, in tape order.")] = False,
    example: Annotated[bool, typer.Option("--example", help="The shipped example, invented.")] = False,
    field_sheet: Annotated[
        bool, typer.Option("--field-sheet", help="FILE is a PDF: two pages to take to the boat.")
    ] = False,
    filled: Annotated[
        Path | None,
        typer.Option(
            "--filled-from", metavar="JOB", help="What this job knows stands in the sheet.", show_default=False
        ),
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Replace a file that is there.")] = False,
) -> None:
    """Write a job file: by questions in tape order, or a blank one, or the example."""
    from transom.cli.stream import tell
    from transom.errors import JobError
    from transom.job.files import write_atomic
    from transom.job.write import blank as blank_text
    from transom.job.write import example_text

    if blank + example + field_sheet + (quick or go_on) > 1:
        raise JobError(f"{file}: say one of --blank, --example, --field-sheet and the questions (--quick, --go-on)")
    if field_sheet or filled is not None:
        _sheet(file, filled, si=si, force=force)
        return
    if not (blank or example):
        _interview(file, quick=quick, go_on=go_on, si=si, force=force)
        return
    write_atomic(file, blank_text() if blank else example_text(), force)
    after = 'type over each "?", then' if blank else "now"
    tell(f"{file}: written; {after} `transom size {file}`")


def _sheet(file: Path, filled: Path | None, *, si: bool, force: bool) -> None:
    """The field sheet, blank or with what a job already knows."""
    from transom.cli.stream import tell
    from transom.errors import JobError
    from transom.floor.fieldsheet import field_sheet
    from transom.interview.keep import known_in
    from transom.job.files import text_of, write_atomic

    if file.suffix.lower() != ".pdf":
        raise JobError(f"{file}: the field sheet is a PDF. Give it a name that ends in .pdf")
    known = known_in(text_of(filled)) if filled is not None else {}
    units = "si" if si or known.get("job.units") == "si" else "us"
    write_atomic(file, field_sheet(units, known), force)
    tell(f"{file}: written; two pages, print both")


def _interview(file: Path, *, quick: bool, go_on: bool, si: bool, force: bool) -> None:
    """Ask; what was answered is written however the questions end."""
    from transom.errors import JobError
    from transom.interview.dialogue import Talk, run
    from transom.interview.keep import known_in
    from transom.interview.questions import FULL, QUICK
    from transom.job.files import text_of

    if file.exists() and not (go_on or force):
        raise JobError(f"{file}: is there already. --go-on asks what it leaves open, --force starts it anew")
    text = text_of(file) if go_on else ""
    known = known_in(text) if go_on else {}
    talked = Talk(answers=dict(known))
    try:
        run(QUICK if quick else FULL, _ask, _show, talked, si=si, skip=known)
    finally:
        answered = {p: a for p, a in talked.answers.items() if p not in known}
        if any(a not in (None, "?", "no") for a in answered.values()):
            _write(file, text, answered, si=si, over=go_on or force)


def _write(file: Path, text: str, answered: dict[str, Any], *, si: bool, over: bool) -> None:
    from transom.cli.stream import tell
    from transom.interview.keep import added_to, new_text
    from transom.job.files import write_atomic

    write_atomic(file, added_to(text, answered) if text else new_text(answered, si), over)
    tell("", f"{file}: written; now `transom size {file}`, or `transom new {file} --go-on` for what is open")


def _ask(prompt: str) -> str:
    return input(prompt)


def _show(line: str) -> None:
    from transom.cli.stream import say

    say([line])
