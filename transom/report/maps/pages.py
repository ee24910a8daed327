"""The three pages of a judgement: share of the limit, deflection, pad pressure."""

from dataclasses import replace

import numpy as np

from transom.board.grid import Rectangle
from transom.board.outline import notch
from transom.checks.careful import Careful
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import percent
from transom.report.maps import board
from transom.report.maps.bands import even, of_limit
from transom.report.maps.board import Raster
from transom.report.maps.svg import Sheet, field_page, patch_page
from transom.report.words import case_words, spelled

CELL = 4.0  # mm
SCALE = {"us": (4 * float(show.INCH), "4 in"), "si": (100.0, "100 mm")}
SET_ASIDE = (
    "Board as a plate under the bracket's real contact, safety factors in, frame taken as rigid; holes and small"
    " openings are taken out in the checks, not here."
)


Values = Raster | tuple[tuple[Rectangle, float], ...]


def pages(j: Judgement) -> dict[str, str]:
    """SVG text by name; empty where no mount was judged by the plate."""
    return {
        name: field_page(sheet, values) if isinstance(values, Raster) else patch_page(sheet, values)
        for name, (sheet, values) in sheets(j).items()
    }


def sheets(j: Judgement) -> dict[str, tuple[Sheet, Values]]:
    """What each page says and its values, by name; empty where no mount was judged by the plate."""
    if j.careful is None:
        return {}
    case = board.case_shown(j)
    sheet = _sheet(j, j.careful, case)
    return {
        "limit": _limit(j, j.careful, sheet),
        "deflection": _deflection(j, j.careful, sheet, case),
        "pads": _pads(j, j.careful, sheet, case),
    }


def _limit(j: Judgement, plate: Careful, sheet: Sheet) -> tuple[Sheet, Values]:
    nodes = board.share_of_limit(plate)
    peak = board.peak(plate, nodes)
    checked = next((c for c in j.worst if (c.part, c.what) == ("board", "bending")), None)
    with_holes = "" if checked is None else f" The check, with holes taken out: {percent(checked.utilisation)}."
    page = replace(
        sheet,
        title="Share of the limit: bending with twist",
        bands=of_limit(),
        peak=peak,
        below=(
            f"Worst load case of each point, weakest veneer. Largest: {percent(peak.value)}.{with_holes}",
            *sheet.below[-1:],
        ),
    )
    return page, board.raster(plate, nodes, *_cells(sheet.board))


def _deflection(j: Judgement, plate: Careful, sheet: Sheet, case: int) -> tuple[Sheet, Values]:
    nodes, units = board.deflection(plate, case), j.job.head.units
    peak = board.peak(plate, nodes)
    most = show.measured(abs(peak.value), units)
    page = replace(
        sheet,
        title="Deflection, aft is positive",
        bands=even(float(np.nanmin(nodes)), float(np.nanmax(nodes)), "mm", units),
        peak=peak,
        below=(
            f"Largest: {most} {'aft' if peak.value > 0 else 'forward'}, the load as the checks take it.",
            *sheet.below,
        ),
    )
    return page, board.raster(plate, nodes, *_cells(sheet.board))


def _pads(j: Judgement, plate: Careful, sheet: Sheet, case: int) -> tuple[Sheet, Values]:
    found, units = board.pressures(plate, case), j.job.head.units
    most = max(v for _, v in found)
    page = replace(
        sheet,
        title="Pressure under the bracket's pads",
        bands=even(0.0, most, "MPa", units),
        below=(
            f"Largest on one cell: {show.stress(most, units)}; a peak hangs on how soft the wood's face is taken:"
            " reported, never checked. Blank pads carry nothing.",
            *sheet.below,
        ),
    )
    return page, found


def _cells(r: Rectangle) -> tuple[int, int]:
    return max(1, round((r.y_hi - r.y_lo) / CELL)), max(1, round((r.z_hi - r.z_lo) / CELL))


def _sheet(j: Judgement, plate: Careful, case: int) -> Sheet:
    """What the three pages share."""
    h, b, units, grid = j.job.head, j.job.board, j.job.head.units, plate.answer.grid
    screws = plate.clamped
    place = j.setup.place
    wide, deep = (float(np.ravel(v)[0]) for v in (place.notch_width, place.notch_depth))
    bolts = board.fasteners(plate, case)
    pulls = ", ".join(f"{f.name} {show.force(f.pull, units)}" for f in bolts)
    verb = "push aft" if screws else "pull"
    return Sheet(
        title="",
        heading=f"{j.paper}{'' if j.passes else ' - DOES NOT PASS'} - job {h.number or ''} {h.name}, rev {h.revision}",
        board=Rectangle(float(grid.y[0]), float(grid.y[-1]), float(grid.z[0]), float(grid.z[-1])),
        supports=tuple(s.where for s in plate.board.supports),
        pads=board.pad_outlines(plate),
        fasteners=bolts,
        holes=tuple((o.y, -o.down, o.diameter) for o in b.openings),
        missing=(*notch(wide, deep), *plate.corners),
        bands=(),
        scale=SCALE[units],
        key=("clamp screw", "its swivel pad") if screws else ("engine bolt", "its plate or washer"),
        below=(
            f"Case: {case_words(j.cases.names[case], j.job.cases)}. {'Clamp screws' if screws else 'Bolts'} {verb}: {pulls}.",
            spelled(SET_ASIDE, units),
        ),
    )
