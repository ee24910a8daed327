"""Where things lie to one another, worked on paper: rows, edges, notches, strips, pads; one rule at a time."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from tests.checks.shop import (
    AHEAD,
    BOLTS,
    HARD_OVER,
    JOB,
    MOUNT,
    alone,
    on_board,
    plate,
    row,
    setup_of,
    trial,
    with_bolts,
    with_engine,
)
from tests.checks.test_frame import FLANGE
from tests.checks.test_screws_and_rivets import screwed
from transom.catalogue import SHIPPED
from transom.checks import backing, frame, ruler, sideways
from transom.checks.assembly import total
from transom.checks.board import _at_each, _left_of_strips, _room_beside, moments_beside_openings, pads, taken_of_level
from transom.checks.hardware import hardware
from transom.checks.moments import Moments
from transom.checks.openings import (
    Strip,
    by_strips,
    off_section,
    shared_to,
    shares,
    strips_about,
    strips_at_bolts,
    taken_of_strip,
)
from transom.checks.patch import lost_to_openings, middle_on_wood
from transom.checks.places import least_spacing
from transom.checks.stack_arrays import stacks_of
from transom.checks.trial import Trial
from transom.errors import JobError
from transom.job.records import Backing, EngineBracket, Hole, Job, Layer
from transom.judge.evaluate import careful_of


def of_pattern(**changes: float) -> Trial:
    """The trial with its pattern changed and nothing else."""
    of = trial()
    holding = replace(of.setup.holding, pattern=replace(of.setup.holding.pattern, **changes))
    return replace(of, setup=replace(of.setup, holding=holding))


def n_ef(n: float, a_1: float, d: float = 12.7) -> float:
    """EN 1995-1-1:2004 (8.34)."""
    return min(n, n**0.9 * (a_1 / (13 * d)) ** 0.25)


@pytest.mark.parametrize(
    "y_u, y_l, z_l, share",
    [
        (25.0, 150.0, 250.8, n_ef(2, 50.0) / 2),  # the upper pair is closest
        (150.0, 25.0, 250.8, n_ef(2, 50.0) / 2),  # the lower pair is
        (150.0, 150.0, 107.6, n_ef(2, 60.0) / 2),  # rows 60 apart and in line
        (150.0, 134.9, 107.6, n_ef(2, 269.8) / 2),  # 15.1 out of line, over a quarter of 60
        (150.0, 135.1, 107.6, n_ef(2, 60.0) / 2),  # 14.9 out of line
        (150.0, 135.0, 107.6, n_ef(2, 270.0) / 2),  # exactly a quarter is another row
    ],
)
def test_share_of_rows(y_u: float, y_l: float, z_l: float, share: float) -> None:
    """Two a row and two rows 47.6 and z_l down; in line within less than a quarter of their distance; the worse counts."""
    of = of_pattern(y_u=y_u, y_l=y_l, z_l=z_l)
    assert float(np.ravel(sideways._share_of_rows(of))[0]) == pytest.approx(share)


def test_rows_within_a_tenth_of_a_millimeter_are_one() -> None:
    """Two rows of two, each 0.04 askew: two in line, not four."""
    places = [(-150.0, 60.0), (150.0, 60.04), (-150.0, 260.0), (150.0, 260.04)]
    of = trial(with_engine(bracket=EngineBracket(bolts=tuple(Hole(*p) for p in places))))
    assert float(np.ravel(sideways._share_of_odd_rows(of))[0]) == pytest.approx(n_ef(2, 200.0) / 2, rel=1e-4)


def test_rows_four_tenths_apart_are_two() -> None:
    """Four bolts each on a level of its own: as four in line, 200 apart or less."""
    of = trial()
    y, z = np.array([-150.0, 150.0, -150.0, 150.0]), -np.array([60.0, 60.4, 260.0, 260.4])
    of = replace(of, setup=replace(of.setup, holding=replace(of.setup.holding, bolt_y=y, bolt_z=z)))
    assert float(np.ravel(sideways._share_of_odd_rows(of))[0]) == pytest.approx(n_ef(4, 200.0) / 4, rel=1e-4)


def test_no_opening_takes_nothing_of_a_patch() -> None:
    reach = (40.0, 30.0, 38.0, 38.0)
    none = lost_to_openings([], 163.5, 47.6, reach)
    assert (none.area, none.length) == (0.0, 0.0)
    far = lost_to_openings([(0.0, 400.0, 20.0)], 163.5, 47.6, reach)
    assert (float(far.area), float(far.length)) == (0.0, 0.0)


def one_plate_by_hand(f_h: float, t: float, d: float, M_y: float, t_p: float) -> float:
    """EN 1995-1-1:2004, (8.9) and (8.10), between them straight by the plate's thickness from 0.5 d to d."""
    thin = min(0.4 * f_h * t * d, 1.15 * np.sqrt(2 * M_y * f_h * d))
    d_ = f_h * t * d * (np.sqrt(2 + 4 * M_y / (f_h * d * t * t)) - 1)
    thick = min(d_, 2.3 * np.sqrt(M_y * f_h * d), f_h * t * d)
    return thin + (thick - thin) * float(np.clip((t_p - 0.5 * d) / (0.5 * d), 0.0, 1.0))


