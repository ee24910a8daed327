"""The careful method: the board as a plate under the bracket's real contact, in place of crossed strips.

A `Careful` trial is a `Trial` of one candidate whose bolt tensions, pad pushes and bending come from the
plate; every check that reads them is the same.
"""

from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise

import numpy as np

from transom.board.answer import Answer, Board, answer, board_section, on_one_grid
from transom.board.bracket import (
    Bolt,
    Seat,
    bolt_stiffness,
    pad_cells,
    shank_stiffness,
    softer,
    stiffer,
    wood_stiffness,
)
from transom.board.grid import Rectangle, grid
from transom.board.outline import about, beside, corners, cut_corners, notch, on_wood, relieved, square
from transom.board.plate import Support
from transom.checks.assembly import grip_of
from transom.checks.edge_lines import EdgeLine, edge_line
from transom.checks.instead import bonded_section, instead, wood_parts
from transom.checks.lifted import held_pads, lifted
from transom.checks.moments import Moments
from transom.checks.openings import Strip, left_to_net_section, wide_openings
from transom.checks.patch import Patch
from transom.checks.rows import mean_of_two, tension_with_error
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.job.records import Hole
from transom.maths import scalar
from transom.statics.wrench import BoardActions
from transom.units import Array, Value

TARGET = 40.0  # mm, the coarser of two grids; the finer halves it
STEEL = 210_000.0  # MPa
ENDS = (8.0, 8.0, 8.0)  # mm, the pieces a clamp bracket's pads bear on at either end


def _smallest(reach: Value) -> float:
    """Of all cases: the backing reaches least where the wood is allowed most."""
    return float(np.min(np.asarray(reach)))


def wrenches_of(a: BoardActions, v: int) -> Array:
    """What the plate bears in v cases, as `board.answer` takes it, (v, 3)."""
    return np.stack([np.broadcast_to(x, (1, v))[0] for x in (np.negative(a.N), a.M, a.M_z)], axis=-1)


