"""What drawings say about holes, plates and layers, in the job's units."""

from transom.drawing.records import AFT, ASSUMED, ENGINE, FRAME, OPENING, Cut, Drawing, Hole, LayerPart, Outline, Plate
from transom.quantity import show
from transom.report.amounts import HOLE_STEP_MM, place, tape
from transom.report.words import plural, spelled

TURNED = {"across": "SIDEWAYS", "along": "UP THE BOARD"}


def short(words: str, most: int) -> str:
    """At most so many characters, the last three of them dots where something is left out."""
    return words if len(words) <= most else words[: most - 3].rstrip() + "..."


def size(mm: float, units: str) -> str:
    """A drill, bore or hole: to 1/32 in or half a millimeter."""
    return show.length(mm, units, step="1/32", step_mm=HOLE_STEP_MM)


def spot(mm: float, units: str) -> str:
    """A distance between marks: to 1/32 in or half a millimeter."""
    return place(mm, units)


def hole_lines(h: Hole, units: str) -> tuple[str, ...]:
    """A hole's name and what to do there."""
    if h.purpose == OPENING:
        side = f"{spot(abs(h.y), units)} to {'starboard' if h.y > 0 else 'port'}" if h.y else "on center line"
        return (short(h.words, 28), size(h.final, units), spelled(side, units))
    if h.purpose == ENGINE:
        assumed = ("PLACE ASSUMED",) if h.place == ASSUMED else ()
        return (h.name, *assumed, f"bore {size(h.over_bore, units)}", f"drill {size(h.final, units)}")
    return (h.name, "mark through") if h.kept else (h.name, f"drill {size(h.final, units)}")


def stock(mm: float, units: str) -> str:
    """A plate's thickness: what is sold in metric keeps its name, inches beside it."""
    metric = abs(mm * 2 - round(mm * 2)) < 1e-6 and abs(mm / 25.4 * 32 % 1) > 1e-6
    if metric and units == "us":
        return f"{show.measured(mm, 'si')} ({show.measured(mm, units)})"
    return show.length(mm, units, step="1/32")


def plate_place(p: Plate, units: str) -> str:
    """Where a plate lies: how far its top edge is down; its bolts hold it sideways."""
    return f"top {spot(p.rect.top, units)} down"


def plate_size(p: Plate, units: str) -> str:
    """Thickness, width across and height up of a plate."""
    w, h = (show.length(x, units, step="1/16", step_mm="1", unit=False) for x in (p.rect.width, p.rect.height))
    return f"{w} x {h} x {stock(p.thickness, units)}"


def layer_words(part: LayerPart, units: str) -> str:
    """A layer's sheet and which way its face grain lies."""
    return (
        f"{part.nominal} {part.panel}, measures {show.measured(part.thickness, units)}, face grain {TURNED[part.grain]}"
    )


def board_words(d: Drawing) -> str:
    """The board's outline in one line."""
    o, units = d.outline, d.identity.units
    text = f"{tape(o.width, units)} x {tape(o.height, units)}, {corner_words(o, units)}"
    if o.notched:
        text += f", notch {tape(o.notch_width, units)} x {tape(o.notch_depth, units)} deep, its inside corners drilled round"
    return text


def corner_words(o: Outline, units: str) -> str:
    """How the board's corners are."""
    if not o.cut:
        return "corners square"
    cut = [f"both {which} corners {cut_words(c, units)}" for which, c in (("top", o.top), ("bottom", o.bottom)) if c]
    return f"{', '.join(cut)}{'' if o.top and o.bottom else ', the others square'}"


def cut_words(c: Cut, units: str) -> str:
    """What is cut off one corner."""
    if c.shape == "round":
        return f"rounded to a radius of {tape(c.width, units)}"
    how = "cut off straight" if c.shape == "straight" else "cut out square"
    return f"{how}, {tape(c.width, units)} of the edge and {tape(c.height, units)} of the side"


def lean_words(d: Drawing) -> str:
    """How the board leans, and what bevel a level edge would want."""
    if not d.lean:
        return "Board stands upright: edges square to the face."
    return (
        f"Board leans {show.angle(d.lean)}, top aft. Heights are along the board, on its aft face. Edges are drawn square;"
        f" an edge that must lie level or on a level ledge is planed to a {show.angle(d.lean)} bevel."
    )


def legend_words(d: Drawing, face: str) -> str:
    """What the lines of a face mean, those that are on it."""
    on = [w for w in d.washers if w.face == face]
    found = ["heavy line: board and top edge", "long and short dashes: center line"]
    if face == AFT and d.pads:
        found.append("dashes: where the bracket bears")
    if any(k.face == face and k.rect for k in d.keep_outs):
        found.append("gray dashes: what the board lies on, keep clear")
    if any(k.face == face and k.circle for k in d.keep_outs):
        found.append("dots: keep clear")
    if any(h.kept for h in d.holes):
        found.append("dashed ring: hole that is in the frame already")
    if new := [h for h in d.of(FRAME) if not h.kept]:
        found.append(f"frame holes: drill {size(new[0].final, d.identity.units)}")
    if any(w.square for w in on):
        w = next(w for w in on if w.square)
        side, t = (
            show.length(v, d.identity.units, step="1/16", step_mm="1", unit=False) for v in (w.outside, w.thickness)
        )
        found.append(f"gray squares: plate washers {side} x {side} x {t}")
    if any(not w.square for w in on):
        found.append(f"gray rings: {next(w for w in on if not w.square).words}")
    return spelled("Lines: " + "; ".join(found) + ".", d.identity.units)


def counted(d: Drawing) -> str:
    """How many holes of each kind."""
    engine, kept = len(d.of(ENGINE)), sum(h.kept for h in d.holes)
    new = sum(not h.kept for h in d.holes) - engine - len(d.of(OPENING))
    kinds = (
        (engine, "engine hole"),
        (kept, "frame hole kept"),
        (new, "frame hole new"),
        (len(d.of(OPENING)), "opening"),
    )
    words = [plural(n, one, one.replace("hole", "holes") if "hole" in one else one + "s") for n, one in kinds if n]
    return spelled(", ".join(words), d.identity.units)
