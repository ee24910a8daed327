"""What the plate of a mount is made of before it is solved: lines, cuts, corners, pads, pieces, stations; off a drawing."""

from dataclasses import replace
from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from tests.checks.shop import JOB, MOUNT, cases, on_board, setup_of
from transom.board.bracket import Bolt, Pad, Seat, bolt_stiffness, shank_stiffness, wood_stiffness
from transom.board.grid import Rectangle
from transom.checks.assembly import grip_of
from transom.checks.board import sliding_at_pads
from transom.checks.careful import Careful, wrenches_of
from transom.checks.lifted import held_pads
from transom.checks.moments import Moments
from transom.checks.openings import Strip
from transom.checks.patch import Around, Patch
from transom.job.records import Corners, Hole, Job
from transom.judge.evaluate import careful_of, trial_of


def of_job(job: Job = JOB) -> Careful:
    return careful_of(trial_of(setup_of(job), cases(), [MOUNT]))


def placed(**changes: Any) -> Careful:
    """The plate of a board 600 by 400 on lines 560 apart, the bottom one 380 down, its grid's step 40."""
    of = of_job()
    place = replace(of.setup.place, width=600.0, height=400.0, span=560.0, z_bottom=380.0)
    return replace(of, setup=replace(of.setup, place=replace(place, **changes)))


def sides(r: Rectangle) -> tuple[float, ...]:
    return r.y_lo, r.y_hi, r.z_lo, r.z_hi


SIDES = [(-280.0, -280.0, -400.0, 0.0), (280.0, 280.0, -400.0, 0.0)]
BOTTOM, TOP = (-280.0, 280.0, -380.0, -380.0), (-280.0, 280.0, 0.0, 0.0)


@pytest.mark.parametrize(
    "kind, notch, lines",
    [
        ("uprights", 0.0, SIDES),
        ("pod", 0.0, [*SIDES, BOTTOM]),
        ("cap rail", 0.0, [*SIDES, BOTTOM, TOP]),
        ("cap rail", 559.0, [*SIDES, BOTTOM, TOP]),
        ("cap rail", 560.0, [*SIDES, BOTTOM]),  # a notch as wide leaves the rail nothing to hold
    ],
)
def test_lines_that_hold_the_board(kind: str, notch: float, lines: list[tuple[float, ...]]) -> None:
    assert [sides(r) for r in placed(kind=kind, notch_width=notch).lines] == lines


@pytest.mark.parametrize(
    "station, apart", [(100.0, True), (101.9, False), (102.0, False), (102.1, True), (98.0, False), (97.0, True)]
)
def test_stations_keep_a_twentieth_of_a_step_from_what_is_cut(station: float, apart: bool) -> None:
    """2 mm of 40; on the edge itself it is the same line of the grid."""
    assert placed()._apart(station, [100.0]) is apart
    assert placed()._apart(station, [300.0, 100.0]) is apart


@pytest.mark.parametrize(
    "width, depth, cut",
    [
        (200.0, 60.0, (-100.0, 100.0, -60.0, 0.0)),
        (3.0, 60.0, (-2.0, 2.0, -60.0, 0.0)),  # of next to nothing a tenth of a step
        (200.0, 1.0, (-100.0, 100.0, -4.0, 0.0)),
        (557.0, 60.0, (-280.0, 280.0, -60.0, 0.0)),  # 1.5 from the side lines: on them
        (550.0, 60.0, (-275.0, 275.0, -60.0, 0.0)),
    ],
)
def test_notch(width: float, depth: float, cut: tuple[float, ...]) -> None:
    assert [sides(r) for r in placed(notch_width=width, notch_depth=depth).cuts] == [cut]
    assert placed(notch_width=width).cuts == placed(notch_depth=depth).cuts == ()


def corner_cuts(top: tuple[float, float], bottom: tuple[float, float]) -> list[tuple[float, ...]]:
    return [sides(r) for r in placed(top_cut=top, bottom_cut=bottom).corners]


