"""The chart's points as CSV: both systems of units in the names of the columns, cautions under them."""

import csv
import io
from collections.abc import Iterator

from transom.chart import words
from transom.chart.page import chart_identity
from transom.chart.records import Chart, Line, Point
from transom.drawing import notes
from transom.quantity import show
from transom.report.text import harmless
from transom.report.words import check_words
from transom.result import rounded

HEADER = (
    "panel", "power_hp", "power_kW", "state", "needs_in", "needs_mm", "set_by", "pencil_needs_mm", "board_picked", "wood_in",
    "wood_mm", "total_in", "total_mm", "weakest_link", "percent_of_limit", "note",
)  # fmt: skip
INCH, HORSEPOWER = float(show.INCH), float(show.HORSEPOWER)


def to_csv(c: Chart) -> str:
    """Points first, the job's own board, then what the sheet says of itself; CRLF ends, quoted where needed."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(HEADER)
    writer.writerows([harmless(cell) for cell in row] for row in _rows(c))
    return out.getvalue()


def _rows(c: Chart) -> Iterator[list[str]]:
    for line in c.lines:
        yield from (_row(p, line, c) for p in line.points)
    yield from _own(c)
    i = chart_identity(c)
    for said in (*notes.page_words(i), *notes.reasons(i), *words.stopped(c)):
        yield _note(said)
    yield from (_note(f"ASSUMED: {said}") for said in words.assumed(c))
    yield from (_note(f"CAREFUL: {said}") for said in i.cautions)


def _note(said: str) -> list[str]:
    return [*[""] * (len(HEADER) - 1), said]


def _row(p: Point, line: Line, c: Chart) -> list[str]:
    needs = None if p.needs is None else p.needs.thickness
    note = f"more than any bracket seen takes ({p.total:.1f} mm in all)" if p.beyond_brackets else ""
    return [
        line.panel, *_power(p.power), p.state, _inches(needs), _mm(needs), words.set_by(p, c), _mm(words.finite(p.pencil)),
        words.board(p.layers, c.own.setup.tables), _inches(p.wood), _mm(p.wood), _inches(p.total), _mm(p.total),
        words.linked(p, c), _percent(p.weakest.utilisation), note,
    ]  # fmt: skip


def _own(c: Chart) -> Iterator[list[str]]:
    """The job as it stands, with its own engine."""
    j = c.own
    if j.mount is None:
        return
    panel = "; ".join(dict.fromkeys(j.setup.tables.sheet(x.sheet).panel for x in j.mount.layers))
    state = "this job: passes" if j.passes else "this job: DOES NOT PASS"
    yield [
        panel, *_power(j.facts["engine.power"].value), state, "", "", "", "", words.board(j.mount.layers, j.setup.tables),
        _inches(j.wood), _mm(j.wood), _inches(j.total), _mm(j.total), check_words(j.governing, j.job),
        _percent(j.governing.utilisation), words.whose(c),
    ]  # fmt: skip


def _power(watts: float) -> tuple[str, str]:
    return f"{rounded(watts / HORSEPOWER):.6g}", f"{rounded(watts / 1000):.6g}"


def _inches(mm: float | None) -> str:
    return "" if mm is None else f"{mm / INCH:.3f}"


def _mm(mm: float | None) -> str:
    return "" if mm is None else f"{mm:.1f}"


def _percent(share: float) -> str:
    finite = words.finite(share)
    return "" if finite is None else show.percent(finite, unit=False)
