"""A setback bracket of plates: worked by hand, more metal never worse, a missing number never a pass."""

from dataclasses import replace
from math import pi, sqrt

import numpy as np
import pytest

from tests.checks.setbacks import GUSSET, OVER, STRAIGHT, all_of, job, steps, under, whole, worst
from tests.checks.shop import MOUNT, found
from transom.catalogue import SHIPPED
from transom.checks import setback
from transom.checks.setback_forces import engine_loads, parts, sections
from transom.errors import JobError
from transom.job.records import Kicker
from transom.judge.judging import judge
from transom.loads.cases import build_cases
from transom.report.advice import BY_HAND, advice
from transom.report.words import CHECKS

F_Y_W = 125.0  # 5083-H116 beside a weld, the lowest listed
F_S_W = 72.2


def test_lowest_listed_strengths_of_the_alloy() -> None:
    m = whole(job()).setup.bracket.plates.metal  # type: ignore[union-attr]
    assert (m.f_y_w, m.f_s_w, m.f_y, m.f_u) == (F_Y_W, F_S_W, 215.0, 305.0)


def test_alloy_or_filler_unknown_takes_the_lowest_of_all() -> None:
    none = whole(job(alloy=None, filler=None)).setup.bracket.plates.metal  # type: ignore[union-attr]
    assert (none.f_y_w, none.f_s_w) == (65.0, 37.5)  # 5052-H32, Fy/sqrt(3)
    six = whole(job(alloy="6061-T6", filler=None)).setup.bracket.plates.metal  # type: ignore[union-attr]
    wire = whole(job(alloy="6061-T6", filler="5356")).setup.bracket.plates.metal  # type: ignore[union-attr]
    assert (six.f_s_w, wire.f_s_w) == (43.9, 59.5)  # 4043 over 9.5 mm; 5356


def test_root_by_hand_straight() -> None:
    """Root 10 aft, middle 170 down: My 4.0e6 - (-170)(-4000) + 10 (-3000) = 3.29e6; each plate 1.645e6; 2000 N pull."""
    of = under(STRAIGHT)
    M = 4.0e6 - (-170.0 * -4000.0 - 10.0 * -3000.0)
    assert pytest.approx(3.29e6) == M
    stress = 2000.0 / (10 * 300) + 6 * (M / 2) / (10 * 300**2)
    root = sections(of, of.setup.bracket.plates)[0]  # type: ignore[union-attr,arg-type]
    assert np.ravel(root.edge)[0] == pytest.approx(stress)
    assert np.ravel(root.face)[0] == 0.0
    assert np.ravel(root.shear)[0] == pytest.approx(1.5 * 1500.0 / 3000.0)
    assert worst(of, "side-plate-bending-base.ec9") == pytest.approx(stress / (F_Y_W / 1.1))


def test_root_by_hand_hard_over() -> None:
    """Twist about the middle 170 down and M_z half way along (130 aft) become pairs 240 apart; Fy bends a frame 240 long;
    the outer face lies 1 + 10/240 as far out as the plate's middle."""
    of = under(OVER)
    M_x = -2.2e6 + 170.0 * 3000.0
    V_t = abs(M_x) * 120 / (2 * 120**2)
    M_y = 3.6e6 - (-170.0 * -3500.0 - 10.0 * -3000.0)
    M_z = (-1.0e6 - 130.0 * -3000.0) * (1 + 10 / 240)
    N = 3500 / 2 + abs(M_z) * 120 / (2 * 120**2)
    M = M_y / 2 + V_t * 240
    m = 3000 / 2 * 120
    edge, face = N / 3000 + 6 * M / (10 * 300**2), 6 * m / (300 * 10**2)
    assert worst(of, "side-plate-bending-base.ec9") == pytest.approx((edge + face) / (F_Y_W / 1.1))
    shear = [1.5 * (1500 + V_t) / 3000]
    assert worst(of, "side-plate-shear.ec9") >= shear[0] / (F_S_W / 1.1)


