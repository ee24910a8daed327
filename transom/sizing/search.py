"""The search: every stack against every backing, on arrays, in the order of the rank.

The pencil screens within its known band; what it leaves is decided by the plate, best ranked first.
"""

from collections.abc import Callable, Container, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from transom.board.lamination import Stacks
from transom.catalogue import Catalogue
from transom.checks import BY_PLATE, all_checks, backed_checks, band, stack_checks
from transom.checks.assembly import grip_of, least_bolt_length
from transom.checks.board import bending_without_holes
from transom.checks.hardware import Hardware, clamp_pads, hardware
from transom.checks.mounts import stacks_of
from transom.checks.trial import Trial
from transom.job.records import EngineBolts, Job, Mount
from transom.judge.evaluate import decided
from transom.judge.judging import board_mass
from transom.loads.crossing import length_in_m
from transom.result import Cases, CheckArray
from transom.setup.records import Setup
from transom.sizing.candidates import Pile, bolt_sets, piles
from transom.sizing.probe import Prober
from transom.sizing.rows import leading_cases, rows_that_matter
from transom.sizing.sheets import halves
from transom.units import Array

BLOCK = 1024
RANKS = ("material", "mass", "thickness")
MATERIAL = RANKS[0]
# Of each candidate s*B + b with its bolt length: prices that are missing, and what it costs in whole cents.
Costs = Callable[[Setup, Sequence[Pile], Sequence[EngineBolts], Array], tuple[NDArray[np.int_], NDArray[np.int_]]]
NO_BOLTS = EngineBolts("", "", 0.0)


@dataclass(frozen=True)
class Field:
    """All candidates: stacks (s) against sets of bolts and backing (b), and the order they rank in.

    `order` holds places s*B + b, best first. `careful`: the plate decides; else the pencil alone.
    """

    setup: Setup
    cases: Cases
    piles: tuple[Pile, ...]
    sets: tuple[EngineBolts, ...]
    stacks: Stacks
    hardware: Hardware
    halves: NDArray[np.int_]
    mass: Array
    order: NDArray[np.int_]
    careful: bool = True

    def band(self, check: CheckArray) -> float:
        """How far above its limit the pencil may find a check before the plate need not be asked."""
        return band(check) if self.careful else 1.0

    def __len__(self) -> int:
        return len(self.piles) * len(self.sets)

    @property
    def kinds(self) -> list[tuple[str, ...]]:
        """The sheets of each stack, whichever way they are turned."""
        return [tuple(layer.sheet for layer in pile) for pile in self.piles]

    def trial(self, places: NDArray[np.int_], cases: Cases | None = None) -> Trial:
        """The candidates at these places, each with the bolt length it needs."""
        s, b = np.divmod(places, len(self.sets))
        bare = Trial(self.setup, cases or self.cases, self.stacks.take(s), self.hardware.take(b))
        if self.setup.holding.by == "clamps":
            return bare
        return replace(bare, hardware=replace(bare.hardware, length=self._length(bare)))

    def _length(self, trial: Trial) -> Array:
        """The shortest stocked bolt that is long enough, (n, 1); zero where there is none."""
        w = trial.hardware
        needed = least_bolt_length(grip_of(trial), w.nut, w.pitch, self.setup.factors.threads_beyond_nut)
        stocked = np.array([*self.setup.tables.bolt_lengths(self.sets[0].thread)], dtype=object)
        lengths = np.array([row.length_mm for row in stocked])
        place = np.searchsorted(lengths, np.asarray(needed) - 1e-9)
        return np.where(place < len(lengths), lengths[np.minimum(place, len(lengths) - 1)], 0.0)

    def mount(self, place: int) -> Mount:
        """The mount at one place, named."""
        s, b = divmod(int(place), len(self.sets))
        if self.setup.holding.by == "clamps":
            return Mount(self.piles[s])
        length = float(self.trial(np.array([place])).hardware.length[0, 0])
        return Mount(self.piles[s], replace(self.sets[b], length=length))


def field_of(
    job: Job, tables: Catalogue, setup: Setup, cases: Cases, rank: str, careful: bool = True, costs: Costs | None = None
) -> Field:
    """Every candidate of a job, ranked by what it takes, not by how it fares; by cost where `costs` is given."""
    low, high = (tables.factor(f"board.thickness_{end}_mm").value for end in ("min", "max"))
    all_piles = piles(job, tables, high, low)
    clamped = setup.holding.by == "clamps"
    sets = (NO_BOLTS,) if clamped else bolt_sets(job, tables, setup)
    field = replace(ranked(setup, cases, all_piles, sets, MATERIAL if costs else rank), careful=careful)
    return field if costs is None else by_cost(field, costs)