@dataclass(frozen=True)
class Careful(Trial):
    """One candidate by the plate method; arrays (1, v).

    `whole` is the same candidate in all its cases, where `cases` are some of them: the board is the same in both.
    `kin` is another, solved already, whose unit loads serve again where its board is the same but for its backing;
    `first` is what other boards came to, whose contacts are tried first.
    """

    target: float = TARGET
    two_grids: bool = True
    solved: Answer | None = None  # of the same board, solved before: bolts of frame and pod do not enter it
    whole: Trial | None = None
    rows: tuple[int, ...] | None = None  # which of the whole's cases these are, where that is known
    lone: bool = False  # looked at as it is alone, not as what it may be instead too
    glued: bool = False  # its plates bonded to the wood
    kin: "Careful | None" = None
    first: Answer | None = None
    lifted: Answer | None = None  # the same of one whose edge may lift
    passing_only: bool = False  # nothing is asked but whether it passes: not how far over its limit it is

    def _patch_in_all(self, *, upper: bool) -> Patch:
        """The patch in every case: the whole's, which has been looked at."""
        if self.whole is None or self.rows is None:
            return super()._patch_in_all(upper=upper)
        return (self.whole.upper_patch if upper else self.whole.lower_patch).in_cases(np.array(self.rows, dtype=int))

    @property
    def method(self) -> str:
        """Tensions, pad pushes and moments come from the plate."""
        return "plate"

    @cached_property
    def openings(self) -> tuple[Hole, ...]:
        """Openings left to the net section."""
        return left_to_net_section(self)

    @property
    def clamped(self) -> bool:
        """True where clamp screws push aft on the forward face; their clamp is taken as stiff."""
        return self.setup.holding.by == "clamps"

    @cached_property
    def board(self) -> Board:
        """The board on its coarser grid, what is cut out of it missing: lines that hold it, bolts over their backing, pads.

        Grid lines run through the bolts, where bending peaks; backing needs none at its edges, since its load is
        spread exactly wherever they lie. The middle line lets a board be its own mirror image.
        """
        seat = self._seat(self.factor("board.pad_stiffness_MPa"))
        lines = list(self.lines)
        rectangles = [self._pad(s) for s in (-1.0, 1.0)] + lines
        W, H = scalar(self.setup.place.width) / 2, scalar(self.setup.place.height)
        y = {-W, 0.0, W} | {e for r in rectangles for e in (r.y_lo, r.y_hi)} | {b.y for b in seat.bolts}
        z = {-H, 0.0} | {e for r in rectangles for e in (r.z_lo, r.z_hi)} | {b.z for b in seat.bolts}
        y = {v for v in y if -W <= v <= W and self._apart(v, [e for c in self.cuts for e in (c.y_lo, c.y_hi)])}
        z = {v for v in z if -H <= v <= 0.0 and self._apart(v, [e for c in self.cuts for e in (c.z_lo, c.z_hi)])}
        inside = grid(sorted(y), sorted(z), self.target, missing=self.cuts)
        supports = tuple(Support(line) for line in lines)
        section = bonded_section(self, inside) if self.glued else board_section(self.stacks)
        return Board(inside, section, supports, seat, bounds=self._bounds(seat.areas))

    def _bounds(self, areas: Array) -> tuple[Array, ...]:
        """Stiffness of bolts and pads with the wood as much softer as it may be, which bends the board most at its holes,
        and as much stiffer, which pries most at its bolts."""
        if self.clamped:  # no holes are bored, and nothing pries
            return ()
        E_90, times = self.factor("board.pad_stiffness_MPa"), self.factor("board.pad_stiffness_times")
        t, each = scalar(self.t), [scalar(E) for E in (softer(E_90, times), stiffer(E_90, times))]
        return tuple(np.append([b.k for b in self._bolts(E)], np.asarray(wood_stiffness(E, areas, t))) for E in each)

    @cached_property
    def answer(self) -> Answer:
        """Every case on two grids.

        Raises:
            JobError: a case that pads and bolts cannot carry, by name.
        """
        if self.solved is not None:
            return self.solved
        wrenches = wrenches_of(self.actions, len(self.cases))
        kin, first = self.kin, self.first
        if first is None and kin is not None:
            first = kin.answer
        like = first if first is not None and self.board.seat.fits(first.borne) else None
        again = kin is not None and kin.two_grids == self.two_grids
        seated = self.board.seated_as(kin.board, kin.answer.seated) if kin is not None and again else None
        method = answer if self.two_grids else on_one_grid
        return method(self.board, wrenches, self.cases.names, seated, like)

    @cached_property
    def instead(self) -> "tuple[Careful, ...]":
        """What this board may be too: its corners whole, its plates bonded; the worse of all counts."""
        return () if self.lone else instead(self)

    @cached_property
    def _parts(self) -> dict[str, Array]:
        """Share of each moment that the wood feels where plates are bonded to it; nothing to say of any other board."""
        return wood_parts(self, self.answer.grid) if self.glued else {}

    @cached_property
    def edge_lines(self) -> tuple[EdgeLine, ...]:
        """What holds the board along each of its lines: port, starboard, then bottom and top where there are any."""
        top = scalar(self.setup.frame.top)
        return tuple(edge_line(self.answer, line, top if line.z_lo == 0.0 else 0.0) for line in self.lines)

    @property
    def lines(self) -> tuple[Rectangle, ...]:
        """Where the board is held: port and starboard side, then bottom and top where there are any."""
        return tuple(self._lines())

    def _lines(self) -> list[Rectangle]:
        """Side lines over the board's height; for a pod the bottom line, under a cap rail both ends."""
        place = self.setup.place
        half, H, bottom = scalar(place.span) / 2, scalar(place.height), scalar(place.z_bottom)
        lines = [Rectangle(y, y, -H, 0.0) for y in (-half, half)]
        if place.kind != "uprights":
            lines.append(Rectangle(-half, half, -bottom, -bottom))
        # A notch as wide as what holds the board leaves the cap rail nothing to hold.
        if place.kind == "cap rail" and scalar(place.notch_width) / 2 < half:
            lines.append(Rectangle(-half, half, 0.0, 0.0))
        return lines

    @cached_property
    def cuts(self) -> tuple[Rectangle, ...]:
        """What is missing in the board: its notch, its cut corners as rectangles, and openings too wide to leave to the
        net section."""
        width, depth = scalar(self.setup.place.notch_width), scalar(self.setup.place.notch_depth)
        span, least = scalar(self.setup.place.span), self.target / 10
        if not self.notched:
            return (*self.corners, *self._openings)
        # Sides that come near what holds the board lie on it; of next to nothing more is taken.
        width = width if self._apart(width / 2, [span / 2]) else span
        return (*notch(max(width, least), max(depth, least)), *self.corners, *self._openings)

    @cached_property
    def corners(self) -> tuple[Rectangle, ...]:
        """Cut corners; of one whose side or level comes near a line that holds the board so much more is taken that the
        line keeps its own place in the grid. Widths that are all but alike become so."""
        place, least = self.setup.place, self.target / 10
        W, H = scalar(place.width) / 2, scalar(place.height)
        side, bottom = W - scalar(place.span) / 2, H - scalar(place.z_bottom)
        cut = [(top, c) for top, c in ((True, place.top_cut), (False, place.bottom_cut)) if c[0] and c[1]]
        wide, high = ([max(scalar(c[i]), least) for _, c in cut] for i in (0, 1))
        wide = [w if self._apart(w, [side]) else max(w, side) + least for w in wide]
        high = [
            h if top or self._apart(h, [bottom]) else max(h, bottom) + least
            for (top, _), h in zip(cut, high, strict=True)
        ]
        if len(wide) == 2 and not self._apart(wide[0], wide[1:]):
            wide = [max(wide)] * 2
        found = (cut_corners(self.extent, w, h, top=top) for (top, _), w, h in zip(cut, wide, high, strict=True))
        return tuple(corner for pair in found for corner in pair)

    @cached_property
    def _openings(self) -> tuple[Rectangle, ...]:
        wide = wide_openings(self)
        return tuple(square(o.y, -o.down, o.diameter, self.extent) for o in wide)

    def _apart(self, station: float, cuts: Sequence[float]) -> bool:
        """True where the grid can keep a station beside the edges of what is cut out, which have to be lines of it."""
        return all(station == e or abs(station - e) > self.target / 20 for e in cuts)

    @cached_property
    def extent(self) -> Rectangle:
        """The board as if nothing were cut out of it."""
        W, H = scalar(self.setup.place.width) / 2, scalar(self.setup.place.height)
        return Rectangle(-W, W, -H, 0.0)

    def _pad(self, side: float) -> Rectangle:
        h, p = self.setup.holding, self.setup.holding.pattern
        middle, reach = side * scalar(p.y_pad), scalar(h.pad_width) / 2
        foot = min(scalar(p.h), scalar(self.setup.place.height))
        top = scalar(h.pad_top)
        # What hangs over the edge of the board bears on nothing.
        return on_wood(Rectangle(middle - reach, middle + reach, -foot, -min(top, foot)), self.extent)

    def _bolts(self, E_90: float) -> tuple[Bolt, ...]:
        """Bolts on wood of a stiffness through its thickness, MPa."""
        p, whole = self.setup.holding.pattern, self.whole or self
        rows = [(p.y_u, p.z_u, whole.upper_patch), (p.y_l, p.z_l, whole.lower_patch)]
        if self.clamped:
            rows.pop()
        return tuple(
            self._bolt(side * scalar(y), scalar(z), patch, E_90) for y, z, patch in rows for side in (-1.0, 1.0)
        )

    def _seat(self, E_90: float) -> Seat:
        """Bolts and pads on such wood."""
        found = [part for side in (-1.0, 1.0) for part in beside(self._pad(side), self.cuts)]
        pads = [c for part in found for piece in self._pieces(part) for c in pad_cells(piece, E_90, scalar(self.t))]
        return Seat(self._bolts(E_90), tuple(pads))

    def _pieces(self, pad: Rectangle) -> list[Rectangle]:
        """A pad as it is; under clamp screws its ends in thin pieces: it bears there on a lever of 50 mm or so, and
        one even pressure over the last 25 mm took 4 % of that away."""
        if not self.clamped or pad.z_hi - pad.z_lo <= 2 * sum(ENDS):
            return [pad]
        down, up = pad.z_hi - np.cumsum(ENDS), pad.z_lo + np.cumsum(ENDS)
        z = [pad.z_hi, *down.tolist(), *up[::-1].tolist(), pad.z_lo]
        return [Rectangle(pad.y_lo, pad.y_hi, low, high) for high, low in pairwise(z)]

    def _bolt(self, y: float, depth: float, patch: Patch, E_90: float) -> Bolt:
        inner, outer, up, down = (_smallest(r) for r in (patch.inner, patch.outer, patch.up, patch.down))
        left, right = (inner, outer) if y > 0 else (outer, inner)
        worked = Rectangle(y - left, y + right, -depth - down, -depth + up)
        wood = wood_stiffness(E_90, worked.area, scalar(self.t))
        # The bolt pulls at its hole, and so must what presses on the wood: of a patch that reaches further to one
        # side only as much is loaded as there is on the other (harder on the board).
        where = about(y, -depth, (min(left, right), min(up, down)), self.extent, self.cuts)
        if self.clamped:
            return Bolt(y, -depth, float(np.asarray(wood)), where)
        steel = shank_stiffness(STEEL, scalar(self.hardware.A_s), scalar(grip_of(self)))
        return Bolt(y, -depth, float(np.asarray(bolt_stiffness(steel, wood))), where)

    def _row(self, upper: bool) -> Array:
        """Tension of each bolt of a row, its error between grids added, its edge free to lift, (2, v)."""
        rows = slice(0, 2) if upper or self.clamped else slice(2, 4)
        a = self.answer
        error = a.bolt_error[rows] if self.two_grids else 0.0
        most = np.max([b.bolts[rows] for b in (a.borne, *a.bounds)], axis=0)
        T = lifted(self, "k_u" if rows.start == 0 else "k_o", np.asarray(tension_with_error(most, error)))
        for other in self.instead:
            T = np.maximum(T, other._row(upper))
        if not self.clamped:
            return T
        # The one row of clamp screws stands for the upper bolts where the top pulls aft, for the lower elsewhere.
        return np.where(self.pushes_low == upper, T, 0.0)

    def by_candidate(self, x: Value) -> Array:
        """What the plate says of all its cases, (n v,), as checks take it, (n, v)."""
        return np.reshape(np.asarray(x), (len(self.stacks), -1))

    @cached_property
    def upper_tension(self) -> Array:
        """Tension of the worse upper bolt, with its prying, (1, v)."""
        return self.by_candidate(np.max(self._row(upper=True), axis=0))

    @cached_property
    def lower_tension(self) -> Array:
        """Tension of the worse lower bolt, with its prying, (1, v)."""
        return self.by_candidate(np.max(self._row(upper=False), axis=0))

    @cached_property
    def upper_mean(self) -> Array:
        """Mean tension of the upper bolts, (1, v)."""
        return self.by_candidate(mean_of_two(*self._row(upper=True)))

    @cached_property
    def lower_mean(self) -> Array:
        """Mean tension of the lower bolts, (1, v)."""
        return self.by_candidate(mean_of_two(*self._row(upper=False)))

    @cached_property
    def moments(self) -> Moments:
        """Moments per width at every node of the finer grid, (places, v)."""
        found = (corner for cut in self.cuts for corner in corners(cut, self.extent))
        fields = relieved(self.answer, found, scalar(self.t))
        parts = (self._parts.get(name) for name in ("M_1", "M_2", "M_12"))
        felt = (m if k is None else m * k[..., None] for m, k in zip(fields, parts, strict=True))
        return Moments(*(m[self.answer.grid.nodes] for m in felt))

    def moments_at_bolts(self, upper: Value, lower: Value, wide: Value) -> Moments:
        """Mean moments over the strip of wood about each bolt's hole, (8, v): with softer wood under the pads too.

        Under a pad the moment hangs on where along it the push comes to lie, and so on that stiffness.
        """
        asked = _smallest(upper), _smallest(lower), _smallest(wide)
        if asked in self._known:
            return self._known[asked]
        reach, ups, levels = _smallest(wide) / 2, [], []
        for n, bolt in enumerate(self.answer.seat.bolts):
            high = _smallest(upper if n < 2 else lower) / 2
            ups.append(Rectangle(bolt.y, bolt.y, bolt.z - high, bolt.z + high))
            levels.append(Rectangle(bolt.y - reach, bolt.y + reach, bolt.z, bolt.z))
        self._known[asked] = self._over(ups, levels)
        return self._known[asked]

    @cached_property
    def kept(self) -> dict[str, Array]:
        """What was worked out of this plate elsewhere, once, by its symbol, (v,)."""
        return {}

    @cached_property
    def let_go(self) -> list[Answer]:
        """What it came to with its edge free to lift, once that was asked."""
        return []

    @cached_property
    def _known(self) -> dict[tuple[float, float, float], Moments]:
        """Means already asked for."""
        return {}

    def moments_behind(self, strips: tuple[Value, Value, Value], *, upper: bool) -> Moments:
        """Those of the bolts of one row, (4, v)."""
        found, count = self.moments_at_bolts(*strips), len(self.answer.seat.bolts)
        row = np.arange(len(found.Mx)) % count < 2
        own = row if upper or self.clamped else ~row
        here = Moments(found.Mx[own], found.My[own], found.Mxy[own])
        loose = [other.moments_behind(strips, upper=upper) for other in self.instead if not other.glued]
        return Moments(*(np.concatenate([getattr(m, k) for m in (here, *loose)]) for k in ("Mx", "My", "Mxy")))

    def moments_at_openings(self, strips: Sequence[Strip]) -> Moments:
        """Mean moments over the strips of wood through openings, in the same manner, (2 k, v)."""
        ups = [Rectangle(s.y, s.y, -s.bottom, -s.top) for s in strips]
        return self._over(ups, [Rectangle(s.port, s.starboard, -s.down, -s.down) for s in strips])

    def _over(self, ups: Sequence[Rectangle], levels: Sequence[Rectangle]) -> Moments:
        a = self.answer
        ups, levels = ([on_wood(r, self.extent) for r in lines] for lines in (ups, levels))
        lines, k = {"M_1": ups, "M_2": levels, "M_12": ups}, self._parts
        return Moments(*(a.means(name, places, k.get(name)) for name, places in lines.items()))

    def worst_veneer(self, Mx: Array, My: Array, Mxy: Array) -> Array:
        """Share of the worst veneer's strength at the worst place, (1, v), from moments of places, (p, v)."""
        return self.stacks.worst_utilisation(Mx, My, Mxy, self.k)

    def worst_place(self, utilisation: Array) -> Array:
        """The worst node, or bolt, of each case, (1, v)."""
        return np.asarray(np.max(utilisation, axis=0, keepdims=True))

    @cached_property
    def pad_push(self) -> Array:
        """Push of the harder pressed pad, N, (1, v)."""
        return self.by_candidate(np.max(self.pads, axis=0))

    @cached_property
    def pad_mean(self) -> Array:
        """Mean push of the two pads, N, (1, v)."""
        return self.by_candidate(mean_of_two(*self.pads))

    @property
    def pads(self) -> Array:
        """Push of each pad, N, (2, v): with softer and stiffer wood too, its edge free to lift."""
        own = lifted(self, "k_p", held_pads(self.answer))
        return np.asarray(np.max([own, *(other.pads for other in self.instead)], axis=0))

    @cached_property
    def pushes_low(self) -> Array:
        """True where most of the push comes from the lower half of the pads, (1, v)."""
        pads, (_, z) = self.answer.borne.pads, self.answer.seat.middles
        low = z < -scalar(self.setup.holding.pattern.h) / 2
        return self.by_candidate(pads[low].sum(axis=0) >= pads[~low].sum(axis=0))
