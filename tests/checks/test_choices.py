"""Which of two counts: of demands and limits, of edges and pitches, of lines, bolts and crossmembers; each by hand."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from tests.checks.setbacks import job as bracket
from tests.checks.setbacks import under
from tests.checks.setbacks import whole as of_whole
from tests.checks.shop import JOB, alone, found, on_board, plate, row, setup_of, trial, whole
from tests.checks.test_crossmembers import BOLTS as POD_BOLTS
from tests.checks.test_frame import FLANGE
from transom.checks import band, crossmembers, frame_pull, setback, sideways
from transom.checks.edge_lines import _nearer_end
from transom.checks.hardware import plates_needed
from transom.checks.joints import wall_bearing, washer_on_wood
from transom.checks.pod_reactions import pod_reactions
from transom.checks.trial import Trial
from transom.job.records import Crossmembers, EngineBracket, Hole
from transom.job.setback_records import Fillet
from transom.result import CheckArray
from transom.setup.records import Bolting
from transom.statics.contact import Pattern

ANY: Any = SimpleNamespace
STRAIGHT = (-4000.0, 0.0, -3000.0, 0.0, 4.0e6, 0.0)


def test_worst_of_is_nearest_its_limit_and_what_is_no_number_comes_first() -> None:
    one = np.ones((1, 1))
    assert [float(v[0, 0]) for v in setback.worst_of([(5 * one, 10 * one), (8 * one, 20 * one)])] == [5.0, 10.0]
    assert [float(v[0, 0]) for v in setback.worst_of([(5 * one, 10 * one), (8 * one, 10 * one)])] == [8.0, 10.0]
    assert [float(v[0, 0]) for v in setback.worst_of([(5 * one, 10 * one), (one, 0 * one)])] == [1.0, 0.0]
    assert [float(v[0, 0]) for v in setback.worst_of([(5 * one, 10 * one), (one, -one)])] == [1.0, -1.0]
    demand, limit = setback.worst_of([(5 * one, 10 * one), (np.nan * one, 10 * one)])
    assert np.isnan(demand[0, 0])
    demand, limit = setback.worst_of([(5 * one, 10 * one), (one, np.nan * one)])
    assert np.isnan(limit[0, 0])


@pytest.mark.parametrize(
    "y_u, y_l, z_l, least", [(50.0, 80.0, 350.0, 100.0), (80.0, 50.0, 350.0, 100.0), (80.0, 90.0, 190.0, 140.0)]
)
def test_pitch_of_the_engines_bolts_is_the_smallest(y_u: float, y_l: float, z_l: float, least: float) -> None:
    hold = ANY(pattern=Pattern(50.0, z_l, y_u, y_l, 330.0, 140.0))
    assert setback._pitch(hold) == pytest.approx(least)


@pytest.mark.parametrize(
    "edge, pitch, alpha, k_1",
    [
        (30.0, 20.0, 20 / 33 - 0.25, 1.4 * 20 / 11 - 1.7),  # rows close
        (12.0, 60.0, 12 / 33, 2.8 * 12 / 11 - 1.7),  # edge near
        (60.0, 90.0, 1.0, 2.5),  # neither
        (6.0, 60.0, 6 / 33, 0.0),  # over the edge: nothing, not less than nothing
    ],
)
def test_a_wall_bears_by_its_nearer_of_edge_and_pitch(edge: float, pitch: float, alpha: float, k_1: float) -> None:
    bolt = Bolting(10.0, 58.0, 16.0, 700.0, 0.6, 24.0, 2.0, 11.0, 4)
    found = wall_bearing(bolt, 3.0, 200.0, edge, pitch, ANY(gamma_M2=1.25))
    assert found == pytest.approx(max(k_1, 0.0) * alpha * 200.0 * 10.0 * 3.0 / 1.25)


def group(I_x: float = 4e5, I_y: float = 1e5, I_xy: float = 0.0) -> Any:
    return ANY(I_x=np.array([I_x]), I_y=np.array([I_y]), I_xy=I_xy, off_x=300.0, off_y=150.0, skew=1.0)


def pull(g: Any) -> float:
    F_z, M_x, M_y, n = (np.array([[v]]) for v in (-800.0, 2e5, 8e5, 4.0))
    return float(np.ravel(crossmembers._pull(F_z, M_x, M_y, n, g))[0])


def test_a_level_group_bends_over_both_its_axes() -> None:
    """800/4 + 8e5 x 300/4e5 + 2e5 x 150/1e5; where it resists one moment alone, or bolts lie on one line, no pull holds."""
    assert pull(group()) == pytest.approx(200 + 600 + 300)
    assert pull(group(I_x=0.0)) == np.inf
    assert pull(group(I_y=0.0)) == np.inf
    assert pull(group(I_xy=2e5)) == np.inf


@pytest.mark.parametrize("n, pitch, share", [(0.0, 100.0, 1.0), (1.0, 100.0, 0.5), (1.0, 200.0, 1.0)])
def test_share_of_an_end_line_on_one_bolt_or_none(n: float, pitch: float, share: float) -> None:
    """Pads at 140: bolts up to 140 apart carry of one half, wider ones of both; overhang of a lone bolt apart."""
    of = ANY(
        setup=ANY(frame=ANY(end_pitch=pitch), holding=ANY(pattern=Pattern(50.0, 250.0, 160.0, 125.0, 330.0, 140.0)))
    )
    over = 1.0 if n == 0 else 1 + 140.0 / pitch
    assert float(np.asarray(frame_pull._end_share(of, n))) == pytest.approx(share * over)


def test_an_end_line_of_bolts_as_far_apart_as_the_pad_carries_of_one_half() -> None:
    p = Pattern(50.0, 250.0, 160.0, 125.0, 330.0, 140.0)
    at, past = (
        float(np.asarray(frame_pull._end_share(ANY(setup=ANY(frame=ANY(end_pitch=v), holding=ANY(pattern=p))), 3.0)))
        for v in (140.0, 140.1)
    )
    assert (at, past) == (pytest.approx(0.5), pytest.approx(140.0 / 140.1))


def test_travel_beside_bolts_between_and_beyond_the_grids_places() -> None:
    line = ANY(along=np.array([0.0, 10.0, 20.0, 40.0]), edge=np.array([[0.0], [1.0], [3.0], [7.0]]))
    at = np.array([-5.0, 0.0, 5.0, 10.0, 15.0, 20.0, 30.0, 40.0, 50.0])
    assert frame_pull._interpolated(line, at)[:, 0] == pytest.approx([0.0, 0.0, 0.5, 1.0, 2.0, 3.0, 5.0, 7.0, 7.0])


def test_the_nearer_end_of_a_grid() -> None:
    stations = np.array([-300.0, -100.0, 0.0, 200.0, 300.0])
    assert [_nearer_end(stations, x) for x in (-290.0, -1.0, 0.0, 1.0, 290.0)] == [0, 0, 0, 4, 4]


def test_odd_patterns_line_up_across_and_down() -> None:
    """Three down one line of six: n 3 at the smallest spacing, 100; of four across, two below: n 4."""
    d = 12.7
    for places, n in (
        ([(s * 150.0, z) for z in (60.0, 160.0, 260.0) for s in (1, -1)], 3),
        ([(y, 60.0) for y in (-150.0, -50.0, 50.0, 150.0)] + [(-150.0, 260.0), (150.0, 260.0)], 4),
    ):
        of = trial(_with_bolts_at(places))
        share = n**0.9 * (100.0 / (13 * d)) ** 0.25 / n
        assert float(np.ravel(sideways._share_of_odd_rows(of))[0]) == pytest.approx(share, rel=1e-6)


def _with_bolts_at(places: list[tuple[float, float]]) -> Any:
    bolts = tuple(Hole(y, z) for y, z in places)
    return replace(JOB, engine=replace(JOB.engine, bracket=EngineBracket(bolts=bolts)))


@pytest.mark.parametrize("height, good", [(95.0, True), (110.0, False)])
def test_plates_of_a_pair_have_room_above_them(height: float, good: bool) -> None:
    """Upper bolts at 47.6: a plate 95.2 high reaches the board's top edge."""
    assert row(trial(mount=plate(height=height)), "backing.plate-room").passes is good


