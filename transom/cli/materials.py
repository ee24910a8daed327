"""`transom materials`: the shipped tables, with source and evidence on each row."""

import json as json_text
from typing import Annotated

import typer


def materials(
    family: Annotated[
        str | None,
        typer.Argument(metavar="FAMILY", help="One table; left out, what tables there are.", show_default=False),
    ] = None,
    provisional: Annotated[bool, typer.Option("--provisional", help="Only rows that are known from memory.")] = False,
    json: Annotated[bool, typer.Option("--json", help="Print the rows as JSON.")] = False,
) -> None:
    """Print the tables of panels, sheets, bolts, plates and factors."""
    from transom.cli.stream import say
    from transom.report.tables import as_object, chosen, index, table

    found = chosen(family, provisional)
    if json:
        say([json_text.dumps(as_object(found), indent=1, allow_nan=False)])
    elif family is None and not provisional:
        say(index(found))
    else:
        say(line for name, rows in found.items() if rows or family for line in table(name, rows))