def test_cut_corners_as_they_are() -> None:
    top = [(-300.0, -250.0, -80.0, 0.0), (250.0, 300.0, -80.0, 0.0)]
    bottom = [(-300.0, -200.0, -400.0, -280.0), (200.0, 300.0, -400.0, -280.0)]
    assert corner_cuts((50.0, 80.0), (0.0, 0.0)) == top
    assert corner_cuts((0.0, 0.0), (100.0, 120.0)) == bottom
    assert corner_cuts((50.0, 80.0), (100.0, 120.0)) == top + bottom
    assert corner_cuts((50.0, 0.0), (0.0, 120.0)) == []


@pytest.mark.parametrize(
    "top, y, z",
    [
        ((1.0, 80.0), 296.0, -80.0),  # a tenth of a step at least
        ((50.0, 1.0), 250.0, -4.0),
        ((19.0, 80.0), 276.0, -80.0),  # a line 20 in: 1 off it, so cut to 20 and a tenth of a step
        ((21.0, 80.0), 275.0, -80.0),
        ((20.0, 80.0), 280.0, -80.0),  # on it: as it is
        ((50.0, 19.0), 250.0, -19.0),  # the bottom line is no matter up here
    ],
)
def test_a_cut_keeps_off_the_side_line(top: tuple[float, float], y: float, z: float) -> None:
    assert corner_cuts(top, (0.0, 0.0)) == [(-300.0, -y, z, 0.0), (y, 300.0, z, 0.0)]


@pytest.mark.parametrize("high, z", [(19.0, -376.0), (21.5, -374.5), (20.0, -380.0), (23.0, -377.0), (1.0, -396.0)])
def test_a_cut_keeps_off_the_bottom_line(high: float, z: float) -> None:
    """The line 20 above the bottom edge."""
    assert corner_cuts((0.0, 0.0), (100.0, high))[0] == (-300.0, -200.0, -400.0, z)


def test_cuts_all_but_alike_become_so() -> None:
    one, _, two, _ = corner_cuts((50.0, 80.0), (51.0, 120.0))
    assert one[1] == two[1] == -249.0
    one, _, two, _ = corner_cuts((50.0, 80.0), (53.0, 120.0))
    assert (one[1], two[1]) == (-250.0, -247.0)


def test_pads_lie_on_the_board_from_their_top_to_its_end() -> None:
    """Middle 140, 70 wide, 330 high, begun 20 down; a board 240 high ends them, one 340 wide takes 5 off."""
    of = placed()
    holding = replace(of.setup.holding, pad_top=20.0)
    of = replace(of, setup=replace(of.setup, holding=holding))
    assert sides(of._pad(1.0)) == (105.0, 175.0, -330.0, -20.0)
    small = replace(of, setup=replace(of.setup, place=replace(of.setup.place, width=340.0, height=240.0)))
    assert sides(small._pad(-1.0)) == (-170.0, -105.0, -240.0, -20.0)
    assert sides(small.extent) == (-170.0, 170.0, -240.0, 0.0)


def test_clamp_screws_bear_on_the_ends_in_thin_pieces() -> None:
    of = placed()
    pad = Rectangle(105.0, 175.0, -330.0, 0.0)
    assert of._pieces(pad) == [pad]
    clamped = replace(of, setup=replace(of.setup, holding=replace(of.setup.holding, by="clamps")))
    pieces = clamped._pieces(pad)
    heights = [0.0, -8.0, -16.0, -24.0, -306.0, -314.0, -322.0, -330.0]
    assert [(p.z_hi, p.z_lo) for p in pieces] == [pytest.approx(pair) for pair in pairwise(heights)]
    assert {(p.y_lo, p.y_hi) for p in pieces} == {(105.0, 175.0)}
    for high, count in ((48.0, 1), (48.1, 7)):
        assert len(clamped._pieces(Rectangle(0.0, 70.0, -high, 0.0))) == count
    assert clamped._bounds(clamped._seat(250.0).areas) == ()
    assert len(clamped._seat(250.0).bolts) == 2


