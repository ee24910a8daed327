"""Engine bolts, metal and wood, against figures worked with a pocket calculator.

EN 1993-1-8:2005 Table 3.4; EN 1995-1-1:2004 8.2.3, 8.3.3, 8.5; NDS 2018 12.3 with TR12 (2015).
"""

from dataclasses import replace
from math import hypot, sqrt

import pytest

from tests.checks.shop import (
    BOLTS,
    HARD_OVER,
    JOB,
    MOUNT,
    alone,
    on_board,
    row,
    setup_of,
    trial,
    whole,
    with_bolts,
    with_engine,
)
from transom.checks import all_checks
from transom.job.records import EngineBracket, Hole, Layer, Mount

T_AHEAD, T_HARD, T_HARD_LOW = 5251.4, 5308.8, 1069.6  # worked in test_board.py


def largest_shear() -> float:
    """Hard over: Fy -2000, Fz -2000 at the datum, Mx -1.2e6; centroid of the bolts at z -149.2.

    Mx about it: -1.2e6 + (-149.2)(-2000) = -901,600. J = 2(163.5^2 + 125.4^2) + 4 x 101.6^2 = 126,206.
    Upper bolt, port: across -500 - (-901,600)(101.6)/126,206 = 225.8; up -500 + 901,600 x 163.5/126,206 = 668.0.
    Upper, starboard: up -500 - 1168.0 = -1668.0: 1683.2. Lower, starboard: across -500 - 725.8 = -1225.8,
    up -500 - 895.8 = -1395.8: 1857.7 N, the largest.
    """
    J = 2 * (163.5**2 + 125.4**2) + 4 * 101.6**2
    M = -1.2e6 + 149.2 * 2000
    return hypot(-500 + M * 101.6 / J, -500 + M * 125.4 / J)


def test_shear_is_shared_about_the_centroid() -> None:
    of = trial()
    assert largest_shear() == pytest.approx(1857.7, abs=0.5)
    assert of.shear[of.cases.names.index("hard-over")] == pytest.approx(1857.7, rel=1e-3)


def test_metal() -> None:
    """F593C, f_ub 689, A_s 91.5: F_t,Rd 0.9 x 689 x 91.5/1.25 = 45,391; F_v,Rd 0.5 x 689 x 91.5/1.25 = 25,217.

    Together 1857.7/25,217 + 5308.8/(1.4 x 45,391) = 0.0737 + 0.0835 = 0.1572.
    """
    of = trial()
    assert row(of, "engine-bolts.tension.ec3", "hard-over").resistance == pytest.approx(45391, rel=1e-4)
    assert row(of, "engine-bolts.tension.ec3", "hard-over").demand == pytest.approx(T_HARD, rel=1e-4)
    assert row(of, "engine-bolts.shear.ec3", "hard-over").resistance == pytest.approx(25217, rel=1e-4)
    assert row(of, "engine-bolts.shear.ec3", "hard-over").demand == pytest.approx(1857.7, rel=1e-3)
    assert row(of, "engine-bolts.tension-and-shear.ec3", "hard-over").demand == pytest.approx(0.1572, rel=1e-3)


def en_resistance(t_p: float = 10.0, edge: float = 47.6) -> float:
    """Plywood f_h 0.11 (1 - 0.127) 460 = 44.17; M_y 0.3 x 689 x 12.7^2.6 = 153,200 (12.7^2.6 = 741.2).

    Thin: a 0.4 x 44.17 x 36.52 x 12.7 = 8195, b 1.15 sqrt(2 x 153,200 x 44.17 x 12.7) = 15,078: 8195.
    Thick: c 44.17 x 36.52 x 12.7 (sqrt(2 + 4 x 153,200/(44.17 x 12.7 x 36.52^2)) - 1) = 13,912, d 21,323, e 20,488:
    13,912. A 10 mm plate: share 2 x 10/12.7 - 1 = 0.5748: 8195 + 0.5748 x 5717 = 11,481.
    x 0.7/1.3 x 47.6/50.8 (edge) x n_ef/2 = 2^0.9 (203.2/165.1)^0.25/2 = 0.9828.
    """
    f_h, M_y, d, t = 0.11 * (1 - 0.127) * 460, 0.3 * 689 * 741.2, 12.7, 36.52
    thin = min(0.4 * f_h * t * d, 1.15 * sqrt(2 * M_y * f_h * d))
    thick = min(f_h * t * d * (sqrt(2 + 4 * M_y / (f_h * d * t * t)) - 1), 2.3 * sqrt(M_y * f_h * d), f_h * t * d)
    share = min(max(2 * t_p / d - 1, 0), 1)
    return (thin + share * (thick - thin)) * 0.7 / 1.3 * min(edge / 50.8, 1) * 0.9828