@pytest.mark.parametrize("y_from, good", [(450.0, True), (290.0, False)])
def test_lower_plates_have_room_below_them(y_from: float, good: bool) -> None:
    """Lower bolts at 250.8: 90 high they need 45 below."""
    assert row(trial(on_board(height=y_from), plate(height=90.0)), "backing.plate-room").passes is good


@pytest.mark.parametrize("height, good", [(203.0, True), (204.0, False)])
def test_plates_of_two_rows_never_lie_on_each_other(height: float, good: bool) -> None:
    """Rows 203.2 apart, on a board with room above and below."""
    low = setup_of(on_board(height=700.0), engine__bracket__top_to_upper=200.0)
    assert row(trial(mount=plate(height=height), setup=low), "backing.plate-room").passes is good


def test_the_base_plate_bears_by_its_nearer_edge() -> None:
    """Edge 20, hole 13.5: alpha 20/40.5, k_1 2.8 x 20/13.5 - 1.7; 50 from it alpha is 1 and k_1 2.5."""
    near, far = (
        np.ravel(found(under(STRAIGHT, bracket(base__edge=e)))["bracket.base-plate-bearing.ec9"].resistance)[0]
        for e in (20.0, 50.0)
    )
    d_0 = 12.7 + float(trial().factor("board.bolt_clearance_mm"))
    assert near / far == pytest.approx(20 / (3 * d_0) * (2.8 * 20 / d_0 - 1.7) / 2.5)