def test_weld_by_hand() -> None:
    """Base welds, two lines 300 long, 240 apart, leg 6 both faces: the group's forces at the worst end, half on each
    face, the twist's and the frame's moments added; throat 4.243, 72.2/1.25 MPa."""
    of = under(OVER)
    L, I_y, I_z = 600.0, 2 * 300**3 / 12, 600 * 120.0**2
    M_x = -2.2e6 + 170.0 * 3000.0
    M_y = 3.6e6 - (-170.0 * -3500.0 - 10.0 * -3000.0)
    M_z = (-1.0e6 - 130.0 * -3000.0) * (1 + 10 / 240)
    out = -3500 / L, M_y * 150 / I_y, M_z * 120 / I_z
    J = I_y + I_z
    M_t = abs(M_x) * 120 / (2 * 120**2) * 240
    worst_end = 0.0
    for z in (-150, 150):
        for y in (-120, 120):
            f_x = abs(out[0] + out[1] * z / 150 - out[2] * y / 120) + 6 * M_t / 300**2
            f_y, f_z = -3000 / L - M_x * z / J, -3000 / L + M_x * y / J
            one = f_x / 2 + 3000 / 2 * 120 / 300 / 10
            worst_end = max(worst_end, sqrt(one**2 + (f_y / 2) ** 2 + (f_z / 2) ** 2))
    assert worst(of, "weld-base.lines") == pytest.approx(worst_end / (F_S_W / 1.25 * 6 / sqrt(2)))


def test_one_face_welded_bends_its_own_throat() -> None:
    """The frame's moment, carried by a pair 10 mm apart, falls on a throat of 4.24: 6/a against 1/t, and the force is
    half a plate off it."""
    one = worst(under(OVER, job(base_weld__sides="one")), "weld-base.lines")
    both = worst(under(OVER), "weld-base.lines")
    assert one > 5 * both
    assert worst(under(OVER, job(base_weld__sides=None)), "weld-base.lines") == one  # nobody looked


def test_engine_plate_and_its_bolts_by_hand() -> None:
    """About the engine plate's top edge, 260 aft: M = 4.0e6 + 260 (-3000) = 3.22e6; foot at 0.8 x 330 = 264, upper row 47.6
    down: T = (3.22e6 - 264 x 4000)/(2 x 216.4)."""
    of = under(STRAIGHT)
    hold = of.setup.bracket
    assert hold is not None
    assert (hold.x, hold.z) == pytest.approx((260.0, 0.0))
    T = (4.0e6 - 260 * 3000 - 264 * 4000) / (2 * 216.4)
    loads = engine_loads(of, hold)
    assert np.ravel(loads.upper)[0] == pytest.approx(T)
    assert np.ravel(loads.shear)[0] == pytest.approx(3000 / 4)
    m = 327.0 / 2 - 120 - 5
    length = min(2 * pi * m, pi * m + 90, 4 * m + 1.25 * 45, 2 * m + 0.625 * 45 + 45, 203.2)
    M_p = length * 100 * F_Y_W / 4.4
    assert worst(of, "engine-plate-bending-upper-bolts.t-stub") == pytest.approx(T * m / M_p)
    b = m - 12.7 / 2
    q = min(max(T * b - M_p, 0.0), (1 - 13.5 / length) * M_p) / (min(45, 1.25 * b) + 12.7 / 2)
    # 1/2-13: 91.6 mm2, lowest listed grade 500 MPa
    assert worst(of, "engine-bolt-tension.ec3") == pytest.approx((T + q) / (0.9 * 500 * 91.5 / 1.25), rel=5e-3)
    assert worst(of, "engine-plate-edge") == pytest.approx(1.5 * 12.7 / 45)


def test_edge_buckling_by_hand() -> None:
    """Strip 240 long, 10 thick: lambda = sqrt(12) 240/(10 pi) sqrt(125/71700) = 1.105; phi 0.5 (1 + 0.354 + 1.221) = 1.287;
    chi = 1/(1.287 + 0.660) = 0.514; a tie half way halves the length."""
    of = under(STRAIGHT)
    lam = sqrt(12) * 240 / (10 * pi) * sqrt(125 / 71700)
    phi = 0.5 * (1 + 0.32 * lam + lam**2)
    chi = 1 / (phi + sqrt(phi**2 - lam**2))
    assert chi == pytest.approx(0.514, abs=1e-3)
    edge = max(float(np.max(s.edge)) for s in sections(of, of.setup.bracket.plates))  # type: ignore[union-attr,arg-type]
    assert worst(of, "side-plate-edge-buckling.ec9") == pytest.approx(edge / (chi * 125 / 1.1))
    tied = under(STRAIGHT, job(side_plates__ties=(130.0,)))
    assert worst(tied, "side-plate-edge-buckling.ec9") < worst(of, "side-plate-edge-buckling.ec9")


