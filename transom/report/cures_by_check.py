"""What cures one failing check and changes nothing else: solved over what is stocked, then judged whole."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from transom.catalogue import Catalogue
from transom.checks import all_checks
from transom.errors import TransomError
from transom.frozen import dataclass
from transom.job.records import EngineBolts, Job, Layer, Mount, Stock
from transom.job.setback_records import Setback
from transom.judge.evaluate import Calibration, key_of
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import dual, percent
from transom.report.mounts import plate_words, stack_words, washer_words
from transom.report.words import check_words
from transom.result import Check
from transom.sizing.candidates import backings
from transom.sizing.field import Field, ranked

MOST = 6  # failures that a cure is solved for; the weakest first
TRIES = 2  # changes of a sort judged whole before the next sort is tried
LEGS = {"us": 25.4 / 16, "si": 1.0}
BY_PLATES = ("plies-sliding-upper", "plies-sliding-lower", "wood-crushing", "plate-bending", "plate-edge", "plate-room",
             "plate-between", "pull-and-sideways", "wood-crushing-at-bolt-up")  # fmt: skip


@dataclass(frozen=True)
class CheckCure:
    """One change that brings a failing check below its limit, and the mount judged with it."""

    cures: Check
    change: str
    after: Judgement

    @property
    def left(self) -> tuple[Check, ...]:
        """What still fails then."""
        return self.after.failing

    def words(self, units: str) -> str:
        """The change, the check's new share of its limit, and what is left."""
        u = max(c.utilisation for c in self.after.worst if key_of(c) == key_of(self.cures))
        rest = f"; {_counted(self.left)} left" if self.left else "; nothing fails then"
        return f"{check_words(self.cures, self.after.job)}: {self.change}: {percent(u)} of limit{rest}"


def _counted(left: tuple[Check, ...]) -> str:
    return f"{len(left)} other failure{'s' if len(left) > 1 else ''}"


def cures_by_check(j: Judgement, tables: Catalogue) -> tuple[CheckCure, ...]:
    """A cure for each failing check that has one on the shelf; the weakest check first."""
    if j.mount is None:
        return ()
    found = (_cure(j, c, tables) for c in j.failing[:MOST])
    return tuple(m for m in found if m is not None)


def _cure(j: Judgement, check: Check, tables: Catalogue) -> CheckCure | None:
    for sort in _of_bracket(j, check, tables) if check.part == "bracket" else _of_mount(j, check, tables):
        for change, job, mount in islice(sort, TRIES):
            try:
                after = judge(job, tables, mount)
            except TransomError:
                continue
            if _cured(after, check) and len(after.failing) < len(j.failing):
                return CheckCure(check, change, after)
    return None


def _cured(after: Judgement, check: Check) -> bool:
    same = [c for c in after.worst if key_of(c) == key_of(check)]
    return bool(same) and all(c.passes for c in same)


Change = tuple[str, Job, Mount]


def _of_mount(j: Judgement, check: Check, tables: Catalogue) -> Iterator[Iterator[Change]]:
    """Other backing under the same board where that serves, then more wood under the same backing; lightest first."""
    assert j.mount is not None
    if check.part not in ("board", "backing", "engine-bolts") or j.mount.engine_bolts is None:
        return
    field = _field(j, tables, j.mount, j.mount.engine_bolts)
    n = len(field.sets)
    if check.what.startswith(BY_PLATES):
        yield _at(j, field, np.arange(1, n), check)
    yield _at(j, field, np.arange(1, len(field.piles)) * n, check)


def _at(j: Judgement, field: Field, places: NDArray[np.int_], check: Check) -> Iterator[Change]:
    assert j.mount is not None
    for place in _passing(j, field, places, check):
        mount = replace(field.mount(place), frame_bolts=j.mount.frame_bolts, pod_bolts=j.mount.pod_bolts)
        yield _words(j, mount, j.setup.tables), j.job, mount


def _field(j: Judgement, tables: Catalogue, mount: Mount, bolts: EngineBolts) -> Field:
    """The board with every other backing, and with more wood; as mounted comes first in both."""
    free = replace(j.job, stock=Stock(measured=j.job.stock.measured))
    sets = [replace(bolts, length=0.0, forward=b) for b in backings(free, tables, j.setup, bolts.thread)]
    return ranked(j.setup, j.cases, [mount.layers, *_thicker(mount.layers, tables)],
                  [replace(bolts, length=0.0), *sets], "mass")  # fmt: skip


def _thicker(layers: tuple[Layer, ...], tables: Catalogue) -> Iterator[tuple[Layer, ...]]:
    """One more sheet like the last, turned either way; and every sheet of the next thicknesses of its panel."""
    for grain in ("across", "along"):
        yield (*layers, Layer(layers[-1].sheet, grain))
    panel = tables.sheet(layers[0].sheet).panel
    now = max(tables.sheet(x.sheet).thickness_mm for x in layers)
    for s in sorted(tables.sheets_of(panel), key=lambda s: s.thickness_mm):
        if s.thickness_mm > now + 0.1:
            yield tuple(Layer(s.name, x.grain) for x in layers)


def _passing(j: Judgement, field: Field, places: NDArray[np.int_], check: Check) -> list[int]:
    """Places, lightest first, at which the check passes by the pencil brought to the plate's level, and nothing that
    passes now fails."""
    if not len(places):
        return []
    light = places[np.argsort(field.mass[places], kind="stable")]
    failing = {key_of(c) for c in j.failing} - {key_of(check)}
    worst = np.zeros(len(light))
    rows, calibration = _leading(j)
    for c in all_checks(field.trial(light, j.cases.take(rows))):
        if not c.information and key_of(c) not in failing:
            worst = np.maximum(worst, np.max(np.atleast_2d(calibration.applied(c)), axis=1))
    return [int(p) for p, u in zip(light, worst, strict=True) if u <= 1.0]