def test_base_bolts_are_held_to_the_row_that_pulls() -> None:
    name = "bracket.base-bolt-tension.ec3"
    ahead, astern = (found(under(w, bracket())) for w in (STRAIGHT, tuple(-f for f in STRAIGHT)))
    of_ahead, of_astern = under(STRAIGHT, bracket()), under(tuple(-f for f in STRAIGHT), bracket())
    assert ahead[name].demand[0, 0] >= of_ahead.upper_tension[0, 0] > 0
    assert astern[name].demand[0, 0] >= of_astern.lower_tension[0, 0] > 0


def test_the_weaker_of_two_welds_is_looked_at_first() -> None:
    """A 3 mm fillet at the engine plate in place of 6: the hours are of that end then."""
    hours = [
        float(found(of_whole(bracket(**change)))["bracket.weld-fatigue.iiw"].resistance[0, 0])
        for change in ({}, {"engine_weld": Fillet(2.0, "both")}, {"base_weld": Fillet(2.0, "both")})
    ]
    assert hours[1] < hours[0]
    assert hours[2] < hours[0]


def test_a_pad_bends_no_more_of_the_engine_plate_than_there_is() -> None:
    """0.4 of the pad's height on the plate and its arm, 15 mm, but never more than the plate has: under 25 mm all of it."""
    name = "bracket.engine-plate-bending-pads.t-stub"
    low, high, tall, taller = (
        found(under(STRAIGHT, bracket(engine_plate__height=h)))[name].resistance.ravel()[0]
        for h in (10.0, 20.0, 400.0, 450.0)
    )
    assert tall == pytest.approx(taller)
    assert high / low == pytest.approx(2.0)


@pytest.fixture(scope="module")
def own() -> Trial:
    return whole()


def test_weights_under_a_pod_hang_straight_down(own: Trial) -> None:
    pod = pod_reactions(own)
    assert pod is not None
    board_kg, pod_kg = float(np.ravel(frame_pull.own_mass(own))[0]), float(np.ravel(own.setup.pod.mass)[0])  # type: ignore[union-attr]
    assert pod.weights[:, :2] == pytest.approx(0.0)
    assert pod.weights[:, 2] == pytest.approx([-9.80665 * board_kg, -9.80665 * pod_kg])
    assert pod.forces.own_weight == pytest.approx(pod.weights[0])
    assert pod.weights_at[1, 2] == pytest.approx(float(np.ravel(own.setup.pod.z)[0]))  # type: ignore[union-attr]


@pytest.mark.parametrize(
    "places", [[(0.0, -200.0), (0.0, 200.0)], [(-200.0, 0.0), (200.0, 0.0)], [(-200.0, -100.0), (200.0, 100.0)]]
)
def test_bolts_on_one_line_tell_no_reactions(own: Trial, places: list[tuple[float, float]]) -> None:
    assert own.setup.pod is not None
    pod = replace(own.setup.pod, group=replace(own.setup.pod.group, at=np.array(places)))
    assert pod_reactions(replace(own, setup=replace(own.setup, pod=pod))) is None


