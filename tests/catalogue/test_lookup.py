"""Finding rows: by name, by size, by power; the shop's rows over the shipped ones."""

import math
from itertools import pairwise
from typing import Any

import pytest

from transom import catalogue
from transom.catalogue import Catalogue, stocked
from transom.errors import JobError, TableError

HP = 745.6998715822702


def test_the_names_a_job_uses_are_there() -> None:
    assert catalogue.sheet("douglas-fir-marine 3/4 in").panel == "douglas-fir-marine"
    assert catalogue.grade("F593C", "1/2-13").f_ub_MPa == 689
    assert catalogue.washer("1/2 wide").size == catalogue.thread("1/2-13").size
    assert catalogue.washer("M12 extra large").OD_mm == 44
    assert catalogue.plate("6061-T6").kind == "aluminium"


@pytest.mark.parametrize(
    ("find", "name", "says"),
    [
        ("sheet", "douglas-fir-marine 3/4in", "nearest is 'douglas-fir-marine 3/4 in'"),
        ("panel", "Okoume", "nearest is 'okoume'"),
        ("panel", "teak", "there is 'douglas-fir-marine', 'okoume', 'exterior-unknown'"),
        ("sheets_of", "okume", "nearest is 'okoume'"),
        ("thread", "1/2-14", "nearest is '"),
        ("washer", "1/2 wid", "nearest is '1/2 wide'"),
        ("plate", "6061T6", "nearest is '6061-T6'"),
        ("nut", "1/2-14", "no thread '1/2-14'"),
        ("head", "M13", "no thread 'M13'"),
        ("bolt_lengths", "M13", "no thread 'M13'"),
        ("washers_for", "M13", "no thread 'M13'"),
        ("adhesive", "structural epoxie", "nearest is 'structural epoxy'"),
        ("preset", "canoe", "no kind of boat 'canoe'"),
    ],
)
def test_an_unknown_name_is_the_jobs_fault_and_names_the_nearest(find: str, name: str, says: str) -> None:
    with pytest.raises(JobError) as caught:
        getattr(catalogue, find)(name)
    assert says in str(caught.value)
    assert "transom materials" in str(caught.value)


def test_an_unknown_factor_is_the_tables_fault() -> None:
    with pytest.raises(TableError, match=r"factors\.toml has no 'thrust\.fm'; nearest is 'thrust\.FM'"):
        catalogue.factor("thrust.fm")


def test_a_grade_is_found_by_size_and_refused_where_it_is_not_made() -> None:
    assert catalogue.grade("8.8", "M16").f_ub_MPa == 800
    assert catalogue.grade("8.8", "M18").f_ub_MPa == 830
    with pytest.raises(JobError, match=r"'F593C' is not made in 3/4-10; in that size there is F593D"):
        catalogue.grade("F593C", "3/4-10")
    with pytest.raises(JobError, match="not made in M12"):
        catalogue.grade("F593C", "M12")
    with pytest.raises(JobError, match="no bolt grade 'F593X'"):
        catalogue.grade("F593X", "1/2-13")


@pytest.mark.parametrize("thread", [t.name for t in catalogue.load("threads")])
def test_every_thread_has_head_nuts_washers_grades_and_lengths(thread: str) -> None:
    d = catalogue.thread(thread).d_mm
    head = catalogue.head(thread)
    assert d < head.AF_mm < 2 * d
    assert catalogue.nut(thread, "lock").height_mm > catalogue.nut(thread).height_mm
    assert all(d < w.ID_mm < 1.35 * d for w in catalogue.washers_for(thread))
    assert len(catalogue.washers_for(thread)) >= 2
    assert catalogue.grades_for(thread)
    lengths = [b.length_mm for b in catalogue.bolt_lengths(thread)]
    assert lengths == sorted(lengths)


def test_a_nut_of_no_kind_is_refused() -> None:
    with pytest.raises(JobError, match="no 'wing' nut for M12"):
        catalogue.nut("M12", "wing")


def test_where_no_proof_load_is_listed_the_proof_stress_stands_in() -> None:
    listed, other = catalogue.grade("8.8", "M12"), catalogue.grade("F593C", "1/2-13")
    assert listed.proof == 580
    assert other.proof == other.f_yb_MPa


def test_thread_length_is_the_reference_length_or_all_of_a_short_bolt() -> None:
    head = catalogue.head("M12")
    assert head.thread_length(100) == 30
    assert head.thread_length(125) == 30
    assert head.thread_length(130) == 36
    assert head.thread_length(25) == 25


