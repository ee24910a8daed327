"""What lies on the two faces: plates and washers, the bracket's pads, and where nothing may lie."""

from collections.abc import Iterator, Sequence

from transom.catalogue import Catalogue
from transom.drawing.identity import assumed_places, on_board
from transom.drawing.records import (
    AFT,
    ASSUMED,
    ENGINE,
    FORWARD,
    FRAME,
    STATED,
    Circle,
    Hole,
    KeepOut,
    Outline,
    Pad,
    Plate,
    Rect,
    Washer,
)
from transom.job.records import Backing, Mount
from transom.judge.records import Judgement
from transom.maths import scalar
from transom.report.mounts import washer_words

PADS = ("pads_apart", "pad_width", "pad_height")


def centered(y: float, down: float, width: float, height: float, radius: float = 0.0) -> Rect:
    """A rectangle about a point."""
    return Rect(y - width / 2, y + width / 2, down - height / 2, down + height / 2, radius)


def plates(j: Judgement, mount: Mount, holes: Sequence[Hole]) -> Iterator[Plate]:
    """Every plate on the board under the engine's bolts, inside and, where there is one, under the bracket."""
    if mount.engine_bolts is None or j.setup.holding.by == "clamps":
        return
    engine = [h for h in holes if h.purpose == ENGINE]
    for face, b in ((FORWARD, mount.engine_bolts.forward), (AFT, mount.engine_bolts.aft)):
        if not b.plate:
            continue
        title = j.setup.tables.plate(b.plate, b.thickness).title
        radius = min(j.setup.tables.factor("drawing.corner_radius_mm").value, b.width / 2, b.height / 2)
        middles = plate_middles(b.per, engine)
        for i, (y, down) in enumerate(middles, 1):
            rect = centered(y, down, b.width, b.height, radius)
            drilled = tuple(Circle(h.y, h.down, h.final, h.name) for h in engine if _nearest(middles, h) == i - 1)
            yield Plate(f"{'P' if face == FORWARD else 'Q'}{i}", face, rect, b.thickness, b.plate, title, drilled)


def plate_middles(per: str, engine: Sequence[Hole]) -> list[tuple[float, float]]:
    """Where the plates' middles lie: on each bolt, between the bolts of each row, or amid the outermost rows."""
    if per == "bolt":
        return [(h.y, h.down) for h in engine]
    rows = sorted({round(h.down, 1) for h in engine})
    by_row = [[h for h in engine if round(h.down, 1) == row] for row in rows]
    if per == "pair":
        return [(_middle([h.y for h in row]), row[0].down) for row in by_row]
    ends = (by_row[0][0].down, by_row[-1][0].down)
    return [(_middle([h.y for h in engine]), _middle(ends))]


def _middle(values: Sequence[float]) -> float:
    middle = (min(values) + max(values)) / 2
    return middle if abs(middle) > 1e-9 else 0.0


def _nearest(middles: Sequence[tuple[float, float]], h: Hole) -> int:
    """The plate a bolt goes through: its own row's, since plates for pairs lie on their rows."""
    return min(range(len(middles)), key=lambda i: (abs(middles[i][1] - h.down), abs(middles[i][0] - h.y), i))


def washers(j: Judgement, mount: Mount, holes: Sequence[Hole]) -> Iterator[Washer]:
    """Washers on the wood: inside under the engine's nuts, under the frame's bolts, pads of clamp screws.

    Washers under the engine bolts' heads lie on the bracket, so that they are in the section only.
    """
    tables, units = j.setup.tables, j.job.head.units
    bolts = mount.engine_bolts
    if j.setup.holding.by == "clamps":
        yield from _clamp_pads(j)
    elif bolts is not None and bolts.forward.washer:
        yield from _round(bolts.forward, [h for h in holes if h.purpose == ENGINE], tables, units)
    f = next((a for a in j.fasteners if a.joint == "frame" and a.washer is not None), None)
    if f is None or f.washer is None:
        return
    side, t = f.washer
    for h in holes:
        if h.purpose == FRAME:
            yield Washer(h.name, AFT, h.y, h.down, h.final, side, t, "plate washer", square=True)


def _round(b: Backing, engine: Sequence[Hole], tables: Catalogue, units: str) -> Iterator[Washer]:
    w = tables.washer(b.washer)
    for h in engine:
        yield Washer(h.name, FORWARD, h.y, h.down, w.ID_mm, w.OD_mm, w.t_mm, washer_words(b.washer, tables, units))


def _clamp_pads(j: Judgement) -> Iterator[Washer]:
    p, size = j.setup.holding.pattern, scalar(j.setup.holding.screw_pad)
    for side, words in ((-1.0, "port"), (1.0, "starboard")):
        yield Washer(f"clamp screw {words}", FORWARD, side * scalar(p.y_u), scalar(p.z_u), 0.0, size, 0.0, "clamp pad")


def pads(j: Judgement) -> tuple[Pad, ...]:
    """Where the bracket bears on the aft face: the job's own pads, else two from the facts.

    Under a setback bracket's side plates the strips of its base plate that are stiff enough to bear.
    """
    b = j.job.engine.bracket
    if b.pads and j.setup.bracket is None:
        return tuple(Pad(Rect(p.y - p.width / 2, p.y + p.width / 2, p.down, p.down + p.height), STATED) for p in b.pads)
    h, place = j.setup.holding, j.setup.place
    found = assumed_places(j)
    assumed = any(f"{on_board(j)}.{k}" in found for k in PADS)
    half, foot = scalar(h.pad_width) / 2, min(scalar(h.pattern.h), scalar(place.height))
    middles = (-scalar(h.pattern.y_pad), scalar(h.pattern.y_pad))
    top = scalar(h.pad_top)
    return tuple(Pad(Rect(y - half, y + half, top, foot), ASSUMED if assumed else STATED) for y in middles)


def keep_outs(j: Judgement, outline: Outline) -> Iterator[KeepOut]:
    """Inside: what is in the way, with room about it, and what the board lies on."""
    room = j.setup.tables.factor("assembly.clearance_mm").value
    for i, o in enumerate(j.job.board.obstructions, 1):
        what = o.what or f"obstruction {i}"
        yield KeepOut(what, FORWARD, circle=Circle(o.y, o.down, o.diameter + 2 * room, what))
    yield from frame_faces(j, outline)


def frame_faces(j: Judgement, outline: Outline) -> Iterator[KeepOut]:
    """What the board lies on, on its forward face: side flanges or uprights, and a pod's bottom flange."""
    place = j.setup.place
    half, inset, edge = scalar(place.span) / 2, scalar(place.inset), outline.width / 2
    name = "upright" if place.kind == "uprights" else "flange"
    for side, words in ((-1.0, "port"), (1.0, "starboard")):
        at = sorted((side * (half - inset), side * (half + inset)))
        yield KeepOut(f"{words} {name}", FORWARD, Rect(max(at[0], -edge), min(at[1], edge), 0.0, outline.height))
    if place.kind == "pod":
        bottom = scalar(place.z_bottom)
        yield KeepOut("bottom flange", FORWARD, Rect(-half, half, bottom - inset, min(bottom + inset, outline.height)))
