"""Faults that only two measures of a setback bracket together make."""

from transom.job.faults import shown
from transom.job.reading import Reading


def setback(r: Reading) -> None:
    """Holes off the board or the base plate, side plates that cross, places past the engine plate."""
    if not r.get("bracket"):
        return
    _base(r)
    _side_plates(r)
    _places(r)


def _length(value: float) -> str:
    return shown(value, "length")


def _base(r: Reading) -> None:
    base, board = r.of("bracket.base"), {k: r.get(f"board.{k}") for k in ("width", "height")}
    for name in ("upper_holes", "lower_holes"):
        for what, width in (("board", board["width"]), ("base plate", base.get("width"))):
            apart = base.get(name)
            if apart and width and apart >= width:
                r.fault(f"bracket.base.{name}", _length(apart), f"is as wide as the {what}, {_length(width)}",
                        "measure both again, holes center to center")  # fmt: skip
    top, apart = base.get("top_to_upper"), base.get("rows_apart")
    ends = (("board", board["height"]), ("base plate", _sum(base.get("top"), base.get("height"))))
    for what, height in ends:
        if top and apart and height and top + apart >= height:
            r.fault("bracket.base.rows_apart", _length(apart), f"puts the lower row {_length(top + apart)} down, off a"
                    f" {what} that ends {_length(height)} down", "measure both again")  # fmt: skip
    if top and base.get("top") and base["top"] >= top:
        r.fault("bracket.base.top_to_upper", _length(top), f"lies above the base plate's top edge, {_length(base['top'])} down",
                "measure both from the board's top edge")  # fmt: skip


def _sum(a: float | None, b: float | None) -> float | None:
    return None if b is None else (a or 0.0) + b


def _side_plates(r: Reading) -> None:
    apart, t = r.get("bracket.side_plates.apart"), r.get("bracket.side_plates.thickness")
    count = r.get("bracket.side_plates.count") or 2
    if apart and t and (count - 1) * t >= apart:
        r.fault("bracket.side_plates.apart", _length(apart), f"leaves nothing between {count} plates {_length(t)} thick",
                "measure the outer two, middle to middle")  # fmt: skip
    width = r.get("bracket.base.width")
    if apart and width and apart >= width:
        r.fault("bracket.side_plates.apart", _length(apart), f"is as wide as the base plate, {_length(width)}",
                "measure the outer two, middle to middle")  # fmt: skip


def _places(r: Reading) -> None:
    """Ties and cuts lie between base and engine plate."""
    reach = r.get("bracket.setback")
    if not reach:
        return
    for i, tie in enumerate(r.get("bracket.side_plates.ties") or (), 1):
        _short_of(r, f"bracket.side_plates.ties {i}", tie, reach)
    deepest = max(r.get("bracket.side_plates.depth") or 0.0, r.get("bracket.side_plates.engine_depth") or 0.0)
    for i, step in enumerate(r.get("bracket.side_plates.steps") or (), 1):
        where = f"bracket.side_plates.steps {i}"
        if "aft" in step:
            _short_of(r, f"{where}.aft", step["aft"], reach)
        if deepest and step.get("depth", 0.0) > deepest:
            r.fault(f"{where}.depth", _length(step["depth"]), f"is more than the plates have, {_length(deepest)}",
                    "give the metal that is left there")  # fmt: skip


def _short_of(r: Reading, where: str, aft: float, reach: float) -> None:
    if aft >= reach:
        r.fault(where, _length(aft), f"lies past a setback of {_length(reach)}", "measure it aft of the board")
