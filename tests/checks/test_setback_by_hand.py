"""Sections and welds of a setback bracket's side plates against statics written out here: r x F, linear plates, N/A + M/W."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.setbacks import GUSSET, STRAIGHT, job, spoilt, steps, under
from transom.checks import setback, setback_base, setback_fatigue, setback_forces
from transom.checks.setback import Lines
from transom.checks.setback_forces import Section, sections
from transom.checks.trial import Trial
from transom.job.setback_records import Fillet
from transom.setup.setback_records import PlateBracket, Sides
from transom.standards import tstub


def plates(of: Trial) -> PlateBracket:
    assert of.setup.bracket is not None
    assert of.setup.bracket.plates is not None
    return of.setup.bracket.plates


def one(x: object) -> float:
    return float(np.ravel(np.asarray(x))[0])


def along(s: Sides, share: float) -> tuple[float, float, float]:
    """Place aft, depth and height of the middle, straight from end to end."""
    return tuple(one(a) + share * (one(b) - one(a)) for a, b in ((s.x_0, s.x_1), (s.d_0, s.d_1), (s.z_0, s.z_1)))  # type: ignore[return-value]


def moved(wrench: tuple[float, ...], x: float, z: float) -> np.ndarray:
    """Moments of a wrench about the point x aft, z up: M - r x F."""
    return np.asarray(wrench[3:]) - np.cross([x, 0.0, z], wrench[:3])


def named(of: Trial) -> dict[str, Section]:
    return {s.name: s for s in sections(of, plates(of))}


def test_sections_are_looked_at_at_both_ends_and_every_quarter() -> None:
    """In the plane of the plates: half of F_x and of the moment about each section's own middle to either plate."""
    of = under(STRAIGHT)
    s, found = plates(of).sides, named(of)
    assert list(found) == ["base", "at 25%", "at 50%", "at 75%", "engine plate"]
    for name, share in zip(found, (0.0, 0.25, 0.5, 0.75, 1.0), strict=True):
        x, d, z = along(s, share)
        M = moved(STRAIGHT, x, z)[1]
        edge = 4000.0 / 2 / (10.0 * d) + 6 * abs(M) / 2 / (10.0 * d**2)
        assert one(found[name].edge) == pytest.approx(edge, rel=1e-9)
        assert one(found[name].shear) == pytest.approx(1.5 * 3000.0 / 2 / (10.0 * d), rel=1e-9)
        assert one(found[name].face) == pytest.approx(0.0, abs=1e-9)
        assert found[name].welded is (share in (0.0, 1.0))


@pytest.mark.parametrize("M", [5e5, -5e5, 0.0])
def test_a_cut_section_may_have_its_middle_off_either_way(M: float) -> None:
    """150 left at 130 aft: half of what is cut away lies off, and the push there bends the plate one way or the other, the
    worse for the moment it meets."""
    of = under(STRAIGHT, job(side_plates=steps((130.0, 150.0))))
    s = plates(of).sides
    share = (130.0 - one(s.x_0)) / (one(s.x_1) - one(s.x_0))
    x, d, z = along(s, share)
    assert x == pytest.approx(130.0)
    F = -4000.0
    wrench = (F, 0.0, 0.0, 0.0, M + z * F, 0.0)  # M about the uncut middle
    assert moved(wrench, x, z)[1] == pytest.approx(M, abs=1e-6)
    of = under(wrench, job(side_plates=steps((130.0, 150.0))))
    off = (d - 150.0) / 2
    want = 4000.0 / 2 / (10.0 * 150.0) + 6 * (abs(M) + 4000.0 * off) / 2 / (10.0 * 150.0**2)
    assert one(named(of)["step 1"].edge) == pytest.approx(want, rel=1e-9)


