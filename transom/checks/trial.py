"""n candidate mounts on one place under v cases: everything the checks share, computed once."""

from dataclasses import fields, replace
from functools import cached_property
from typing import Self

import numpy as np

from transom.board.lamination import Stacks
from transom.checks import wood_about
from transom.checks.hardware import Hardware
from transom.checks.moments import Moments
from transom.checks.openings import Strip
from transom.checks.patch import (
    FAR,
    Edges,
    Patch,
    half_of,
    lost_to_openings,
    middle_on_wood,
    net_bearing_area,
    over_bore_diameter,
    perimeters_of,
    reach_on_side,
    remaining,
    square_of_equal_perimeter,
    working_diameter,
)
from transom.formula import formula
from transom.frozen import dataclass
from transom.job.records import Hole
from transom.loads.cases import build_cases
from transom.maths import maximum, minimum, positive
from transom.result import Cases
from transom.setup.records import FrameHold, Setup
from transom.standards.ec5 import least_washer_side, least_washer_thickness, round_net_area, washer_bearing_strength
from transom.statics.bolt_group import bolt_group
from transom.statics.contact import bolt_tension, couple_tension, prying_factor
from transom.statics.crossed import StripResult, crossed_strips
from transom.statics.plates import effective_overhang
from transom.statics.strips import half
from transom.statics.wrench import BoardActions, board_actions
from transom.units import MM, MM2, MPA, ONE, Array, N, Value


@formula(symbol="f_d", source="EN 1995-1-1:2004, 2.4.1 (2.14), k = k_mod/gamma_M", typical={"k": 0.58})
def design_value(f_k: MPA, k: ONE) -> MPA:
    """Design strength from the characteristic one."""
    return f_k * k


@formula(symbol="t_stack", source="sheets, a glue line between each two, a coat on each face",
         evidence="convention", known_by="derived", typical={"n": 2.0})  # fmt: skip
def coated_thickness(t: MM, n: ONE, glue: MM, coat: MM) -> MM:
    """What the board measures when it is glued up and coated."""
    return t + (n - 1.0) * glue + 2.0 * coat


@formula(symbol="f", source="share of the table's strength found in the sheet", evidence="convention",
         known_by="derived")  # fmt: skip
def found_strength(f_k: MPA, share: ONE) -> MPA:
    """A strength of the table times the share of it that the sheet has."""
    return f_k * share


@formula(symbol="R_d", source="EN 1995-1-1:2004, 8.5.2(2)")
def bearing_resistance(f_d: MPA, A_net: MM2) -> N:
    """Pull that crushes the wood under the area that works."""
    return f_d * A_net