@pytest.mark.parametrize("job, lag", [(replace(JOB, frame=FLANGE), False), (screwed(), True)])
def test_a_frame_bolt_sideways_by_hand(job: Job, lag: bool) -> None:
    """A bolt works with its whole diameter through all the wood, a screw with 1.1 root diameters, 0.7 d, over its thread.

    f_h = 0.11 (1 - 0.01 d) rho, M_y = 0.3 f_u d^2.6; short 0.7/1.3; edge e/4d; row (8.34) down a side.
    """
    of = trial(job, loads=alone(AHEAD))
    f, b = of.setup.frame, of.setup.frame.bolts
    rho = float(of.stacks.rho[0])
    d, t = (frame.working_diameter(b.d), float(frame.held_thread(of)[0, 0])) if lag else (b.d, 36.52)
    assert (b.kind == "lag screws") is lag
    assert d < b.d if lag else d == b.d
    F = one_plate_by_hand(0.11 * (1 - 0.01 * d) * rho, t, d, 0.3 * b.f_ub * d**2.6, float(f.flange))
    n = float(f.n_side)
    share = n_ef(n, float(f.side_pitch), b.d) / n
    want = F * 0.7 / 1.3 * min(float(f.edge) / (4 * b.d), 1.0) * share
    assert float(frame.sideways(of)[0, 0]) == pytest.approx(want, rel=1e-3)


@pytest.mark.parametrize(
    "n_top, end_pitch, edge",
    [
        (0, 300.0, 19.05),  # the sides stand far from the notch
        (1, 300.0, 0.0),  # the middle bolt hangs over it
        (2, 300.0, 19.05),  # 150 out, half a notch 100: 50 clear; the edge is nearer
        (2, 230.0, 15.0),  # 115 out: 15 clear of the notch's side
        (3, 300.0, 0.0),
        (4, 230.0, 15.0),
        (5, 230.0, 0.0),
    ],
)
def test_frame_bolts_over_the_notch(n_top: int, end_pitch: float, edge: float) -> None:
    """Notch 200 wide and 60 deep, top bolts 19.05 down, sides 571.9 apart; an odd number has one in the middle."""
    of = trial(replace(on_board(notch_width=200.0, notch_depth=60.0), frame=FLANGE))
    f = replace(of.setup.frame, n_top=float(n_top), end_pitch=end_pitch, first=19.05, edge=19.05)
    of = replace(of, setup=replace(of.setup, frame=f))
    assert float(np.ravel(frame.edge_of_holes(of))[0]) == pytest.approx(edge)


