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
from transom.sizing.estimates import FINE, JUDGED, PRIED, RAW, ROUGH, Block, Solved
from transom.sizing.field import Field
from transom.sizing.looks import COARSE, Looks
from transom.units import Array

ROWS_A_CHECK = 4
AREA = 0.25  # what a ratio of areas under backing counts beside one of thickness in telling what is alike
BENDING = ("board", "bending")
AT_ONCE = 12  # looked at side by side, at most
KEPT = 12  # plates of either kind: some ten megabytes each on two grids
STEEPEST = 4.0  # times the pencil's figure; beyond that what a plate finds more is carried over as it is
ENOUGH = 0.8  # of its limit: bolts of the frame that come to no more are good enough to tell whether a candidate passes


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
    told: dict[int, Solved] = dataclasses.field(default_factory=dict)  # by stack, by its last look alone

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
        """Look at the i-th candidate of a block, with others of its stack where one of these was looked at before."""
        kin = self.kin.get((tried.stack, False))
        if kin is None or not can_stand(kin) or not self._look_beside(kin, block, i):
            tried.quick_look()

    def _look_beside(self, kin: Careful, block: Block, i: int) -> bool:
        """Look at it and at the next ones side by side; False where one of them cannot be carried, which keeps nobody
        else from a look."""
        some = self._next(block, i)
        every = [self._at(block, int(j)) for j in some]
        rows = block.leading(some, self.told[every[0].stack])
        try:
            checks = _mine(plate_checks(beside(kin, self.field.trial(block.places[some]), rows), ENOUGH))
        except JobError:
            return False
        for n, one in enumerate(every):
            found = np.zeros_like(one.u)
            found[:, rows] = _found(checks, len(rows), n)
            one.looked(checks, found)
        return True

    def _next(self, block: Block, i: int) -> NDArray[np.int_]:
        """The i-th candidate of a block and the next few of its stack that need a look, by their number in it."""
        stack = block.places // len(self.field.sets)
        known = np.isin(block.places, list(self.looks.taken))
        wanted = np.flatnonzero((stack == stack[i]) & ~block.out & ~block.sure & ~known)
        return np.concatenate([[i], wanted[wanted > i][: AT_ONCE - 1]])


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
    def stack(self) -> int:
        """Its stack."""
        return self.place // len(self.prober.field.sets)

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
        self.prober.told[self.stack] = self.prober.solved[-1]

    def looked(self, checks: Sequence[CheckArray], found: Array) -> None:
        """Keep what a look found in the leading cases, (c, v), as it is and for others as two grids would have it."""
        looks = self.prober.looks
        looks.take(self.place, checks, found)
        times, off = looks.times(self.place, self.like, self.bolts)
        self._learnt(checks, found * times, ROUGH if off < COARSE else RAW)

    @cached_property
    def plate(self) -> Careful:
        """The plate on two grids, in the leading cases and in those that can govern here."""
        leading = self.prober.rows
        rows = [*leading, *(i for i in rows_of(self.pencil) if i not in leading)]
        return self.prober.lent(self.place, dataclasses.replace(careful_of(self.trial, rows), passing_only=True))

    @property
    def careful(self) -> tuple[CheckArray, ...]:
        """What that plate decides, of the frame's bolts by those that leave it the most.

        Raises:
            JobError: bolts or pads that lie off the board.
        """
        return (*(c for c in self.decisive if c.part != "frame"), *framed(self.plate))

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
