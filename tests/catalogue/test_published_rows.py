"""Spot values of the tables against the document each names (a table is looked up, not computed)."""

import pytest

from transom import catalogue

HP = 745.6998715822702
LB = 0.45359237
INCH = 25.4
KSI = 6.894757293168


def test_running_weights_of_33_cfr_183_75() -> None:
    """33 CFR 183.75, column of running weights, lb."""
    for hp, lb in ((2, 32), (9.9, 110), (25, 196), (40, 300), (90, 461), (115, 552), (150, 589), (300, 734)):
        assert catalogue.engine_weight(hp * HP).running_kg == pytest.approx(lb * LB, rel=1e-5)


def test_dry_weight_of_33_cfr_183_75() -> None:
    """33 CFR 183.75: 286 lb dry from 35 to 64.9 hp, a tenth less with a shaft of 20 in or less."""
    band = catalogue.engine_weight(40 * HP)
    assert band.dry_kg == pytest.approx(286 * LB, rel=1e-5)
    assert band.dry_short_kg == pytest.approx(0.9 * band.dry_kg, rel=1e-4)


def test_stress_areas_of_iso_898_1_and_asme_b1_1() -> None:
    """ISO 898-1 nominal; ASME B1.1: 0.1419 in2 for 1/2-13, 0.0775 for 3/8-16, 0.334 for 3/4-10."""
    assert catalogue.thread("M12").A_s_mm2 == 84.3
    assert catalogue.thread("M16").A_s_mm2 == 157
    for thread, inch2 in (("1/2-13", 0.1419), ("3/8-16", 0.0775), ("3/4-10", 0.334)):
        assert catalogue.thread(thread).A_s_mm2 == pytest.approx(inch2 * INCH**2, rel=2e-3)


@pytest.mark.parametrize(
    ("grade", "thread", "tensile", "yields", "proof"),
    [
        ("F593C", "1/2-13", 100, 65, None), ("F593D", "3/4-10", 85, 45, None),
        ("F593F", "1/2-13", 75, 30, None),
        ("F593G", "1/2-13", 100, 65, None), ("F593H", "3/4-10", 85, 45, None),
        ("SAE 2", "1/2-13", 74, 57, 55), ("SAE 5", "1/2-13", 120, 92, 85), ("SAE 8", "1/2-13", 150, 130, 120),
        ("C651", "1/2-13", 70, 55, None),
    ],
)  # fmt: skip
def test_bolt_grades_in_ksi(grade: str, thread: str, tensile: float, yields: float, proof: float | None) -> None:
    """ASTM F593, SAE J429, ASTM F468."""
    row = catalogue.grade(grade, thread)
    assert row.f_ub_MPa == pytest.approx(tensile * KSI, abs=0.6)
    assert row.f_yb_MPa == pytest.approx(yields * KSI, abs=0.6)
    assert row.proof_MPa == (pytest.approx(proof * KSI, abs=0.6) if proof else 0)


def test_bolt_grades_in_mpa() -> None:
    """ISO 898-1 class 8.8 up to M16 and above; ISO 3506-1 A4-70 and A2-50."""
    rows = [catalogue.grade(g, t) for g, t in (("8.8", "M16"), ("8.8", "M20"), ("A4-70", "M12"), ("A2-50", "M12"))]
    assert [(r.f_ub_MPa, r.f_yb_MPa) for r in rows] == [(800, 640), (830, 660), (700, 450), (500, 210)]


def test_washers_of_asme_b18_21_1_and_iso_7093_and_7094() -> None:
    """ASME B18.21.1 Type B 1/2 in: wide 1-3/4, regular 1-1/4; ISO 7093-1 M12 37 x 3; ISO 7094 44 x 4."""
    assert catalogue.washer("1/2 wide").OD_mm == pytest.approx(1.75 * INCH)
    assert catalogue.washer("1/2 regular").OD_mm == pytest.approx(1.25 * INCH)
    assert (catalogue.washer("M12 large").OD_mm, catalogue.washer("M12 large").t_mm) == (37, 3)
    assert (catalogue.washer("M12 extra large").OD_mm, catalogue.washer("M12 extra large").t_mm) == (44, 4)


