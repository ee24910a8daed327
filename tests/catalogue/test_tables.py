"""Every shipped table: each row says where it comes from, and each kind of bad row is refused by name."""

import tomllib
from dataclasses import fields
from pathlib import Path
from typing import Any

import pytest

from transom import catalogue, formula
from transom.catalogue import schema, tables
from transom.catalogue.schema import Between, columns, plan
from transom.errors import JobError, TableError, TransomError

FOLDER = Path(__file__).parents[2] / "materials"
FAMILIES = catalogue.families()


def written(family: str) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = tomllib.loads((FOLDER / f"{family}.toml").read_text(encoding="utf-8"))["row"]
    return rows


def test_every_file_is_a_family_and_the_reverse() -> None:
    assert {p.stem for p in FOLDER.glob("*.toml")} == set(FAMILIES)


def test_the_readme_explains_every_family_and_column() -> None:
    text = (FOLDER / "README.md").read_text(encoding="utf-8")
    for family in FAMILIES:
        assert f"`{family}`" in text
        assert all(f"`{k}`" in text for k in columns(tables.record(family)))


def test_the_words_for_evidence_are_those_of_the_formulas() -> None:
    assert schema.EVIDENCE == formula.EVIDENCE
    assert schema.KNOWN_BY == formula.KNOWN_BY


@pytest.mark.parametrize("family", FAMILIES)
def test_every_row_loads_as_written_and_says_where_it_comes_from(family: str) -> None:
    rows = written(family)
    assert len(catalogue.load(family)) == len(rows) > 0
    for record, row in zip(catalogue.load(family), rows, strict=True):
        assert {"source", "evidence", "known_by"} <= row.keys()
        assert {k: getattr(record, k) for k in row} == row


@pytest.mark.parametrize("family", FAMILIES)
def test_every_column_of_a_length_stress_or_mass_names_its_unit(family: str) -> None:
    unitless = {
        "plies", "gravity", "alpha_v", "blades", "area_ratio", "gear", "gear_min", "gear_max",
            "value", "low", "high", "cov",
        "C", "s", "t", "u", "v",
        "visit", "amount", "waste", "spares", "spread", "aluminium", "glass",
    }  # fmt: skip
    units = ("_mm", "_mm2", "_MPa", "_kg", "_kg_m2", "_kg_m3", "_W", "_1_s", "_C", "_V", "_N_mm", "_N_mm_mm")
    units += ("_N_mm2_mm", "_h", "_h_m2", "_h_kW", "_N")
    rules = plan(tables.record(family)).rules
    numbers = {k for k, rule in rules.items() if isinstance(rule, Between)}
    assert all(k in unitless or k.endswith(units) for k in numbers)


@pytest.mark.parametrize("family", [f for f in FAMILIES if f not in ("species", "frp", "b_series")])
def test_every_number_has_a_range_that_excludes_its_thousandfold(family: str) -> None:
    """A slip of kN for N, or m for mm, in a table falls outside the range of its column."""
    loose = {"value", "low", "high", "cov", "proof_MPa", "power_min_W", "power_W", "index_V"}
    loose |= {k for k in plan(tables.record(family)).rules if k.startswith(("noble", "active", "EI", "Fb", "Fs"))}
    for record in catalogue.load(family):
        for k, rule in plan(type(record)).rules.items():
            value = getattr(record, k)
            if isinstance(rule, Between) and value and k not in loose:  # a thousand times nothing is nothing
                assert rule.fault(value * 1000 if rule.whole else value * 1000.0)


@pytest.mark.parametrize("family", FAMILIES)
def test_rows_print_in_column_order(family: str) -> None:
    order = list(columns(tables.record(family)))
    assert order[-4:] == ["source", "evidence", "known_by", "note"]
    assert all(list(row) == order for row in catalogue.rows(family))
    assert {f.name for f in fields(tables.record(family))} == set(order)


def test_provisional_rows_are_those_known_by_memory() -> None:
    for family in FAMILIES:
        memory = [r for r in catalogue.rows(family) if r["known_by"] == "memory"]
        assert catalogue.provisional(family) == memory
    assert {r["name"] for r in catalogue.provisional("grades")} == {"A2-70", "A4-70", "A4-80"}