def ranked(setup: Setup, cases: Cases, all_piles: Sequence[Pile], sets: Sequence[EngineBolts], rank: str) -> Field:
    """The field of given stacks and sets."""
    tables, place = setup.tables, setup.place
    stacks = stacks_of(all_piles, tables, dict(setup.job.stock.measured))
    metal = clamp_pads(1, tables) if setup.holding.by == "clamps" else hardware(sets, tables)
    count = np.array(
        [halves(p, float(place.width), float(place.height), tables, setup.job.stock.offcuts) for p in all_piles]
    )
    wood = board_mass(length_in_m(place.width), length_in_m(place.height), stacks.mass)
    # Rounded to a milligram and a nanometre, so that noise in the last digit never ranks.
    mass = np.round(np.asarray(wood)[:, None] + metal.mass[:, 0], 6).ravel()
    t = np.repeat(np.round(stacks.t, 6), len(sets))
    sheets = np.repeat(count, len(sets))
    ids = np.arange(len(mass))
    keys = {"material": (ids, t, mass, sheets), "mass": (ids, sheets, t, mass), "thickness": (ids, mass, sheets, t)}
    return Field(setup, cases, tuple(all_piles), tuple(sets), stacks, metal, count, mass, np.lexsort(keys[rank]))


def by_cost(field: Field, costs: Costs) -> Field:
    """The field in the order of cost: what lacks a price last, equals by the order they had."""
    every = np.arange(len(field))
    clamped = field.setup.holding.by == "clamps"
    lengths = np.zeros(len(field)) if clamped else field.trial(every).hardware.length[:, 0]
    missing, cost = costs(field.setup, field.piles, field.sets, lengths)
    place = np.empty(len(field), dtype=int)
    place[field.order] = every
    return replace(field, order=np.lexsort((place, cost, missing)))


def stacks_that_may(field: Field) -> NDArray[np.bool_]:
    """Stacks that pass everything no backing can mend, (s,), within the pencil's known band."""
    places = np.arange(len(field.piles)) * len(field.sets)
    trial = field.trial(places)
    allowed = (BY_PLATE["board", "bending"] if field.careful else 1.0) * float(np.max(trial.strength_share))
    good = bending_without_holes(trial).max(axis=1) <= allowed
    for check in stack_checks(trial):
        good &= check.worst <= field.band(check)
    return np.asarray(good)


def screened(field: Field, places: NDArray[np.int_], cases: Cases, whole: bool = True) -> Array:
    """The largest utilisation of each candidate by the pencil, each check over its known band, (n,).

    Above 1 the plate would not pass it either; up to 1 it is worth looking at. Not `whole`: what depends on
    the stack alone is left out, for stacks that have been through it.
    """
    trial = field.trial(places, cases)
    checks = decided(all_checks(trial) if whole else backed_checks(trial))
    return np.asarray(np.max(np.broadcast_arrays(*(c.worst / field.band(c) for c in checks)), axis=0))


def blocks(order: NDArray[np.int_], size: int = 64) -> Iterator[NDArray[np.int_]]:
    """Places in order, a few first: the best are near the front."""
    start = 0
    while start < len(order):
        yield order[start : start + size]
        start, size = start + size, min(2 * size, BLOCK)


def best_of_kinds(field: Field, most: int, but: Container[int] = ()) -> list[int]:
    """The best ranked candidate that passes, and the best of up to `most` - 1 other kinds of stack.

    Kinds differ by their sheets, whichever way these are turned. Places in `but` are passed over.
    """
    may = stacks_that_may(field)
    number = {kind: i for i, kind in enumerate(dict.fromkeys(field.kinds))}
    kinds = np.array([number[k] for k in field.kinds])
    stack = field.order // len(field.sets)
    order = field.order[may[stack]]
    found: dict[int, int] = {}
    prober = Prober(field)
    sieves = _sieves(field, np.flatnonzero(may)) if len(order) else ()
    for block in blocks(order):
        wanted = block[~np.isin(kinds[block // len(field.sets)], list(found))]
        for cases in sieves:
            wanted = wanted[screened(field, wanted, cases, whole=False) <= 1.0] if len(wanted) else wanted
        for place in wanted:
            kind = int(kinds[place // len(field.sets)])
            if kind in found or int(place) in but or (field.careful and not prober.passes(int(place))):
                continue
            found[kind] = int(place)
            if len(found) == most:
                return list(found.values())
    return list(found.values())


def _sieves(field: Field, stacks: NDArray[np.int_]) -> tuple[Cases, Cases]:
    """The few cases that fail most candidates, then all that can fail one."""
    leading, every = leading_cases(field, stacks), rows_that_matter(field, stacks)
    return field.cases.take(leading), field.cases.take(every)


def nearest_miss(field: Field) -> int:
    """The candidate with the smallest worst utilisation; only asked where none passes."""
    cases = field.cases.take(rows_that_matter(field, np.arange(len(field.piles)), whole=True))
    best, at = np.inf, int(field.order[0])
    for places in blocks(field.order, BLOCK):
        u = screened(field, places, cases)
        i = int(np.argmin(u))
        if u[i] < best:
            best, at = float(u[i]), int(places[i])
    return at
