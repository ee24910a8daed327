"""All candidates of a job, ranked by what they take."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.lamination import Stacks
from transom.catalogue import Catalogue
from transom.checks import band
from transom.checks.assembly import grip_of, least_bolt_length
from transom.checks.hardware import Hardware, clamp_pads, hardware
from transom.checks.stack_arrays import stacks_of
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.job.records import EngineBolts, Job, Mount
from transom.judge.fasteners import frames
from transom.judge.judging import board_mass
from transom.loads.crossing import length_in_m
from transom.result import Cases, CheckArray
from transom.setup.records import Setup
from transom.sizing.candidates import Pile, bolt_sets, piles
from transom.sizing.sheets import halves
from transom.units import Array

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
        lengths = self._stocked
        place = np.searchsorted(lengths, np.asarray(needed) - 1e-9)
        return np.where(place < len(lengths), lengths[np.minimum(place, len(lengths) - 1)], 0.0)

    @cached_property
    def _stocked(self) -> Array:
        """Lengths of bolts in stock, rising, mm."""
        return np.array([row.length_mm for row in self.setup.tables.bolt_lengths(self.sets[0].thread)])

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
    setup = replace(setup, frames=frames(job, tables, setup))
    all_piles = piles(job, tables, high, low)
    clamped = setup.holding.by == "clamps"
    sets = (NO_BOLTS,) if clamped else bolt_sets(job, tables, setup)
    field = replace(ranked(setup, cases, all_piles, sets, MATERIAL if costs else rank), careful=careful)
    return field if costs is None else by_cost(field, costs)


def ranked(setup: Setup, cases: Cases, all_piles: Sequence[Pile], sets: Sequence[EngineBolts], rank: str) -> Field:
    """The field of given stacks and sets."""
    tables, place = setup.tables, setup.place
    stacks = stacks_of(all_piles, tables, dict(setup.job.stock.measured))
    metal = clamp_pads(1, setup.holding.screw_pad, tables) if setup.holding.by == "clamps" else hardware(sets, tables)
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