def test_a_cut_deeper_than_the_plate_takes_nothing() -> None:
    deep, whole = under(STRAIGHT, job(side_plates=steps((130.0, 400.0)))), under(STRAIGHT)
    s = plates(whole).sides
    x, d, z = along(s, (130.0 - one(s.x_0)) / (one(s.x_1) - one(s.x_0)))
    M = moved(STRAIGHT, x, z)[1]
    edge = 4000.0 / 2 / (10.0 * d) + 6 * abs(M) / 2 / (10.0 * d**2)
    assert one(named(deep)["step 1"].edge) == pytest.approx(edge)


@pytest.mark.parametrize(
    "y, near", [((50.0, 130.0), (50.0, 10.0)), ((70.0, -125.0), (50.0, 5.0)), ((60.0, 0.0), (60.0, 0.0))]
)
def test_the_nearest_of_three_plates(y: tuple[float, ...], near: tuple[float, ...]) -> None:
    s = plates(under(STRAIGHT)).sides
    three = replace(s, y=np.array([-120.0, 0.0, 120.0]))
    assert setback_forces.nearest(np.array(y), three).tolist() == list(near)


def lines_of(of: Trial, wrench: tuple[float, ...], share: float = 0.0) -> Lines:
    b = plates(of)
    return setback.lines(b, b.base_weld, share, np.array([wrench]))


def test_a_gusset_takes_the_sideways_force_and_leaves_the_fillets_the_rest() -> None:
    """Pushed sideways at the gusset's height, half way along: no force, no twist, no turn is left for the side plates."""
    of = under(STRAIGHT, job(gusset=GUSSET))
    b = plates(of)
    g = b.sides.gusset
    assert g is not None
    x = (one(b.sides.x_0) + one(b.sides.x_1)) / 2
    pushed = (0.0, 3000.0, 0.0, *np.cross([x, 0.0, one(g.z)], [0.0, 3000.0, 0.0]))
    x_0 = one(b.sides.x_0)
    at_base = (0.0, 3000.0, 0.0, *np.cross([x_0, 0.0, one(g.z)], [0.0, 3000.0, 0.0]))
    assert lines_of(of, at_base).fillet == pytest.approx(np.array([0.0]), abs=1e-6)
    # Half way along it turns the base's section: as the turn 3000 (x - x_0) alone does.
    turn = (0.0, 0.0, 0.0, 0.0, 0.0, 3000.0 * (x - x_0))
    assert lines_of(of, pushed).fillet == pytest.approx(lines_of(of, turn).fillet)
    # Above or below it twists: as the twist alone.
    high = (0.0, 3000.0, 0.0, *np.cross([x_0, 0.0, one(g.z) + 40.0], [0.0, 3000.0, 0.0]))
    twist = (0.0, 0.0, 0.0, -3000.0 * 40.0, 0.0, 0.0)
    assert lines_of(of, high).fillet == pytest.approx(lines_of(of, twist).fillet)
    assert float(lines_of(of, twist).fillet[0]) > 1.0


def test_without_a_gusset_the_fillets_share_what_is_pushed_sideways() -> None:
    """At the middle of the base's section F_y/(2 plates x 300 x 2 faces) along each throat beside the frame's own moment:
    F_y/2 x half the length, over depth and thickness."""
    of = under(STRAIGHT)
    s = plates(of).sides
    x, d, z = along(s, 0.0)
    half = (one(s.x_1) - one(s.x_0)) / 2
    wrench = (0.0, 3000.0, 0.0, *np.cross([x + half, 0.0, z], [0.0, 3000.0, 0.0]))
    across, m = 3000.0 / 2 / d / 2, 3000.0 / 2 * half / d / 10.0
    assert float(lines_of(of, wrench).fillet[0]) == pytest.approx(np.hypot(across, m), rel=1e-6)


