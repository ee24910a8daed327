"""Strips, side plates and overhangs worked by hand in round figures: floors, limits, and what each constant is."""

from collections.abc import Callable
from math import pi, sqrt
from typing import Any

import numpy as np
import pytest

from transom.statics import beams, bolt_group, contact, pads, plates, side_plates, strips, welds, wrench

Row = tuple[Callable[..., Any], tuple[float, ...], float]
CONTACT: list[Row] = [
    (contact.foot_pivot, (300.0,), 240.0),
    (contact.top_pivot, (300.0,), 60.0),
    (contact.bearing_height, (300.0, 250.0), 250.0),
    (contact.lever, (240.0, 40.0), 200.0),
    (contact.lever, (40.0, 40.0), 1.0),
    (contact.upper_bolt_tension, (1000.0, -10.0, 20.0, 30.0), 20.0),
    (contact.lower_bolt_tension, (-1000.0, 10.0, 20.0, 30.0), 20.0),
    (contact.prying_factor, (30.0,), 1.5),
    (contact.prying_factor, (90.0,), 1.0),
    (contact.couple_tension, (-1200.0, 30.0), 10.0),
    (contact.bolt_tension, (100.0, 1.5, 10.0), 160.0),
    (plates.plate_overhang, (80.0, 20.0), 30.0),
    (plates.plate_overhang, (80.0, 20.0, 0.5), 35.0),
    (plates.effective_overhang, (6.0, 220.0, 4.0, 1.1), 30.0),
]
STRIPS: list[Row] = [
    (strips.between, (100.0, 250.0), 175.0),
    (strips.width_left, (250.0, 100.0), 150.0),
    (strips.width_left, (100.5, 100.0), 1.0),
    (strips.end_of_lower_strip, (250.0, 200.0), 350.0),
    (strips.strip_length, (450.0, 100.0), 350.0),
    (strips.strip_length, (105.0, 100.0), 20.0),
    (strips.upright_strip_width, (140.0, 600.0), 280.0),
    (strips.upright_strip_width, (140.0, 500.0), 250.0),
    (strips.inside, (500.0, 160.0), 90.0),
    (strips.inside, (300.0, 160.0), 0.0),
    (strips.outside, (300.0, 160.0), 10.0),
    (strips.outside, (500.0, 160.0), 0.0),
    (strips.arm, (300.0, 160.0), 10.0),
    (strips.bending_stiffness, (6000.0, 100.0, 30.0), 6000 * 27000 / 12 * 100),
    (strips.shear_stiffness, (120.0, 100.0, 30.0), 300_000.0),
    (strips.lever_ratio, (300.0, 150.0), 2.0),
    # (1000 x 2 + 3 x 500 x 4)/(2 + 9 x 4 + 5 + 4 x 7)
    (strips.shared_upper_force, (1000.0, 500.0, 3.0, 2.0, 4.0, 5.0, 7.0), 8000 / 71),
    (strips.shared_lower_force, (100.0, 2.0), 200.0),
    (strips.lower_end_force, (100.0, 250.0), 150.0),
    (strips.upright_moment, (-100.0, 200.0), 20_000.0),
    # (4 + 6) x 3 x 100 + 2 x 4 x 50 over (3 + 5)(4 + 6) - 4; then (50 x 4 + 2 q)/(4 + 6)
    (strips.spanned_upper_force, (100.0, 50.0, 3.0, 4.0, 5.0, 6.0, 2.0), 3400 / 76),
    (strips.spanned_lower_force, (50.0, 40.0, 4.0, 6.0, 2.0), 28.0),
    (strips.top_end_force, (100.0, 40.0, 300.0, 150.0, 400.0), 60.0),
    (strips.bottom_end_force, (100.0, 200.0, 100.0, 250.0, 400.0), 100.0),
    (strips.spanned_moment, (-60.0, 100.0, 100.0, 150.0), 15_000.0),
    (strips.spanned_moment, (-60.0, 10.0, 100.0, 150.0), 6_000.0),
    (strips.row_moment, (1000.0, 1500.0, 80.0, 200.0), 200.0),
    (strips.moment_across, (10.0, 30.0, 20.0, 1000.0), 80.0),
    (strips.moment_across, (10.0, 30.0, 60.0, 1000.0), 110.0),
    (strips.moment_across, (90.0, 30.0, 60.0, 1000.0), 140.0),
    (strips.moment_up, (1000.0, 10.0, 100.0), 115.0),
    *((strips.pod_twist_share, (W, 500.0), k)
      for W, k in ((500.0, 0.075), (610.0, 0.075), (680.0, 0.0875), (750.0, 0.1), (820.0, 0.1125))),
    (strips.pod_twist_share, (750.0, 250.0), 0.05),
    (strips.uprights_twist_share, (50.0, 400.0, 250.0), 0.025),
    (strips.skin_twist_share, (250.0,), 0.0175),
    (strips.twisting_moment, (0.1, 1000.0), 100.0),
    (strips.larger_load, (-1000.0, 500.0), 1000.0),
    (strips.larger_load, (100.0, -500.0), 500.0),
    (strips.line_pull, (0.0, 0.0, 1000.0), 900.0),
    (strips.line_pull, (0.0, -3000.0, 1000.0), 1500.0),
    (strips.line_pull, (0.0, 3000.0, 1000.0), 900.0),
    (strips.line_pull, (2000.0, -3000.0, 1000.0), 2000.0),
    (strips.row_force, (1000.0, 300.0), 700.0),
    (strips.both_sides, (700.0,), 1400.0),
    (strips.half, (700.0,), 350.0),
    (strips.reversed_force, (700.0,), -700.0),
    (strips.strip_flexibility, (60.0, 0.0, 400.0, 1e9, 1e5), 3600 * 960 / 6e9 + 60e-5),
    (strips.strip_flexibility, (0.0, 60.0, 400.0, 1e9, 1e5), 3600 * 1320 / 6e9 + 60e-5),
    (strips.upright_flexibility, (200.0, 100.0, 1e9, 1e5), 40_000 * 300 / 3e9 + 600e-5),
]  # fmt: skip
GROUPS: list[Row] = [
    (wrench.moment_about_x, (100.0, 3.0, 5.0, 7.0, 2.0), 100.0 - (35.0 - 6.0)),
    (wrench.moment_about_y, (100.0, 3.0, 5.0, 7.0, 2.0), 100.0 - (6.0 - 35.0)),
    (wrench.moment_about_z, (100.0, 3.0, 5.0, 7.0, 2.0), 100.0 - (35.0 - 6.0)),
    (wrench.mid_thickness_moment_y, (100.0, 4.0, 30.0), 40.0),
    (wrench.mid_thickness_moment_z, (100.0, 4.0, 30.0), 160.0),
    (bolt_group.direct_force, (100.0, 4.0), 25.0),
    (bolt_group.couple_force, (100.0, 3.0, 60.0), 5.0),
    (bolt_group.force_across, (100.0, 60.0, 3.0, 4.0, 60.0), 22.0),
    (bolt_group.force_up, (100.0, 60.0, 3.0, 4.0, 60.0), 28.0),
    (bolt_group.resultant, (3.0, -4.0), 5.0),
    (pads.moment_about_upper_bolts, (1000.0, 10.0, 40.0), 600.0),
    (pads.moment_about_lower_bolts, (1000.0, 10.0, 250.0), 1500.0),
    (pads.edge_distance, (330.0, 50.0), 280.0),
    # 100^2 - 2 x 60,000/(2 x 10) = 4000
    (pads.block_margin, (60_000.0, 100.0, 2.0, 10.0), 4000.0),
    (pads.block_margin, (-60_000.0, 100.0, 2.0, 10.0), 10_000.0),
    (pads.block_height, (64_000.0, 100.0, 2.0, 10.0), 40.0),
    (pads.block_height, (640_000.0, 100.0, 2.0, 10.0), 100.0),
    (pads.block_height_without_tension, (600.0, 2.0, 10.0), 30.0),
    (pads.block_height_without_tension, (-600.0, 2.0, 10.0), 0.0),
    (pads.block_tension, (100.0, 40.0, 2.0, 10.0), 700.0),
    (pads.block_limit, (330.0,), 165.0),
    (pads.partial_contact_pressure, (600.0, 10.0, 100.0, 30.0), 2.0),
    (pads.partial_contact_length, (100.0, 30.0), 60.0),
    (pads.principal_force, (6.0, 4.0), 8.0),
    (pads.greatest_shear_force, (6.0, 4.0), 5.0),
    (pads.centroid_pivot_tension, (600.0, 4.0, 30.0), 5.0),
    (pads.edge_pivot_tension, (600.0, 3.0, 90.0), 20.0),
    (welds.segment_length, (3.0, 4.0), 5.0),
    (welds.unit_polar_moment, (3.0, 4.0), 7.0),
    (welds.ring_second_moment, (2.0,), 8 * pi),
    (welds.line_force_across, (100.0, 50.0, 60.0, 3.0, 90.0), 0.0),
    (welds.line_force_up, (100.0, 50.0, 60.0, 3.0, 90.0), 4.0),
    (welds.line_force_out, (100.0, 50.0, 60.0, 3.0, 90.0, 40.0, 5.0, 100.0), 2.0),
    (welds.vector_sum, (2.0, 3.0, 6.0), 7.0),
    (welds.greatest_shear_per_length, (6.0, 4.0), 5.0),
    (welds.throat, (6.0,), 6 / sqrt(2)),
    (welds.leg, (6.0,), 6 * sqrt(2)),
    (welds.throat_needed, (300.0, 75.0), 4.0),
    (welds.fillet_strength_per_length, (75.0, 6.0), 450 / sqrt(2)),
    (welds.throat_normal_stress, (300.0, 100.0, 4.0), 100 / sqrt(2)),
    (welds.throat_shear_stress, (300.0, 100.0, 4.0), 50 / sqrt(2)),
    (welds.parent_metal_strength_per_length, (75.0, 6.0), 360.0),
    (welds.middle, (10.0, 30.0), 20.0),
    (welds.extent, (10.0, 30.0), 20.0),
]
BEAMS: list[Row] = [
    (beams.cantilever_tip_deflection, (6.0, 100.0, 300.0, 1e6), 8e6 * 6 / 6e6),
    (beams.cantilever_root_moment, (6.0, 100.0), 600.0),
    (beams.cantilever_tip_deflection_uniform, (8.0, 100.0, 1e8), 1.0),
    (beams.cantilever_root_moment_uniform, (8.0, 100.0), 40_000.0),
    (beams.overhang_far_reaction, (100.0, 50.0, 200.0), -25.0),
    (beams.overhang_near_reaction, (100.0, 50.0, 200.0), 125.0),
    (beams.overhang_flexibility, (30.0, 70.0, 3e4), 1.0),
    (beams.overhang_tip_deflection, (5.0, 30.0, 70.0, 3e4), 5.0),
    (beams.overhang_span_deflection, (9.0, 30.0, 100.0, 3e5), 1 / sqrt(3)),
]
PLATES: list[Row] = [
    (side_plates.twist_arm, (150.0, 0.0, 200.0), 100.0),
    (side_plates.twist_arm, (20.0, 0.0, 200.0), 180.0),
    (side_plates.turn_at_face, (100.0, 10.0, 100.0), 105.0),
    (side_plates.sideways_moment, (-100.0, 2.0, 30.0, 130.0), 5000.0),
    (side_plates.half_way, (20.0, 240.0), 130.0),
    (side_plates.upright_moment, (-100.0, 2.0, 30.0), 80.0),
    (side_plates.edge_stress, (1000.0, 1e4, 10.0, 100.0), 1.6),
    (side_plates.sideways_stress, (100.0, 10.0, 50.0), 0.12),
    (side_plates.corner_stress, (1.6, 0.12), 1.72),
    (side_plates.middle_shear, (1000.0, 10.0, 100.0), 1.5),
    (side_plates.used, (30.0, 120.0), 0.25),
    (side_plates.shear_strength, (90.0 * sqrt(3),), 90.0),
    (side_plates.line_of_moment, (1e4, 100.0), 6.0),
    (side_plates.moment_per_length, (500.0, 100.0), 5.0),
    (side_plates.plate_line, (-3.0, 2.0), 5.0),
    (side_plates.pair_line, (10.0, 20.0, 5.0), 9.0),
    (side_plates.single_line, (10.0, 20.0, 5.0, 4.0), 77.5),
    (side_plates.per_face, (-10.0, 2.0), 5.0),
    # 10/5 + 6 x 20/25 = 6.8; 3 x 25/25 = 3
    (side_plates.beside_weld_stress, (-10.0, 3.0, 4.0, 20.0, 5.0), sqrt(6.8**2 + 3.0)),
    (side_plates.clear_arm, (20.0, 10.0), 15.0),
    (side_plates.clear_arm, (10.0, 18.5), 1.0),
    (side_plates.pressed_length, (100.0, 20.0), 60.0),
    (side_plates.pad_push, (1000.0, -6000.0, 30.0), 600.0),
    (side_plates.pad_arm, (20.0, 10.0), 15.0),
    (side_plates.pad_arm, (3.0, 10.0), 0.0),
    (side_plates.distance, (10.0, 25.0), 15.0),
    (side_plates.opposed, (10.0,), -10.0),
    (side_plates.mirrored, (10.0,), -10.0),
    (side_plates.pair, (5.0,), 10.0),
    (side_plates.edge_of, (10.0, 20.0, 1.0), 20.0),
    (side_plates.edge_of, (10.0, 20.0, -1.0), 0.0),
    (side_plates.offset, (10.0, 25.0), -15.0),
    (side_plates.panel_shear, (-100.0, 50.0), 2.0),
    (side_plates.clear_between, (240.0, 10.0), 230.0),
    (side_plates.shear_of, (20.0, 10.0), 2.0),
    (side_plates.cut_middle, (5.0, 200.0, 150.0, 1.0), 30.0),
    (side_plates.cut_middle, (5.0, 200.0, 150.0, -1.0), -20.0),
    (side_plates.clear_of_weld, (40.0, 10.0, 6.0, 12.0), 23.0),
    *((side_plates.counted_leg, legs, h)
      for legs, h in (((6.0, 5.0, 8.0), 5.0), ((6.0, 8.0, 5.0), 5.0), ((4.0, 5.0, 8.0), 4.0))),
]  # fmt: skip


@pytest.mark.parametrize("function, given, expected", CONTACT + STRIPS + GROUPS + BEAMS + PLATES)
def test_worked_by_hand(function: Callable[..., Any], given: tuple[float, ...], expected: float) -> None:
    assert function(*given) == pytest.approx(expected, rel=1e-9, abs=1e-12)


def test_welds_under_many_wrenches_are_each_alone() -> None:
    pair = welds.weld_group(*(np.array(v) for v in ([-50.0, 50.0], [-200.0] * 2, [-50.0, 50.0], [200.0] * 2)))
    many = np.array([[300.0, -500.0, 900.0, 4e4, -3e4, 7e4], [1.0, 2.0, 3.0, 4.0, 5.0, 6.0]])
    for one, both in zip(many, welds.weld_forces(many, pair).out, strict=True):
        assert both == pytest.approx(welds.weld_forces(one, pair).out)
    # The second: 1 N over 800 mm; about y 5 over 2 x 400^3/12, 200 away; about z 6 over 800 x 50^2, 50 away.
    worst = 1 / 800 + 5 * 200 / (400**3 / 6) + 6 * 50 / (800 * 50**2)
    assert np.max(np.abs(welds.weld_forces(many[1], pair).out)) == pytest.approx(worst)