def test_sideways_by_en() -> None:
    one = row(trial(), "engine-bolts.sideways-in-wood.ec5", "hard-over")
    assert one.demand == pytest.approx(1857.7, rel=1e-3)
    assert one.resistance == pytest.approx(en_resistance(), rel=1e-3)
    assert en_resistance() == pytest.approx(5690, rel=2e-3)


def test_no_rope_effect_even_where_the_bolt_pulls() -> None:
    """The same resistance with a pull and without: astern the upper bolts do not pull."""
    of = trial()
    assert (
        row(of, "engine-bolts.sideways-in-wood.ec5", "ahead").resistance
        == row(of, "engine-bolts.sideways-in-wood.ec5", "astern").resistance
    )


@pytest.mark.parametrize("ear, t_p", [(6.0, 6.0), (9.0, 9.0), (19.0, 10.0)])
def test_a_thin_ear_is_a_thin_plate(ear: float, t_p: float) -> None:
    """Measured ears under 10 mm count as they are; a thick one never as more than 10 (its hole may be loose)."""
    job = with_engine(bracket=EngineBracket(ear=ear))
    one = row(trial(job), "engine-bolts.sideways-in-wood.ec5", "hard-over")
    assert one.resistance == pytest.approx(en_resistance(t_p), rel=1e-3)


def test_an_opening_near_a_bolt_is_a_loaded_edge() -> None:
    """A 20 mm hole 56 mm from an upper bolt: rim 46 mm away, less than 47.6: x 46/50.8."""
    job = on_board(openings=(Hole(163.5, 103.6, 20.0),))
    one = row(trial(job), "engine-bolts.sideways-in-wood.ec5", "hard-over")
    assert one.resistance == pytest.approx(en_resistance(edge=46.0), rel=1e-3)


def test_connections_take_their_own_gamma_and_duration() -> None:
    """Short 0.7/1.3, instantaneous 0.9/1.3, a strike 0.9/1.0."""
    of = trial()
    short, wave, strike = (
        row(of, "engine-bolts.sideways-in-wood.ec5", c).resistance for c in ("ahead", "wave", "strike")
    )
    assert wave / short == pytest.approx(0.9 / 0.7, rel=1e-6)
    assert strike / short == pytest.approx(0.9 / (0.7 / 1.3), rel=1e-6)


def nds_value() -> float:
    """F_em 38.61, F_es 2.4 x 399.9/1.6 = 599.9, F_yb 310.3; D 12.7, l_m 36.52, l_s 10; K_theta 1. TR12, g = 0, in N.

    q_m 490.3, q_s 7618, M 310.3 x 12.7^3/6 = 105,935. I_m 490.3 x 36.52/4 = 4477; I_s 7618 x 10/4 = 19,050.
    II: A 1/4q_s + 1/4q_m = 5.427e-4, B 23.26, C (7618 x 100 + 490.3 x 1333.7)/4 = 353,930: P 11,834, /3.6 = 3287 N.
    III_m: A 5.756e-4, B 18.26, C 269,420: P 11,000, /3.2. III_s: A 1.0526e-3, B 5, C 296,400: /3.2.
    """
    q_m, q_s, M = 38.61 * 12.7, 599.85 * 12.7, 310.3 * 12.7**3 / 6
    modes = [q_m * 36.52 / 4, q_s * 10 / 4]
    for A, B, C, R in (
        (1 / 4 / q_s + 1 / 4 / q_m, 5 + 18.26, (q_s * 100 + q_m * 36.52**2) / 4, 3.6),
        (1 / 2 / q_s + 1 / 4 / q_m, 18.26, M + q_m * 36.52**2 / 4, 3.2),
        (1 / 4 / q_s + 1 / 2 / q_m, 5.0, M + q_s * 100 / 4, 3.2),
        (1 / 2 / q_s + 1 / 2 / q_m, 0.0, 2 * M, 3.2),
    ):
        modes.append((sqrt(B * B + 4 * A * C) - B) / (2 * A) / R)
    return min(modes)


