"""Three readings of every registered formula: Pint proves its units, SymPy its trace, arrays its speed.

Generated: a formula is covered as soon as it is registered. These readings catch slips of kN for N and a
hidden division by 1,000; a wrong factor is caught by the published values.
"""

import importlib
import pkgutil
from functools import cache

import numpy as np
import pytest
import sympy

import transom
from transom.formula import Formula, formulas
from transom.quantity import registry
from transom.units import Unit

RANGES = {
    "mm": (20.0, 100.0), "mm^2": (50.0, 500.0), "mm^3": (1e3, 1e4), "mm^4": (1e5, 1e6), "1/mm": (1e-4, 1e-3),
    "N": (1e3, 1e4), "N/mm^2": (5.0, 50.0), "N*mm": (1e5, 1e6), "N*mm^2": (1e9, 1e10), "N/mm": (10.0, 100.0),
    "mm/N": (1e-4, 1e-3), "mm^3/N": (0.1, 1.0), "": (0.2, 0.9), "rad": (0.1, 0.6),
}  # fmt: skip
ROOMS = ("setup", "loads", "statics", "board", "standards", "checks", "estimate")


@cache
def everything() -> dict[str, Formula]:
    for room in ROOMS:
        package = importlib.import_module(f"transom.{room}")
        for module in pkgutil.walk_packages(package.__path__, f"transom.{room}."):
            importlib.import_module(module.name)
    return dict(formulas())


def values(formula: Formula, seed: int = 0, n: int | None = None) -> dict[str, np.ndarray | float]:
    """Arguments within the formula's validity; `n` gives arrays of n where the argument is a scalar."""
    rng = np.random.default_rng(seed)
    out: dict[str, np.ndarray | float] = {}
    for name, unit in formula.parameters.items():
        base = formula.typical.get(name)
        shape = ((n,) if n else ()) + ((4,) if unit.vector else ())
        if base is not None:
            spread = np.asarray(base, dtype=float) * rng.uniform(0.98, 1.02, shape)
        else:
            spread = rng.uniform(*RANGES.get(unit.text, (1.0, 10.0)), shape)
        out[name] = spread if shape else float(spread)
    return out


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "formula" in metafunc.fixturenames:
        found = everything()
        metafunc.parametrize("formula", list(found.values()), ids=list(found))


def unit(text: str) -> object:
    return registry().parse_units(text) if text else registry().dimensionless


def test_there_are_formulas() -> None:
    assert len(everything()) > 100
    assert transom.__version__


def test_pint_reads_the_declared_unit_and_the_same_number(formula: Formula) -> None:
    plain = values(formula)
    quantities = {k: registry().Quantity(v, unit(formula.parameters[k].text)) for k, v in plain.items()}
    expected = formula.function(**plain)
    result = registry().Quantity(formula.function(**quantities))
    # Radians are dimensionless, so an angle may come back as a plain number.
    assert result.is_compatible_with(unit(formula.returns.text)), f"{result.units} is not {formula.returns}"
    np.testing.assert_allclose(result.to(unit(formula.returns.text)).magnitude, expected, rtol=1e-9)


def symbols(name: str, argument: Unit) -> object:
    if argument.vector:
        return np.array([sympy.Symbol(f"{name}_{i}", real=True) for i in range(4)], dtype=object)
    return sympy.Symbol(name, real=True)


def test_sympy_traces_the_same_number(formula: Formula) -> None:
    plain = values(formula, seed=1)
    traced = formula.function(**{k: symbols(k, u) for k, u in formula.parameters.items()})
    numbers: dict[object, float] = {}
    for name, value in plain.items():
        if formula.parameters[name].vector:
            each = {f"{name}_{i}": float(v) for i, v in enumerate(np.ravel(value))}
        else:
            each = {name: float(value)}
        numbers |= {sympy.Symbol(k, real=True): v for k, v in each.items()}
    got = [float(sympy.sympify(e).subs(numbers).evalf()) for e in np.ravel(np.asarray(traced, dtype=object))]
    np.testing.assert_allclose(got, np.ravel(formula.function(**plain)), rtol=1e-9, atol=1e-12)


def test_arrays_give_what_scalars_give(formula: Formula) -> None:
    many = values(formula, seed=2, n=3)
    together = np.asarray(formula.function(**many))
    one_by_one = [formula.function(**{k: np.asarray(v)[i] for k, v in many.items()}) for i in range(3)]
    np.testing.assert_allclose(np.broadcast_to(together, np.shape(one_by_one)), one_by_one, rtol=1e-12)


def test_every_formula_says_what_it_is_and_where_it_comes_from(formula: Formula) -> None:
    assert formula.says.strip(), "no docstring"
    assert len(formula.says) > 10
    assert formula.source
    assert formula.symbol
