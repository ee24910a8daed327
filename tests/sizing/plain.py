"""The search written out: one candidate at a time, every case, plain Python numbers. Slow, and nothing to be clever in.

It shares the checks themselves with the array search and nothing else: not the pruning, not the blocks, not
the bolt lengths, not the ranking, not the grids of the required thicknesses.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cache, cached_property
from itertools import product

import numpy as np

from transom.board.lamination import Stacks
from transom.catalogue import Catalogue
from transom.checks import all_checks, board
from transom.checks.hardware import Hardware, hardware
from transom.checks.stack_arrays import stacks_of
from transom.checks.trial import Trial
from transom.job.records import EngineBolts, Layer, Mount
from transom.result import Cases, CheckArray, rounded
from transom.setup.records import Setup

BLANK, SAW = 6.35, 3.2  # mm trimmed off each side of a blank, mm lost to a cut
Pile = tuple[Layer, ...]


def usage(d: float, r: float) -> float:
    """Demand over resistance; infinite for whatever is not a usable number."""
    return d / r if math.isfinite(d) and math.isfinite(r) and r > 0 else math.inf


def pairs(check: CheckArray) -> list[tuple[float, float]]:
    """Demand and resistance in each case, as floats."""
    d, r = (np.asarray(x, dtype=float).ravel().tolist() for x in (check.demand, check.resistance))
    n = max(len(d), len(r))
    assert n in (1, len(check.cases))
    return list(zip(d * n if len(d) == 1 else d, r * n if len(r) == 1 else r, strict=True))


def worst_of(check: CheckArray) -> float:
    """The largest utilisation of one candidate's check."""
    return max(usage(d, r) for d, r in pairs(check))


def fails(check: CheckArray) -> bool:
    """True where some case of one candidate's check does not pass."""
    return any(not usage(d, r) <= 1.0 for d, r in pairs(check))


@cache
def fewest_halves(across: int, along: int, p: float, q: float, length: float, width: float) -> int:
    """Of blanks p along the face grain and q wide, and others turned: some from one piece, the rest likewise."""
    if not across + along:
        return 0
    costs = []
    for a, u in product(range(across + 1), range(along + 1)):
        for cost, piece in ((1, (length - SAW) / 2), (2, length)):
            if a + u and sawable(a, u, p, q, piece, width):
                costs.append(cost + fewest_halves(across - a, along - u, p, q, length, width))
    return min(costs, default=10**6)


@cache
def sawable(across: int, along: int, p: float, q: float, length: float, width: float) -> bool:
    """Whether one straight cut leaves two pieces with blanks that can be sawn on, until each lies alone."""
    if across + along == 1:
        return (p if across else q) <= length + 1e-6 and (q if across else p) <= width + 1e-6
    for a, u in product(range(across + 1), range(along + 1)):
        if not 0 < a + u < across + along:
            continue
        for i, j in product(range(across + 1), range(along + 1)):
            x, y = (i * m + j * n + (i + j - 1) * SAW for m, n in ((p, q), (q, p)))
            if (
                0 < x < length
                and sawable(a, u, p, q, x, width)
                and (sawable(across - a, along - u, p, q, length - x - SAW, width))
            ):
                return True
            if (
                0 < y < width
                and sawable(a, u, p, q, length, y)
                and (sawable(across - a, along - u, p, q, length, width - y - SAW))
            ):
                return True
    return False


