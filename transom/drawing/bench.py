"""The bench card: what a person with a drill in the hand reads, as blocks of words. Two writers put it on paper and screen."""

import math
from collections.abc import Sequence

from transom.drawing import drilling
from transom.drawing.drilling import Room, Step
from transom.drawing.notes import HAZARDS
from transom.drawing.records import ENGINE, FORWARD, FRAME, Drawing, Identity, Plate
from transom.drawing.supplies import bolts_to_hand
from transom.drawing.taped import LENGTH_OUT
from transom.drawing.words import board_words, plate_size, size, spot
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.mounts import grain_words, panel_words, stack_words
from transom.report.ruler import ruler_words
from transom.report.shopping import torque
from transom.report.words import spelled

Row = tuple[str, ...]
MARK = 25.4 / 32  # mm, from where a rule's larger marks do


@dataclass(frozen=True)
class Block:
    """A titled part of the card: words, then a table, then boxes to write in.

    `widths` are the table's columns in characters of an 80-column screen; a page scales them. Each of `boxes`
    is a caption with room to write behind it.
    """

    title: str
    words: tuple[str, ...] = ()
    head: Row = ()
    rows: tuple[Row, ...] = ()
    widths: tuple[int, ...] = ()
    boxes: tuple[str, ...] = ()


@dataclass(frozen=True)
class BenchCard:
    """What stands on the card, top to bottom, and the board it is about."""

    drawing: Drawing
    blocks: tuple[Block, ...]

    @property
    def identity(self) -> Identity:
        """What every page says."""
        return self.drawing.identity


def bench_card(j: Judgement, d: Drawing) -> BenchCard:
    """The card of a judged mount, passing or not.

    Raises:
        ValueError: the judgement has no mount.
    """
    if j.mount is None:
        raise ValueError("no mount, no bench card")
    units = d.identity.units
    found = (
        _board(j, d), _drills(d), _holes(j, d), _plates(j, d), _tape(d), _bolts(j), _torque(j, d), _ruler(j),
        Block("HAZARDS", HAZARDS), Block("CAREFUL", d.identity.cautions),
    )  # fmt: skip
    return BenchCard(d, tuple(_spelled(b, units) for b in found if b.words or b.rows))


def _spelled(b: Block, units: str) -> Block:
    rows = tuple(tuple(spelled(cell, units) for cell in row) for row in b.rows)
    words = tuple(spelled(line, units) for line in b.words)
    return Block(b.title, words, tuple(spelled(x, units) for x in b.head), rows, b.widths, b.boxes)


def _board(j: Judgement, d: Drawing) -> Block:
    assert j.mount is not None
    layers, tables, units = j.mount.layers, j.setup.tables, d.identity.units
    total = show.length(d.stack.total, units, towards="up")
    return Block("BOARD", (
        f"{board_words(d)}. {stack_words(layers, tables)} {panel_words(layers, tables)}, {grain_words(layers)}."
        f" Coated {show.length(d.stack.coated, units, towards='up')}, {total} under the bracket.",
        *d.doubts,
    ))  # fmt: skip


def _drills(d: Drawing) -> Block:
    rows = tuple(_step_row(i, s, d) for i, s in enumerate(drilling.steps(d), 1))
    if not rows:
        return Block("DRILLS", ("No holes: the engine hangs on its own clamp screws.",))
    words = (
        "From the aft face, square to it, wood clamped behind. A middle may be off its mark by no more than the last column.",
    )
    return Block(
        "DRILLS, IN THE ORDER THEY GO IN THE CHUCK",
        words,
        ("", "BIT", "HOLES", "HOW", "OFF BY"),
        rows,
        (4, 9, 18, 36, 11),
    )


HOW = {
    drilling.PILOTS: "pilot, right through, every hole not in the frame already",
    drilling.BORES: "over-bore for the epoxy plug, right through",
    drilling.OPENINGS: "opening, to its own size",
    drilling.FILL: "fill with thickened epoxy over a taped back; hard right through before the next bit",
    drilling.PLATES: "plates, marked through from the board and clamped; deburr",
    drilling.MARKED: "in the frame already: mark through from the frame, wet the hole with epoxy",
}
FINAL = {
    ENGINE: "through the middle of the plugs, guided by the bracket or a drill block",
    FRAME: "new frame holes; wet each with epoxy before its bolt",
}


def _step_row(i: int, s: Step, d: Drawing) -> Row:
    units = d.identity.units
    purposes = {h.name: h.purpose for h in d.holes}
    how = FINAL[purposes[s.holes[0]]] if s.kind == drilling.FINALS else HOW[s.kind]
    bit = size(s.diameter, units) if s.diameter else "-"
    return (f"{i}", bit, ranged(s.holes), how, _off(s, units))


def _off(s: Step, units: str) -> str:
    """How far off a middle may be, as a tape or a rule shows it, rounded down; where it may not be at all, so."""
    if s.kind not in (drilling.BORES, drilling.FINALS):
        return ""
    fine = s.off < MARK
    text = show.length(s.off, units, step="1/64" if fine else "1/32", towards="down")
    return "nothing" if text.startswith("0 ") else text