def test_sideways_by_nds_is_information_or_decides() -> None:
    """Z x C_D 1.25 x C_M 0.7 x 47.6/50.8 x 0.9828 (C_g of two bolts 203 apart is 0.99), against the service load 1857.7/1.5 = 1238.5 N."""
    en, us = trial(), trial(replace(JOB, head=replace(JOB.head, code="US")))
    one = row(en, "engine-bolts.sideways-in-wood.nds", "hard-over")
    assert one.demand == pytest.approx(1238.5, rel=1e-3)
    assert one.resistance == pytest.approx(nds_value() * 1.25 * 0.7 * 47.6 / 50.8 * 0.9828, rel=1e-3)
    for of, deciding in ((en, "ec5"), (us, "nds")):
        for rule in ("ec5", "nds"):
            found = row(of, f"engine-bolts.sideways-in-wood.{rule}", "hard-over")
            assert found.information is (rule != deciding)


def test_us_code_fails_what_en_passes_and_only_us_does() -> None:
    """2.6 times hard over: EN 4830 of 5690 N, NDS 3220 of 2665 N by service loads; each decides under its code alone."""
    times = 2.6
    failing = {}
    for code in ("EN", "US"):
        of = trial(replace(JOB, head=replace(JOB.head, code=code)), loads=alone(HARD_OVER, times=times))
        failing[code] = [
            c.rule for c in all_checks(of) if c.what == "sideways-in-wood" and not c.information and c.worst.max() > 1
        ]
    assert failing == {"EN": [], "US": ["nds"]}


def test_pull_and_sideways() -> None:
    """Upper: plate 70.02 x 76.2 - 13.5^2 pi/4 = 5192.6 mm^2 at 3.92 MPa = 20,355 N.

    sqrt((5308.8/20,355)^2 + (1857.7/5690)^2) = sqrt(0.0680 + 0.1066) = 0.4179.
    """
    one = row(trial(), "engine-bolts.pull-and-sideways-in-wood.ec5", "hard-over")
    assert one.demand == pytest.approx(hypot(5308.8 / 20355, 1857.7 / en_resistance()), rel=1e-3)
    assert one.demand == pytest.approx(0.418, rel=2e-3)


def test_length_and_shank() -> None:
    """Coated 36.52 + 0.2 + 0.6 = 37.32; grip 19 + 37.32 + 6.35 + 2.54 = 65.21; + nut 15.47 + 2 x 1.9538 = 84.59.

    A 3-1/2 in bolt has 88.9 - 31.75 = 57.15 of plain shank.
    """
    of = trial()
    length, shank = row(of, "engine-bolts.length"), row(of, "engine-bolts.shank-in-grip")
    assert length.demand == pytest.approx(84.59, abs=0.01)
    assert length.resistance == 88.9
    assert shank.demand == pytest.approx(57.15, abs=0.01)
    assert shank.resistance == pytest.approx(65.21, abs=0.01)


@pytest.mark.parametrize("length, fails", [(82.55, "length"), (0.0, "length"), (101.6, "shank-in-grip")])
def test_a_bolt_too_short_or_too_long_fails(length: float, fails: str) -> None:
    """3-1/4 in ends inside the nut; 4 in has 69.85 of shank in a grip of 65.21; no length at all never passes."""
    of = trial(mount=with_bolts(length=length))
    assert not row(of, f"engine-bolts.{fails}").passes