def test_the_worst_of_a_frames_lines_pulls() -> None:
    rows = (np.array([[1.0, 5.0, 2.0]]), np.array([[2.0, 2.0, 1.0]]), np.array([[3.0, 1.0, 4.0]]))
    assert frame_pull.FrameForces(*rows, shear=rows[0]).pull.tolist() == [[3.0, 5.0, 4.0]]


@pytest.mark.parametrize("washer, t, times", [(30.0, 3.0, 3.0), (29.9, 3.0, 1.0), (30.0, 2.9, 1.0)])
def test_a_frames_washer_bears_three_times_only_where_wide_and_thick(washer: float, t: float, times: float) -> None:
    """3 d across and 0.3 d thick, of 10 mm bolts; stiff as far as f_y of 1e6 makes it; hole 11."""
    bolt = Bolting(10.0, 58.0, 16.0, 700.0, 0.6, washer, t, 11.0, 4)
    found = washer_on_wood(bolt, 2.0, 1.1, 1e6, 100.0, 100.0)
    assert found == pytest.approx(times * 2.0 * np.pi / 4 * (washer**2 - 11.0**2))


def test_plates_that_back_four_bolts() -> None:
    assert [plates_needed(per) for per in ("bolt", "pair", "all")] == [4, 2, 1]


def test_service_shear_is_of_the_loads_as_they_are() -> None:
    """A turn of 1.5e6 about the axis square to the board, factor 1.5: bolts at their distance from the four's middle."""
    of = trial(loads=alone((0.0, 300.0, -600.0, 1.5e6, 0.0, 0.0)))
    y, z = np.array([163.5, -163.5, 125.4, -125.4]), np.array([-47.6, -47.6, -250.8, -250.8])
    z_c = z.mean()
    J = (y**2 + (z - z_c) ** 2).sum()
    for M, F_y, F_z, ours in ((1.5e6, 300.0, -600.0, of.shear), (1e6, 200.0, -400.0, of.service_shear)):
        about = M - (0.0 * F_z - z_c * F_y)
        V = np.hypot(F_y / 4 - about * (z - z_c) / J, F_z / 4 + about * y / J)
        assert float(np.ravel(ours)[0]) == pytest.approx(V.max())


def test_means_of_rows_have_prying_and_no_couple() -> None:
    of = trial()
    assert of.upper_mean == pytest.approx(of.strips.T_u * 45.0 / float(np.ravel(of.t)[0]))
    assert of.lower_mean == pytest.approx(of.strips.T_l * 45.0 / float(np.ravel(of.t)[0]))


@pytest.mark.parametrize(
    "part, what, most",
    [
        ("board", "bending", 2.93),
        ("backing", "plate-bending-upper-bolts", 2.92),
        ("engine-bolts", "tension", 2.13),
        ("backing", "wood-crushing-lower-bolts", 2.13),
        ("board", "plies-sliding-pads", 2.13),
        ("frame", "washer-on-wood", 5.19),
        ("frame", "pull-and-sideways-in-wood", 4.61),
        ("frame", "flange-bending-end", 4.78),
        ("frame", "flange-bending-side", 18.0),
    ],
)
def test_the_pencil_may_come_out_above_its_limit_by_what_was_seen_and_a_little(
    part: str, what: str, most: float
) -> None:
    """Largest ratio of pencil to plate on random boards and frames as measured; no candidate the plate passes is dropped for
    less, none is kept for an eighth more. Where the plate gives nothing the pencil's limit is the limit."""
    one = np.ones((1, 1))
    check = CheckArray(part, what, "", "hand", "", "", "derived", "derived", ("once",), one, one)
    assert most < band(check) < 1.125 * most
    assert band(replace(check, what="hole-to-board-edge")) == 1.0


def test_squares_and_sums_of_shares_have_one_as_their_limit() -> None:
    of = trial(replace(JOB, frame=FLANGE, crossmembers=Crossmembers(4, 3.175, bolts=POD_BOLTS)))
    both = {n: c for n, c in found(of).items() if "-and-" in n and c.unit == ""}
    assert {c.part for c in both.values()} == {"frame", "engine-bolts", "crossmembers"}
    assert len(both) == 5
    for c in both.values():
        assert np.all(np.asarray(c.resistance) == 1.0)