def test_sheets_of_a_panel_are_those_a_stack_may_be_made_of_thinnest_first() -> None:
    sheets = catalogue.sheets_of("okoume")
    assert [s.thickness_mm for s in sheets] == sorted(s.thickness_mm for s in sheets)
    assert all(s.plies >= 5 for s in sheets)
    assert "okoume 4 mm" not in {s.name for s in sheets}
    assert not catalogue.sheet("okoume 4 mm").stackable


def test_every_sheet_is_of_a_panel_and_every_panel_has_sheets() -> None:
    panels = {p.name for p in catalogue.load("panels")}
    assert {s.panel for s in catalogue.load("sheets")} == panels
    assert all(s.name == f"{s.panel} {s.nominal}" for s in catalogue.load("sheets"))


def test_a_plate_is_found_by_thickness_else_at_its_weakest() -> None:
    assert catalogue.plate("5083-H116", 6).Fy_MPa == 215
    assert catalogue.plate("5083-H116", 50).Fy_MPa == 200
    assert catalogue.plate("5083-H116").Fy_MPa == 200
    with pytest.raises(JobError, match="no listed strength at 90 mm"):
        catalogue.plate("5083-H116", 90)


def test_beside_a_weld_the_lowest_listed_value_holds() -> None:
    for alloy in {w.alloy for w in catalogue.load("plates_welded")}:
        for t in (3.0, 6.35, 12.7):
            made = [
                w for w in catalogue.load("plates_welded")
                if w.alloy == alloy and w.thickness_min_mm <= t <= w.thickness_max_mm
            ]  # fmt: skip
            found = catalogue.welded(alloy, t)
            assert found.Fu_w_MPa == min(w.Fu_w_MPa for w in made)
            assert found.Fy_w_MPa == min(w.Fy_w_MPa for w in made)
            assert found.Fs_w_MPa == min(w.Fs_w_MPa for w in made)
            assert found.Fy_w_MPa < catalogue.plate(alloy, max(t, 4)).Fy_MPa
            assert found.basis != "typical"
    with pytest.raises(JobError, match="no welded alloy"):
        catalogue.welded("7075-T6", 6)
    with pytest.raises(JobError, match="no listed strength at 100 mm"):
        catalogue.welded("6061-T6", 100)


@pytest.mark.parametrize(
    ("hp", "band"),
    [
        (0.05, "0.1 to 2 hp"), (2.0, "0.1 to 2 hp"), (2.05, "2.1 to 3.9 hp"), (9.9, "7 to 10.9 hp"),
        (10.95, "11 to 22.9 hp"), (40, "35 to 64.9 hp"), (64.9, "35 to 64.9 hp"), (64.95, "65 to 94.9 hp"),
        (209.95, "210 to 300 hp"), (300, "210 to 300 hp"), (300.05, "300.1 to 350 hp"),
        (350, "300.1 to 350 hp"),
    ],
)  # fmt: skip
def test_a_power_in_a_gap_takes_the_heavier_band(hp: float, band: str) -> None:
    assert catalogue.engine_weight(hp * HP).name == band


def test_bands_of_weight_do_not_overlap_and_rise() -> None:
    bands = catalogue.load("engine_weights")
    for low, high in pairwise(bands):
        assert low.power_max_W < high.power_min_W
        assert low.running_kg < high.running_kg


@pytest.mark.parametrize("find", ["engine_weight", "propeller", "gravity", "bracket"])
@pytest.mark.parametrize("power", [0.0, -1.0, math.nan, math.inf, -math.inf])
def test_a_power_that_is_none_is_refused(find: str, power: float) -> None:
    with pytest.raises(JobError, match="not a positive, finite power"):
        getattr(catalogue, find)(power)


def test_an_engine_above_the_table_weighs_in_proportion_and_says_so() -> None:
    last, above = catalogue.engine_weight(350 * HP), catalogue.engine_weight(700 * HP)
    assert above.running_kg == pytest.approx(2 * last.running_kg, rel=1e-6)
    assert above.dry_kg == pytest.approx(2 * last.dry_kg, rel=1e-6)
    assert (above.evidence, above.known_by) == ("estimate", "derived")
    assert "in proportion" in above.source