def test_a_plate_under_the_bracket_is_in_the_grip_and_the_stack() -> None:
    """Aft plate of 6.35 in place of a washer of 2.54: grip 69.02, length 88.40; bracket takes 37.32 + 12.7 = 50.02."""
    mount = with_bolts(aft=BOLTS.forward)
    of = trial(with_engine(takes=(41.0, 50.0)), mount)
    assert row(of, "engine-bolts.length").demand == pytest.approx(88.40, abs=0.01)
    assert row(of, "assembly.bracket-thickest").demand == pytest.approx(50.02, abs=0.01)
    assert not row(of, "assembly.bracket-thickest").passes


def test_bracket_range_and_pocket() -> None:
    """Stack 37.32 + 6.35 = 43.67 between 41 and 70; too thick for 43, too thin for 44. Pocket: 37.32 + 1.5 = 38.82."""
    of = trial(replace(with_engine(takes=(41.0, 70.0)), board=replace(JOB.board, pocket=38.9, pocket_stated=True)))
    assert row(of, "assembly.bracket-thickest").demand == pytest.approx(43.67, abs=0.01)
    assert row(of, "assembly.bracket-thinnest").passes
    assert row(of, "assembly.pocket").demand == pytest.approx(38.82, abs=0.01)
    assert row(of, "assembly.pocket").passes
    assert not row(trial(with_engine(takes=(32.0, 43.0))), "assembly.bracket-thickest").passes
    assert not row(trial(with_engine(takes=(44.0, 70.0))), "assembly.bracket-thinnest").passes
    assert not row(trial(on_board(pocket=38.8, pocket_stated=True)), "assembly.pocket").passes


def test_what_was_not_measured_is_not_checked() -> None:
    names = {c.what for c in all_checks(trial())}
    assert not names & {"bracket-thickest", "bracket-thinnest", "pocket"}


def test_too_thin_and_too_thick_for_the_method() -> None:
    one = Mount((Layer("douglas-fir-marine 3/4 in", "across"),), BOLTS)
    six = Mount(MOUNT.layers * 3, BOLTS)
    assert not row(trial(mount=one), "assembly.thinnest-judged").passes
    assert not row(trial(mount=six), "assembly.thickest-judged").passes


def test_prying_goes_with_thin_boards_only() -> None:
    """36.52 mm: x 45/36.52; three sheets, 54.78 mm: x 1. T_u = (2.6e6 + 2000 x 27.39 - 792,000)/432.8 = 4303.8."""
    of = trial(mount=Mount((*MOUNT.layers, MOUNT.layers[0]), BOLTS))
    assert of.upper_tension[0, 0] == pytest.approx(4303.8, rel=1e-4)


def test_every_own_case_of_the_job_is_checked() -> None:
    of = whole()
    for c in all_checks(of):
        assert c.cases in (of.cases.names, ("once",))


def test_tension_of_a_varied_pattern_follows_it() -> None:
    """The upper holes 55 mm down instead of 47.6: T_u = 1,844,520/(2 x 209) = 4412.7, x 45/36.52 = 5437.4."""
    of = trial(setup=setup_of(engine__bracket__top_to_upper=55.0))
    assert of.upper_tension[0, 0] == pytest.approx(5437.4, rel=1e-4)


def test_the_worse_row_counts() -> None:
    """Ahead the upper row pulls, astern the lower one; the metal's check sees both."""
    of = trial()
    upper, lower = of.upper_tension, of.lower_tension
    names = of.cases.names
    assert upper[0, names.index("ahead")] > lower[0, names.index("ahead")]
    assert lower[0, names.index("astern")] > upper[0, names.index("astern")]
    assert of.tension[0].tolist() == [max(pair) for pair in zip(upper[0], lower[0], strict=True)]
