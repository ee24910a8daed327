"""Faults that only two values together make: a hole outside the board, a range that runs backwards."""

from collections.abc import Iterable
from typing import Any

from transom.job.faults import MISSING, shown
from transom.job.reading import Reading
from transom.job.setback_cross import setback

ROUND = 0.1  # mm; what two readings of one radius may differ by
_FOUR = ("upper_holes", "lower_holes", "rows_apart", "top_to_upper")


def check(r: Reading) -> None:
    """Add every such fault to the reading."""
    for rule in (
        _bracket_takes, _clamps, _power_known, _holes_across, _rows_down, _one_pattern, _points, _notch, _corners, _flange,
        _uprights, _lines, _kicker, _mount_plates, _names, _stated_words, _crossmembers, _fasteners, setback,
    ):  # fmt: skip
        rule(r)


def length(value: float) -> str:
    """A length as a shop reads it."""
    return shown(value, "length")


def _bracket_takes(r: Reading) -> None:
    takes = r.get("engine.takes")
    if takes and takes[0] >= takes[1]:
        r.fault("engine.takes", [length(t) for t in takes], "must run from thin to thick", "put the thinner first")


def _clamps(r: Reading) -> None:
    """Places of clamp screws are nothing to an engine that is bolted."""
    stated = [k for k in ("screw_down", "screw_y", "pad") if r.get(f"engine.clamps.{k}")]
    if stated and r.get("engine.held_by") != "clamps":
        r.fault(f"engine.clamps.{stated[0]}", length(r.get(f"engine.clamps.{stated[0]}")), "is of clamp screws, and the engine is not"
                " said to hang on them", 'say held_by = "clamps" under [engine], or take [engine.clamps] out')  # fmt: skip


def _power_known(r: Reading) -> None:
    """Without the engine's power there is no job, unless the builder's plate can stand in for it."""
    plate = "boat.plate_power"
    if "engine.power" in r.unmeasured and plate not in r.at_fault and not isinstance(r.get(plate), float):
        r.fault("engine.power", "?", "nothing can be sized without it, and no builder's plate power is stated "
                "to size for", 'read the cowl, or give a range such as "40 to 60 hp"')  # fmt: skip


def _holes_across(r: Reading) -> None:
    width = None if r.get("bracket") else r.get("board.width")
    for name in ("upper_holes", "lower_holes"):
        apart = r.get(f"engine.bracket.{name}")
        if width and apart and apart >= width:
            r.fault(f"engine.bracket.{name}", length(apart), f"is as wide as the board, {length(width)}",
                    "measure both again, holes center to center")  # fmt: skip


def _rows_down(r: Reading) -> None:
    if r.get("bracket"):
        return
    height, top = r.get("board.height"), r.get("engine.bracket.top_to_upper")
    apart = r.get("engine.bracket.rows_apart")
    if height and top and apart and top + apart >= height:
        r.fault("engine.bracket.rows_apart", length(apart), f"puts the lower row {length(top + apart)} down, "
                f"off a board {length(height)} high", "measure both again")  # fmt: skip


def _one_pattern(r: Reading) -> None:
    stated = [name for name in _FOUR if r.get(f"engine.bracket.{name}") is not None]
    if r.get("engine.bracket.bolts") and stated:
        r.fault("engine.bracket.bolts", MISSING, f"stands beside {', '.join(stated)}",
                "give the four distances or the list of bolts, not both")  # fmt: skip


def _points(r: Reading) -> None:
    """Bolts, pads, openings and obstructions lie on the board, where its size is known; on a setback bracket, not."""
    own = () if r.get("bracket") else ("engine.bracket.bolts", "engine.bracket.pads")
    for path in (*own, "board.openings", "board.obstructions"):
        for i, row in enumerate(r.get(path) or (), 1):
            _on_board(r, f"{path} {i}", row)


def _on_board(r: Reading, where: str, row: dict[str, Any]) -> None:
    width, height = r.get("board.width"), r.get("board.height")
    y, down = row.get("y"), row.get("down")
    if width and y is not None and abs(y) >= width / 2:
        r.fault(f"{where}.y", length(y), f"lies off a board {length(width)} wide",
                "measure y from the center line, starboard +")  # fmt: skip
    if height and down is not None and down >= height:
        r.fault(f"{where}.down", length(down), f"lies off a board {length(height)} high",
                "measure down from the top edge")  # fmt: skip