def test_propellers_are_the_rows_at_their_powers_and_between_them_elsewhere() -> None:
    rows = catalogue.load("propellers")
    assert all(catalogue.propeller(r.power_W) is r for r in rows)
    assert catalogue.propeller(40 * HP).name == "40 hp"
    mid = catalogue.propeller(50 * HP)
    assert mid.name == "between 40 hp and 60 hp"
    assert mid.diameter_mm == pytest.approx(11.5 * 25.4)
    assert mid.blades == 3
    assert catalogue.propeller(1 * HP) is rows[0]
    assert catalogue.propeller(500 * HP) is rows[-1]


def test_the_centre_of_gravity_is_interpolated_by_power() -> None:
    assert catalogue.gravity(40 * HP).x_cg_mm == 220
    assert catalogue.gravity(50 * HP).x_cg_mm == pytest.approx(230)
    assert catalogue.gravity(5 * HP).x_cg_mm == 170
    assert catalogue.gravity(400 * HP).x_cg_mm == 325


def test_the_bolt_pattern_is_assumed_from_30_hp() -> None:
    assert not catalogue.bracket(29.9 * HP).bolted
    assert catalogue.bracket(30 * HP).bolted
    assert catalogue.bracket(30 * HP).thread == "1/2-13"


SHEET: dict[str, Any] = {
    "name": "river-fir 20 mm", "panel": "river-fir", "nominal": "20 mm", "thickness_mm": 19.4, "plies": 7,
    "width_mm": 1220, "length_mm": 2440, "areal_mass_kg_m2": 11,
}  # fmt: skip
PANEL = {k: v for k, v in catalogue.rows("panels")[0].items() if k not in ("source", "evidence", "known_by", "note")}


def test_the_shops_rows_join_the_shipped_ones() -> None:
    mine = stocked({"panels": [{**PANEL, "name": "river-fir"}], "sheets": [SHEET]})
    assert mine.sheet("river-fir 20 mm").thickness_mm == 19.4
    assert mine.sheet("river-fir 20 mm").evidence == "stated"
    assert mine.sheet("river-fir 20 mm").source == "shop.toml"
    assert [s.name for s in mine.sheets_of("river-fir")] == ["river-fir 20 mm"]
    assert mine.sheet("okoume 18 mm") is catalogue.sheet("okoume 18 mm")
    with pytest.raises(JobError):
        catalogue.sheet("river-fir 20 mm")


def test_the_shops_row_takes_the_place_of_the_shipped_one_of_its_name() -> None:
    row = {k: v for k, v in catalogue.rows("sheets")[4].items() if k != "note"}
    mine = stocked({"sheets": [{**row, "thickness_mm": 17.9}]})
    assert mine.sheet(row["name"]).thickness_mm == 17.9
    assert len(mine.rows("sheets")) == len(Catalogue().rows("sheets"))
    assert catalogue.sheet(row["name"]).thickness_mm == 18.26


def test_the_shops_washer_is_found_by_thread() -> None:
    washer = {"name": "1/2 dock", "size": "1/2", "kind": "dock", "ID_mm": 14, "OD_mm": 76, "t_mm": 6}
    assert stocked({"washers": [washer]}).washers_for("1/2-13")[-1].name == "1/2 dock"


@pytest.mark.parametrize(
    ("shop", "says"),
    [
        ({"sheets": [SHEET]}, "shop.toml, row 'river-fir 20 mm', panel: no panel 'river-fir'"),
        (
            {"sheets": [{**SHEET, "panel": "okoume", "plies": 4}]},
            "shop.toml, row 'river-fir 20 mm', plies: 4 is",
        ),
        ({"sheets": [{**SHEET, "thickness_mm": math.nan}]}, "thickness_mm: nan is not finite"),
        ({"sheets": [{"name": "x"}]}, "shop.toml, row 'x', panel: missing"),
        ({"washers": [{"name": "y", "hole": 3}]}, "shop.toml, row 'y', hole: unknown column"),
        ({"factors": []}, "shop.toml, factors: a shop may add rows to panels, sheets, washers only"),
        ({"sheets": ["okoume"]}, "not a table of columns"),
        ({"sheets": "okoume"}, "shop.toml, sheets: not a list of rows"),
    ],
)
def test_the_shops_faults_are_named(shop: dict[str, Any], says: str) -> None:
    with pytest.raises((JobError, TableError)) as caught:
        stocked(shop)
    assert says in str(caught.value)
