"""What a drawing cannot vouch for, in words that are printed on it."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from transom.drawing.buildable import TOUCH, at, name_of
from transom.drawing.distances import between_circles, between_rects, circle_to_edge, circle_to_rect, rect_to_edge
from transom.drawing.records import AFT, ASSUMED, ENGINE, FRAME, OPENING, Drawing
from transom.quantity import show
from transom.report.words import plural, spelled


def doubts(d: Drawing) -> Drawing:
    """The drawing with its doubts, those that it came with last."""
    found = (*_assumed(d), *_near_kept(d), *_past_edge(d), *_covered(d), *d.doubts)
    return replace(d, doubts=tuple(spelled(s, d.identity.units) for s in found))


def _assumed(d: Drawing) -> Iterator[str]:
    engine, frame = d.of(ENGINE), d.of(FRAME)
    if any(h.place == ASSUMED for h in engine):
        yield "Engine holes: the bracket was not measured; these are a usual pattern. Drill to the bracket, not to this."
    kept = [h for h in frame if h.kept]
    if kept:
        added = len(frame) - len(kept)
        more = f" {plural(added, 'hole')} to add lies between them." if added else ""
        yield (
            f"{plural(len(kept), 'frame hole')} kept: drawn evenly spaced, which is how they are judged."
            f" Mark the real ones through from the frame.{more}"
        )
    if any(p.place == ASSUMED for p in d.pads):
        yield "Bracket pads: not measured, usual ones drawn."


def _near_kept(d: Drawing) -> Iterator[str]:
    """Kept holes drawn into other holes or an edge: a sign that they are elsewhere, or that nothing fits."""
    units = d.identity.units
    kept = [h for h in d.holes if h.kept]
    for h in kept:
        if circle_to_edge(at(h), d.outline) < 0:
            yield f"{name_of(h)} as assumed breaks the board's edge: measure where it is."
        for other in (o for o in d.holes if not o.kept):
            room = between_circles(at(h), at(other))
            if room < 0:
                yield f"{name_of(h)} as assumed is {_up(room, units)} in {name_of(other)}: measure where it is."


def _past_edge(d: Drawing) -> Iterator[str]:
    """Washers that hang off an edge, and pads that bear on air, the worst of each."""
    units = d.identity.units
    over = min((rect_to_edge(w.rect, d.outline) for w in d.washers), default=0.0)
    if over < 0:
        yield f"Washers reach {_up(over, units)} past the board's edge, notch or cut corner: what hangs off carries nothing, and the check counts them whole."
    bare = min((rect_to_edge(p.rect, d.outline) for p in d.pads), default=0.0)
    if bare < 0:
        yield f"A bracket pad reaches {_up(bare, units)} past the board's edge or over the notch, and bears on air there."
    frame = [w.rect for w in d.washers if w.face == AFT]
    laps = [between_rects(a, b) for a, b in combinations(frame, 2)]
    if min(laps, default=0.0) < -TOUCH:
        yield f"Frame washers lie {_up(min(laps), units)} over each other: a strip for several bolts, or smaller ones."
    meets = [between_rects(w.rect, p.rect) for w in d.washers if w.face == AFT for p in d.pads]
    if min(meets, default=0.0) < 0:
        yield f"A frame washer lies {_up(min(meets), units)} under a bracket pad: trim it or move the bolt."


def _covered(d: Drawing) -> Iterator[str]:
    """Openings and frame holes that a plate inside covers."""
    for p in d.plates:
        under = [h for h in d.holes if h.purpose in (OPENING, FRAME) and circle_to_rect(at(h), p.rect) < 0]
        if under:
            names = ", ".join(name_of(h).removeprefix("frame hole ") for h in under)
            yield f"Plate {p.name} lies over {names}: cut the plate out there, or move one of the two."


def _up(negative: float, units: str) -> str:
    return show.length(-negative, units, towards="up")