def test_side_bolts_beside_a_wide_notch() -> None:
    """Half the notch 280 of 285.95: 5.95 clear beside it; below its floor as far as they are down."""
    of = trial(replace(on_board(notch_width=560.0, notch_depth=60.0), frame=FLANGE))
    for first, edge in ((19.05, 5.95), (60.0, 5.95), (68.0, np.hypot(5.95, 8.0))):
        f = replace(of.setup.frame, first=first, edge=19.05, n_top=0.0)
        there = replace(of, setup=replace(of.setup, frame=f))
        assert float(np.ravel(frame.edge_of_holes(there))[0]) == pytest.approx(edge, rel=1e-6)


@pytest.mark.parametrize(
    "changes, edge",
    [
        ({}, 10.0),  # last of a side 330 down, the cut begins at 340
        ({"first": 80.0, "n_bottom": 0.0}, 20.0),  # last 320 down: 20 above it
        ({"first": 75.0, "n_bottom": 2.0, "end_pitch": 494.0}, 13.0),  # outermost below 247 out of 260
        ({"first": 75.0, "n_bottom": 1.0, "end_pitch": 494.0}, 15.0),  # one in the middle is far
        ({"first": 58.0}, 0.0),  # last 342 down is in the cut: no wood about it
        ({"first": 66.0, "n_top": 2.0, "end_pitch": 530.0, "n_bottom": 0.0}, 5.0),  # outermost above 265 out of 270
    ],
)
def test_frame_bolts_beside_cut_corners(changes: dict[str, float], edge: float) -> None:
    """A board 600 by 400, sides 560 apart, cut 30 by 50 above and 40 by 60 below; bolts first 70 down."""
    of = trial(replace(JOB, frame=FLANGE))
    place = replace(of.setup.place, width=600.0, height=400.0, span=560.0, z_bottom=380.0, top_cut=(30.0, 50.0),
                    bottom_cut=(40.0, 60.0))  # fmt: skip
    f = replace(of.setup.frame, span=560.0, edge=300.0, first=70.0, n_top=0.0, n_bottom=2.0, end_pitch=200.0)
    f = replace(f, **changes)
    of = replace(of, setup=replace(of.setup, place=place, frame=f))
    assert float(np.ravel(frame._edge_at_corners(of))[0]) == pytest.approx(edge)


@pytest.mark.parametrize(
    "y, z, room",
    [
        (163.5, 47.6, 63.5),  # the notch's side, 100 out, is nearer than the board's, 305
        (163.5, 60.0, 141.5),  # at its floor and below it the notch is past
        (163.5, 59.9, 63.5),
        (280.0, 47.6, 25.0),
        (90.0, 47.6, 215.0),  # under the notch: no side of it beside
    ],
)
def test_room_beside_a_bolt(y: float, z: float, room: float) -> None:
    of = trial(on_board(notch_width=200.0, notch_depth=60.0))
    assert float(np.ravel(_room_beside(of, y, z))[0]) == pytest.approx(room)


def test_what_openings_and_notch_leave_of_the_pencils_strips() -> None:
    """By the pencil the notch's share of strip and width, and a hole's of the strip it lies in; by the plate nothing,
    since both lie in its mesh."""
    of = trial(on_board(notch_width=122.0, notch_depth=30.0))
    across, up = _left_of_strips(of)
    b1 = of.strips.b1
    assert across == pytest.approx(np.broadcast_to(1 - 30.0 / b1, np.shape(across)))
    assert np.ravel(up)[0] == pytest.approx(1 - 122.0 / 610.0)
    Mx, My = moments_beside_openings(of)
    assert Mx == pytest.approx(of.strips.Mx / (1 - 30.0 / b1))
    assert My == pytest.approx(of.strips.My / 0.8)


@pytest.mark.parametrize("y", [125.0, -125.0])
def test_a_hole_counts_in_the_strip_up_the_board_on_either_side(y: float) -> None:
    """The strip up the board lies about the pad's middle; a hole 20 wide whose middle is on its outer side takes 10 of it."""
    of = trial()
    y_pad, b_v = float(of.setup.holding.pattern.y_pad), float(np.ravel(of.strips.b_v)[0])
    outer = y_pad + b_v / 2
    of = trial(on_board(openings=(Hole(np.copysign(outer, y), 300.0, 20.0),)))
    _, up = by_strips(of)
    assert float(np.ravel(up)[0]) == pytest.approx(1 - 10.0 / b_v)