def test_a_gusset_carries_what_goes_sideways_by_hand() -> None:
    """Fy through a level plate 250 down, 230 clear between the side plates: none bends these; twist about its height."""
    of = under(OVER, job(gusset=GUSSET))
    M_x = -2.2e6 + 250.0 * 3000.0
    M_z = (-1.0e6 - 10.0 * -3000.0) * (1 + 10 / 240)
    M_y = 3.6e6 - (-170.0 * -3500.0 - 10.0 * -3000.0)
    M = M_y / 2 + abs(M_x) * 120 / (2 * 120**2) * 240
    edge = (3500 / 2 + abs(M_z) * 120 / (2 * 120**2)) / 3000 + 6 * M / (10 * 300**2)
    assert worst(of, "side-plate-bending-base.ec9") == pytest.approx(edge / (F_Y_W / 1.1))
    q = 3000 / 230
    tau_cr = 5.34 * pi**2 * 71700 / (12 * (1 - 0.33**2)) * (6 / 240) ** 2
    assert worst(of, "gusset-shear.ec9") == pytest.approx(q / 6 / (min(tau_cr, F_S_W) / 1.1))
    assert worst(of, "weld-gusset.lines") == pytest.approx(q / (F_S_W / 1.25 * 4 / sqrt(2)))
    none = under(OVER)
    assert worst(of, "weld-base.lines") < worst(none, "weld-base.lines")
    one = [job(gusset=g, base_weld__sides="one") for g in (None, GUSSET)]
    assert worst(under(OVER, one[1]), "weld-base.lines") < worst(under(OVER, one[0]), "weld-base.lines")


def test_prying_comes_once_the_plate_gives() -> None:
    thick, thin = (under(STRAIGHT, job(engine_plate__thickness=t)) for t in (12.0, 5.0))
    assert worst(thin, "engine-plate-bending-upper-bolts.t-stub") > 1.0
    assert worst(thin, "engine-bolt-tension.ec3") > worst(thick, "engine-bolt-tension.ec3")


def test_a_cut_is_a_section_of_its_own() -> None:
    of = under(STRAIGHT, job(side_plates=steps((100.0, 120.0), (200.0, 150.0))))
    names = set(all_of(of))
    assert {"bracket.side-plate-bending-step-1.ec9", "bracket.side-plate-bending-step-2.ec9"} <= names
    none = under(STRAIGHT)
    assert worst(of, "side-plate-bending-step-1.ec9") > worst(none, "side-plate-bending-between.ec9")
    # 100 aft: between welds, so that the plate's own yield counts.
    assert found(of)["bracket.side-plate-bending-step-1.ec9"].resistance[0, 0] == pytest.approx(215 / 1.1)


def test_doubled_setback_raises_the_root_moment_as_statics_says() -> None:
    """At fixed loads on the engine plate: force up times the setback added, thrust's own moment unchanged."""
    F = np.array([-4000.0, 0.0, -3000.0])
    at_plate = 2.0e6
    roots = []
    for s in (260.0, 520.0):
        of = under((*F, 0.0, at_plate - s * F[2], 0.0), job(distance=s))
        b = of.setup.bracket
        assert b is not None
        assert b.plates is not None
        roots.append(float(parts(of.cases.design, b.plates.sides.x_0, b.plates.sides.z_0)[4][0]))
    assert roots[1] - roots[0] == pytest.approx(260.0 * 3000.0)
    one, two = whole(job()), whole(job(distance=520.0))
    for name in ("weld-base.lines", "side-plate-bending-base.ec9", "metal-beside-weld-base.ec9"):
        assert worst(two, name) > worst(one, name)


def test_another_kind_is_a_closed_box() -> None:
    """Its loads reach the board; nothing of it is checked."""
    boxed = whole(job(kind="casting"))
    assert boxed.setup.bracket is not None
    assert boxed.setup.bracket.plates is None
    assert all_of(boxed) == {}
    assert float(found(boxed)["frame.bolt-tension.ec3"].worst[0]) > 0


