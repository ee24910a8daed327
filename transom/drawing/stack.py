"""The stack at an engine bolt: sheets, glue, coats, plates and washers from head to nut, and the bolt through it."""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from transom.catalogue import Catalogue
from transom.drawing.records import Bolt, LayerPart, Outline, Slice, Stack
from transom.job.records import Backing, EngineBolts, Job, Mount
from transom.judge.records import Judgement

Piece = tuple[str, str, float, float]  # kind, words, thickness, reach


def layers(job: Job, mount: Mount, tables: Catalogue, outline: Outline) -> tuple[LayerPart, ...]:
    """The sheets, aft face first, each at the thickness the shop measured or the table's."""
    measured = dict(job.stock.measured)
    found = []
    for number, layer in enumerate(mount.layers, 1):
        sheet = tables.sheet(layer.sheet)
        panel = tables.panel(sheet.panel).title.split(" (")[0]
        t = measured.get(sheet.name, sheet.thickness_mm)
        found.append(LayerPart(number, sheet.name, sheet.nominal, panel, t, layer.grain, outline))
    return tuple(found)


def stack(j: Judgement, mount: Mount, parts: tuple[LayerPart, ...]) -> Stack:
    """Everything between the bolt's head and its nut, or the bare board under clamp screws."""
    bolts = mount.engine_bolts if j.setup.holding.by == "bolts" else None
    pieces = [*_outside(j, bolts), *_board(j, parts), *_inside(j, bolts)]
    edges = np.concatenate(([0.0], np.cumsum([t for _, _, t, _ in pieces]))).tolist()
    slices = tuple(
        Slice(kind, words, lo, hi, reach)
        for (kind, words, _, reach), (lo, hi) in zip(pieces, pairwise(edges), strict=True)
    )
    bolt = None if bolts is None else _bolt(bolts, j.setup.tables, slices[-1].x_fore)
    return Stack(slices, bolt, j.wood, j.coated, j.total)


def _board(j: Judgement, parts: tuple[LayerPart, ...]) -> Iterator[Piece]:
    f = j.setup.factors
    yield "coat", "coat", f.coat, 0.0
    for i, part in enumerate(parts):
        if i:
            yield "glue", "glue", f.glue_line, 0.0
        yield "wood", f"{part.number}  {part.nominal}", part.thickness, 0.0
    yield "coat", "coat", f.coat, 0.0


def _outside(j: Judgement, bolts: EngineBolts | None) -> Iterator[Piece]:
    """Washer under the head, the bracket's ear, a plate between ear and board."""
    if bolts is None:
        return
    if bolts.aft.washer:
        yield _backing(bolts.aft, j.setup.tables)
    yield (
        "ear",
        "engine bracket" if j.setup.bracket is None else "base plate of the setback bracket",
        float(np.ravel(j.setup.holding.ear)[0]),
        0.0,
    )
    if bolts.aft.plate:
        yield _backing(bolts.aft, j.setup.tables)


def _inside(j: Judgement, bolts: EngineBolts | None) -> Iterator[Piece]:
    if bolts is not None and (bolts.forward.plate or bolts.forward.washer):
        yield _backing(bolts.forward, j.setup.tables)


def _backing(b: Backing, tables: Catalogue) -> Piece:
    if b.plate:
        return "plate", tables.plate(b.plate, b.thickness).title, b.thickness, b.height / 2 if b.per != "all" else 0.0
    washer = tables.washer(b.washer)
    return "washer", f"washer {b.washer}", washer.t_mm, washer.OD_mm / 2


def _bolt(b: EngineBolts, tables: Catalogue, grip: float) -> Bolt:
    thread, head, nut = tables.thread(b.thread), tables.head(b.thread), tables.nut(b.thread, "lock")
    return Bolt(
        name=b.thread,
        d=thread.d_mm,
        pitch=thread.pitch_mm,
        length=b.length,
        thread=min(head.b_long_mm if b.length > head.long_over_mm else head.b_mm, b.length),
        grip=grip,
        head=head.height_mm,
        head_flats=head.AF_mm,
        nut=nut.height_mm,
        nut_flats=nut.AF_mm,
        grade=f"{tables.grade(b.grade, b.thread).title.split(',')[0]} {b.grade}",
    )