def test_hole_to_section_on_paper() -> None:
    assert off_section(70.0, 40.0, 20.0) == 20.0
    assert off_section(10.0, 40.0, 20.0) == 20.0
    assert off_section(35.0, 40.0, 20.0) == 0.0
    assert taken_of_strip(100.0, 20.0, 95.0, 200.0) == 15.0
    assert taken_of_strip(300.0, 20.0, 95.0, 200.0) == 0.0
    assert shared_to(20.0, 36.0) == 40.0  # two diameters each way
    assert shared_to(60.0, 36.0) == 84.0  # 30 and one and a half thicknesses


def test_a_hole_over_the_top_edge_takes_what_is_on_the_board() -> None:
    """20 wide at 5 down: 15 of it, of the upper strip; the wood about it begins at the edge."""
    hole = Hole(0.0, 5.0, 20.0)
    of = trial(on_board(openings=(hole,)))
    across, _ = by_strips(of)
    assert across == pytest.approx(1 - 15.0 / of.strips.b1)
    (strip,) = strips_about(of, (hole,))
    assert (strip.top, strip.bottom) == (0.0, 45.0)


@pytest.mark.parametrize("near, share", [(15.0, 1 - 20 / 100), (14.9, 1.0)])
def test_a_hole_just_near_enough_counts_in_a_section(near: float, share: float) -> None:
    """20 wide, 25 off: its rim is 15 from the section."""
    across, _ = shares([Strip(0.0, 100.0, -50.0, 50.0, 50.0, 150.0)], [Hole(25.0, 100.0, 20.0)], near)
    assert across[0, 0] == pytest.approx(share)


def test_least_spacing_of_every_pattern() -> None:
    """Three patterns of four at once, the closest two 100, 60 and 50 apart (30 across, 40 down)."""
    of = trial()
    y = np.array([[-150, 150, -50, 50], [-150, 150, -90, 110], [-150, 150, -150, 120]], dtype=float)[:, None, :]
    z = np.array([[-50, -50, -250, -250], [-50, -50, -50, -250], [-50, -50, -250, -90]], dtype=float)[:, None, :]
    of = replace(of, setup=replace(of.setup, holding=replace(of.setup.holding, bolt_y=y, bolt_z=z)))
    assert least_spacing(of) == pytest.approx(np.array([[100.0], [60.0], [50.0]]))


def test_under_the_bracket_a_washer_counts_nothing_and_a_plate_its_thickness() -> None:
    """Two sheets, one glue line, two coats."""
    washed, plated = trial(mount=with_bolts(forward=Backing(washer="1/2 wide"))), trial()
    f = washed.setup.factors
    coated = 36.52 + f.glue_line + 2 * f.coat
    assert float(total(washed)[0, 0]) == pytest.approx(coated, rel=1e-4)
    assert float(total(plated)[0, 0]) == pytest.approx(coated + 6.35, rel=1e-4)


def test_strips_at_bolts_lie_about_each_bolt() -> None:
    """Upper ones as wide as the upper strip says in the worst case, port before starboard, the lower ones after them."""
    of = trial()
    p = of.setup.holding.pattern
    upper, lower = np.array([[90.0, 80.0]]), np.array([[60.0]])
    strips = strips_at_bolts(of, upper, lower, np.array([[50.0]]))
    assert [(s.y, s.down) for s in strips] == [(-p.y_u, p.z_u), (p.y_u, p.z_u), (-p.y_l, p.z_l), (p.y_l, p.z_l)]
    assert [(s.top, s.bottom) for s in strips[::2]] == [(p.z_u - 40, p.z_u + 40), (p.z_l - 30, p.z_l + 30)]
    assert [(s.port, s.starboard) for s in strips[:2]] == [(-p.y_u - 25, -p.y_u + 25), (p.y_u - 25, p.y_u + 25)]