def ranged(names: Sequence[str]) -> str:
    """Names in a row shortened: F1 to F14."""
    numbered = [n for n in names if n[:1] == "F" and n[1:].isdigit()]
    rest = [n for n in names if n not in numbered]
    runs: list[list[int]] = []
    for n in sorted(int(x[1:]) for x in numbered):
        if runs and n == runs[-1][-1] + 1:
            runs[-1].append(n)
        else:
            runs.append([n])
    short = (f"F{r[0]} to F{r[-1]}" if len(r) > 2 else " ".join(f"F{n}" for n in r) for r in runs)
    return " ".join([*rest, *short])


def _holes(j: Judgement, d: Drawing) -> Block:
    groups: dict[Row, list[Room]] = {}
    for r in drilling.rooms(d, j.checks):
        groups.setdefault(_where(r, d.identity.units), []).append(r)
    rows = tuple(_hole_row(where, found, d) for where, found in groups.items())
    head = ("HOLES", "FROM CENTER LINE", "BELOW TOP", "BORE", "DRILL", "TO EDGE (least)", "TO NEXT (least)")
    return Block("HOLES, MIDDLE TO MIDDLE", (), head, rows, (9, 12, 11, 8, 9, 15, 15)) if rows else Block("HOLES")


def _where(r: Room, units: str) -> Row:
    """What holes of a row have alike: distance from the center line on either side, depth, sizes."""
    h = r.hole
    bore = size(h.over_bore, units) if h.over_bore else ""
    return (spot(abs(h.y), units), spot(h.down, units), bore, size(h.final, units), h.purpose)


def _hole_row(where: Row, found: Sequence[Room], d: Drawing) -> Row:
    units = d.identity.units
    across, down, bore, drill, _ = where
    sides = {(r.hole.y > 0) - (r.hole.y < 0) for r in found}
    side = "" if sides == {0} else " each side" if sides == {-1, 1} else " port" if sides == {-1} else " starboard"
    edge = min(found, key=lambda r: r.edge)
    beside = min(found, key=lambda r: r.apart)
    return (
        ranged([r.hole.name for r in found]), "on it" if sides == {0} else across + side, down, bore, drill,
        _least(edge.edge, edge.least_edge, units), _least(beside.apart, beside.least_next, units),
    )  # fmt: skip


def _least(found: float, least: float, units: str) -> str:
    """What there is, rounded down, and what there must be, rounded up; TOO NEAR where it is less."""
    if not math.isfinite(found):
        return ""
    text = show.length(found, units, step="1/16", step_mm="0.5", towards="down")
    if not least:
        return text
    asked = show.length(least, units, step="1/16", step_mm="0.5", towards="up", unit=False)
    return f"{text} ({asked})" + (" TOO NEAR" if found < least - drilling.NEAR else "")


def _plates(j: Judgement, d: Drawing) -> Block:
    least = drilling.least_of(j.checks, "backing", "plate-edge")
    rows = tuple(_plate_row(p, least, d.identity.units) for p in d.plates)
    words = (
        "Under the nuts, inside." if all(p.face == FORWARD for p in d.plates) else "Q plates lie under the bracket.",
    )
    head = ("PLATE", "SIZE", "HOLES", "DRILL", "TO EDGE (least)")
    return Block("PLATES", words, head, rows, (7, 35, 10, 12, 15)) if rows else Block("PLATES")


def _plate_row(p: Plate, least: float, units: str) -> Row:
    drills = sorted({size(c.diameter, units) for c in p.holes})
    edge, _ = drilling.plate_rooms(p)
    metal = f"{plate_size(p, units)} {p.title}"
    return (p.name, metal, ranged([c.what for c in p.holes]), ", ".join(drills), _least(edge, least, units))


def _tape(d: Drawing) -> Block:
    units = d.identity.units
    rows = [(t.hole, spot(t.port, units), spot(t.starboard, units)) for t in drilling.taped(d)]
    rows += [(words, spot(mm, units), "") for words, mm in drilling.diagonals(d)]
    out = show.length(LENGTH_OUT[units], units, step="1/32")
    holes = (
        f"{'End of the top edge' if d.outline.top else 'Corner'} to the hole's middle, on the aft face, before the pilots. One hole of a pair to port must read what the"
        f" other reads to starboard, within {out}: then the center line is in the middle.",
    )
    words = holes if drilling.taped(d) else (f"Corner to corner, one way and the other, alike within {out}.",)
    ends = ("PORT END", "STARBOARD END") if d.outline.top else ("TOP PORT CORNER", "TOP STARBOARD CORNER")
    head = ("TAPE", *(f"TO {end}{' OF TOP EDGE' if d.outline.top else ''}" for end in ends))
    return Block("TAPE CHECKS", words, head, tuple(rows), (36, 20, 23))


def _bolts(j: Judgement) -> Block:
    rows = tuple(bolts_to_hand(j))
    return Block("BOLTS", (), ("QTY", "SPARE", "SIZE", "WHAT"), rows, (7, 8, 47, 17)) if rows else Block("BOLTS")


def _torque(j: Judgement, d: Drawing) -> Block:
    names = [h.name for h in d.of(ENGINE)]
    if not names:
        return Block("CLAMP SCREWS", ("By hand, lock or wire them; safety chain to something other than this board.",))
    rounds = [f"{n} {when}" for when in ("fitted", "after first run") for n in names]
    return Block("TORQUE", (torque(j),), boxes=tuple(rounds))


def _ruler(j: Judgement) -> Block:
    words = ruler_words(j)
    return Block("RULER CHECK", (words,), boxes=("moved", "date", "by")) if words else Block("RULER CHECK")
