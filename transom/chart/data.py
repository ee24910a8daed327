"""The chart as JSON, `transom-chart-1`: SI working units in the names, null where thickness cures nothing."""

import json
from typing import Any

from transom import __version__
from transom.chart import words
from transom.chart.page import chart_identity
from transom.chart.records import Chart, Line, Point
from transom.report.judgement import number
from transom.result import Check, rounded


def to_json(c: Chart) -> str:
    """The whole chart, in a fixed order."""
    return json.dumps(as_data(c), indent=1, ensure_ascii=False, allow_nan=False)


def as_data(c: Chart) -> dict[str, Any]:
    """The chart as plain data."""
    j, i = c.own, chart_identity(c)
    head, plate = j.job.head, j.job.boat.plate_power
    return {
        "schema": "transom-chart-1",
        "tool": {"name": "transom", "version": __version__},
        "job": {"name": head.name, "number": head.number, "revision": head.revision, "sha256": j.job.sha256},
        "paper": i.paper,
        "powers_W": [rounded(p) for p in c.powers],
        "plate_power_W": None if plate is None else rounded(plate),
        "lines": [_line(line) for line in c.lines],
        "own": {
            "power_W": rounded(j.facts["engine.power"].value),
            "from": words.whose(c),
            "passes": j.passes,
            "layers": [] if j.mount is None else [{"sheet": x.sheet, "grain": x.grain} for x in j.mount.layers],
            "wood_mm": rounded(j.wood),
            "total_mm": rounded(j.total),
            "fails": list(i.fails),
        },
        "left_out": list(c.left_out),
        "stopped": list(words.stopped(c)),
        "assumed": list(words.assumed(c)),
        "cautions": list(i.cautions),
    }


def _line(line: Line) -> dict[str, Any]:
    return {"panel": line.panel, "sheets_as_sold": line.as_sold, "points": [_point(p) for p in line.points]}


def _point(p: Point) -> dict[str, Any]:
    return {
        "power_W": rounded(p.power),
        "state": p.state,
        "needs_mm": None if p.needs is None else rounded(p.needs.thickness),
        "set_by": None if p.needs is None else p.needs.check,
        "pencil_needs_mm": number(p.pencil),
        "layers": [{"sheet": x.sheet, "grain": x.grain} for x in p.layers],
        "wood_mm": rounded(p.wood),
        "total_mm": rounded(p.total),
        "weakest": _check(p.weakest),
        "failing": [_check(check) for check in p.failing],
        "beyond_brackets": p.beyond_brackets,
    }


def _check(check: Check) -> dict[str, Any]:
    return {"id": check.id, "utilisation": number(check.utilisation)}
