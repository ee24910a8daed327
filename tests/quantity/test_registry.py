"""The registry: published factors, every unit of a formula's signature, and nothing left behind.

Factors: NIST SP 811 (2008), appendix B.8, to the seven figures it prints (exact ones in full); metric
horsepower also DIN 66036. The figures are written from memory; the definitions that ship with Pint are the
second witness.
"""

import json
import os
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest

import transom.units
from transom.quantity import read, registry
from transom.quantity.definitions import DEFINITIONS, celsius, factor
from transom.quantity.kinds import KINDS
from transom.units import Unit, unit_of

EXACT = [
    ("1 in", "length", 25.4),
    ("1 ft", "length", 304.8),
    ("1 yd", "length", 914.4),
    ("1 lb", "mass", 0.45359237),
    ("1 oz", "mass", 0.028349523125),
    ("1 lbf", "force", 4.4482216152605),
    ("1 kgf", "force", 9.80665),
    ("1 mph", "speed", 0.44704),
    ("1 ft/s", "speed", 0.3048),
    ("1 PS", "power", 735.49875),
    ("1 sq in", "area", 645.16),
    ("212 F", "temperature", 100.0),
    ("1 kgf-m", "torque", 9806.65),
]

SEVEN_FIGURES = [
    ("1 hp", "power", "7.456999E+02"),
    ("1 psi", "stress", "6.894757E-03"),
    ("1 ksi", "stress", "6.894757E+00"),
    ("1 kip", "force", "4.448222E+03"),
    ("1 kn", "speed", "5.144444E-01"),
    ("1 km/h", "speed", "2.777778E-01"),
    ("1 lbf-ft", "torque", "1.355818E+03"),
    ("1 lbf-in", "torque", "1.129848E+02"),
    ("1 deg", "angle", "1.745329E-02"),
    ("1 rpm", "rotation", "1.666667E-02"),
    ("1 lb/ft2", "area_density", "4.882428E+00"),
    ("1 oz/yd2", "area_density", "3.390575E-02"),
    ("1 sq ft", "area", "9.290304E+04"),
]


@pytest.mark.parametrize("text, kind, expected", EXACT)
def test_exact_factors(text: str, kind: str, expected: float) -> None:
    assert read(text, kind) == expected


@pytest.mark.parametrize("text, kind, printed", SEVEN_FIGURES)
def test_factors_to_the_figures_printed(text: str, kind: str, printed: str) -> None:
    assert f"{read(text, kind):.6E}" == printed


def test_horsepower_is_550_foot_pounds_a_second() -> None:
    assert read("1 hp", "power") == pytest.approx(745.69987158, abs=5e-9)


def test_a_second_witness_for_every_unit() -> None:
    """The default definitions of Pint, in whose names ours are written; a revolution there is 2 pi rad."""
    import pint

    theirs = pint.UnitRegistry()
    names = {"kip": "kip", "kph": "kph", "rps": "1/second", "rpm": "1/minute", "kilogram_force": "kgf"}
    for kind in KINDS.values():
        if kind.working == "degC":
            continue
        for unit in kind.units:
            expected = theirs.Quantity(1.0, names.get(unit, unit)).to(kind.working).magnitude
            assert float(factor(unit, kind.working)) == pytest.approx(expected, rel=1e-12), unit


def test_our_own_reading_of_the_definitions_is_pint_s() -> None:
    """Also that each unit is of its kind's dimension, which our reader does not ask."""
    for kind in KINDS.values():
        for unit in kind.units:
            if kind.working == "degC":
                assert registry().Quantity(1.0, unit).is_compatible_with("kelvin")
                continue
            expected = registry().Quantity(1.0, unit).to(kind.working).magnitude
            assert float(factor(unit, kind.working)) == pytest.approx(expected, rel=1e-15, abs=0), unit


@pytest.mark.parametrize("unit", KINDS["temperature"].units)
def test_our_own_temperatures_are_pint_s(unit: str) -> None:
    for tenths in range(-4600, 9000, 7):
        theirs = registry().Quantity(tenths / 10, unit).to("degC").magnitude
        assert celsius(Fraction(tenths, 10), unit) == round(theirs, 12)


def test_a_factor_is_exact_where_floats_in_a_row_leave_dust() -> None:
    assert factor("foot**2", "millimeter**2") == Fraction("92903.04")
    assert registry().Quantity(1.0, "foot**2").to("millimeter**2").magnitude != 92903.04


def test_only_products_of_listed_units_are_read() -> None:
    for unlisted in ("slug", "kilopound", "inches"):
        with pytest.raises(KeyError):
            factor(unlisted, "kilogram")
    for sum_ in ("inch + foot", "inch foot", "(inch)", "inch-foot", "inch**-1"):
        with pytest.raises(ValueError, match="no product"):
            factor(sum_, "millimeter")


UNIT_TEXTS = sorted(
    {unit_of(alias).text for alias in vars(transom.units).values() if getattr(alias, "__metadata__", None)}
)


def test_there_are_unit_texts() -> None:
    assert len(UNIT_TEXTS) > 20
    assert isinstance(Unit(""), Unit)


@pytest.mark.parametrize("text", UNIT_TEXTS)
def test_the_registry_knows_every_unit_of_a_signature(text: str) -> None:
    quantity = registry().Quantity(2.0, text)
    assert (quantity / registry().Quantity(1.0, text)).to("").magnitude == 2.0


def test_the_registry_is_made_once_and_has_no_prefixes() -> None:
    import pint

    assert registry() is registry()
    for unlisted in ("farad", "petasiemens", "kilopound", "MHz", "slug", "turn"):
        with pytest.raises(pint.UndefinedUnitError):
            registry().parse_units(unlisted)


def test_weight_and_force_are_not_the_same_dimension() -> None:
    units = registry()
    assert not units.Unit("lb").is_compatible_with("lbf")
    assert not units.Unit("kg").is_compatible_with("kgf")


def run(code: str, **environment: str) -> str:
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", code],
        capture_output=True,
        text=True,
        check=True,
        cwd=Path(__file__).parents[2],
        env={**os.environ, **environment},
    )
    return done.stdout


def test_reading_writes_nothing_in_the_home(tmp_path: Path) -> None:
    homes = (
        "HOME",
        "USERPROFILE",
        "APPDATA",
        "LOCALAPPDATA",
        "XDG_CACHE_HOME",
        "XDG_CONFIG_HOME",
        "XDG_DATA_HOME",
    )
    code = "from transom.quantity import read; print(read('20 1/2 in', 'length'), read('58 F', 'temperature'))"
    out = run(code, PYTHONDONTWRITEBYTECODE="1", **dict.fromkeys(homes, str(tmp_path)))
    assert out.startswith("520.7 14.44")
    assert list(tmp_path.rglob("*")) == []


def loaded(code: str) -> set[str]:
    return set(json.loads(run(f"{code}\nimport json, sys; print(json.dumps([m.split('.')[0] for m in sys.modules]))")))


def test_showing_imports_neither_pint_nor_numpy() -> None:
    modules = loaded("from transom.quantity import show; assert show.length(520.7, 'us') == '20-1/2 in'")
    assert "transom" in modules
    assert not modules & {"pint", "numpy"}


def test_importing_the_room_does_not_import_pint() -> None:
    assert "pint" not in loaded("import transom.quantity")


def test_the_definitions_are_in_the_package_and_short() -> None:
    lines = [x for x in DEFINITIONS.read_text(encoding="utf-8").splitlines() if x.strip() and x[0] != "#"]
    assert DEFINITIONS.parent == Path(transom.quantity.__file__).parent
    assert len(lines) < 60