def test_fillets_of_every_case_have_one_worst_point() -> None:
    """As many numbers as cases, and each as if the case were alone."""
    of = under(STRAIGHT)
    b = plates(of)
    w = np.array([STRAIGHT, (0.0, 3000.0, 0.0, -2e6, 0.0, 5e5), (-2000.0, -500.0, 100.0, 1e5, -3e6, 2e5)])
    many = setback.lines(b, b.base_weld, 0.0, w)
    assert many.fillet.shape == many.plate.shape == (3,)
    for i, each in enumerate(w):
        alone = setback.lines(b, b.base_weld, 0.0, each[None])
        assert (many.fillet[i], many.plate[i]) == pytest.approx((alone.fillet[0], alone.plate[0]))


@pytest.mark.parametrize("edge, counts", [(-5.0, 0.0), (0.0, 0.0), (0.5, 0.5), (45.0, 45.0)])
def test_metal_past_a_hole_counts_from_nothing(edge: float, counts: float) -> None:
    of = spoilt(under(STRAIGHT), "base", "edge", edge)
    b, p = plates(of), of.setup.holding.pattern
    m, length, _ = setback.stub(of, b, b.base, p.y_u, 200.0)
    assert one(length) == pytest.approx(one(tstub.bolt_length(one(m), counts, 200.0)))
    T, M_p, d = 20000.0, 4e5, 12.7
    arm = tstub.prying_arm(one(m), d)
    Q = tstub.prying(T, arm, tstub.edge_arm(counts, arm, d), M_p, tstub.net_share(13.5, 100.0))
    assert one(Q) > 0.0
    assert one(setback.pried(T, one(m), 100.0, M_p, b.base, d, 13.5)) == pytest.approx(one(tstub.pried(T, Q)))


def test_a_base_bolt_near_the_edge_bears_by_it() -> None:
    """EN 1999-1-1, Table 8.5: alpha = e/(3 d_0), k_1 = 2.8 e/d_0 - 1.7; 10 mm of 13.5 holes, far from any weld 305 MPa."""
    of = spoilt(under(STRAIGHT), "base", "edge", 10.0)
    of = spoilt(of, "base_weld", "leg", 0.0)
    R = one(setback_base._bearing(of, plates(of), 13.5, 1000.0))
    f_u = one(setback_base._metal(of, plates(of)))
    assert pytest.approx((2.8 * 10 / 13.5 - 1.7) * 10 / 40.5 * f_u * 12.7 * 10 / 1.25) == R


def test_hours_of_every_candidate_and_none_where_a_range_is_no_number() -> None:
    """Miner with N = 2e6 (FAT/gamma/range)^3 for turns and waves; nought and NaN give no figure, little gives the most."""
    of = under(STRAIGHT)
    ranges = np.array([[20.0, 5.0], [20.0, 0.0], [np.nan, 5.0], [1e-3, 1e-3]])
    f = of.factor
    FAT = f("fatigue.FAT_MPa") / f("fatigue.gamma_Mf")
    D = sum(f(f"fatigue.{n}") / (2e6 * (FAT / r) ** 3) for n, r in (("turns", 20.0), ("waves", 5.0)))
    h = setback_fatigue._hours(of, ranges)
    assert h.shape == (4,)
    assert h[0] == pytest.approx(1 / D)
    assert np.isnan(h[1:3]).all()
    assert h[3] == 1e6


def test_a_weld_on_one_face_bends_on_its_own_throat() -> None:
    """f + 6 (f t/2)/a against f/2 with a fillet on either face: pulled straight aft, leg 6, a = 4.24."""
    of = under(STRAIGHT)
    s = plates(of).sides
    x, d, z = along(s, 0.0)
    wrench = (-4000.0, 0.0, 0.0, *np.cross([x, 0.0, z], [-4000.0, 0.0, 0.0]))
    f = 4000.0 / 2 / d
    assert float(lines_of(of, wrench).fillet[0]) == pytest.approx(f / 2)
    single = under(STRAIGHT, job(base_weld=Fillet(6.0, "one")))
    assert float(lines_of(single, wrench).fillet[0]) == pytest.approx(f + 6 * f * 5.0 / (6.0 / np.sqrt(2)))