GOOD = {
    "name": "1/2 broad", "size": "1/2", "kind": "broad", "ID_mm": 13.5, "OD_mm": 50.0, "t_mm": 3.0,
    "source": "a drawing", "evidence": "stated", "known_by": "read",
}  # fmt: skip


def toml(rows: list[dict[str, Any]]) -> str:
    lines = []
    for row in rows:
        lines.append("[[row]]")
        lines += [f"{k} = {v if isinstance(v, str) and v in RAW else repr(v)}" for k, v in row.items()]
    return "\n".join(lines).replace("= True", "= true").replace("= False", "= false")


RAW = ("nan", "inf", "-inf", "[1.0]", "{ a = 1 }")


def refused(rows: list[dict[str, Any]], family: str = "washers") -> list[str]:
    with pytest.raises(TableError) as caught:
        tables.parse(family, toml(rows), f"{family}.toml")
    return str(caught.value).splitlines()


def test_the_good_row_is_good() -> None:
    (row,) = tables.parse("washers", toml([GOOD]), "washers.toml")
    assert row.id == "1/2 broad"


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("OD_mm", "nan", "not finite"),
        ("OD_mm", "inf", "not finite"),
        ("OD_mm", "-inf", "not finite"),
        ("OD_mm", -50.0, "outside 2 to 300"),
        ("OD_mm", 0.0, "outside 2 to 300"),
        ("OD_mm", 5000.0, "outside 2 to 300"),
        ("OD_mm", 10**30, "outside 2 to 300"),
        ("OD_mm", "50 mm", "not a number"),
        ("OD_mm", True, "not a number"),
        ("OD_mm", "[1.0]", "not a number"),
        ("OD_mm", "{ a = 1 }", "not a number"),
        ("kind", "", "not text, or empty"),
        ("kind", "  ", "not text, or empty"),
        ("kind", 3, "not text, or empty"),
        ("source", "", "not text, or empty"),
        ("evidence", "hearsay", "none of 'published'"),
        ("evidence", 1, "none of 'published'"),
        ("known_by", "rumour", "none of 'read'"),
        ("ID_mm", 51.0, "not below OD_mm"),
    ],
)
def test_an_unfit_value_is_refused_by_file_row_and_key(key: str, value: Any, says: str) -> None:
    (fault,) = refused([{**GOOD, key: value}])
    assert fault.startswith(f"washers.toml, row '1/2 broad', {key}: ")
    assert says in fault


def test_a_whole_number_serves_a_column_of_real_ones() -> None:
    (row,) = tables.parse("washers", toml([{**GOOD, "OD_mm": 50}]), "washers.toml")
    assert isinstance(row.OD_mm, float)  # type: ignore[attr-defined]


@pytest.mark.parametrize("key", sorted(set(GOOD) - {"name"}))
def test_a_missing_value_is_refused(key: str) -> None:
    (fault,) = refused([{k: v for k, v in GOOD.items() if k != key}])
    assert fault == f"washers.toml, row '1/2 broad', {key}: missing"


def test_a_row_without_its_name_is_refused() -> None:
    assert refused([{k: v for k, v in GOOD.items() if k != "name"}]) == ["washers.toml, row '?', name: missing"]


def test_an_unknown_column_is_refused() -> None:
    assert refused([{**GOOD, "od_mm": 50.0}]) == ["washers.toml, row '1/2 broad', od_mm: unknown column"]


def test_a_name_given_twice_is_refused() -> None:
    assert refused([GOOD, GOOD]) == ["washers.toml, row '1/2 broad', name: given twice"]


def test_all_faults_come_in_one_run() -> None:
    assert len(refused([{**GOOD, "OD_mm": -1.0, "t_mm": "nan"}, {**GOOD, "name": "b", "kind": ""}])) == 3


def test_rows_out_of_order_are_refused() -> None:
    rows = written("gravity")
    (fault,) = refused([rows[1], rows[0]], "gravity")
    assert fault.startswith("gravity.toml, row '10 hp', power_W: ")
    assert "does not follow" in fault