def test_clamps_on_the_engine_plate_leave_its_plate_checked() -> None:
    clamped = job()
    clamped = replace(clamped, engine=replace(clamped.engine, held_by="clamps"))
    of = whole(clamped)
    assert of.setup.holding.by == "bolts"
    names = set(all_of(of))
    assert "bracket.engine-plate-bending-pads.t-stub" in names
    assert not any("engine-bolt" in n for n in names)


def test_fatigue_is_information_by_hand() -> None:
    """Range of throat stress between full ahead and full astern, and of the wave; FAT 12/1.35, cube, 6 and 60 an hour."""
    of = whole(job())
    check = found(of)["bracket.weld-fatigue.iiw"]
    assert check.information
    b = of.setup.bracket.plates  # type: ignore[union-attr]
    w = of.cases.wrench
    i = {n: of.cases.names.index(n) for n in ("ahead", "astern", "wave")}
    hours = []
    for weld, share in ((b.base_weld, 0.0), (b.engine_weld, 1.0)):  # type: ignore[union-attr]
        used = 0.0
        for n, r in ((6.0, w[i["ahead"]] - w[i["astern"]]), (60.0, w[i["wave"]])):
            stress = float(np.ravel(setback.lines(b, weld, share, r[None]).fillet)[0]) / (6.0 / sqrt(2))  # type: ignore[arg-type]
            used += n / (2e6 * (12.0 / 1.35 / stress) ** 3)
        hours.append(1 / used)
    assert float(check.resistance[0, 0]) == pytest.approx(min(hours))


def test_moments_of_the_twist_are_those_of_cantilevers() -> None:
    """Pure twist T on two plates 240 apart: forces T/240 up and down, root moment that times 240 long."""
    T = 1.2e6
    of = under((0.0, 0.0, 0.0, T, 0.0, 0.0))
    root, *_, end = sections(of, of.setup.bracket.plates)  # type: ignore[union-attr,arg-type]
    assert np.ravel(root.edge)[0] == pytest.approx(6 * T / 240 * 240 / (10 * 300**2))
    assert np.ravel(end.edge)[0] == pytest.approx(6 * T / 240 * 120 / (10 * 280**2))
    assert np.ravel(root.shear)[0] == pytest.approx(1.5 * T / 240 / 3000)


def test_a_bracket_over_the_propeller_is_refused() -> None:
    with pytest.raises(JobError, match=r"bracket\.height 900 mm: lifts the propeller"):
        whole(job(height=900.0))


def test_an_assumed_shaft_may_be_varied_on_a_high_bracket() -> None:
    """Half a 20 in shaft and more is asked of every assumption: the propeller then stays below the top edge."""
    high = job(height=400.0)
    high = replace(high, engine=replace(high.engine, shaft=None))
    j = judge(high, SHIPPED, MOUNT, careful=False)
    assert any(a.key == "engine.shaft" for a in j.assumptions)


def test_holes_beside_a_weld_are_in_heat_affected_metal() -> None:
    """The lower row, 125.4 out, lies beside a side plate at 120; with side plates at 75 no hole is within 25 mm of a toe."""
    names = ("engine-plate-bearing.ec9", "engine-plate-pull-through.ec9")
    one, other = whole(job()), whole(job(side_plates__apart=250.0))
    b = one.setup.bracket.plates  # type: ignore[union-attr]
    assert b.metal.f_u_w < b.metal.f_u  # type: ignore[union-attr]
    near, far = (
        float(np.ravel(found(of)[f"bracket.{names[1]}"].resistance)[0])
        for of in (one, whole(job(side_plates__apart=150.0)))
    )
    assert near == pytest.approx(far * b.metal.f_u_w / b.metal.f_u)  # type: ignore[union-attr]
    for name in names:
        assert worst(other, name) >= worst(whole(job(side_plates__apart=150.0)), name)


def test_a_fillet_larger_than_its_plate_counts_as_the_plate() -> None:
    """Plates 10 mm: legs of 10 and of 16 mm carry alike."""
    ten, sixteen = (whole(job(base_weld__leg=leg)) for leg in (10.0, 16.0))
    assert worst(ten, "weld-base.lines") == worst(sixteen, "weld-base.lines")
    assert (
        worst(whole(job(base_weld__leg=5.0)), "weld-base.lines")
        == pytest.approx(2 * worst(ten, "weld-base.lines"))
        != 0
    )