def _leading(j: Judgement) -> tuple[list[int], Calibration]:
    """The cases that govern some check of the mount as it is, and the calibration in these alone: a sieve, what is told
    is judged in every case."""
    rows = sorted({j.cases.names.index(c.case) for c in j.worst if c.case in j.cases.names})
    sliced = (
        {k: v[rows] if v.size > 1 else v for k, v in each.items()} for each in (j.calibration.times, j.calibration.plus)
    )
    return rows, Calibration(*sliced)


def _words(j: Judgement, mount: Mount, tables: Catalogue) -> str:
    """What is other than in the mount as it is."""
    assert j.mount is not None
    assert j.mount.engine_bolts is not None
    assert mount.engine_bolts is not None
    units, b = j.job.head.units, mount.engine_bolts
    said = []
    if mount.layers != j.mount.layers:
        said.append(stack_words(mount.layers, tables))
    if b.forward != j.mount.engine_bolts.forward:
        count = int(np.ravel(j.setup.holding.bolt_y).size)
        said.append(
            plate_words(b.forward, tables, units, count)
            if b.forward.plate
            else washer_words(b.forward.washer, tables, units)
        )
    if b.length != j.mount.engine_bolts.length:
        metric = tables.thread(b.thread).system == "metric"
        said.append(f"bolts {dual(b.length, units, metric=metric)} long")
    return ", ".join(said)


def _of_bracket(j: Judgement, check: Check, tables: Catalogue) -> Iterator[Iterator[Change]]:
    """Changes to a bracket of plates, the smallest first: welds, edges, thicker metal."""
    if j.job.setback is not None:
        yield _built(j, j.job.setback, check, tables)


def _built(j: Judgement, b: Setback, check: Check, tables: Catalogue) -> Iterator[Change]:
    assert j.mount is not None
    for change, other in _bracket_changes(j, b, check, tables):
        job = replace(j.job, setback=other)
        if _cured(judge(job, tables, j.mount, careful=False), check):
            yield change, job, j.mount


def _bracket_changes(j: Judgement, b: Setback, check: Check, tables: Catalogue) -> Iterator[tuple[str, Setback]]:
    units = j.job.head.units
    if check.what in ("weld-base", "weld-engine-plate"):
        yield from _welds(b, check.what == "weld-base", units)
    if check.what in ("engine-plate-edge", "base-plate-edge"):
        yield _edge(b, check, units)
    for start, set_to in _METAL.items():
        if check.what.startswith(start):
            yield from _thicker_metal(b, set_to, units, tables)


def _welds(b: Setback, at_base: bool, units: str) -> Iterator[tuple[str, Setback]]:
    """Both faces of each side plate first, then a larger leg up to the thinner of the two plates."""
    weld, other = (b.base_weld, b.base) if at_base else (b.engine_weld, b.engine_plate)
    most = min(b.side_plates.thickness or 0.0, other.thickness or 0.0)
    step = LEGS[units]
    leg, had = weld.leg or step, weld.sides
    while leg <= most + 1e-6:
        told = [] if leg == weld.leg else [f"{show.length(leg, units, step='1/16', step_mm='1')} leg"]
        told += [] if had == "both" else ["both faces of each side plate welded"]
        if told:
            welded = replace(weld, leg=leg, sides="both")
            yield " and ".join(told), replace(b, base_weld=welded) if at_base else replace(b, engine_weld=welded)
        leg = (round(leg / step) + 1) * step


def _edge(b: Setback, check: Check, units: str) -> tuple[str, Setback]:
    """The hole as far from the edge as is asked, rounded up to the tape."""
    step = LEGS[units]
    need = -(-check.demand // step) * step
    said = f"{show.length(need, units, step='1/16', towards='up', step_mm='1')} from hole to edge, by a wider plate"
    if check.what == "base-plate-edge":
        return said, replace(b, base=replace(b.base, edge=need))
    return said, replace(b, engine_plate=replace(b.engine_plate, edge=need))


def _base(b: Setback, t: float) -> Setback:
    return replace(b, base=replace(b.base, thickness=t))


def _engine_plate(b: Setback, t: float) -> Setback:
    return replace(b, engine_plate=replace(b.engine_plate, thickness=t))


def _side_plates(b: Setback, t: float) -> Setback:
    return replace(b, side_plates=replace(b.side_plates, thickness=t))


Setter = tuple[str, Callable[[Setback, float], Setback], Callable[[Setback], float | None]]
_METAL: dict[str, Setter] = {
    "base-plate-": ("base plate", _base, lambda b: b.base.thickness),
    "base-bolt-tension": ("base plate", _base, lambda b: b.base.thickness),
    "engine-plate-b": ("engine plate", _engine_plate, lambda b: b.engine_plate.thickness),
    "engine-plate-pull": ("engine plate", _engine_plate, lambda b: b.engine_plate.thickness),
    "side-plate-": ("side plates", _side_plates, lambda b: b.side_plates.thickness),
    "metal-beside-weld-": ("side plates", _side_plates, lambda b: b.side_plates.thickness),
}


def _thicker_metal(b: Setback, setter: Setter, units: str, tables: Catalogue) -> Iterator[tuple[str, Setback]]:
    """The next stocked thicknesses of one of its plates."""
    name, set_to, now = setter
    metric = units == show.SI
    for p in tables.plate_thicknesses():
        if p.name.endswith("mm") == metric and p.thickness_mm > (now(b) or 0.0) + 1e-6:
            yield f"{name} {p.name}", set_to(b, p.thickness_mm)
