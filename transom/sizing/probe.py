"""The careful method inside the search: plates already solved tell what the pencil's figures are worth elsewhere."""

import dataclasses
from collections.abc import Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from transom.board.answer import Answer
from transom.checks import BY_PLATE, Allowed, all_checks, backed_checks, framed, limit_of, plate_checks
from transom.checks.abreast import beside, can_stand
from transom.checks.board import sliding_at_pads
from transom.checks.careful import Careful
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.frozen import dataclass
from transom.judge.evaluate import careful_of, decided, quick_look
from transom.result import CheckArray
from transom.sizing.by_stack import ByStack
from transom.sizing.field import Field
from transom.sizing.looks import COARSE, Looks
from transom.units import Array

ROWS_A_CHECK = 4
AREA = 0.25  # what a ratio of areas under backing counts beside one of thickness in telling what is alike
# A candidate is given up where the plate most like it would have it over its limit by more than the first, on two grids
# and on one coarse one, and by so much more as the second says for each step the two candidates are apart; its bolts, pads
# and what they press on by `PRIED` more, since wood twice as stiff pries one board more than another. With the margins wide
# open 36 estimates in 20 jobs were of candidates that pass by 0 to 20 %: the nearest to be given up had 1.2 % to spare
# (`tests/bench/estimates.py`). Of what fails it may be 16 % off where the shape of plates differs, which costs a plate only.
FINE, ROUGH, RAW = (0.025, 1.0), (0.05, 0.5), (0.075, 0.5)
PRIED = 0.1
# Not so where their bolts and backing are the same and the two are no farther apart than `SAME`: of 244 such estimates the
# highest was 0.6 % over. So plates of the same bolts are heard before others that are nearer by so much.
SAME, OTHERS = 0.05, 0.02
JUDGED = (0.0249, 1.0)  # its own judgement counts before its own plate
BENDING = ("board", "bending")
FAR = 0.35  # farther from any plate than this an estimate gives no candidate up: one from a board of 30 mm had one of 54 at 1.9, its own 0.64
NEAR = 0.85  # of a candidate's worst: cases that by others' plates come to less are not looked at again
AT_ONCE = 12  # looked at side by side, at most
KEPT = 12  # plates of either kind: some ten megabytes each on two grids
STEEPEST = 4.0  # times the pencil's figure; beyond that what a plate finds more is carried over as it is
ENOUGH = 0.8  # of its limit: bolts of the frame that come to no more are good enough to tell whether a candidate passes
SURE = 0.9  # below this, by either, the pick's own judgement is asked at once


def rows_for(trial: Trial) -> list[int]:
    """The cases in which a plate of these candidates can govern: the worst few of each check it decides."""
    return rows_of(all_checks(trial))


def rows_of(pencil: Sequence[CheckArray]) -> list[int]:
    """The same, of the candidates' checks by the pencil."""
    rows: set[int] = set()
    for check in pencil:
        if by_plate(check):
            rows |= {int(i) for i in np.argsort(check.utilisation, axis=-1)[:, -ROWS_A_CHECK:].ravel()}
    return sorted(rows)


def by_plate(check: CheckArray) -> bool:
    """True for checks that decide and whose demand the plate gives."""
    return (check.part, check.what) in BY_PLATE and not check.information


@dataclass(frozen=True)
class Solved:
    """What one plate made of the pencil's utilisations in the leading cases: `times` and, as demand, `more` (c, v); how near it
    is, and what more each check (c,) may be off."""

    like: Array
    times: Array
    more: Array
    within: tuple[float, float]
    pried: Array
    bolts: int

    def applied(self, u: Array, limit: Array, alike: NDArray[np.bool_]) -> Array:
        """Worst utilisation of each candidate, (n,), from the pencil's and the limits, (c, n, v), less what its check may be off
        where the two are not `alike` (n,)."""
        pried = np.where(alike, 0.0, self.pried[:, None])
        return np.asarray(np.max(self.each(u, limit) - pried[:, :, None], axis=(0, 2)))

    def each(self, u: Array, limit: Array) -> Array:
        """Utilisations of candidates, (c, n, v)."""
        return np.asarray(u * self.times[:, None] + self.more[:, None] / limit)