@pytest.mark.parametrize(
    ("family", "index", "change", "key"),
    [
        ("panels", 0, {"f_r_k_MPa": 4.0}, "f_r_k_MPa"),
        ("panels", 0, {"G_trans_MPa": 600.0}, "G_trans_MPa"),
        ("sheets", 0, {"plies": 6}, "plies"),
        ("sheets", 0, {"plies": 5.0}, "plies"),
        ("sheets", 0, {"width_mm": 2900.0}, "width_mm"),
        ("sheets", 0, {"areal_mass_kg_m2": 39.0}, "areal_mass_kg_m2"),
        ("adhesives", 0, {"cure_floor_C": 50.0}, "cure_floor_C"),
        ("adhesives", 0, {"structural": "yes"}, "structural"),
        ("threads", 4, {"A_s_mm2": 93.0}, "A_s_mm2"),
        ("threads", 4, {"A_mm2": 91.5}, "A_mm2"),
        ("grades", 0, {"f_yb_MPa": 700.0}, "f_yb_MPa"),
        ("grades", 0, {"proof_MPa": 500.0}, "proof_MPa"),
        ("grades", 0, {"d_min_mm": 20.0}, "d_min_mm"),
        ("heads", 0, {"b_long_mm": 10.0}, "b_long_mm"),
        ("nuts", 0, {"height_mm": 20.0}, "height_mm"),
        ("plates", 0, {"Fy_MPa": 215.0}, "Fy_MPa"),
        ("plates", 0, {"thickness_min_mm": 90.0}, "thickness_min_mm"),
        ("plates_welded", 0, {"Fy_w_MPa": 300.0}, "Fy_w_MPa"),
        ("plates_welded", 0, {"thickness_max_mm": 0.2}, "thickness_min_mm"),
        ("galvanic", 0, {"active_V": 0.5}, "active_V"),
        ("engine_weights", 6, {"running_kg": 100.0}, "running_kg"),
        ("engine_weights", 6, {"power_min_W": 60000.0}, "power_min_W"),
        ("propellers", 0, {"diameter_mm": 400.0}, "diameter_mm"),
        ("propellers", 0, {"gear": 3.0}, "gear"),
        ("brackets", 0, {"bolted": True}, "bolted"),
        ("brackets", 1, {"lower_down_mm": 40.0}, "upper_down_mm"),
        ("factors", 0, {"value": 0.7}, "value"),
        ("factors", 0, {"unit": "mm"}, "unit"),
        ("factors", 0, {"unit": "furlong"}, "unit"),
        ("epoxy", 5, {"low": 50.0}, "value"),
        ("b_series", 0, {"s": 7}, "s"),
    ],
)
def test_values_that_contradict_each_other_are_refused(
    family: str, index: int, change: dict[str, Any], key: str
) -> None:
    row = written(family)[index]
    faults = refused([{**row, **change}], family)
    assert any(f.startswith(f"{family}.toml, row ") and f", {key}: " in f for f in faults)


def test_half_a_range_is_refused() -> None:
    row = {k: v for k, v in written("factors")[0].items() if k != "high"}
    (fault,) = refused([row], "factors")
    assert fault.endswith(", low: low and high come together")


@pytest.mark.parametrize(
    "text",
    ["", "row = []", "row = 3", "rows = []", "row = [3]", "[[row]]\nname = ", "x = 1\n[[row]]\nname = 'a'"],
)
def test_what_is_no_table_of_rows_is_refused(text: str) -> None:
    with pytest.raises(TableError, match=r"^washers\.toml"):
        tables.parse("washers", text, "washers.toml")


def test_an_unknown_family_names_the_nearest() -> None:
    with pytest.raises(JobError, match="no table 'sheet'; nearest is 'sheets'"):
        catalogue.load("sheet")


def test_errors_are_the_tools_own_and_value_errors() -> None:
    assert issubclass(TableError, TransomError)
    assert issubclass(TableError, ValueError)


def test_a_missing_or_unreadable_file_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tables, "folder", lambda: tmp_path)
    with pytest.raises(TableError, match=r"anodic\.toml is missing"):
        tables.load.__wrapped__("anodic")
    (tmp_path / "anodic.toml").write_bytes(b"\xff\xfe")
    with pytest.raises(TableError, match=r"anodic\.toml cannot be read"):
        tables.load.__wrapped__("anodic")