def test_heads_and_nuts_of_asme_and_iso() -> None:
    """ASME B18.2.1, B18.2.2: 1/2 in, 3/4 across flats, nut 7/16; ISO 4014, 4032: M12, 18, b 30, nut 10.8."""
    assert catalogue.head("1/2-13").AF_mm == pytest.approx(0.75 * INCH)
    assert catalogue.nut("1/2-13").height_mm == pytest.approx(7 / 16 * INCH, abs=0.01)
    assert (catalogue.head("M12").AF_mm, catalogue.head("M12").b_mm) == (18, 30)
    assert catalogue.nut("M12").height_mm == 10.8


@pytest.mark.parametrize("head", catalogue.load("heads"), ids=lambda h: h.thread)
def test_thread_lengths_of_asme_b18_2_1_and_iso_4014(head) -> None:  # type: ignore[no-untyped-def]
    """b = 2 d + 1/4 in up to 6 in long; b = 2 d + 6 mm up to 125 mm."""
    thread = catalogue.thread(head.thread)
    extra = 0.25 * INCH if thread.system == "inch" else 6.0
    assert head.b_mm == pytest.approx(2 * thread.d_mm + extra, abs=0.02)


def test_plates_of_the_aluminum_design_manual() -> None:
    """Aluminum Design Manual Tables A.3.3 and 3.3-1M."""
    rows = {a: catalogue.plate(a, 6) for a in ("6061-T6", "5052-H32", "5083-H116", "5086-H116")}
    assert {a: (r.Fu_MPa, r.Fy_MPa) for a, r in rows.items()} == {
        "6061-T6": (290, 240), "5052-H32": (215, 160), "5083-H116": (305, 215), "5086-H116": (275, 195),
    }  # fmt: skip


def test_welded_plates_of_abs() -> None:
    """ABS HSC 2-5-A1 Table 2, butt-welded."""
    rows = [w for w in catalogue.load("plates_welded") if "ABS" in w.source]
    assert {(w.alloy, w.Fu_w_MPa, w.Fy_w_MPa, w.Fs_w_MPa) for w in rows} == {
        ("5083-H116", 276, 165, 96), ("5083-H321", 276, 165, 96), ("5086-H116", 241, 131, 76),
        ("6061-T6", 165, 138, 83), ("6061-T6", 165, 103, 62),
    }  # fmt: skip


def test_clear_wood_of_the_wood_handbook() -> None:
    """FPL-GTR-282 Table 5-3b, Douglas-fir, Coast, 12 %: 12,400 psi, 1.95e6 psi, 800 psi across."""
    fir = next(s for s in catalogue.load("species") if s.name == "douglas-fir-coast 12 %")
    assert fir.MOR_MPa == pytest.approx(12.4 * KSI, abs=0.01)
    assert fir.MOE_MPa == pytest.approx(1950 * KSI, abs=1)
    assert fir.c_perp_MPa == pytest.approx(0.8 * KSI, abs=0.01)
    assert next(s for s in catalogue.load("species") if s.name == "khaya 12 %").c_perp_MPa is None


def test_sanded_panel_capacities_of_apa_d510() -> None:
    """APA D510 Table 9 (2012), 23/32 in: 320,000/90,500 lb-in2/ft, 775/455 lb-in/ft, 350 lb/ft."""
    row = next(r for r in catalogue.load("d510") if r.name == "23/32 in sanded")
    lbf, foot = 4.4482216152605, 304.8
    assert row.EI_par_N_mm2_mm * foot / (lbf * INCH**2) == pytest.approx(320_000, rel=1e-4)
    assert row.EI_perp_N_mm2_mm * foot / (lbf * INCH**2) == pytest.approx(90_500, rel=1e-4)
    assert row.FbS_par_N_mm_mm * foot / (lbf * INCH) == pytest.approx(775, rel=1e-4)
    assert row.FbS_perp_N_mm_mm * foot / (lbf * INCH) == pytest.approx(455, rel=1e-4)
    assert row.FsIbQ_par_N_mm * foot / lbf == pytest.approx(350, rel=1e-4)


