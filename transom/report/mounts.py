"""A mount in a shop's words: sheets, plates, bolts, holes."""

from collections.abc import Sequence
from itertools import groupby

import numpy as np

from transom.catalogue import Catalogue
from transom.job.records import Backing, EngineBolts, Job, Layer, Mount
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import drill, dual, place
from transom.report.words import plural, spelled

TURNED = {"across": "SIDEWAYS", "along": "UP"}


def stack_words(layers: Sequence[Layer], tables: Catalogue) -> str:
    """ "2 layers of 3/4 in" of like sheets, "3/4 in + 2 x 1/2 in" of unlike ones; aft face first."""
    runs = [(tables.sheet(name).nominal, len(list(run))) for name, run in groupby(layers, key=lambda x: x.sheet)]
    if len(runs) == 1:
        nominal, count = runs[0]
        return f"{plural(count, 'layer')} of {nominal}"
    return " + ".join(nominal if count == 1 else f"{count} x {nominal}" for nominal, count in runs)


def grain_words(layers: Sequence[Layer]) -> str:
    """Which way the face grain of each layer lies."""
    turned = [TURNED[layer.grain] for layer in layers]
    if len(turned) == 1:
        return f"face grain {turned[0]}"
    if len(set(turned)) == 1:
        return f"face grain {turned[0]} on {'both' if len(turned) == 2 else 'all'}"
    return f"face grain, aft face first: {', '.join(turned)}"


def panel_words(layers: Sequence[Layer], tables: Catalogue) -> str:
    """What the sheets are."""
    panels = dict.fromkeys(tables.panel(tables.sheet(layer.sheet).panel).title.split(" (")[0] for layer in layers)
    return " and ".join(panels)


def measure_words(layers: Sequence[Layer], tables: Catalogue, job: Job) -> str:
    """What each sheet measures, which is not what it is called."""
    measured, units = dict(job.stock.measured), job.head.units
    found = [
        (name, measured.get(name, tables.sheet(name).thickness_mm), name in measured)
        for name in dict.fromkeys(x.sheet for x in layers)
    ]
    if len(found) == 1:
        _, t, mine = found[0]
        return f"{'yours measures' if mine else 'each measures'} {show.measured(t, units)}"
    each = (f"{tables.sheet(n).nominal} measures {show.measured(t, units)}" for n, t, _ in found)
    return ", ".join(each)


def plate_words(b: Backing, tables: Catalogue, units: str, count: int = 4) -> str:
    """What lies under the nuts inside the boat."""
    if b.washer:
        return f"no plate: {count} washers {washer_words(b.washer, tables, units)}, one under each nut"
    many = {"bolt": f"{count} pieces, one under each nut", "pair": "2 pieces, one across each pair", "all": "one piece"}
    metric = _metric_plate(b)
    t = f"{show.measured(b.thickness, 'si')} ({show.measured(b.thickness, units)})" if metric and units == "us" else (
        show.length(b.thickness, units, step="1/32"))  # fmt: skip
    width, height = (show.length(x, units, step="1/16", step_mm="1", unit=False) for x in (b.width, b.height))
    title = spelled(tables.plate(b.plate, b.thickness).title, units)
    edge = "in" if units == "us" else "mm"
    return f"{many[b.per]}: {t} {title}, {width} x {height} {edge}, corners rounded{', glued to the wood' if b.bonded else ''}"


def _metric_plate(b: Backing) -> bool:
    """True where the thickness is a whole or half millimeter, and so sold by it."""
    return abs(b.thickness * 2 - round(b.thickness * 2)) < 1e-6 and abs(b.thickness / 25.4 * 32 % 1) > 1e-6


def washer_words(name: str, tables: Catalogue, units: str) -> str:
    """A washer by its name and outside diameter."""
    across = show.length(tables.washer(name).OD_mm, units, step="1/16", step_mm="0.5")
    return f"{name} ({across} across)"


def bolt_words(b: EngineBolts, count: int, tables: Catalogue, units: str) -> str:
    """The bolts to ask for at the counter."""
    metric = tables.thread(b.thread).system == "metric"
    grade = tables.grade(b.grade, b.thread)
    head = f", washer {washer_words(b.aft.washer, tables, units)} under the head" if b.aft.washer else ""
    metal = grade.title.split(",")[0]
    return f"{count} bolts {b.thread} x {dual(b.length, units, metric=metric)}, {metal} {b.grade}, lock nuts{head}"


def short_words(mount: Mount, tables: Catalogue, units: str, beside: Mount | None = None) -> str:
    """A mount in a few words, for what else would do; what it shares with the one beside it is left out."""
    panel = panel_words(mount.layers, tables).split(" plywood")[0]
    turned = {layer.grain for layer in mount.layers}
    way = "crossed" if len(turned) == 2 else TURNED[next(iter(turned))].lower()
    words = f"{stack_words(mount.layers, tables)} {panel}, grain {way}"
    bolts, other = mount.engine_bolts, beside.engine_bolts if beside else None
    if bolts is None or (other is not None and other.forward == bolts.forward):
        return words
    return f"{words}; {_short_backing(bolts.forward, units)}"


def _short_backing(b: Backing, units: str) -> str:
    if b.washer:
        return f"washers {b.washer}"
    width, height = (show.length(x, units, step="1/16", step_mm="1", unit=False) for x in (b.width, b.height))
    t = show.length(b.thickness, units, step="1/32", unit=False)
    how = {"bolt": "one per bolt", "pair": "one per pair", "all": "one piece"}[b.per]
    return f"plates {width} x {height} x {t} {'in' if units == 'us' else 'mm'}, {how}"


def hole_rows(j: Judgement) -> list[tuple[str, str, str, str, str]]:
    """Holes to drill: row, from the center line, below the top edge, over-bore, final drill."""
    h, mount, units = j.setup.holding, j.mount, j.job.head.units
    if h.by == "clamps" or mount is None or mount.engine_bolts is None:
        return []
    d = j.setup.tables.thread(mount.engine_bolts.thread).d_mm
    bore = drill(d + j.setup.factors.over_bore, units, "down")
    final = drill(d + j.setup.tables.factor("board.bolt_clearance_mm").value, units, "nearest")
    return [(name, place(y, units), place(down, units), bore, final) for name, y, down in _places(j)]


def _places(j: Judgement) -> list[tuple[str, float, float]]:
    p = j.setup.holding.pattern
    if j.setup.holding.odd:
        holes = sorted(j.job.engine.bracket.bolts, key=lambda h: (h.down, h.y))
        return [(f"{'starboard' if h.y > 0 else 'port' if h.y < 0 else 'middle'}", abs(h.y), h.down) for h in holes]
    y_u, y_l, z_u, z_l = (float(np.ravel(v)[0]) for v in (p.y_u, p.y_l, p.z_u, p.z_l))
    return [("upper pair", y_u, z_u), ("lower pair", y_l, z_l)]