@dataclass(frozen=True)
class Trial:
    """Candidates (n) against cases (v). Stacks hold arrays (n,), hardware columns (n, 1)."""

    setup: Setup
    cases: Cases
    stacks: Stacks
    hardware: Hardware

    def on(self, frame: FrameHold) -> Self:
        """The same on other bolts of the frame: what is known of the board does not hang on them and is kept."""
        other = replace(self, setup=replace(self.setup, frame=frame, frames=()))
        given = {f.name for f in fields(self)}
        vars(other).update({k: v for k, v in vars(self).items() if k not in given})
        return other

    @property
    def method(self) -> str:
        """Which method gives tensions, pad pushes and moments."""
        return "hand"

    @property
    def openings(self) -> tuple[Hole, ...] | None:
        """Openings looked at where they lie, the notch being left out already; None by the pencil, which strips them off."""
        return None

    def moments_at_openings(self, strips: tuple[Strip, ...]) -> Moments:
        """Mean moments over the wood about openings; asked where there are any to look at."""
        raise NotImplementedError

    @property
    def moments(self) -> Moments:
        """Moments per width that decide bending: of the strips, one place for each candidate, (n, v)."""
        return Moments(self.strips.Mx, self.strips.My, self.strips.Mxy)

    def moments_at_bolts(self, upper: Value, lower: Value, wide: Value) -> Moments:
        """Mean moments over the wood that shares a hole, mm wide; the strips' own, which are means already."""
        return self.moments

    def moments_behind(self, strips: tuple[Value, Value, Value], *, upper: bool) -> Moments:
        """Moments that bend the board at a row of bolts, where plates lie behind it; of every place on a row."""
        return self.moments

    def worst_place(self, utilisation: Array) -> Array:
        """The worst of the places the moments are given for, (n, v)."""
        return utilisation

    @property
    def pad_push(self) -> Array:
        """Push of one pad, N, (n, v)."""
        return np.asarray(half(self.strips.C))

    @property
    def pad_mean(self) -> Array:
        """Mean push of the two pads, N, (n, v)."""
        return self.pad_push

    @property
    def pushes_low(self) -> Array:
        """True where the pads push at their foot, (n, v)."""
        return np.asarray(self.strips.ahead)

    @cached_property
    def t(self) -> Array:
        """Thickness of wood, (n, 1)."""
        return self.stacks.t[:, None]

    @cached_property
    def coated(self) -> Array:
        """Thickness of the finished board, (n, 1)."""
        f = self.setup.factors
        sheets = self.stacks.used.sum(axis=1)[:, None].astype(float)
        return np.asarray(coated_thickness(self.t, sheets, f.glue_line, f.coat))

    @cached_property
    def k(self) -> Array:
        """k_mod/gamma_M of plywood, (v,)."""
        return self.setup.factors.wood(self.cases.duration)

    @cached_property
    def engine_only(self) -> Cases:
        """The same cases with the engine alone, without a setback bracket's own weight: what its bolts pass on."""
        if self.setup.loads.bracket is None:
            return self.cases
        own = build_cases(replace(self.setup.loads, bracket=None))
        return own.take([own.names.index(name) for name in self.cases.names])

    @cached_property
    def actions(self) -> BoardActions:
        """Design actions at mid-thickness of each board."""
        return board_actions(self.cases.design, self.t)

    @property
    def pads_on(self) -> Value:
        """Width of the board that the pads lie on, between its corners where these are cut off level with them."""
        return wood_about.width_for_pads(self.setup.place, self.setup.holding.pad_top, self.setup.holding.pattern.h)

    @cached_property
    def strips(self) -> StripResult:
        """The board as crossed strips, (n, v)."""
        s, p, h = self.stacks, self.setup.place, self.setup.holding
        return crossed_strips(
            kind=p.kind,
            N=self.actions.N,
            M=self.actions.M,
            t=self.t,
            E1=s.E_1[:, None],
            E2=s.E_2[:, None],
            G=s.G_trans[:, None],
            G12=s.G_12[:, None],
            W=p.span,
            H=p.z_bottom,
            bracket=replace(h.pattern, y_pad=middle_on_wood(h.pattern.y_pad, h.pad_width, self.pads_on)),
        )

    @cached_property
    def upper_tension(self) -> Array:
        """Tension of the worse upper bolt with prying and couple, (n, v)."""
        return self._tension(self.strips.T_u, self.setup.holding.pattern.y_u)

    @cached_property
    def lower_tension(self) -> Array:
        """Tension of the worse lower bolt with prying and couple, (n, v)."""
        return self._tension(self.strips.T_l, self.setup.holding.pattern.y_l)

    @cached_property
    def upper_mean(self) -> Array:
        """Mean tension of the upper bolts with prying, (n, v)."""
        return np.asarray(bolt_tension(self.strips.T_u, self._pry, 0.0))

    @cached_property
    def lower_mean(self) -> Array:
        """Mean tension of the lower bolts with prying, (n, v)."""
        return np.asarray(bolt_tension(self.strips.T_l, self._pry, 0.0))

    @property
    def _pry(self) -> Value:
        return prying_factor(self.t, self.setup.factors.prying_thickness)

    def _tension(self, T: Array, y: Value) -> Array:
        return np.asarray(bolt_tension(T, self._pry, couple_tension(self.actions.M_z, y)))

    @cached_property
    def tension(self) -> Array:
        """Tension of the worst engine bolt, (n, v)."""
        return np.asarray(maximum(self.upper_tension, self.lower_tension))

    @cached_property
    def shear(self) -> Array:
        """Largest in-plane force on one engine bolt, (v,) or (n, v)."""
        h = self.setup.holding
        return bolt_group(
            F_y=self.actions.F_y, F_z=self.actions.F_z, M_x=self.actions.M_x, y=h.bolt_y, z=h.bolt_z
        ).largest

    @cached_property
    def service_shear(self) -> Array:
        """Largest in-plane force on one engine bolt by service loads, (v,) or (n, v)."""
        h, w = self.setup.holding, np.moveaxis(self.cases.wrench, -1, 0)
        return bolt_group(F_y=w[1], F_z=w[2], M_x=w[3], y=h.bolt_y, z=h.bolt_z).largest

    @cached_property
    def face_bearing(self) -> Array:
        """Characteristic strength of the face under a plate or pad: 3.0 f_c,90,k, (n, 1)."""
        f = found_strength(self.stacks.f_c_90[:, None], self.setup.crush_share)
        return np.asarray(washer_bearing_strength(f))

    @cached_property
    def crush(self) -> Array:
        """Design strength of the face under a pad, (n, v)."""
        return np.asarray(design_value(self.face_bearing, self.k))

    @cached_property
    def crush_under_backing(self) -> Array:
        """Design strength of the face under washer or plate, (n, v).

        A washer smaller than 3 d or thinner than 0.3 d earns no spreading: f_c,90 once, not three times.
        """
        return np.asarray(design_value(self._face(self.face_bearing), self.k))

    def _face(self, spread: Array) -> Array:
        w = self.hardware
        full = (minimum(w.outside, w.height) >= least_washer_side(w.d)) & (w.t >= least_washer_thickness(w.d))
        return np.where(full, spread, found_strength(self.stacks.f_c_90[:, None], self.setup.crush_share))

    def factor(self, name: str) -> float:
        """A number of the method by its name in the tables."""
        return float(self.setup.tables.factor(name).value)

    @cached_property
    def upper_edge(self) -> Value:
        """From the upper bolts up to the board's top edge, or to the notch where it lies over them, mm."""
        return self.above(self.setup.holding.pattern.y_u, self.setup.holding.pattern.z_u)

    @property
    def notched(self) -> bool:
        """True where the top edge has a notch."""
        return wood_about.notched(self.setup.place)

    def above(self, y: Value, z: Value) -> Value:
        """From a point at y, z up to the top edge, notch or cut corner, mm."""
        return wood_about.above(self.setup.place, y, z)

    def outward(self, y: Value, z: Value) -> Value:
        """From a point at y, z out to the board's side or a cut corner, mm."""
        return wood_about.outward(self.setup.place, y, z)

    def below(self, y: Value, z: Value) -> Value:
        """From a point at y, z down to the bottom edge or a cut corner, mm."""
        return wood_about.below(self.setup.place, y, z)

    def towards_middle(self, y: Value) -> Value:
        """From a point at y to the center line or the notch's side, mm."""
        return wood_about.towards_middle(self.setup.place, y)

    def free_inward(self, y: Value) -> Value:
        """From a point at y in to the notch's side, mm; FAR where wood goes on to the other bolt."""
        return wood_about.free_inward(self.setup.place, y)

    def bearing(self, patch: Patch) -> Array:
        """Pull that crushes the wood of a patch, N, (n, v)."""
        return np.asarray(bearing_resistance(self.crush_under_backing, patch.area))

    @cached_property
    def strength_share(self) -> Array:
        """Share of the table's bending and shear strengths found in the sheets, broadcasts to (n, v)."""
        return np.atleast_2d(np.asarray(self.setup.wood_share, dtype=float))

    @property
    def planar_factors(self) -> tuple[Array, Array]:
        """Planar shear factors of the lay-up for a shear force along the board and up it, (n, 1)."""
        return self.stacks.c_1[:, None], self.stacks.c_2[:, None]

    @cached_property
    def over_bore(self) -> Array:
        """Diameter bored for the epoxy plug, (n, 1); nothing is bored for clamp screws."""
        if self.setup.holding.by == "clamps":
            return np.zeros_like(self.hardware.d)
        return np.asarray(over_bore_diameter(self.hardware.d, self.setup.factors.over_bore))

    @cached_property
    def upper_patch(self) -> Patch:
        """Wood that works round an upper bolt."""
        return self._patch_in_all(upper=True)

    @cached_property
    def lower_patch(self) -> Patch:
        """Wood that works round a lower bolt."""
        return self._patch_in_all(upper=False)

    def _patch_in_all(self, *, upper: bool) -> Patch:
        """The patch in every case; of many mounts worked out once for each strength of the wood, all that cases tell it."""
        p_d, edges = self.crush_under_backing, vars(self.edges(upper=upper)).values()
        if np.broadcast_shapes(*map(np.shape, (self.t, p_d, *edges, *self.extents(upper=upper))))[0] == 1:
            return self._patch(upper=upper)
        _, first, case = np.unique(self.k, return_index=True, return_inverse=True)
        return self._patch(upper=upper, pressure=p_d[:, first]).in_cases(case)

    @cached_property
    def dry_crush(self) -> Array:
        """Characteristic strength of the dry face under washer or plate, without k_mod, (n, 1)."""
        return np.asarray(self._face(self.face_bearing))

    @cached_property
    def dry_area(self) -> Array:
        """Wood that works at bolt-up under the smaller patch, mm², (n, 1): plates bend sooner on dry wood."""
        areas = [self._patch(upper=u, pressure=self.dry_crush).area for u in (True, False)]
        return np.asarray(np.min(np.broadcast_arrays(*areas), axis=0))

    def _patch(self, *, upper: bool, pressure: Array | None = None) -> Patch:
        p_d = self.crush_under_backing if pressure is None else pressure
        w, p = self.hardware, self.setup.holding.pattern
        y, z = (p.y_u, p.z_u) if upper else (p.y_l, p.z_l)
        edges = self.edges(upper=upper)
        m = effective_overhang(w.t, w.f_y, p_d, self.setup.factors.gamma_M1)
        half_round = half_of(square_of_equal_perimeter(working_diameter(w.outside, w.flats, m)))
        inner, outer, up, down = (
            np.where(w.round_, half_round, reach_on_side(minimum(extent, edge), w.flats, m))
            for extent, edge in zip(
                self.extents(upper=upper), (edges.inner, edges.outer, edges.up, edges.down), strict=True
            )
        )
        area = np.where(
            w.round_,
            positive(round_net_area(working_diameter(w.outside, w.flats, m), w.hole)),
            net_bearing_area(inner, outer, up, down, w.hole),
        )
        holes = self.setup.job.board.openings
        lost = lost_to_openings(((h.y, h.down, h.diameter) for h in holes), y, z, (inner, outer, up, down))
        around = perimeters_of((inner, outer, up, down), edges, self.t, self.planar_factors, lost.length)
        return Patch(inner, outer, up, down, remaining(area, lost.area), around, m)

    @property
    def _between_rows(self) -> Value:
        """From a row half way to the other; clamp screws have no other row."""
        p, place = self.setup.holding.pattern, self.setup.place
        if self.setup.holding.by == "clamps":
            return remaining(place.height, p.z_l)
        return half_of(remaining(p.z_l, p.z_u))

    def edges(self, *, upper: bool) -> Edges:
        """From a bolt of a row to where the wood ends or its neighbor's half begins."""
        p = self.setup.holding.pattern
        y, z = (p.y_u, p.z_u) if upper else (p.y_l, p.z_l)
        place, outward, half_way = self.setup.place, self.outward(y, z), self._between_rows
        free, under = wood_about.free_outward(place, y, z), wood_about.free_below(place, y, z)
        if upper:
            inner, top = self.towards_middle(y), self.upper_edge
            return Edges(inner, outward, top, half_way, self.free_inward(y), free, free_up=top, free_down=FAR)
        return Edges(y, outward, half_way, self.below(y, z), FAR, free, free_up=FAR, free_down=under)

    def extents(self, *, upper: bool) -> tuple[Value, Value, Value, Value]:
        """How far the backing itself reaches from a bolt: towards the middle, outward, up, down.

        A plate for a pair or for all lies with its middle between its bolts.
        """
        w, p = self.hardware, self.setup.holding.pattern
        y, between = (p.y_u if upper else p.y_l), self._between_rows
        own_x, own_z = half_of(w.width), half_of(w.height)
        shared_x = w.per > 0
        shared_z = w.per > 1
        inner, outer = np.where(shared_x, y, own_x), np.where(shared_x, remaining(own_x, y), own_x)
        towards = np.where(shared_z, between, own_z)
        away = np.where(shared_z, remaining(own_z, between), own_z)
        return (inner, outer, away, towards) if upper else (inner, outer, towards, away)
