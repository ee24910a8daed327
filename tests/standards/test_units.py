"""Every registered resistance: Pint gives the declared unit and the plain magnitude; arrays broadcast."""

import importlib
import pkgutil

import numpy as np
import pint
import pytest

import transom.standards
from transom.formula import Formula, formulas

for module in pkgutil.iter_modules(transom.standards.__path__):
    importlib.import_module(f"transom.standards.{module.name}")

UREG = pint.UnitRegistry()
RANGES = {
    "": 0.55, "rad": 0.6, "mm": 40.0, "mm^2": 300.0, "mm^3": 3000.0, "N": 4000.0, "N/mm^2": 20.0,
    "N*mm": 50000.0, "kg/m^3": 450.0, "N/mm": 1000.0, "1/mm": 0.05, "mm/N": 2e-4,
}  # fmt: skip
OURS = {name: f for name, f in formulas().items() if name.startswith("standards.")}


def values(f: Formula) -> dict[str, float]:
    return {name: f.typical.get(name, RANGES[unit.text]) for name, unit in f.parameters.items()}


@pytest.mark.parametrize("name", sorted(OURS))
def test_pint_gives_the_declared_unit_and_the_plain_magnitude(name: str) -> None:
    f = OURS[name]
    plain = values(f)
    quantities = {k: UREG.Quantity(v, f.parameters[k].text or "dimensionless") for k, v in plain.items()}
    got = UREG.Quantity(f.function(**quantities))
    assert got.to(f.returns.text or "dimensionless").magnitude == pytest.approx(f.function(**plain), rel=1e-12)


SUMS = {name for name, f in OURS.items() if any(u.vector for u in f.parameters.values())}


@pytest.mark.parametrize("name", sorted(set(OURS) - SUMS))
def test_arrays_of_candidates_and_cases_give_what_scalars_give(name: str) -> None:
    f = OURS[name]
    plain = values(f)
    shapes = [(3, 1), (1, 4)]
    arrays = {k: np.full(shapes[i % 2], v) for i, (k, v) in enumerate(plain.items())}
    got = np.broadcast_to(f.function(**arrays), (3, 4))
    np.testing.assert_allclose(got, f.function(**plain), rtol=1e-12)
    moved = [f.function(**plain | {k: times * v}) for k, v in plain.items() for times in (0.98, 10.0)]
    assert any(m != f.function(**plain) for m in moved), "no argument moves it"
