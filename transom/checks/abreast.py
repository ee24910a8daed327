"""The careful method on several candidates of one stack side by side, for quick looks.

Their boards are one plate: bolts and what backs them differ. `Abreast` is a `Careful` of n candidates whose plate is
solved for the bolts of all at once; what it says of n v cases is laid out by candidate.
"""

from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np

from transom.board.answer import Answer
from transom.board.bracket import Bolt, Seat, bolt_stiffness, shank_stiffness, softer, stiffer, wood_stiffness
from transom.board.grid import Rectangle
from transom.board.outline import about
from transom.board.together import Together
from transom.checks.assembly import grip_of
from transom.checks.careful import STEEL, Careful, wrenches_of
from transom.checks.moments import Moments
from transom.checks.openings import Strip
from transom.checks.patch import net_bearing_area
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.maths import scalar
from transom.statics.wrench import board_actions
from transom.units import Array, Value


def can_stand(plate: Careful) -> bool:
    """True where others of its stack can stand beside this candidate: bolts hold its engine, and no plate is glued to it."""
    return not (plate.clamped or np.any(plate.hardware.bonded))


def beside(kin: Careful, trial: Trial, rows: Sequence[int]) -> "Abreast":
    """Candidates of the stack of one that was looked at alone, in some of its cases; `trial` has them in every case."""
    of = kin.rows and tuple(kin.rows[i] for i in rows)
    return Abreast(
        trial.setup, kin.cases.take(rows), trial.stacks, trial.hardware,
        target=kin.target, two_grids=False, whole=trial, rows=of, kin=kin,
    )  # fmt: skip