@dataclass
class Block:
    """Candidates `places` (n,) side by side: utilisations by the pencil and limits in the leading cases (c, n, v); what is
    alike of them (3, n).

    `likely` (n,): the worst utilisation of each as the nearest plate of those `seen` has it; `within` and
    `apart` (n,): how far that may be off, and how far it is away; `worth` (n,) is what it was chosen by. `bolts` (n,) are
    the sets of bolts and backing.
    """

    places: NDArray[np.int_]
    u: Array
    limit: Array
    like: Array
    likely: Array
    within: Array
    apart: Array
    worth: Array
    bolts: NDArray[np.int_]
    seen: int = 0
    heard: Sequence[Solved] = ()

    def learn(self, solved: Sequence[Solved]) -> None:
        """Let plates solved since the last time speak for the candidates that they are nearest to; of other plates all."""
        if solved is not self.heard:
            self.heard, self.seen = solved, 0
            self.likely[:], self.within[:], self.apart[:], self.worth[:] = 1.0, np.inf, np.inf, np.inf
        for plate in solved[self.seen :]:
            apart = np.sqrt(np.sum((self.like - plate.like[:, None]) ** 2, axis=0))
            off = plate.within[0] + plate.within[1] * apart
            alike = (self.bolts == plate.bolts) & (apart <= SAME)
            worth = off + np.where(alike, 0.0, OTHERS)
            better = worth < self.worth
            if better.any():
                self.likely[better] = plate.applied(self.u[:, better], self.limit[:, better], alike[better])
                self.within[better], self.apart[better], self.worth[better] = off[better], apart[better], worth[better]
        self.seen = len(solved)

    def leading(self, some: NDArray[np.int_], by: Solved) -> list[int]:
        """Of the leading cases those in which a plate has any of these candidates near its worst."""
        likely = by.each(self.u[:, some], self.limit[:, some])
        near = likely >= NEAR * likely.max(axis=(0, 2), keepdims=True)
        return [int(v) for v in np.flatnonzero(near.any(axis=(0, 1)))]

    @property
    def out(self) -> NDArray[np.bool_]:
        """Those beyond hope, (n,)."""
        return ~(self.likely <= 1.0 + self.within) & (self.apart <= FAR)

    @property
    def sure(self) -> NDArray[np.bool_]:
        """Those that pass by so much that a quick look tells nothing new, (n,)."""
        return np.isfinite(self.apart) & (self.likely <= SURE)