def test_a_cut_counts_from_whichever_edge_is_worse() -> None:
    """Forward push 4000 N: a plate cut from below lies (depth - 120)/2 higher, which changes its moment by so much."""
    of = under(STRAIGHT, job(side_plates=steps((130.0, 120.0))))
    s = of.setup.bracket.plates.sides  # type: ignore[union-attr]
    share = (130.0 - s.x_0) / (s.x_1 - s.x_0)
    depth, z = s.d_0 + share * (s.d_1 - s.d_0), s.z_0 + share * (s.z_1 - s.z_0)
    M = [4.0e6 - ((z + way * (depth - 120) / 2) * -4000.0 - 130.0 * -3000.0) for way in (1, 0, -1)]
    edge = 2000 / 1200 + 6 * max(abs(m) for m in M) / 2 / (10 * 120**2)
    assert worst(of, "side-plate-bending-step-1.ec9") == pytest.approx(edge / (215 / 1.1))


def test_a_gusset_is_welded_all_along() -> None:
    of = whole(job(gusset=GUSSET))
    assert float(np.ravel(found(of)["bracket.side-plate-bending-between.ec9"].resistance)[0]) == pytest.approx(
        F_Y_W / 1.1
    )


def test_more_side_plates_bear_nearer_to_the_middle() -> None:
    """Three 240 apart: 120, 0, 120 from the center line, 80 in the mean; four: 120, 40, 40, 120, as much."""
    at = [float(np.ravel(whole(job(side_plates__count=k)).setup.holding.pattern.y_pad)[0]) for k in (2, 3, 4)]
    assert at == pytest.approx([120.0, 80.0, 80.0])


def test_everything_grows_with_the_loads() -> None:
    """A fifth more of every factor: a fifth more of every share, more where bolts are pried."""
    of = whole(job(gusset=GUSSET, side_plates=steps((130.0, 200.0))))
    x = of.setup.loads
    names = ("gamma_F", "gamma_weight", "gamma_weight_light", "gamma_strike", "gamma_strike_weight_light")
    more = replace(x, **{name: 1.2 * getattr(x, name) for name in names})
    grown = replace(of, setup=replace(of.setup, loads=more), cases=build_cases(more))
    before, after = all_of(of), all_of(grown)
    for name, u in before.items():
        if not name.endswith("-edge"):
            assert after[name] >= 1.2 * u * (1 - 1e-9), name
            assert after[name] <= (1.21 * u if "bolt" not in name and "pull-through" not in name else 2.0 * u), name


def test_every_check_has_words_and_a_cure() -> None:
    of = whole(job(gusset=GUSSET, side_plates=steps((130.0, 200.0))))
    told = {(c.part, c.what) for c in found(of).values() if c.part == "bracket"}
    numbered = {t for t in told if t[1].startswith("side-plate-bending-step-")}
    assert numbered
    assert told - numbered <= set(CHECKS)
    uncured = {what for part, what in told - numbered if (part, what) not in BY_HAND}
    assert uncured == {"weld-fatigue"}  # it decides nothing
    assert advice([c.rows()[0] for c in found(of).values() if c.what == "side-plate-bending-step-1"])


def test_a_kicker_hangs_on_the_bracket() -> None:
    kicked = job()
    kicked = replace(kicked, engine=replace(kicked.engine, kicker=Kicker(6000.0)))
    on, off = (whole(j).setup.loads for j in (kicked, replace(kicked, setback=None)))
    assert on.kicker is not None
    assert off.kicker is not None
    assert on.kicker.x_cg == pytest.approx(off.kicker.x_cg + 260.0)
    assert on.x_cg == pytest.approx(off.x_cg + 260.0)
    with_it, without = (whole(k).cases for k in (kicked, job()))
    added = [float(np.ravel(c.wrench[..., c.names.index("ahead"), 4])[0]) for c in (with_it, without)]
    W = float(np.ravel(on.kicker.mass_kg)[0]) * 9.80665
    assert added[0] - added[1] == pytest.approx(W * float(np.ravel(on.kicker.x_cg)[0]), rel=1e-3)