@pytest.mark.parametrize(
    "y, b, middle", [(250.0, 80.0, 250.0), (265.0, 80.0, 265.0), (280.0, 80.0, 272.5), (345.0, 80.0, 305.0)]
)
def test_middle_of_what_lies_on_the_board(y: float, b: float, middle: float) -> None:
    """A board 610 wide: a pad of 80 at 280 hangs 15 over, so what bears has its middle 7.5 in."""
    assert middle_on_wood(y, b, 610.0) == pytest.approx(middle)


def with_pads(y: float, width: float) -> Trial:
    of = of_pattern(y_pad=y)
    return replace(of, setup=replace(of.setup, holding=replace(of.setup.holding, pad_width=width)))


def test_pads_that_meet_on_the_middle_share_no_wood() -> None:
    """80 wide at 30 from the middle bear on 70 each, as those of 70 at 50 do; with a notch 20 wide 10 less, on 60 at 40."""
    one, two = (pads(with_pads(*p)) for p in ((30.0, 80.0), (50.0, 70.0)))
    assert one.demand == pytest.approx(two.demand)
    notched = on_board(notch_width=20.0, notch_depth=15.0)
    three, four = with_pads(30.0, 80.0), with_pads(40.0, 60.0)
    place = setup_of(notched).place
    three = replace(three, setup=replace(three.setup, place=place))
    assert pads(three).demand == pytest.approx(pads(four).demand)


class Told(Trial):
    """A trial whose board bends by so much behind upper bolts and otherwise behind lower ones."""

    def moments_behind(self, strips: Any, *, upper: bool) -> Moments:
        M = np.full((1, len(self.cases)), 1000.0 if upper else 300.0)
        return Moments(-M, np.zeros_like(M), M)


def test_a_plate_follows_the_board_behind_its_own_row() -> None:
    """Over a pair: 1000 N behind the upper row, 300 behind the lower, each times E_p t_p^3/(E t^3), whatever their sign;
    none where the row does not pull."""
    of = trial()
    told = Told(of.setup, of.cases, of.stacks, of.hardware)
    w, E = of.hardware, float(of.stacks.E_1[0])
    k = float(w.E[0, 0]) * float(w.t[0, 0]) ** 3 / (E * float(of.t[0, 0]) ** 3)
    rows = ((of.upper_tension, of.upper_patch, 1000.0), (of.lower_tension, of.lower_patch, 300.0))
    for found, (pull, patch, M) in zip(backing.own_bending(told), rows, strict=True):
        reach = np.max(np.broadcast_arrays(patch.inner, patch.outer, patch.up, patch.down), axis=0) - w.flats / 2
        cantilever = pull / patch.area * reach**2 / 2
        assert found.demand == pytest.approx(cantilever + np.where(pull > 0, M * k, 0.0))
        assert np.any(pull > 0.0)


@pytest.mark.parametrize("per, share", [(0, 0.0), (1, 2000 / 5806.6), (2, 2500 / 6210.0)])
def test_moments_that_a_plate_follows(per: int, share: float, monkeypatch: pytest.MonkeyPatch) -> None:
    """Over a pair across the board alone, over all four the worse of across and up, over one bolt nothing; at any pull."""
    stacks = SimpleNamespace(E_1=np.array([5806.6]), E_2=np.array([6210.0]))
    moments = Moments(np.array([[2000.0]]), np.array([[-2500.0]]), np.array([[0.0]]))
    one: Any = SimpleNamespace(
        hardware=SimpleNamespace(per=np.array([[per]]), E=69600.0, t=6.35),
        stacks=stacks,
        t=np.array([[36.52]]),
        moments_behind=lambda strips, *, upper: moments,
        worst_place=lambda u: u,
    )
    monkeypatch.setattr(backing, "hole_strips", lambda trial: None)
    for T, pulls in ((0.4, 1.0), (0.0, 0.0), (-5.0, 0.0)):
        got = backing._followed(one, np.array([[T]]), True)
        assert float(np.ravel(got)[0]) == pytest.approx(pulls * share * 69600 * 6.35**3 / 36.52**3)