def test_a_bolt_is_steel_on_wood_and_a_clamp_screw_wood_alone() -> None:
    """Wood E A/t over the whole patch, 50 by 40, in series with the shank over its grip; loaded as far as both sides have it."""
    of = placed()
    patch = replace(of.upper_patch, inner=30.0, outer=20.0, up=15.0, down=25.0)
    t = float(np.ravel(of.t)[0])
    wood = wood_stiffness(250.0, 50.0 * 40.0, t)
    steel = shank_stiffness(210_000.0, float(of.hardware.A_s[0, 0]), float(np.ravel(grip_of(of))[0]))
    for y, side in ((100.0, 1.0), (-100.0, -1.0)):
        bolt = of._bolt(y, 60.0, patch, 250.0)
        assert (bolt.y, bolt.z) == (side * 100.0, -60.0)
        assert bolt.k == pytest.approx(bolt_stiffness(steel, wood))
        assert sides(bolt.plate) == (y - 20.0, y + 20.0, -75.0, -45.0)
    clamped = replace(of, setup=replace(of.setup, holding=replace(of.setup.holding, by="clamps")))
    assert clamped._bolt(100.0, 60.0, patch, 250.0).k == pytest.approx(wood)


def test_grid_lines_run_through_bolts_lines_pads_and_the_middle() -> None:
    of = placed()
    on = of.board.grid
    y = {0.0, 300.0, 280.0, 105.0, 175.0, 163.5, 125.4}
    z = {0.0, -400.0, -380.0, -330.0, -47.6, -250.8}
    for lines, wanted in ((on.y, y | {-v for v in y}), (on.z, z)):
        assert all(np.abs(lines - v).min() < 1e-9 for v in wanted)
        assert np.diff(lines).max() <= 40.0 + 1e-9
    assert (on.y[0], on.y[-1], on.z[0], on.z[-1]) == (-300.0, 300.0, -400.0, 0.0)
    # Hidden under a notch whose side is 1 off: the pads' inner edge gives way to it.
    notched = placed(notch_width=212.0, notch_depth=60.0).board.grid.y
    assert 106.0 in notched
    assert np.abs(notched - 105.0).min() > 0.5


def test_softer_wood_is_half_as_stiff() -> None:
    of = placed()
    soft, stiff = of._bounds(of._seat(1.0).areas)
    E, times = of.factor("board.pad_stiffness_MPa"), of.factor("board.pad_stiffness_times")
    assert times > 1.0
    seat = of._seat(E)
    pads = len(seat.bolts)
    assert soft[pads:] == pytest.approx(seat.stiffness[pads:] / times)
    assert soft == pytest.approx(of._seat(E / times).stiffness)
    assert stiff == pytest.approx(of._seat(E * times).stiffness)


def test_wide_openings_are_cut_out_as_squares() -> None:
    """Wider than three thicknesses, 109.6; as far as they lie on the board."""
    of = of_job(on_board(openings=(Hole(0.0, 200.0, 109.0), Hole(-50.0, 390.0, 130.0))))
    assert [sides(r) for r in of.cuts] == [(-115.0, 15.0, -450.0, -325.0)]
    assert [o.diameter for o in of.openings] == [109.0]


def test_wrenches_of_cases_are_forces_aft_and_moments() -> None:
    a: Any = SimpleNamespace(N=np.array([[3.0, -4.0]]), M=np.array([[5.0, 6.0]]), M_z=7.0)
    assert wrenches_of(a, 2).tolist() == [[-3.0, 5.0, 7.0], [4.0, 6.0, 7.0]]


def test_a_patch_counts_where_it_is_least_of_all_cases() -> None:
    of = placed()
    one = replace(of.upper_patch, inner=30.0, outer=20.0, up=15.0, down=25.0)
    many = replace(one, inner=np.array([[35.0, 30.0, 40.0]]), down=np.array([[25.0, 26.0, 30.0]]))
    assert vars(of._bolt(100.0, 60.0, many, 250.0)) == vars(of._bolt(100.0, 60.0, one, 250.0))


def test_a_level_that_a_cut_comes_near_gives_way_to_it() -> None:
    """A notch 46.6 deep beside bolts 47.6 down, and corners that end 1 above the lower ones."""
    z = placed(notch_width=100.0, notch_depth=46.6).board.grid.z
    assert np.abs(z + 46.6).min() < 1e-9
    assert np.abs(z + 47.6).min() > 0.5
    z = placed(bottom_cut=(100.0, 400.0 - 249.8)).board.grid.z
    assert np.abs(z + 249.8).min() < 1e-9
    assert np.abs(z + 250.8).min() > 0.5