def _notch(r: Reading) -> None:
    for name, side in (("width", "width"), ("depth", "height")):
        cut, whole = r.get(f"board.top_notch.{name}"), r.get(f"board.{side}")
        if cut and whole and cut >= whole:
            r.fault(f"board.top_notch.{name}", length(cut), f"takes the whole {side} of the board, "
                    f"{length(whole)}", "measure the notch again")  # fmt: skip
    cut, deep = r.get("board.top_notch.width"), r.get("board.top_notch.depth")
    if cut is not None and deep is not None and (cut > 0) != (deep > 0):
        r.fault("board.top_notch", MISSING, "has one of width and depth at zero",
                "give both, or leave the notch out")  # fmt: skip


def _corners(r: Reading) -> None:
    """Cut corners leave some of every edge, clear of the notch and of each other."""
    for which in ("top", "bottom"):
        _pair_of_corners(r, which)
    heights = [r.get(f"board.{which}_corners.height") or 0.0 for which in ("top", "bottom")]
    whole = r.get("board.height")
    if whole and max(heights) < whole <= sum(heights):
        r.fault("board.bottom_corners.height", length(heights[1]), f"and the top corners' {length(heights[0])} take the"
                f" whole side of a board {length(whole)} high", "measure both again")  # fmt: skip


def _pair_of_corners(r: Reading, which: str) -> None:
    path = f"board.{which}_corners"
    wide, high = r.get(f"{path}.width"), r.get(f"{path}.height")
    if wide is None or high is None:
        return
    if (wide > 0) != (high > 0):
        r.fault(path, MISSING, "has one of width and height at zero", "give both, or leave the corners out")
    elif r.get(f"{path}.cut") == "round" and abs(wide - high) > ROUND:
        r.fault(f"{path}.height", length(high), f"is not the width, {length(wide)}, and a round cut has one radius",
                'give the radius as both, or write cut = "straight"')  # fmt: skip
    width, height = r.get("board.width"), r.get("board.height")
    notch = (r.get("board.top_notch.width") or 0.0) if which == "top" else 0.0
    if width and 2 * wide >= width:
        r.fault(f"{path}.width", length(wide), f"on both sides takes the whole {which} edge of a board {length(width)} wide",
                "measure one corner")  # fmt: skip
    elif width and notch and wide and 2 * wide + notch >= width:
        r.fault(f"{path}.width", length(wide), f"meets the notch, {length(notch)} wide in a board {length(width)} wide",
                "measure both again")  # fmt: skip
    if height and high >= height:
        r.fault(f"{path}.height", length(high), f"takes the whole side of a board {length(height)} high",
                "measure one corner")  # fmt: skip
    if width and height and 2 * wide < width and high < height:
        _in_corners(r, path, (width / 2 - wide, high if which == "top" else height - high), which == "top")


def _in_corners(r: Reading, path: str, at: tuple[float, float], top: bool) -> None:
    """Openings that reach into what is cut off, taken as a rectangle."""
    side, level = at
    for i, row in enumerate(r.get("board.openings") or (), 1):
        y, down, half = abs(row.get("y") or 0.0), row.get("down") or 0.0, (row.get("diameter") or 0.0) / 2
        past = down - half < level if top else down + half > level
        if y + half > side and past and r.get(f"{path}.width") and r.get(f"{path}.height"):
            r.fault(f"board.openings {i}.y", length(row["y"]), f"reaches into the corners cut off by [{path}], taken as"
                    " rectangles", "measure both again")  # fmt: skip


def _flange(r: Reading) -> None:
    width, board = r.get("frame.flange.width"), r.get("board.width")
    if width and board and 2 * width >= board:
        r.fault("frame.flange.width", length(width), f"leaves nothing open behind a board {length(board)} wide",
                "measure one flange")  # fmt: skip


def _uprights(r: Reading) -> None:
    at, kind, width = r.get("frame.at"), r.get("frame.kind"), r.get("board.width")
    if not at:
        return
    shown_at = [length(y) for y in at]
    if kind and kind != "uprights":
        r.fault("frame.at", shown_at, f"is for uprights, and the frame is a {kind}",
                'leave it out, or write kind = "uprights"')  # fmt: skip
    if len(set(at)) < len(at):
        r.fault("frame.at", shown_at, "has two uprights in one place", "measure each from the center line")
    if width and any(abs(y) > width / 2 for y in at):
        r.fault("frame.at", shown_at, f"lies off a board {length(width)} wide",
                "measure y from the center line, starboard +")  # fmt: skip


