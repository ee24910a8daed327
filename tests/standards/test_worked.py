"""Each rule's own numbers, worked by hand in round figures: a factor that a published case passes explicitly, a floor, a limit.

The constants are those of the document named beside them, which rounds some at five digits; printed cases stand in
materials/published.
"""

from collections.abc import Callable
from math import exp, log, pi, sqrt
from typing import Any

import pytest

from transom.standards import (
    adm,
    aisc,
    asme_b1,
    d510,
    ec3,
    ec5,
    ec5_lateral,
    ec5_spacing,
    ec9,
    ec9_buckling,
    iiw,
    iso898,
    lag_screws,
    nds,
    nds_geometry,
    nds_groups,
    shigley,
    tr12,
    tstub,
    wood_handbook,
)

PSI = 4.4482216152605 / 25.4**2  # MPa
BOLT = {"f_h_k": 25.0, "d": 16.0, "M_y_Rk": 1e5}  # M f_h d = 4e7: root 6324.5553, of twice it 8944.2719
ROOT, ROOT_OF_TWICE = 6324.555320337, 8944.271909999

Row = tuple[Callable[..., Any], dict[str, float], float]
METAL: list[Row] = [
    # Aluminum Design Manual: J.3.3 2.5 D, J.3.4 1.5 D, J.5.5.2 C 0.7, Omega 1.95.
    (adm.pull_over_strength, {"t": 3.0, "F_tu": 200.0, "D_ws": 25.0, "D_h": 10.0}, 0.7 * 3 * 200 * 15),
    (adm.least_edge, {"D": 12.0}, 18.0),
    (adm.least_spacing, {"D": 12.0}, 30.0),
    (adm.design_strength, {"R_n": 1000.0, "phi": 0.5}, 500.0),
    # EN 1993-1-8 Table 3.4 and EN 1999-1-1 Table 8.5: 2.8 e/d - 1.7 and 1.4 p/d - 1.7, at most 2.5; gamma 1.25.
    *((ec.edge_bolt_k, {"e_2": e, "d_0": 20.0}, k) for ec in (ec3, ec9) for e, k in ((20.0, 1.1), (60.0, 2.5))),
    *((ec.inner_bolt_k, {"p_2": p, "d_0": 20.0}, k) for ec in (ec3, ec9) for p, k in ((40.0, 1.1), (100.0, 2.5))),
    *((ec.bearing_resistance, {"k_1": 2.5, "alpha_b": 0.6, "f_u": 275.0, "d": 12.0, "t": 6.0}, 23760.0)
      for ec in (ec3, ec9)),
    (ec3.punching_resistance, {"d_m": 20.0, "t_p": 6.0, "f_u": 275.0}, 0.6 * pi * 33000 / 1.25),
    (ec3.least_edge, {"d_0": 10.0}, 12.0),
    (ec3.least_pitch, {"d_0": 10.0}, 22.0),
    *((ec.bolt_tension_resistance, {"f_ub": 700.0, "A_s": 100.0}, 50400.0) for ec in (ec3, ec9)),
    *((ec.bolt_shear_resistance, {"f_ub": 700.0, "A": 100.0}, 28000.0) for ec in (ec3, ec9)),
    # EN 1999-1-1 6.1.6.3, MIG: 20 mm up to 6 thick, 30 to 12, 35 to 25, 40 beyond.
    *((ec9.heat_affected_reach, {"t": t}, b)
      for t, b in ((3.0, 20.0), (6.0, 20.0), (6.01, 30.0), (12.0, 30.0), (12.01, 35.0), (25.0, 35.0), (25.01, 40.0))),
    # EN 1999-1-1 6.3.1.2, class B: alpha 0.32, lam_0 0; at 0.9: (1 + 0.288 + 0.81)/2; 1/(1.049 + root of 1.049^2 - 0.81).
    (ec9_buckling.curve_term, {"lam": 0.9}, 1.049),
    (ec9_buckling.reduction, {"phi": 1.049, "lam": 0.9}, 1 / (1.049 + sqrt(0.290401))),
    (ec9_buckling.reduction, {"phi": 0.5, "lam": 0.0}, 1.0),
    (ec9_buckling.strip_slenderness, {"L": 250.0, "t": 10.0, "f_o": 100.0, "E": 70000.0},
     250 / (10 / sqrt(12)) / pi * sqrt(1 / 700)),
    (ec9_buckling.panel_shear_strength, {"b": 240.0, "t": 6.0, "E": 70000.0},
     5.34 * pi**2 * 70000 / 12 / 0.8911 / 1600),
    # IIW: FAT 12 over 1.35 at 10 MPa, two million cycles at the detail's own range, slope 3.
    (iiw.cycles, {"FAT": 12.0, "delta": 10.0}, 2e6 * (12 / 13.5) ** 3),
    (tstub.prying_arm, {"m": 40.0, "d": 12.0}, 34.0),
    (tstub.prying_arm, {"m": 7.5, "d": 12.0}, 1.5),
    (tstub.prying_arm, {"m": 6.5, "d": 12.0}, 1.0),
    (tstub.edge_arm, {"e": 30.0, "b": 40.0, "d": 12.0}, 36.0),
    (tstub.edge_arm, {"e": 60.0, "b": 40.0, "d": 12.0}, 56.0),
    (tstub.net_share, {"d_0": 10.0, "l_eff": 40.0}, 0.75),
    (tstub.prying, {"T": 1000.0, "b": 40.0, "a": 50.0, "M_p": 3e4, "delta": 0.8}, 200.0),
    (tstub.prying, {"T": 3000.0, "b": 40.0, "a": 50.0, "M_p": 3e4, "delta": 0.8}, 480.0),
    (tstub.prying, {"T": 500.0, "b": 40.0, "a": 50.0, "M_p": 3e4, "delta": 0.8}, 0.0),
    (tstub.bolt_length, {"m": 10.0, "e": 20.0, "rows": 500.0}, 52.5),
    (tstub.bolt_length, {"m": 40.0, "e": 10.0, "rows": 500.0}, 96.25),
    (tstub.bolt_length, {"m": 1.0, "e": 100.0, "rows": 500.0}, 2 * pi),
    (tstub.bolt_length, {"m": 10.0, "e": 1.0, "rows": 500.0}, 21.625),
    (tstub.bolt_length, {"m": 10.0, "e": 20.0, "rows": 30.0}, 30.0),
    (ec3.practice_edge, {"d": 10.0}, 15.0),
    (ec3.practice_pitch, {"d": 10.0}, 30.0),
    (ec3.shear_tension_interaction, {"F_v_Ed": 1.0, "F_v_Rd": 4.0, "F_t_Ed": 7.0, "F_t_Rd": 10.0}, 0.75),
    *((ec.end_bolt_alpha, {"e_1": 24.0, "d_0": 10.0}, 0.8) for ec in (ec3, ec9)),
    *((ec.inner_bolt_alpha, {"p_1": 30.0, "d_0": 10.0}, 0.75) for ec in (ec3, ec9)),
    (ec9.fillet_stress, {"sigma_perp": 2.0, "tau_perp": 1.0, "tau_par": 2.0}, sqrt(19)),
    (ec9.weld_strength, {"f_w": 100.0}, 80.0),
    (ec9.longitudinal_fillet_resistance, {"f_w": 100.0, "a": 4.0, "L": 10.0}, 3200 / sqrt(3)),
    (ec9.transverse_fillet_resistance, {"f_w": 100.0, "a": 4.0, "L": 10.0}, 3200 / sqrt(2)),
    (aisc.plate_thickness, {"m": 20.0, "p": 8.0, "f_y": 200.0, "gamma_M": 1.25}, 20 * sqrt(0.1)),
    (aisc.elastic_plate_thickness, {"m": 20.0, "p": 8.0, "f_y": 200.0, "gamma_M": 1.25}, 20 * sqrt(0.15)),
    (aisc.plate_pressure_resistance, {"m": 20.0, "t": 10.0, "f_y": 200.0, "gamma_M": 1.25}, 20.0),
    (aisc.tension_strength_with_shear, {"F_nt": 600.0, "F_nv": 400.0, "f_rv": 100.0}, 580.0),
    (aisc.tension_strength_with_shear, {"F_nt": 600.0, "F_nv": 400.0, "f_rv": 50.0}, 600.0),
    (asme_b1.tensile_stress_area, {"D": 12.7, "p": 25.4 / 13}, pi / 4 * (12.7 - 0.9743 * 25.4 / 13) ** 2),
    (asme_b1.minor_area, {"D": 12.7, "p": 2.0}, pi / 4 * (12.7 - 2.38157) ** 2),
    (iso898.tensile_stress_area, {"d": 12.0, "P": 1.75}, 84.2665),
    (iso898.minor_area, {"d": 12.0, "P": 1.75}, pi / 4 * 9.85298**2),
    (iso898.clamp_load, {"F_p": 1000.0}, 750.0),
    (shigley.nut_factor, {"d_m": 11.0, "d": 12.0, "tan_lambda": 0.05, "f": 0.15, "f_c": 0.12},
     11 / 24 * (0.05 + 0.3 / sqrt(3)) / (1 - 0.015 / sqrt(3)) + 0.075),
    (d510.gross_bending_stress, {"F_bS": 300.0, "t": 30.0}, 2.0),
    (d510.gross_stress, {"m": -300.0, "t": 30.0}, 2.0),
    (d510.allowable_stress, {"F_b": 2.0, "C_D": 1.25, "C_M": 0.8}, 2.0),
    (tstub.mode_1, {"M_p": 3e4, "m": 40.0}, 1500.0),
    (tstub.mode_2, {"M_p": 3e4, "F_t": 1000.0, "m": 40.0, "n": 60.0}, 900.0),
    (tstub.plate_moment, {"l_eff": 100.0, "t": 10.0, "f_y": 110.0, "gamma": 1.1}, 250_000.0),
]  # fmt: skip
WOOD: list[Row] = [
    # EN 1995-1-1 8.2.3: 1.15 root of 2 M f d, 2.3 root of M f d; without a pull given there is no rope.
    (ec5_lateral.thin_plate_b, BOLT, 1.15 * ROOT_OF_TWICE),
    (ec5_lateral.thick_plate_d, BOLT, 2.3 * ROOT),
    (ec5_lateral.outer_plates, BOLT | {"t_2": 1000.0, "t_p": 16.0}, 2.3 * ROOT),
    (ec5_lateral.outer_plates, BOLT | {"t_2": 1000.0, "t_p": 8.0}, 1.15 * ROOT_OF_TWICE),
    (ec5_lateral.outer_plates, BOLT | {"t_2": 20.0, "t_p": 16.0}, 4000.0),
    (ec5_lateral.one_plate, BOLT | {"t_1": 500.0, "t_p": 16.0}, 2.3 * ROOT),
    # EN 1995-1-1 8.5, 8.2.3, 10.4.3 and Table 8.4: what is printed there, at round numbers.
    (ec5.washer_bearing_strength, {"f_c_90_k": 2.0}, 6.0),
    (ec5.washer_bearing_resistance, {"f_c_90_k": 2.0, "A_net": 100.0}, 600.0),
    (ec5.design_strength, {"f_k": 20.0, "k_mod": 0.7, "gamma_M": 1.25}, 11.2),
    (ec5.round_net_area, {"D": 40.0, "d_h": 20.0}, 300 * pi),
    (ec5.effective_washer_diameter, {"t": 3.0, "d": 12.0}, 36.0),
    (ec5.effective_washer_diameter, {"t": 6.0, "d": 12.0}, 48.0),
    (ec5.least_washer_side, {"d": 10.0}, 30.0),
    (ec5.least_washer_thickness, {"d": 10.0}, 3.0),
    (ec5.embedment_plywood, {"d": 10.0, "rho_k": 500.0}, 49.5),
    (ec5.embedment_along, {"d": 10.0, "rho_k": 500.0}, 36.9),
    (ec5.grain_factor, {"d": 10.0}, 1.5),
    (ec5.embedment_at_angle, {"f_h_0_k": 30.0, "k_90": 1.5, "alpha": pi / 2}, 20.0),
    (ec5.embedment_at_angle, {"f_h_0_k": 30.0, "k_90": 1.5, "alpha": pi / 4}, 24.0),
    (ec5.yield_moment, {"f_u_k": 400.0, "d": 10.0}, 120 * 10**2.6),
    (ec5.axial_lateral_utilisation, {"F_ax_Ed": 3.0, "F_ax_Rd": 10.0, "F_v_Ed": 8.0, "F_v_Rd": 20.0}, 0.5),
    (ec5.veneer_utilisation, {"sigma": 3.0, "f": 10.0, "tau": 8.0, "f_v": 20.0}, 0.5),
    (ec5_lateral.rope_effect, {"F_J": 1000.0, "F_ax_Rk": 800.0}, 200.0),
    (ec5_lateral.rope_effect, {"F_J": 1000.0, "F_ax_Rk": 2000.0}, 250.0),
    (ec5_lateral.thin_plate_a, {"f_h_k": 25.0, "t_1": 10.0, "d": 16.0}, 1600.0),
    (ec5_lateral.thick_plate_c, BOLT | {"t_1": 10.0}, 4000 * (sqrt(12) - 1)),
    (ec5_lateral.thick_plate_e, {"f_h_k": 25.0, "t_1": 10.0, "d": 16.0}, 4000.0),
    (ec5_lateral.wood_double_h, {"f_h_2_k": 25.0, "t_2": 10.0, "d": 16.0}, 2000.0),
    *((ec5_lateral.between_thin_and_thick, {"F_thin": 100.0, "F_thick": 200.0, "t_p": t, "d": 10.0}, F)
      for t, F in ((4.0, 100.0), (5.0, 100.0), (7.5, 150.0), (10.0, 200.0), (12.0, 200.0))),
    (ec5_spacing.spacing_along, {"d": 10.0, "alpha": pi}, 50.0),
    (ec5_spacing.spacing_across, {"d": 10.0}, 40.0),
    (ec5_spacing.loaded_end, {"d": 10.0}, 80.0),
    (ec5_spacing.loaded_end, {"d": 20.0}, 140.0),
    (ec5_spacing.unloaded_end, {"d": 10.0, "alpha": -pi / 2}, 70.0),
    (ec5_spacing.unloaded_end, {"d": 10.0, "alpha": 0.0}, 40.0),
    (ec5_spacing.loaded_edge, {"d": 10.0, "alpha": -pi / 2}, 40.0),
    (ec5_spacing.loaded_edge, {"d": 10.0, "alpha": 0.0}, 30.0),
    (ec5_spacing.unloaded_edge, {"d": 10.0}, 30.0),
    (ec5_spacing.cross_banded_loaded_edge_floor, {"d": 10.0}, 35.0),
    (ec5_spacing.cross_banded_edge_factor, {"e": 35.0, "d": 10.0}, 0.875),
    (ec5_spacing.cross_banded_edge_factor, {"e": 50.0, "d": 10.0}, 1.0),
    (ec5_spacing.effective_number, {"n": 3.0, "a_1": 65.0, "d": 10.0}, 3**0.9 * 0.5**0.25),
    (ec5_spacing.effective_number, {"n": 3.0, "a_1": 1300.0, "d": 10.0}, 3.0),
    (ec5_spacing.effective_number_at_angle, {"n": 3.0, "n_ef": 2.0, "alpha": pi / 4}, 2.5),
    (nds_groups.load_slip_modulus, {"D": 12.7, "c": 1000.0}, 1000 * 0.5**1.5),
    (nds_groups.load_slip_modulus, {"D": 25.4}, 180_000 * 4.4482216152605 / 25.4),
    (nds_groups.stiffness_ratio, {"EA_m": 4.0, "EA_s": 5.0}, 0.8),
    (nds_groups.stiffness_ratio, {"EA_m": 5.0, "EA_s": 4.0}, 0.8),
    (nds_groups.group_u, {"gamma": 100.0, "s": 40.0, "EA_m": 1e4, "EA_s": 2e4}, 1.3),
    (nds_groups.group_m, {"u": 1.25}, 0.5),
    # m 1/2, n 2: m^n 1/4; (1 + 0.2)(1.5) - 1 + 1/16 = 0.8625; 0.5 x 15/16 / (2 x 0.8625) x 1.8 / 0.5.
    (nds_groups.group_action_factor, {"m": 0.5, "R_EA": 0.8, "n": 2.0}, 0.46875 / 1.725 * 3.6),
    (nds_groups.row_tear_out, {"n": 2.0, "F_v": 1.5, "t": 38.0, "s_crit": 50.0}, 5700.0),
    (nds_groups.group_tear_out, {"Z_RT_first": 100.0, "Z_RT_last": 300.0, "F_t": 4.0, "A_group_net": 50.0}, 400.0),
    (nds_groups.net_strip, {"t": 38.0, "b": 100.0, "n": 2.0, "d_h": 13.0}, 2812.0),
    (nds.bearing_steel, {"F_u": 400.0}, 600.0),
    (tr12.dowel_moment, {"F_yb": 300.0, "D": 10.0}, 50_000.0),
    (tr12.dowel_load, {"A": 1.0, "B": 3.0, "C": 4.0}, 1.0),
    (lag_screws.withdrawal_value, {"G": 0.5, "D": 12.7}, 1800 * 0.5**1.5 * 0.5**0.75 * 4.4482216152605 / 25.4),
    # EN 1995-1-1 8.7.2 (8.38), (8.39) and 8.7.1(3).
    (lag_screws.withdrawal_strength, {"d": 8.0, "l_ef": 40.0, "rho_k": 460.0}, 0.52 * 8**-0.5 * 40**-0.1 * 460**0.8),
    (lag_screws.withdrawal_resistance, {"f_ax_k": 10.0, "d": 6.0, "l_ef": 40.0}, 1800.0),
    (lag_screws.withdrawal_resistance, {"f_ax_k": 10.0, "d": 8.0, "l_ef": 40.0}, 3200.0),
    (lag_screws.withdrawal_resistance, {"f_ax_k": 10.0, "d": 12.0, "l_ef": 40.0}, 4800.0),
    (lag_screws.specific_gravity, {"rho_k": 460.0}, 0.46),
    (lag_screws.thread_in_wood, {"length": 60.0, "t_metal": 5.0, "d": 10.0, "t": 38.0}, 32.0),
    (lag_screws.thread_in_wood, {"length": 30.0, "t_metal": 5.0, "d": 10.0, "t": 38.0}, 19.0),
    (lag_screws.thread_in_wood, {"length": 8.0, "t_metal": 5.0, "d": 10.0, "t": 38.0}, 0.0),
    (lag_screws.root_area, {"d": 10.0}, pi / 4 * 6.9**2),
    (lag_screws.working_diameter, {"d": 10.0}, 7.59),
    (lag_screws.least_thread, {"d": 8.0, "times": 6.0}, 48.0),
    # NDS 2018: 11,200 G and 6,100 G^1.45/sqrt(D) psi; every factor is one unless it is given.
    (nds.bearing_along, {"G": 0.5}, 5600 * PSI),
    (nds.bearing_across, {"G": 0.5, "D": 25.4}, 6100 * 0.5**1.45 * PSI),
    (nds.bearing_across, {"G": 0.5, "D": 12.7}, 6100 * 0.5**1.45 / sqrt(0.5) * PSI),
    (nds.adjusted_value, {"Z": 1000.0}, 1000.0),
    *((nds.adjusted_value, {"Z": 1000.0, c: 0.8}, 800.0) for c in ("C_D", "C_M", "C_t", "C_g", "C_Delta")),
    (nds.bearing_area_factor, {"l_b": 38.1}, 1.25),
    # NDS 2018 12.5.1: l/D of 2 gives 2.5 D, of 6 gives 5 D, straight between; 6 D itself is not beyond it.
    (nds_geometry.end_distance, {"D": 10.0}, 70.0),
    (nds_geometry.loaded_edge, {"D": 10.0}, 40.0),
    (nds_geometry.unloaded_edge, {"D": 10.0}, 15.0),
    *((nds_geometry.edge_along, {"D": 10.0, "l": length, "s_row": s}, e)
      for length, s, e in ((60.0, 40.0, 15.0), (61.0, 40.0, 20.0), (61.0, 20.0, 15.0))),
    *((nds_geometry.row_spacing_across, {"D": 10.0, "l": length}, s)
      for length, s in ((10.0, 25.0), (20.0, 25.0), (40.0, 37.5), (60.0, 50.0), (90.0, 50.0))),
    *((nds_geometry.geometry_factor, {"actual": a, "full": 50.0, "floor": 25.0}, c)
      for a, c in ((60.0, 1.0), (40.0, 0.8), (25.0, 0.5), (25.0 * (1 - 1e-10), 0.5), (25.0 * (1 - 1e-8), 0.0))),
    # FPL-GTR-282: green wood from 25 %; a panel keeps 0.7 of the modulus of its veneers.
    (wood_handbook.at_moisture, {"P_12": 80.0, "P_g": 50.0, "M": 18.0}, 80 * exp(log(1.6) * -6 / 13)),
    (wood_handbook.at_moisture, {"P_12": 80.0, "P_g": 50.0, "M": 25.0}, 50.0),
    (wood_handbook.at_moisture, {"P_12": 80.0, "P_g": 50.0, "M": 12.0}, 80.0),
    (wood_handbook.panel_modulus, {"E_laminated": 10000.0}, 7000.0),
    (wood_handbook.true_modulus, {"E_bending": 10000.0}, 11000.0),
    (wood_handbook.lower_fifth, {"f_mean": 20.0, "V": 0.16}, 20 * (1 - 0.2632)),
    (wood_handbook.mean_face_bearing, {"F_c_perp": 2.0}, 3.34),
]  # fmt: skip


