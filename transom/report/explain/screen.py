"""`transom explain` on a terminal: a plain sentence, what enters, then one formula a line, 80 columns of ASCII."""

import re
from collections.abc import Iterator, Sequence

from transom.derivation.lines import Derivation, Line
from transom.judge.records import Judgement
from transom.report.amounts import percent
from transom.report.explain.words import ENTERS, STEPS, note, origin, sentence, value_text
from transom.report.page import careful, head
from transom.report.text import WIDTH, block, rule
from transom.result import Check

AT = 6  # column of the lines' text; their numbers stand before it
PIECES = re.compile(r"(?<=[*/, ])")


def explain_screen(j: Judgement, d: Derivation, also: Sequence[Check] = ()) -> list[str]:
    """The screen, line by line."""
    units = j.job.head.units
    out = [*head(j), *block("", sentence(j, d.check), at=0), *block("", f"{d.check.id}", at=0), *others(d.check, also)]
    out += [rule(), f" {ENTERS.upper()}"]
    for line in d.given:
        out += numbered(line, [value_text(line, units)], units)
    out += [rule(), f" {STEPS.upper()}", *block("", note(d), at=2)]
    for line in d.steps:
        out += numbered(line, equation(line), units)
    return [*out, rule(), *careful(j)]


def others(d: Check, also: Sequence[Check]) -> Iterator[str]:
    """The pencil method's word on a check of the careful one, and other checks that the words fitted."""
    if d.method == "plate":
        name = d.id.replace(".plate.", ".hand.")
        yield from block("PENCIL", f"the same by the pencil method, line by line: explain {name}", at=8)
    if also:
        yield from block("ALSO", "the words fit these too, name one to see it:")
        for c in also:
            yield f"{'':<10}{percent(c.utilisation):>6}  {c.id}"


def numbered(line: Line, text: Sequence[str], units: str) -> Iterator[str]:
    """A line with its number, and below it what it is."""
    for i, row in enumerate(text):
        yield f"{f'({line.number})' if not i else '':>{AT}} {row}"
    yield from (f"{'':{AT}}   {row.strip()}" for row in block("", origin(line, units), at=AT + 3))


def equation(line: Line) -> list[str]:
    """A formula in one row where it fits, else a row from each sign of equality on; numbers are never broken."""
    room = WIDTH - AT - 1
    if len(line.text) <= room:
        return [line.text]
    symbol, *parts = line.parts
    rows = [f"{symbol} = {parts[0]}", *(f"  = {p}" for p in parts[1:])]
    return [piece for row in rows for piece in broken(row, room)]


def broken(row: str, room: int) -> list[str]:
    """A row broken after operators, commas and spaces, its rest indented."""
    out, line = [], ""
    for piece in PIECES.split(row):
        if line.strip() and len(line) + len(piece.rstrip()) > room:
            out.append(line.rstrip())
            line = "    "
        line += piece
    return [*out, line.rstrip()]