@dataclass
class Prober:
    """Plates of one search; `rows` are the leading cases, in which candidates are compared."""

    field: Field
    rows: list[int]
    solved: list[Solved] = dataclasses.field(default_factory=list)
    # By stack, the last one last: what boards came to, whose contacts the next ones try first; one whose edge may lift.
    first: dict[int, Answer] = dataclasses.field(default_factory=dict)
    lifted: Answer | None = None
    kin: dict[tuple[int, bool], Careful] = dataclasses.field(default_factory=dict)  # by stack and whether on two grids
    looks: Looks = dataclasses.field(default_factory=Looks)
    told: dict[int, Solved] = dataclasses.field(
        default_factory=dict
    )  # by stack, what its last look alone made of the pencil

    def lent(self, place: int, plate: Careful) -> Careful:
        """The plate of a candidate, with what plates looked at before spare it; the first of its stack spares others."""
        key = (place // len(self.field.sets), plate.two_grids)
        kin = self.kin.pop(key, None)
        stack = key[0]
        plate = dataclasses.replace(plate, kin=kin, first=self.first.get(stack) or self._last, lifted=self.lifted)
        self.kin[key] = kin or plate
        alike = [k for k in self.kin if k[1] == plate.two_grids]
        if len(alike) > KEPT:
            del self.kin[alike[0]]
        self.first.pop(stack, None)
        self.first[stack] = plate.answer.outcome
        if len(self.first) > KEPT:
            del self.first[next(iter(self.first))]
        return plate

    @property
    def _last(self) -> Answer | None:
        return next(reversed(self.first.values()), None)

    def picked(self) -> None:
        """Forget what judgements told: beside the pick others are asked on the most bolts that the frame may have."""
        self.solved = [plate for plate in self.solved if plate.within != JUDGED]

    def block(self, places: NDArray[np.int_]) -> Block:
        """The candidates at these places that the pencil leaves in the leading cases, in their order."""
        both, n = ByStack(self.field, places, self.field.cases.take(self.rows)), len(places)
        trial, checks = both.trial, _looked_at(both, self.field.band)
        left = np.all([np.broadcast_to(c.worst <= self.field.band(c), n) for c in checks], axis=0)
        u, limit = (x[:, left] for x in _by_plate(checks, n, len(self.rows)))
        far = np.full(int(left.sum()), np.inf)
        bolts = places[left] % len(self.field.sets)
        return Block(
            places[left], u, limit, _like(trial)[:, left], np.ones(len(far)), far, far.copy(), far.copy(), bolts
        )

    def tried(self, block: Block, i: int) -> "Tried | None":
        """The i-th candidate of a block for a closer look; None where it is beyond hope."""
        block.learn(self.solved)
        found = self._at(block, i)
        if block.out[i] or not (block.sure[i] or self._hopeful(block, found, i)):
            return None
        return found if found.passes_screen else None

    def _at(self, block: Block, i: int) -> "Tried":
        return Tried(
            self, int(block.places[i]), block.like[:, i], block.u[:, i], block.limit[:, i], float(block.likely[i])
        )

    def _hopeful(self, block: Block, tried: "Tried", i: int) -> bool:
        """False where by its quick look two grids would find the candidate over its limit."""
        if tried.place not in self.looks.taken:
            self._look(block, tried, i)
        tried.likely, off = self.looks.expected(tried.place, tried.like, tried.bolts)
        return tried.likely <= 1.0 + off

    def _look(self, block: Block, tried: "Tried", i: int) -> None:
        """Look at the i-th candidate of a block, and where one of its stack was looked at before, at the next few of it too."""
        stack = block.places // len(self.field.sets)
        kin = self.kin.get((int(stack[i]), False))
        wanted = (stack == stack[i]) & ~block.out & ~block.sure & ~np.isin(block.places, list(self.looks.taken))
        next_ones = np.flatnonzero(wanted[i + 1 :])[: AT_ONCE - 1] + i + 1
        if kin is None or not can_stand(kin):
            tried.quick_look()
            return
        some = np.array([i, *next_ones])
        every = [self._at(block, int(j)) for j in some]
        rows = block.leading(some, self.told[int(stack[i])])
        plates = beside(kin, self.field.trial(block.places[some]), rows)
        try:
            checks = _mine(plate_checks(plates, ENOUGH))
        except JobError:  # one that cannot be carried keeps nobody else from a look
            tried.quick_look()
            return
        for n, one in enumerate(every):
            found = np.zeros_like(one.u)
            found[:, rows] = _found(checks, len(rows), n)
            one.looked(checks, found)


@dataclass
class Tried:
    """One candidate under a closer look: `u` by the pencil and `limit` (c, v) in the leading cases, `likely` what a plate makes it."""

    prober: Prober
    place: int
    like: Array
    u: Array
    limit: Array
    likely: float

    @property
    def bolts(self) -> int:
        """Its set of bolts and backing."""
        return self.place % len(self.prober.field.sets)

    @cached_property
    def trial(self) -> Trial:
        """In every case."""
        return self.prober.field.trial(np.array([self.place]))

    @cached_property
    def pencil(self) -> tuple[CheckArray, ...]:
        """All checks by the pencil."""
        return all_checks(self.trial, self.prober.field.band)

    @property
    def passes_screen(self) -> bool:
        """False where the pencil finds a check over its known band in any case."""
        return all(bool(c.worst[0] <= self.prober.field.band(c)) for c in decided(self.pencil))

    def quick_look(self) -> None:
        """Look at what the plate decides in the leading cases on one coarse grid."""
        plate = self.prober.lent(self.place, quick_look(self.trial, self.prober.rows))
        checks = _mine(plate_checks(plate, ENOUGH))
        self.looked(checks, _found(checks, self.u.shape[1]))
        self.prober.told[self.place // len(self.prober.field.sets)] = self.prober.solved[-1]

    def looked(self, checks: Sequence[CheckArray], found: Array) -> None:
        """Keep what a look found in the leading cases, (c, v), as it is and for others as two grids would have it."""
        looks = self.prober.looks
        looks.take(self.place, checks, found)
        times, off = looks.times(self.like, self.bolts)
        self._learnt(checks, found * times, ROUGH if off < COARSE else RAW)

    @cached_property
    def plate(self) -> Careful:
        """The plate on two grids, in the leading cases and in those that can govern here."""
        leading = self.prober.rows
        rows = [*leading, *(i for i in rows_of(self.pencil) if i not in leading)]
        return self.prober.lent(self.place, dataclasses.replace(careful_of(self.trial, rows), passing_only=True))

    @property
    def careful(self) -> tuple[CheckArray, ...]:
        """All checks by that plate.

        Raises:
            JobError: bolts or pads that lie off the board.
        """
        _ = self.decisive
        return all_checks(self.plate)

    @cached_property
    def decisive(self) -> tuple[CheckArray, ...]:
        """Those that it decides."""
        checks = tuple(_mine(plate_checks(self.plate, ENOUGH)))
        self.prober.lifted = next(iter(self.plate.let_go), self.prober.lifted)
        found = _found(checks, self.u.shape[1])
        self._learnt(checks, found, FINE)
        bending = np.array([(c.part, c.what) == BENDING for c in checks])
        lifted = self.plate.kept["k_l"][: found.shape[1]] if self.plate.let_go else None
        self.prober.looks.compare(self.place, (self.like, self.bolts), found, bending, lifted)
        return checks

    @property
    def passes(self) -> bool:
        """True where what the plate decides passes on two grids."""
        return all(bool(c.worst[0] <= 1.0) for c in self.decisive)

    def judged(self, checks: Sequence[CheckArray]) -> None:
        """Let others know how much its own judgement bends the board, `checks` in every case: the search holds it by the
        most bolts that the frame may have, a judgement by the least that do, and between these it lifts more."""
        names = self.trial.cases.names
        bent = {c.name: c for c in checks if (c.part, c.what) == BENDING and c.cases == names}
        rows = np.array(self.prober.rows)
        own = [
            dataclasses.replace(
                c, cases=c.cases[: len(rows)], demand=bent[c.name].utilisation[:, rows], resistance=np.ones((1, 1))
            )
            if c.name in bent
            else c
            for c in self.decisive
        ]
        self._learnt(own, _found(own, self.u.shape[1]), JUDGED)

    def _learnt(self, checks: Sequence[CheckArray], found: Array, within: tuple[float, float]) -> None:
        """Keep for others what a plate makes of the checks it decides, in the leading cases, (c, v)."""
        some = np.isfinite(self.u) & np.isfinite(found) & (self.u > 0)
        times = np.where(some, np.minimum(found / np.where(some, self.u, 1.0), STEEPEST), 0.0)
        more = (found - np.where(some, times * self.u, 0.0)) * self.limit
        pried = np.array([0.0 if (c.part, c.what) == BENDING else PRIED for c in checks if by_plate(c)])
        self.prober.solved.append(Solved(self.like, times, more, within, pried, self.bolts))


def _found(checks: Sequence[CheckArray], v: int, n: int = 0) -> Array:
    """Utilisations of the n-th candidate in the first v cases by the checks that the plate decides, (c, v)."""
    mine = (np.atleast_2d(c.utilisation) for c in _mine(checks))
    return np.stack(
        [np.broadcast_to(u[min(n, len(u) - 1)], v) if u.shape[-1] == 1 else u[min(n, len(u) - 1), :v] for u in mine]
    )


def _looked_at(both: ByStack, allowed: Allowed = limit_of) -> list[CheckArray]:
    """The checks that decide, of those that plates decide and those that differ from one set to another."""
    of_stacks = decided((sliding_at_pads(both.stacks), *framed(both.stacks, allowed)))
    return [*decided(backed_checks(both.trial)), *both.spread(of_stacks)]


def _mine(checks: Sequence[CheckArray]) -> list[CheckArray]:
    """Those that the plate decides."""
    return [c for c in checks if by_plate(c)]


def _by_plate(checks: Sequence[CheckArray], n: int, v: int) -> tuple[Array, Array]:
    """Utilisations and limits of what the plate decides, (c, n, v) each; one for a limit that is none."""
    mine = _mine(checks)
    limit = np.stack([np.broadcast_to(np.asarray(c.resistance, dtype=float), (n, v)) for c in mine])
    good = np.isfinite(limit) & (limit > 0)
    return np.stack([np.broadcast_to(c.utilisation, (n, v)) for c in mine]), np.where(good, limit, 1.0)


def _like(trial: Trial) -> Array:
    """What tells how alike candidates are: thickness, stiffness across over up, area under backing; logarithms, (3, n)."""
    s, n = trial.stacks, len(trial.stacks)
    areas = np.minimum(np.asarray(trial.upper_patch.area), np.asarray(trial.lower_patch.area))
    smallest = np.min(np.broadcast_to(areas, (n, len(trial.cases))), axis=1)
    return np.stack([np.log(s.t), np.log(s.E_1 / s.E_2), AREA * np.log(np.maximum(smallest, 1.0))])