def test_the_b_series_polynomials_at_a_published_point() -> None:
    """Oosterveld & van Oossanen 1975: Z 3, A_E/A_0 0.718, P/D 1, J 0: 0.4566 and 0.0700."""
    series = catalogue.b_series()
    assert (series.KT.C.size, series.KQ.C.size) == (39, 47)
    for p, printed in ((series.KT, 0.4566), (series.KQ, 0.0700)):
        value = (p.C * 0.0**p.s * 1.0**p.t * 0.718**p.u * 3.0**p.v).sum()
        assert value == pytest.approx(printed, abs=5e-5)


def test_the_unknown_panel_is_the_lower_of_the_two_known_ones_times_0_8() -> None:
    rows = {r["name"]: r for r in catalogue.rows("panels")}
    fir, okoume, unknown = (rows[n] for n in ("douglas-fir-marine", "okoume", "exterior-unknown"))
    for column in (c for c in fir if c.endswith(("_MPa", "_m3"))):
        assert unknown[column] == pytest.approx(0.8 * min(fir[column], okoume[column]))


def test_face_bearing_of_fir_from_apa_d510() -> None:
    """APA D510 4.6: 360 psi; ASTM D143 ratio 1.67 and 28 % scatter (FPL-GTR-282 Table 5-6) to a 5 % value."""
    assert catalogue.panel("douglas-fir-marine").f_c_90_k_MPa == pytest.approx(
        0.360 * KSI * 1.67 * (1 - 1.645 * 0.28), abs=5e-3
    )


def test_sheets_of_ps_1_measure_less_than_their_name() -> None:
    """PS 1: the sanded 3/4 in panel is performance category 23/32, 5/8 is 19/32, 1/2 is 15/32."""
    for nominal, category in (("1/2", 15 / 32), ("5/8", 19 / 32), ("3/4", 23 / 32)):
        for panel in ("douglas-fir-marine", "exterior-unknown"):
            sheet = catalogue.sheet(f"{panel} {nominal} in")
            assert sheet.thickness_mm == pytest.approx(category * INCH, abs=0.01)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("k_mod.permanent", 0.50), ("k_mod.long", 0.55), ("k_mod.medium", 0.65), ("k_mod.short", 0.70),
        ("k_mod.instantaneous", 0.90), ("gamma_M.plywood", 1.2), ("gamma_M.connection", 1.3),
        ("gamma_M.accidental", 1.0), ("gamma_M2", 1.25), ("gamma_M1.aluminium", 1.1),
        ("bearing.multiple", 3.0),
    ],
)  # fmt: skip
def test_factors_of_the_eurocodes(name: str, value: float) -> None:
    """EN 1995-1-1 Tables 2.3 and 3.1 (plywood, service class 3), 8.5.2(2); EN 1993-1-8; EN 1999-1-1."""
    assert catalogue.factor(name).value == value


def test_factors_of_49_cfr_393_102() -> None:
    """49 CFR 393.102(a): 0.8 forward, 0.5 rearward, 0.5 to the side."""
    assert [catalogue.factor(f"road.{k}").value for k in ("forward", "rearward", "sideways")] == [
        0.8,
        0.5,
        0.5,
    ]


def test_every_factor_says_what_it_is_and_k_mod_rises() -> None:
    assert all(f.says for f in catalogue.load("factors"))
    k = [catalogue.factor(f"k_mod.{d}").value for d in ("permanent", "long", "medium", "short", "instantaneous")]
    assert k == sorted(k)