def test_kin_on_other_grids_change_nothing() -> None:
    """A quick look after a whole answer, and a whole answer after a quick look, come out as without."""
    whole = of_job()
    quick = replace(whole, two_grids=False)
    for of, kin in ((quick, whole), (whole, quick)):
        again = replace(of, kin=kin)
        assert len(again.answer.seated) == (2 if of is whole else 1)
        assert again.upper_tension == pytest.approx(of.upper_tension, rel=1e-6)
        assert again.moments.Mx == pytest.approx(of.moments.Mx, rel=1e-6, abs=1e-3)


def test_a_quick_look_adds_nothing_for_its_grid() -> None:
    quick = replace(of_job(), two_grids=False)
    a = quick.answer
    bolts = np.max([b.bolts for b in (a.borne, *a.bounds)], axis=0)
    assert quick.upper_tension[0].tolist() == bolts[:2].max(axis=0).tolist()
    assert quick.lower_tension[0].tolist() == bolts[2:].max(axis=0).tolist()


def test_what_others_came_to_is_tried_where_it_fits() -> None:
    whole = of_job()
    assert replace(whole, first=whole.answer.outcome).upper_tension == pytest.approx(whole.upper_tension, rel=1e-9)
    short = replace(whole.answer.borne, pads=whole.answer.borne.pads[:3])
    assert replace(whole, first=replace(whole.answer.outcome, each=(short,))).upper_tension == pytest.approx(
        whole.upper_tension, rel=1e-9
    )


def test_tensions_and_pushes_of_a_cut_board_are_never_under_those_of_the_whole_one() -> None:
    """Corners cut: row by row and pad by pad the worse of the board as cut and as if whole."""
    of = of_job(on_board(bottom_corners=Corners(80.0, 60.0)))
    (whole,) = of.instead
    alone = replace(of, lone=True)
    assert alone.instead == ()
    assert (len(of.cuts), whole.cuts) == (2, ())
    for name in ("upper_tension", "lower_tension", "pad_push"):
        one, two, both = (getattr(x, name) for x in (alone, whole, of))
        assert both == pytest.approx(np.maximum(one, two), rel=1e-9)


def with_answer(of: Careful, bolts: int, cells: list[tuple[float, float]], push: list[list[float]]) -> Careful:
    """A plate whose answer is so many bolts and pad cells at (y, z) with their pushes."""
    held = tuple(Bolt(0.0, 0.0, 1.0, Rectangle(0.0, 0.0, 0.0, 0.0)) for _ in range(bolts))
    seat = Seat(held, tuple(Pad(Rectangle(y, y, z, z), 1.0) for y, z in cells))
    told: Any = SimpleNamespace(seat=seat, borne=SimpleNamespace(pads=np.array(push)), bounds=())
    return replace(of, solved=told)


def test_most_of_the_push_below_the_middle_of_the_pads_is_low() -> None:
    """Pads 330 high: cells at 100, 164, 166 and 250 down; as much below as above is low."""
    cells = [(140.0, -100.0), (-140.0, -164.0), (140.0, -166.0), (-140.0, -250.0)]
    push = [[5.0, 0.0, 0.0, 0.0], [0.0, 5.0, 2.0, 1.0], [0.0, 0.0, 2.0, 0.0], [5.0, 4.9, 0.0, 2.0]]
    of = with_answer(placed(), 4, cells, push)
    assert held_pads(of.answer).tolist() == [[5.0, 9.9, 2.0, 3.0], [5.0, 0.0, 2.0, 0.0]]
    of.kept.update({"k_l": np.ones(4), "k_p": np.array([1.0, 1.0, 2.0, 1.0])})
    assert of.pushes_low.tolist() == [[True, False, True, True]]
    assert of.pads.tolist() == [[5.0, 9.9, 4.0, 3.0], [5.0, 0.0, 4.0, 0.0]]
    assert of.pad_push.tolist() == [[5.0, 9.9, 4.0, 3.0]]
    assert of.pad_mean.tolist() == [[5.0, 4.95, 4.0, 1.5]]