def test_shares_come_again_with_every_stiffness() -> None:
    """Two places, their moments listed once for each of two stiffnesses."""
    moments = Moments(*(np.zeros((4, 3)),) * 3)
    across, up = _at_each(moments, (np.array([[0.5], [0.6]]), np.array([[0.7], [0.8]])))
    assert across.tolist() == [[0.5], [0.6], [0.5], [0.6]]
    assert up.tolist() == [[0.7], [0.8], [0.7], [0.8]]


def test_nothing_of_a_plates_mesh_is_taken_twice() -> None:
    job = on_board(notch_width=122.0, notch_depth=30.0, openings=(Hole(0.0, 300.0, 25.0),))
    of = careful_of(trial(job, MOUNT, loads=alone(HARD_OVER)))
    for share in _left_of_strips(of):
        assert np.all(np.asarray(share) == 1.0)


@pytest.mark.parametrize("length, thread", [(152.4, 1.25), (152.5, 1.5), (76.2, 1.25)])
def test_threads_are_a_quarter_inch_longer_past_six_inches(length: float, thread: float) -> None:
    """ASME B18.2.1: twice the diameter and 1/4 in up to and with 6 in, 1/2 in beyond; 1/2-13."""
    assert BOLTS.thread == "1/2-13"
    found = hardware([replace(BOLTS, length=length)])
    assert float(found.thread_length[0, 0]) == pytest.approx(thread * 25.4)


def test_no_layers_are_refused() -> None:
    for piles in ([], [[]], [[Layer(MOUNT.layers[0].sheet, "across")], []]):
        with pytest.raises(JobError, match="list the sheets"):
            stacks_of(piles, SHIPPED)


def test_the_push_is_somebodys_weight() -> None:
    """180 lb of 0.45359237 kg; the round figure beside it within 3 %."""
    assert ruler.PUSH["us"] == pytest.approx(180 * 0.45359237, rel=1e-9)
    assert ruler.PUSH["si"] == pytest.approx(ruler.PUSH["us"], rel=0.03)


def test_a_washer_is_its_own_edge_and_takes_no_room_inward() -> None:
    """A washer 34.9 across reaches half of that each way, and only outward and up count for room."""
    of = trial(mount=with_bolts(forward=plate(width=60.0, height=60.0, per="bolt").engine_bolts.forward))  # type: ignore[union-attr]
    assert [float(np.ravel(x)[0]) for x in of.extents(upper=True)] == [30.0] * 4
    assert row(of, "backing.plate-room").demand == pytest.approx(30.0 / 47.6)


def test_notch_and_corners_take_of_a_level() -> None:
    assert taken_of_level(122.0, 50.0) == 222.0
    assert taken_of_level(0.0, 50.0) == 100.0


def test_what_cut_corners_leave_of_the_pencils_strips() -> None:
    """Corners 50 by 80 above, 60 by 100 below, notch 100 by 30: the deeper of either strip, the wider of either level."""
    of = trial(on_board(notch_width=100.0, notch_depth=30.0))
    place = replace(of.setup.place, top_cut=(50.0, 80.0), bottom_cut=(60.0, 100.0))
    of = replace(of, setup=replace(of.setup, place=place))
    across, up = _left_of_strips(of)
    assert across == pytest.approx(np.minimum(1 - 80.0 / of.strips.b1, 1 - 100.0 / of.strips.b2))
    assert float(np.ravel(up)[0]) == pytest.approx(1 - 200.0 / 610.0)
    low = replace(of, setup=replace(of.setup, place=replace(place, notch_width=0.0, top_cut=(0.0, 0.0))))
    assert float(np.ravel(_left_of_strips(low)[1])[0]) == pytest.approx(1 - 120.0 / 610.0)