@pytest.mark.parametrize("function, given, expected", METAL + WOOD)
def test_worked_by_hand(function: Callable[..., Any], given: dict[str, float], expected: float) -> None:
    assert function(**given) == pytest.approx(expected, rel=1e-5, abs=1e-12)


def test_modes_without_a_pull_have_no_rope() -> None:
    wood = {"f_h_1_k": 25.0, "f_h_2_k": 25.0, "t_1": 40.0, "t_2": 80.0, "d": 16.0, "M_y_Rk": 1e5}
    assert ec5_lateral.thin_plate_modes(t_1=40.0, **BOLT)["b"] == pytest.approx(1.15 * ROOT_OF_TWICE, rel=1e-9)
    assert ec5_lateral.thick_plate_modes(t_1=40.0, **BOLT)["d"] == pytest.approx(2.3 * ROOT, rel=1e-9)
    assert ec5_lateral.wood_double_modes(**wood)["k"] == pytest.approx(1.15 * ROOT_OF_TWICE, rel=1e-9)
    assert ec5_lateral.wood_single_modes(**wood)["f"] == pytest.approx(1.15 * ROOT_OF_TWICE, rel=1e-9)


def test_without_an_angle_load_acts_along_the_grain_and_members_touch() -> None:
    """K_theta 1: mode I main D l F/4, double shear too; a gap has to be said."""
    m = {"F_em": 30.0, "F_es": 300.0, "F_yb": 5000.0, "l_m": 20.0, "l_s": 40.0, "D": 12.0}
    crushed = 12 * 20 * 30 / 4  # D l F/(4 K_theta)
    assert nds.single_shear_modes(**m)["I_m"] == pytest.approx(crushed)
    assert nds.double_shear_modes(**m)["I_m"] == pytest.approx(crushed)
    assert nds.double_shear(**m) == pytest.approx(crushed)
    least = min(nds.single_shear_modes(**m, K_theta=1.0).values())
    assert nds.single_shear(**m) == pytest.approx(float(least), rel=1e-12)
    assert tr12.single_shear_modes(**m)["I_m"] == pytest.approx(crushed)
    assert tr12.single_shear_modes(**m)["II"] == pytest.approx(float(nds.single_shear_modes(**m)["II"]), rel=1e-9)
    assert tr12.single_shear(**m) == pytest.approx(float(least), rel=1e-9)
