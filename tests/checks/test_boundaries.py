"""Where a rule changes: at the very distance, at the nearer of two, at the end it is about; each by hand."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.setbacks import job as bracket
from tests.checks.setbacks import under
from tests.checks.setbacks import whole as of_whole
from tests.checks.shop import AHEAD, ASTERN, JOB, alone, found, on_board, plate, row, trial, with_bolts, with_engine
from tests.checks.test_frame import FLANGE
from transom.checks import frame, setback, setback_base, setback_fatigue, setback_forces, sideways
from transom.checks.frame_pull import FrameForces, column_of
from transom.checks.plate_reactions import bolt_places
from transom.checks.pod_reactions import _names
from transom.checks.reactions import _lever
from transom.checks.trial import Trial
from transom.job.records import Backing, EngineBracket, Hole, Job, Mount
from transom.job.setback_records import Fillet
from transom.setup.setback_records import PlateBracket
from transom.statics.contact import Pattern


def plates(of: Trial) -> PlateBracket:
    assert of.setup.bracket is not None
    assert of.setup.bracket.plates is not None
    return of.setup.bracket.plates


def coded(code: str) -> Job:
    return replace(JOB, head=replace(JOB.head, code=code))


@pytest.mark.parametrize("width, height, share", [(381.0, 290.0, 43.4 / 47.6), (600.0, 204.0, 174.6 / 179.6)])
def test_one_plate_for_all_is_short_of_room_only_at_its_outer_edges(width: float, height: float, share: float) -> None:
    """Upper bolts 47.6 down, rows 203.2 apart: (height - 203.2)/2 above them; lower ones 125.4 out on a board of 610."""
    one = row(trial(on_board(height=500.0), plate(width=width, height=height, per="all")), "backing.plate-room")
    assert one.demand == pytest.approx(share)


@pytest.mark.parametrize("height, flush", [(298.45, True), (298.4, True), (298.7, False)])
def test_a_plate_flush_by_the_tape_has_room(height: float, flush: bool) -> None:
    """Upper bolts 1-7/8 in down, 47.6 in the tables, rows 8 in apart: a plate of 11-3/4 in, 298.45, ends at the top edge."""
    one = row(trial(on_board(height=500.0), plate(width=381.0, height=height, per="all")), "backing.plate-room")
    assert one.passes is flush


@pytest.mark.parametrize("near, strength", [(25.0, 275.0), (24.999, 305.0), (25.001, 275.0)])
def test_metal_is_heat_affected_up_to_and_at_the_distance(near: float, strength: float) -> None:
    """Plate at 120, half of it 5, leg 6, half a bolt 5: a bolt at 161 is 25 clear; the other row is farther."""
    of = under(AHEAD, bracket())
    b = plates(of)
    for rows in ((161.0, 200.0), (200.0, 161.0), (-161.0, 200.0)):
        assert setback_forces.hole_strength(b, b.base_weld, rows, 10.0, near) == pytest.approx(strength)
    assert np.isnan(setback_forces.hole_strength(b, b.base_weld, (161.0, np.nan), 10.0, near))


@pytest.mark.parametrize("aft, share", [(-1e4, 0.0), (10.0, 0.0), (130.0, 0.5), (250.0, 1.0), (1e4, 1.0)])
def test_a_step_stands_between_both_plates(aft: float, share: float) -> None:
    assert setback_forces._share(plates(under(AHEAD, bracket())).sides, aft) == pytest.approx(share)


@pytest.mark.parametrize("near, is_near", [(60.0, True), (59.9, False), (180.0, True)])
def test_a_quarter_of_the_way_is_60_from_the_base(near: float, is_near: bool) -> None:
    s = plates(under(AHEAD, bracket())).sides
    assert setback_forces._near_end(s, 0.25, near) is is_near
    assert setback_forces._near_end(s, 0.75, near) is is_near


@pytest.mark.parametrize("y_u, y_l, apart", [(15.0, 250.0, 300.0), (250.0, 15.0, 300.0), (250.0, 250.0, 30.0)])
def test_base_bolts_bear_by_the_closest_two(y_u: float, y_l: float, apart: float) -> None:
    """Two bolts 30 apart, holes 13.5: alpha 30/40.5 - 0.25, k_1 1.4 x 30/13.5 - 1.7; far from any weld 305 MPa."""
    of = under(AHEAD, bracket())
    p = of.setup.holding.pattern
    holding = replace(of.setup.holding, pattern=Pattern(p.z_u, p.z_l, y_u, y_l, p.h, p.y_pad))
    of = replace(of, setup=replace(of.setup, holding=holding))
    alpha, k_1 = 30 / (3 * 13.5) - 0.25, 1.4 * 30 / 13.5 - 1.7
    R = setback_base._bearing(of, plates(of), 13.5, apart)
    assert pytest.approx(k_1 * alpha * 305 * 12.7 * 10 / 1.25) == R


def test_fillets_at_the_engine_plate_carry_what_acts_there() -> None:
    """3000 N down through it, 250 aft: no moment left; two plates, 280 long, both faces: 3000/(4 x 280)."""
    of = under((0.0, 0.0, -3000.0, 0.0, 750000.0, 0.0), bracket())
    line = row(of, "bracket.weld-engine-plate.lines", "only")
    assert line.demand == pytest.approx(3000 / 4 / 280, rel=1e-9)
    assert row(of, "bracket.weld-base.lines", "only").demand > 2 * line.demand


def test_the_first_look_is_at_the_worse_of_both_ends_welds() -> None:
    """Hours go by the cube of the throat while one end governs; 6 turns and 60 waves an hour at FAT 12 over 1.35."""
    strong, weak = (Fillet(leg, "both") for leg in (10.0, 3.0))
    of = of_whole(bracket(base_weld=strong, engine_weld=weak))
    b, names, w = plates(of), of.cases.names, of.cases.wrench
    ahead, astern, wave = (w[..., [names.index(n)], :] for n in ("ahead", "astern", "wave"))
    a = 3.0 / np.sqrt(2)
    f = [float(np.ravel(setback.lines(b, b.engine_weld, 1.0, r).fillet)[0]) for r in (ahead - astern, wave)]
    D = sum(n / (2e6 * (12 / (1.35 * x / a)) ** 3) for n, x in zip((6, 60), f, strict=True))
    assert setback_fatigue.first_look(of, b) == pytest.approx(1 / D, rel=1e-6)
    base = of_whole(bracket(base_weld=weak, engine_weld=strong))
    thicker = of_whole(bracket(base_weld=Fillet(6.0, "both"), engine_weld=strong))
    few, many = (float(setback_fatigue.first_look(t, plates(t))[0]) for t in (base, thicker))
    assert many == pytest.approx(8 * few)


@pytest.mark.parametrize("bottom, top", [(1000.0, 2000.0), (2000.0, 1000.0), (2000.0, 0.0), (0.0, 2000.0)])
def test_a_flange_across_bends_by_the_worse_of_bottom_and_top(bottom: float, top: float) -> None:
    """With as many bolts to the millimeter as the sides, as much as a side under the same pull."""
    of = trial()
    of = replace(of, setup=replace(of.setup, frame=replace(of.setup.frame, end_pitch=of.setup.frame.side_pitch)))
    F = FrameForces(*(np.array([[v]]) for v in (2000.0, bottom, top)), shear=np.zeros((1, 1)))
    side, end = frame._flange_bending(of, F)
    assert float(side.demand[0, 0]) > 1.0
    assert end.demand == pytest.approx(side.demand)


@pytest.mark.parametrize("side, end", [(40.0, 400.0), (400.0, 40.0), (40.0, 40.0)])
def test_a_frames_washer_bears_no_farther_than_half_the_smaller_pitch(side: float, end: float) -> None:
    """Washers 50.8 wide, holes 10.325; what is left is 40 across, and 0.95 mm of it hangs off at 19.05."""
    of = trial(replace(JOB, frame=FLANGE), loads=alone(AHEAD))
    of = replace(of, setup=replace(of.setup, frame=replace(of.setup.frame, side_pitch=side, end_pitch=end)))
    F = FrameForces(*(np.ones((1, 1)),) * 4)
    _, R = frame._washered(of, F)
    off = np.pi / 2 * 0.95 * np.sqrt(20.0**2 - 19.05**2)
    assert pytest.approx(3.92 * (np.pi / 4 * (40.0**2 - 10.325**2) - off), rel=1e-6) == R


def test_frame_bolts_bear_the_name_of_their_line() -> None:
    of = trial()
    names, y, z = bolt_places(of)
    f, place = of.setup.frame, of.setup.place
    assert [names.count(n) for n in ("port side", "starboard side", "bottom", "top")] == [
        f.n_side,
        f.n_side,
        f.n_bottom,
        0,
    ]
    where = {n: (y[[m == n for m in names]], z[[m == n for m in names]]) for n in set(names)}
    assert np.allclose(where["port side"][0], -float(np.ravel(f.span)[0]) / 2)
    assert np.allclose(where["starboard side"][0], float(np.ravel(f.span)[0]) / 2)
    assert np.allclose(where["bottom"][1], -float(np.ravel(place.z_bottom)[0]))


def test_bolts_of_a_crossmember_are_those_within_a_tenth_of_a_millimeter() -> None:
    assert _names(np.array([-200.0, 0.04, 0.0, -200.04])) == tuple(f"crossmember {i}" for i in (2, 1, 1, 2))
    assert _names(np.array([0.0, 0.2])) == ("crossmember 2", "crossmember 1")


def test_numbers_of_candidates_are_a_column_and_one_number_stays_one() -> None:
    assert column_of(3.0) == 3.0
    assert np.array_equal(column_of(np.array([1.0, 2.0])), [[1.0], [2.0]])


def test_one_code_decides_sideways() -> None:
    for code, decides in (("EN", "ec5"), ("US", "nds")):
        rows = found(trial(coded(code), loads=alone(ASTERN)))
        shown = {rule: rows[f"engine-bolts.sideways-in-wood.{rule}"].information for rule in ("ec5", "nds")}
        assert shown == {rule: rule != decides for rule in shown}


@pytest.mark.parametrize("what, said", [("drain pump", "drain pump"), ("", "obstruction 2")])
def test_things_behind_are_called_as_the_job_calls_them(what: str, said: str) -> None:
    of = trial(on_board(obstructions=(Hole(0.0, 400.0, 10.0, "pipe"), Hole(0.0, 330.0, 40.0, what))))
    assert row(of, "assembly.obstruction-1").note == "pipe: room left beside the backing"
    assert row(of, "assembly.obstruction-2").note == f"{said}: room left beside the backing"


@pytest.mark.parametrize("what, said", [("drain", "drain"), ("", "hole 1")])
def test_openings_are_called_as_the_job_calls_them(what: str, said: str) -> None:
    of = trial(on_board(openings=(Hole(0.0, 400.0, 25.0, what),)))
    assert row(of, "board.opening-1.ec5").note == f"{said}: rim to the nearest bolt"


@pytest.mark.parametrize(
    "at, shares",
    [(12.5, (7.5, 2.5, 0.0)), (30.0, (0.0, 0.0, 10.0)), (35.0, (0.0, -5.0, 15.0)), (0.0, (20.0, -10.0, 0.0))],
)
def test_a_force_is_shared_by_the_two_bolts_beside_it(at: float, shares: tuple[float, ...]) -> None:
    """10 N at places on a line of bolts at 10, 20 and 30; beyond the last as on a lever."""
    assert _lever(np.array([10.0]), np.array([at]), 10.0, 10.0, 3) == pytest.approx(np.array([shares]))
    assert _lever(np.array([10.0]), np.array([at]), 10.0, 10.0, 1) == pytest.approx(np.array([[10.0]]))


@pytest.mark.parametrize(
    "mount, reach, room",
    [
        (plate(), 190.5, 255.0),  # a pair's plate, 381 wide
        (plate(width=600.0), 300.0, 255.0),
        (plate(width=80.0, height=70.0, per="bolt"), 163.5 + 40.0, 255.0),  # the upper bolts stand farther out
        (with_bolts(forward=Backing(washer="1/2 wide")), 163.5 + 44.45 / 2, 255.0),
        (plate(height=380.0), 250.8 + 190.0, 400.0),  # nearer to the bottom flange than to the sides
    ],
)
def test_backing_lies_inside_a_pods_flanges(mount: Mount, reach: float, room: float) -> None:
    """Lines 560 apart and 425 down, flanges 25 to their inner edge."""
    one = row(trial(mount=mount), "backing.plate-between-frame")
    assert (one.demand, one.resistance) == (pytest.approx(reach), pytest.approx(room))
    assert one.passes is (reach <= room)


def test_uprights_have_no_flange_below() -> None:
    job = replace(JOB, frame=replace(FLANGE, kind="uprights"))
    one = row(trial(job, plate(height=380.0)), "backing.plate-between-frame")
    assert (one.demand, one.resistance) == (pytest.approx(190.5), pytest.approx(571.9 / 2 - 19.05))


def test_bolts_within_a_tenth_of_a_millimeter_stand_in_one_line() -> None:
    """Three down each side, one 0.04 off: n 3 all the same; d 12.7, the smallest spacing 100."""
    places = [(s * y, z) for y, z in ((150.0, 60.0), (150.04, 160.0), (150.0, 260.0)) for s in (1, -1)]
    of = trial(with_engine(bracket=EngineBracket(bolts=tuple(Hole(*p) for p in places))))
    share = 3**0.9 * (100.0 / (13 * 12.7)) ** 0.25 / 3
    assert float(np.ravel(sideways._share_of_odd_rows(of))[0]) == pytest.approx(share, rel=1e-6)


@pytest.mark.parametrize("edge, pitch", [(6.0, 300.0), (60.0, 8.0)])
def test_a_base_bolt_over_an_edge_or_on_its_neighbor_bears_nothing(edge: float, pitch: float) -> None:
    of = under(AHEAD, bracket(base__edge=edge))
    assert not np.any(setback_base._bearing(of, plates(of), 13.5, pitch))
