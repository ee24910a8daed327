"""The mount record on one page, for owner, surveyor and warranty, and the same as data."""

from collections.abc import Iterator
from typing import Any

from transom.drawing.words import short
from transom.floor import paper
from transom.floor.findings import Finding
from transom.floor.photos import PHOTOS
from transom.floor.record import Record, sentence, under
from transom.quantity import show
from transom.report.mounts import bolt_words, grain_words, plate_words, stack_words
from transom.report.parts import not_looked_at
from transom.report.text import clean
from transom.report.words import spelled

LONGEST = 110
SHORT_CAUTIONS = 4
BLANK = "not written down"


def page(r: Record) -> bytes:
    """The record as PDF."""
    units = r.built.job.head.units
    flows: list[paper.Flow] = [
        paper.words(sentence(r), bold=True),
        *(paper.words(line, bold=True) for line in under(r)),
        paper.table([["what", "as built"], *identity_rows(r)], [48.0, None]),
    ]
    if r.trial is not None:
        rows = [[f.what, f.says + ("" if f.fine else "  (deal with it)")] for f in r.trial.findings]
        flows += [paper.table([["trial on the water", "found"], *rows], [48.0, None])]
    flows += [paper.words(f"Photographs: {photos(r)}.")]
    flows += [paper.words(f"Not looked at: {looked(r)}.")]
    if r.missing:
        flows += [paper.words(f"This is no RECORD yet. Missing: {'; '.join(r.missing)}.", bold=True)]
    flows += [
        paper.words("For this engine and this board only: another engine, bracket or board, and it is void.", bold=True)
    ]
    flows += [paper.words(" ".join(spelled(c, units) for c in r.built.cautions[-SHORT_CAUTIONS:]))]
    flows += [paper.signatures(["built by", "checked by", "accepted by owner"])]
    return paper.pdf("MOUNT RECORD", flows, units, r.identity)


def identity_rows(r: Record) -> Iterator[list[str]]:
    """Boat, engine and everything in the stack, in words."""
    j, b = r.built, r.built.job.built
    assert b is not None
    assert j.mount is not None
    units, tables = j.job.head.units, j.setup.tables
    yield ["boat", f"{j.job.boat.kind}; hull number {clean(b.hull) or BLANK}"]
    yield ["engine", f"{show.power(j.facts['engine.power'].value, units)}, {show.mass(j.facts['engine.weight'].value, units)};"
           f" serial {clean(b.engine_serial) or BLANK}"]  # fmt: skip
    yield ["board", f"{stack_words(j.mount.layers, tables)}, {grain_words(j.mount.layers)}"]
    measured = ", ".join(show.measured(t, units) for t in b.thickness) or BLANK
    yield ["thickness measured", f"{measured}; wood at the thinnest {show.measured(r.wood, units)}"]
    yield ["batches", short(clean(", ".join(b.batches)) or BLANK, LONGEST)]
    if j.mount.engine_bolts is not None:
        count = len(j.setup.holding.bolt_y)
        yield ["engine bolts", bolt_words(j.mount.engine_bolts, count, tables, units)]
        if j.mount.engine_bolts.forward.plate:
            yield ["backing", plate_words(j.mount.engine_bolts.forward, tables, units, count)]
        yield ["torque per bolt", ", ".join(show.torque(t, units) for t in b.torque) or BLANK]
    yield ["what opening up showed", short(clean(b.found) or BLANK, 2 * LONGEST)]
    yield ["finished", f"{b.date.isoformat() if b.date else BLANK}, by {clean(b.by) or BLANK}"]


def photos(r: Record) -> str:
    """Which are there and which are missing, by number."""
    assert r.built.job.built is not None
    taken = {p.strip() for p in r.built.job.built.photos}
    there = [n for n, _ in PHOTOS if n in taken]
    gone = [f"{n} {what}" for n, what in PHOTOS if n not in taken]
    return f"there {', '.join(there) or 'none'}; missing {'; '.join(gone) or 'none'}"


def looked(r: Record) -> str:
    """Parts that nobody judged or looked at."""
    return "; ".join(spelled(part, r.built.job.head.units) for part in not_looked_at(r.built))


def data(r: Record) -> dict[str, Any]:
    """The record for other programs."""
    found = r.trial.findings if r.trial is not None else ()
    return {
        "schema": "transom-record-1",
        "job": {"name": r.built.job.head.name, "revision": r.built.job.head.revision, "sha256": r.built.job.sha256},
        "paper": r.identity.paper,
        "passes": r.passes,
        "wood": round(r.wood, 6),
        "governing": r.built.governing.id,
        "utilisation": r.built.governing.utilisation,
        "as_drawn": r.drawn.governing.utilisation,
        "trial": [_finding(f) for f in found],
        "missing": list(r.missing),
        "cautions": list(r.built.cautions),
    }


def _finding(f: Finding) -> dict[str, Any]:
    return {"what": f.what, "says": f.says, "fine": f.fine}