@dataclass(frozen=True)
class Plain:
    """A job's candidates, each looked at on its own."""

    setup: Setup
    cases: Cases
    piles: Sequence[Pile]
    sets: Sequence[EngineBolts]

    @property
    def tables(self) -> Catalogue:
        """Where names are looked up."""
        return self.setup.tables

    @cached_property
    def measured(self) -> dict[str, float]:
        """Sheets the shop put a caliper on."""
        return dict(self.setup.job.stock.measured)

    @cached_property
    def sheets(self) -> dict[str, float]:
        """Thickness of every sheet in the piles, mm."""
        names = {layer.sheet for pile in self.piles for layer in pile}
        return {n: self.measured.get(n, self.tables.sheet(n).thickness_mm) for n in names}

    def thickness(self, pile: Pile) -> float:
        """Wood, mm."""
        return sum(self.sheets[layer.sheet] for layer in pile)

    @cached_property
    def around(self) -> dict[EngineBolts, tuple[float, float]]:
        """For each set, what lies between head and nut beside the board, and what must stand beyond the nut, mm."""
        out = {}
        for bolts in self.sets:
            b = bolts.forward
            inside = b.thickness if b.plate else self.tables.washer(b.washer).t_mm
            outside = self.tables.washer(bolts.aft.washer).t_mm if bolts.aft.washer else 0.0
            nut, thread = self.tables.nut(bolts.thread, "lock").height_mm, self.tables.thread(bolts.thread)
            end = nut + self.setup.factors.threads_beyond_nut * thread.pitch_mm
            out[bolts] = float(self.setup.holding.ear) + inside + outside, end
        return out

    @cached_property
    def lengths(self) -> list[float]:
        """Stocked lengths, mm."""
        return [row.length_mm for row in self.tables.bolt_lengths(self.sets[0].thread)]

    def length(self, pile: Pile, bolts: EngineBolts) -> float:
        """The shortest stocked bolt with its threads beyond the nut; 0 if there is none."""
        f, (beside, end) = self.setup.factors, self.around[bolts]
        coated = self.thickness(pile) + (len(pile) - 1) * f.glue_line + 2 * f.coat
        fits = [length for length in self.lengths if length >= beside + coated + end - 1e-9]
        return min(fits, default=0.0)

    def mount(self, s: int, b: int) -> Mount:
        """The mount of one stack and one backing."""
        return Mount(self.piles[s], replace(self.sets[b], length=self.length(self.piles[s], self.sets[b])))

    @cached_property
    def glued(self) -> dict[tuple[Pile, float], Stacks]:
        """Boards already glued up."""
        return {}

    @cached_property
    def looked_up(self) -> dict[EngineBolts, Hardware]:
        """Bolts and backings already looked up."""
        return {}

    def trial(self, mount: Mount, share: float = 1.0) -> Trial:
        """One candidate in every case, its sheets `share` times as thick."""
        assert mount.engine_bolts is not None
        key, bolts = (mount.layers, share), mount.engine_bolts
        if key not in self.glued:
            names = {layer.sheet for layer in mount.layers}
            thick = {n: self.sheets[n] * share for n in names}
            self.glued[key] = stacks_of([mount.layers], self.tables, thick)
        if bolts not in self.looked_up:
            self.looked_up[bolts] = hardware([bolts], self.tables)
        return Trial(self.setup, self.cases, self.glued[key], self.looked_up[bolts])

    def checks(self, mount: Mount, share: float = 1.0) -> list[CheckArray]:
        """The checks that decide."""
        return [c for c in all_checks(self.trial(mount, share)) if not c.information]

    def passes(self, s: int, b: int) -> bool:
        """True where every check passes in every case; the first that fails ends it."""
        mount = self.mount(s, b)
        return not fails(board.bending(self.trial(mount))) and not any(map(fails, self.checks(mount)))

    def worst(self, s: int, b: int, enough: float = math.inf) -> float:
        """The largest utilisation of all, to nine digits; not all checks are looked at once one is above `enough`."""
        mount = self.mount(s, b)
        first = rounded(worst_of(board.bending(self.trial(mount))))
        return first if first > enough else max(rounded(worst_of(c)) for c in self.checks(mount))

    def nearest(self, order: Sequence[tuple[int, int]]) -> tuple[tuple[int, int], float]:
        """The candidate with the smallest worst utilisation, the best ranked of equals, and that utilisation."""
        at, least = order[0], math.inf
        for candidate in order:
            if (u := self.worst(*candidate, least)) < least:
                at, least = candidate, u
        return at, least

    def halves(self, pile: Pile) -> int:
        """Half sheets to buy: the fewest of all ways to share blanks out and saw them straight through."""
        place, count = self.setup.place, 0
        level, upright = float(place.width) + 2 * BLANK, float(place.height) + 2 * BLANK
        for name in sorted({layer.sheet for layer in pile}):
            row = self.tables.sheet(name)
            turned = [sum(x.sheet == name and x.grain == grain for x in pile) for grain in ("across", "along")]
            count += fewest_halves(*turned, level, upright, row.length_mm, row.width_mm)
        return count

    def mass(self, pile: Pile, bolts: EngineBolts) -> float:
        """Board and backing, kg."""
        place, b = self.setup.place, bolts.forward
        wood = sum(
            self.tables.panel(self.tables.sheet(layer.sheet).panel).rho_k_kg_m3 * self.sheets[layer.sheet]
            for layer in pile
        )
        board = float(place.width) * float(place.height) * 1e-6 * wood * 1e-3
        if b.plate:
            count = {"bolt": 4, "pair": 2, "all": 1}[b.per]
            volume = count * b.width * b.height * b.thickness
            return board + volume * 1e-9 * self.tables.plate(b.plate, b.thickness).rho_kg_m3
        w = self.tables.washer(b.washer)
        ring = math.pi / 4 * (w.OD_mm**2 - w.ID_mm**2) * w.t_mm
        return board + 4 * ring * 1e-9 * self.tables.plate("316").rho_kg_m3

    def order(self, rank: str) -> list[tuple[int, int]]:
        """Every candidate, best first: the documented keys, then the order in which they are listed."""
        keys = []
        for s, pile in enumerate(self.piles):
            bought, t = self.halves(pile), round(self.thickness(pile), 6)
            for b, bolts in enumerate(self.sets):
                m = round(self.mass(pile, bolts), 6)
                key = {"material": (bought, m, t), "mass": (m, t, bought), "thickness": (t, bought, m)}[rank]
                keys.append((*key, s, b))
        return [(s, b) for *_, s, b in sorted(keys)]

    def required(self, mount: Mount) -> dict[str, float]:
        """Thickness from which each loaded check passes, to 0.1 mm upward: down in 5 mm steps, then halving."""
        t_0 = self.thickness(mount.layers)
        seen: dict[int, dict[str, float]] = {}

        def at(tenths: int) -> dict[str, float]:
            if tenths not in seen:
                found = self.checks(mount, tenths / 10 / t_0)
                seen[tenths] = {c.name: worst_of(c) for c in found if c.cases != ("once",)}
            return seen[tenths]

        out = {}
        for name in at(1600):
            low = next((t for t in range(1600, 49, -50) if not at(t)[name] <= 1.0), None)
            if low is None or low == 1600:
                out[name] = 5.0 if low is None else math.inf
                continue
            high = low + 50
            while high - low > 1:
                middle = (low + high) // 2
                low, high = (low, middle) if at(middle)[name] <= 1.0 else (middle, high)
            out[name] = high / 10
        return out

    def next_thinner(self, order: Sequence[tuple[int, int]], pick: tuple[int, int]) -> tuple[int, int] | None:
        """The best ranked of the thickest stacks thinner than the pick's, with the pick's bolts and backing."""
        t = [round(self.thickness(p), 6) for p in self.piles]
        thinner = [x for x in t if x < t[pick[0]]]
        if not thinner:
            return None
        return next((s, b) for s, b in order if b == pick[1] and t[s] == max(thinner))