def _lines(r: Reading) -> None:
    lines = r.get("frame.lines") or ()
    if len(lines) == 1:
        r.fault("frame.lines", MISSING, "has a single line, which cannot hold a board",
                "give every line, or leave them out")  # fmt: skip
    for i, row in enumerate(lines, 1):
        if row.get("start") is not None and row.get("start") == row.get("end"):
            r.fault(f"frame.lines {i}.to", MISSING, "ends where it begins", "give y and down of both ends")


def _kicker(r: Reading) -> None:
    y, width = r.get("engine.kicker.y"), r.get("board.width")
    if y is not None and width and abs(y) >= width / 2:
        r.fault("engine.kicker.y", length(y), f"lies off a board {length(width)} wide",
                "measure y from the center line, starboard +")  # fmt: skip


def _mount_plates(r: Reading) -> None:
    if r.get("mount") and not r.get("mount.layers"):
        r.fault("mount.layers", MISSING, "is missing: a mount has at least one sheet",
                'write layers = [{ sheet = "...", grain = "across" }], or leave [mount] out')  # fmt: skip
    for side in ("aft", "forward"):
        _backing(r, f"mount.engine_bolts.{side}")


def _backing(r: Reading, path: str) -> None:
    """A washer, or a plate with its three measures; not both."""
    stated = r.of(path)
    if "washer" in stated and len(stated) > 1:
        others = ", ".join(name for name in stated if name != "washer")
        r.fault(f"{path}.washer", stated["washer"], f"stands beside {others}", "give the washer or the plate")
    if "washer" in stated or not stated:
        return
    for name in ("plate", "thickness", "width", "height"):
        if name not in stated and f"{path}.{name}" not in r.at_fault:
            r.fault(f"{path}.{name}", MISSING, "is missing from the plate", "give alloy and three measures")


def _names(r: Reading) -> None:
    """Two cases of one name, or one stop accepted twice, cannot be told apart."""
    for path, field in (("case", "name"), ("accept", "stop")):
        names = [row.get(field) for row in r.get(path) or () if row.get(field)]
        for name in sorted({n for n in names if names.count(n) > 1}):
            r.fault(f"{path}.{field}", name, "stands twice", "keep one")


def _stated_words(r: Reading) -> None:
    """A reason, a name or a paper that is empty is none."""
    needed = {"case": ("name", "reason"), "accept": ("by", "paper")}
    for path, fields in needed.items():
        for i, row in enumerate(r.get(path) or (), 1):
            _empty(r, f"{path} {i}", (f for f in fields if row.get(f) == ""))


def _empty(r: Reading, where: str, fields: Iterable[str]) -> None:
    for name in fields:
        r.fault(f"{where}.{name}", "", "is empty", "write it in words, or leave the line out")


def _crossmembers(r: Reading) -> None:
    count, at = r.get("crossmembers.count"), r.get("crossmembers.at")
    if count and at and count != len(at):
        r.fault("crossmembers.count", count, f"does not match the {len(at)} places in at", "give one of the two")


def _fasteners(r: Reading) -> None:
    """Screws hold in wood, rivets in metal; a screw's length is no bolt's."""
    if r.get("frame.bolts.kind") == "blind rivets":
        r.fault("frame.bolts.kind", "blind rivets", "hold metal to metal, not a wooden board",
                'use through-bolts, or write kind = "lag screws" if that is what holds it')  # fmt: skip
    if r.get("crossmembers.bolts.kind") == "lag screws":
        r.fault("crossmembers.bolts.kind", "lag screws", "hold in wood, and crossmembers are metal",
                'write kind = "bolts" or "blind rivets"')  # fmt: skip
    for where in ("frame.bolts", "crossmembers.bolts"):
        if r.get(f"{where}.length") and r.get(f"{where}.kind") != "lag screws":
            r.fault(f"{where}.length", length(r.get(f"{where}.length")), "is asked of lag screws alone",
                    'leave it out, or write kind = "lag screws"')  # fmt: skip
