"""The command line: one module per command, exit codes of the contract, no heavy import before a command runs."""

import sys
from collections.abc import Sequence
from typing import Annotated

import typer

from transom import __version__
from transom.cli import (
    batch,
    chart,
    compare,
    draw,
    estimate,
    explain,
    materials,
    new,
    pack,
    record,
    review,
    size,
    steps,
    trial,
    verify,
)
from transom.cli.guard import UNJUDGED, guarded
from transom.cli.plainly import plain
from transom.cli.stream import say, tell

app = typer.Typer(
    name="transom",
    help="Sizes the structural mount that carries an outboard engine: board, bolts, plates. Everyday commands first.",
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 79},
)
app.command("size")(size.size)
app.command("review")(review.review)
app.command("new")(new.new)
app.command("draw")(draw.draw)
app.command("estimate")(estimate.estimate)
app.command("steps")(steps.steps)
app.command("trial")(trial.trial)
app.command("record")(record.record)
app.command("pack")(pack.pack)
app.command("batch")(batch.batch)
app.command("explain")(explain.explain)
app.command("compare")(compare.compare)
app.command("chart")(chart.chart)
app.command("materials")(materials.materials)
app.command("verify")(verify.verify)


def _version(wanted: bool) -> None:
    if wanted:
        say([f"transom {__version__}"])
        raise typer.Exit


@app.callback()
def common(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and stop.")
    ] = False,
) -> None:
    """Sizes the structural mount that carries an outboard engine: board, bolts, plates.

    JOB is a job file; leave it out where it is the only one in the folder.
    Exit: 0 passes, 1 does not pass, 2 cannot be judged.
    """


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code: 0, 1, 2, 70 or 130."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    return guarded(lambda: _run(given or ["--help"]), typer.Abort)


def _run(arguments: list[str]) -> int:
    """The command, with Typer's own errors turned into lines and codes."""
    at_once = plain(arguments)
    try:
        if at_once is not None:
            return at_once()
        code = typer.main.get_command(app).main(arguments, prog_name="transom", standalone_mode=False)
    except Exception as error:
        # Click's and Typer's usage errors, whichever package they come from, know how to say themselves.
        say_it = getattr(error, "format_message", None)
        if say_it is None:
            raise
        return _usage(error, say_it())
    return code if isinstance(code, int) else 0


def _usage(error: Exception, message: str) -> int:
    context = getattr(error, "ctx", None)
    path = context.command_path if context is not None else "transom"
    if message.strip():
        # pydantic's own prefix, which tells nobody anything
        tell(f"{' '.join(message.replace('Value error, ', '').split())} `{path} --help` says what there is.")
    return UNJUDGED


if __name__ == "__main__":
    sys.exit(main())