@dataclass(frozen=True)
class Abreast(Careful):
    """n candidates of the stack of `kin`, one that was solved alone on one grid; arrays (n, v)."""

    @cached_property
    def answer(self) -> Answer:
        """Every case of every candidate, (n v).

        Raises:
            JobError: a case that pads and bolts cannot carry, by name.
        """
        known, E_90 = self._alone.answer, self.factor("board.pad_stiffness_MPa")
        lying = known.seated[-1]
        seated = Together(lying.plate, lying.seat, kin=lying.units, seats=self._seats)
        times, names = self.factor("board.pad_stiffness_times"), self.cases.names
        wrenches = wrenches_of(board_actions(self.cases.design, self._alone.t), len(names))
        borne, *bounds = (
            seated.bear_all(wrenches, names, like, self._stiffness(scalar(E)))
            for like, E in zip(
                (known.borne, *known.bounds), (E_90, softer(E_90, times), stiffer(E_90, times)), strict=True
            )
        )
        return Answer((seated,), (borne,), tuple(bounds))

    @cached_property
    def _reaches(self) -> tuple[tuple[Array, ...], ...]:
        """How far the backing works about the bolts of a row: inwards, outwards, up, down, (n,), the least of all cases."""
        whole = self.whole or self
        return tuple(
            tuple(self._least(reach) for reach in (p.inner, p.outer, p.up, p.down))
            for p in (whole.upper_patch, whole.lower_patch)
        )

    def _least(self, x: Value) -> Array:
        """The least of all cases of each candidate, (n,)."""
        return np.asarray(np.min(np.broadcast_to(np.atleast_2d(x), (len(self.stacks), np.shape(x)[-1])), axis=1))

    def _stiffness(self, E_90: float) -> Array:
        """Of bolts and pads on wood of a stiffness through its thickness, MPa, N/mm (n, b + p)."""
        t, steel = self.t[:, 0], np.asarray(shank_stiffness(STEEL, self.hardware.A_s, grip_of(self)))[:, 0]
        rows = []
        for inner, outer, up, down in self._reaches:
            wood = wood_stiffness(E_90, net_bearing_area(inner, outer, up, down, 0.0), t)
            rows += [np.asarray(bolt_stiffness(steel, wood))] * 2
        pads = np.asarray(wood_stiffness(E_90, self._alone.answer.seat.areas, scalar(self.t)))
        return np.hstack([np.stack(rows, axis=1), np.broadcast_to(pads, (len(t), len(pads)))])

    @property
    def _alone(self) -> Careful:
        """The one looked at alone."""
        if self.kin is None:
            raise ValueError("candidates stand beside one that was looked at alone")
        return self.kin

    @cached_property
    def _seats(self) -> tuple[Seat, ...]:
        pads, k = self._alone.answer.seat.pads, self._stiffness(self.factor("board.pad_stiffness_MPa"))
        bolts = (zip(self._worked(i), k[i].tolist(), strict=False) for i in range(len(self.stacks)))
        return tuple(Seat(tuple(Bolt(*at, k_b, where) for (at, where), k_b in each), pads) for each in bolts)

    def _worked(self, i: int) -> Iterator[tuple[tuple[float, float], Rectangle]]:
        """Where each bolt of a candidate lies, and the wood it presses on."""
        p = self.setup.holding.pattern
        for (y, z), (inner, outer, up, down) in zip(((p.y_u, p.z_u), (p.y_l, p.z_l)), self._reaches, strict=True):
            reach = float(min(inner[i], outer[i])), float(min(up[i], down[i]))
            for side in (-1.0, 1.0):
                at = side * scalar(y), -scalar(z)
                yield at, about(*at, reach, self.extent, self.cuts)

    def _by_candidates(self, m: Moments) -> Moments:
        """Moments of places (k, n v) by candidate, (k, n, v)."""
        return Moments(*(x.reshape(len(x), len(self.stacks), -1) for x in (m.Mx, m.My, m.Mxy)))

    @cached_property
    def moments(self) -> Moments:
        """Moments per width at every node, (places, n, v)."""
        return self._by_candidates(super().moments)

    def moments_at_bolts(self, upper: Value, lower: Value, wide: Value) -> Moments:
        """Mean moments over the strip of wood about each bolt's hole, (12, n, v)."""
        asked = np.stack([self._least(x) for x in (upper, lower, wide)], axis=1)
        key = asked.tobytes()
        if key not in self._found:
            self._found[key] = self._strips(asked)
        return self._found[key]

    @cached_property
    def _found(self) -> dict[bytes, Moments]:
        """Means already asked for."""
        return {}

    def _strips(self, asked: Array) -> Moments:
        """The same over strips so long (n, 3): up and down at upper and at lower bolts, and sideways."""
        ups, levels = [], []
        for high_u, high_l, w in asked.tolist():
            for i, bolt in enumerate(self.answer.seat.bolts):
                high, reach = (high_u if i < 2 else high_l) / 2, w / 2
                ups.append(Rectangle(bolt.y, bolt.y, bolt.z - high, bolt.z + high))
                levels.append(Rectangle(bolt.y - reach, bolt.y + reach, bolt.z, bolt.z))
        found, n = self._over(ups, levels), len(self.stacks)
        own = np.arange(n)
        # Each candidate's strips in its own cases: (stiffness, candidate, bolt, candidate, case).
        every = (
            m.reshape(1 + len(self.answer.bounds), n, -1, n, len(self.cases)) for m in (found.Mx, found.My, found.Mxy)
        )
        return Moments(*(m[:, own, :, own].transpose(1, 2, 0, 3).reshape(-1, n, len(self.cases)) for m in every))

    def moments_at_openings(self, strips: Sequence[Strip]) -> Moments:
        """Mean moments over the strips of wood through openings, (places, n, v)."""
        return self._by_candidates(super().moments_at_openings(strips))

    def worst_veneer(self, Mx: Array, My: Array, Mxy: Array) -> Array:
        """Share of the worst veneer's strength at the worst place, (n, v), from moments (p, n, v)."""
        mx, my, mxy = (m.reshape(len(m), -1) for m in np.broadcast_arrays(Mx, My, Mxy))
        return self.stacks.worst_utilisation(mx, my, mxy, np.tile(self.k, len(self.stacks))).reshape(Mx.shape[1:])

    def worst_place(self, utilisation: Array) -> Array:
        """The worst node, or bolt, of each case, (n, v)."""
        return np.asarray(np.max(utilisation, axis=0))