def test_where_stiffnesses_differ_on_which_end_pushes_plies_slide_round_the_shorter_perimeter() -> None:
    """A pad pushes at its foot by all three, by usual and soft wood alone, by stiff alone, by none: equal pushes.

    Round it at the foot 348.6 mm count, at the top, where the edge cuts a side off, 224.8 (tests/checks/test_board.py).
    """
    cells = [(s * 140.0, z) for s in (-1, 1) for z in (-100.0, -250.0)]
    foot, top = [0.0, 5000.0] * 2, [5000.0, 0.0] * 2
    usual, soft, stiff = ([np.array(c) for c in zip(*which, strict=True)] for which in (
        (foot, foot, top, top), (foot, foot, top, top), (foot, top, foot, top)))  # fmt: skip
    of = with_answer(placed(), 4, cells, [list(c) for c in usual])
    told: Any = of.solved
    told.bounds = tuple(SimpleNamespace(pads=np.array(pushes)) for pushes in (soft, stiff))
    of.kept.update(dict.fromkeys(("k_l", "k_p"), np.ones(4)))
    tau = sliding_at_pads(of).demand[0]
    assert tau == pytest.approx([5000.0 / (p * 36.52) for p in (348.6, 224.8, 224.8, 224.8)], rel=1e-3)


@pytest.mark.parametrize("upper, rows", [(True, [0, 1, 4, 5]), (False, [2, 3, 6, 7])])
def test_moments_behind_a_row_are_its_own_bolts_with_every_stiffness(upper: bool, rows: list[int]) -> None:
    """Four bolts, upper ones first, listed once as they are and once with softer wood; clamp screws are one row."""
    of = with_answer(placed(), 4, [], [])
    strips = (60.0, 20.0, 40.0)
    each = np.arange(8.0)[:, None]
    of._known[strips] = Moments(each, each + 10, each + 20)
    m = of.moments_behind(strips, upper=upper)
    assert (m.Mx[:, 0].tolist(), m.My[:, 0].tolist()) == (rows, [r + 10 for r in rows])
    assert m.Mxy[:, 0].tolist() == [r + 20 for r in rows]
    one = with_answer(replace(of, setup=replace(of.setup, holding=replace(of.setup.holding, by="clamps"))), 2, [], [])
    one._known[strips] = Moments(each[:2], each[:2], each[:2])
    assert one.moments_behind(strips, upper=upper).Mx[:, 0].tolist() == [0.0, 1.0]


def test_moments_at_openings_are_means_through_them() -> None:
    """Up from 260 to 340 down at y 30, and level from -20 to 80 at 300 down."""
    of = of_job()
    m = of.moments_at_openings((Strip(30.0, 300.0, -20.0, 80.0, 260.0, 340.0),))
    a = of.answer
    up, level = Rectangle(30.0, 30.0, -340.0, -260.0), Rectangle(-20.0, 80.0, -300.0, -300.0)
    assert m.Mx[0] == pytest.approx(a.mean(a.fields.M_1, up))
    assert m.My[0] == pytest.approx(a.mean(a.fields.M_2, level))
    assert m.Mxy[0] == pytest.approx(a.mean(a.fields.M_12, up))


def test_columns_as_cases_name_them() -> None:
    """Numbers and columns for all cases stay; others are listed as often as a case has that strength."""
    both, column = np.array([[1.0, 2.0], [3.0, 4.0]]), np.array([[7.0], [8.0]])
    patch = Patch(both, 5.0, column, both, both, Around(both, column), np.array([6.0]))
    found = patch.in_cases(np.array([0, 1, 1]))
    assert np.asarray(found.inner).tolist() == [[1.0, 2.0, 2.0], [3.0, 4.0, 4.0]]
    assert (found.outer, found.up is column, found.around.shared is column) == (5.0, True, True)
    assert np.asarray(found.around.own).tolist() == np.asarray(found.area).tolist() == np.asarray(found.inner).tolist()
    assert np.asarray(found.overhang).tolist() == [6.0]


def test_the_worst_place_of_each_case() -> None:
    assert placed().worst_place(np.array([[1.0, 5.0, 0.0], [3.0, 2.0, 1.0]])).tolist() == [[3.0, 5.0, 1.0]]
