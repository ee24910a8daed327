"""Elementary functions that floats, arrays, SymPy expressions and Pint quantities all understand.

A formula that uses only these and the four operations can be computed fast, traced as symbols and
checked for its dimensions. SymPy is imported only on the symbolic branch. The annotations say what a
formula is written for, floats and arrays.
"""

import functools
from collections.abc import Callable
from typing import Any

import numpy as np

from transom.units import Value

PI = float(np.pi)


PAIRWISE = 8  # from so many on `np.sum` adds in pairs
NUMBERS = frozenset({float, int, np.float64})
ARRAY = np.ndarray


def scalar(x: object) -> float:
    """The number in a float, or the first of an array, whatever its shape."""
    return float(np.ravel(np.asarray(x))[0])


def _symbolic(*values: Any) -> bool:
    # Asked of every array a search computes: no generator, and of an array its kind alone.
    for v in values:
        kind = type(v)
        if kind is np.ndarray:
            if v.dtype.char == "O":
                return True
        elif kind not in NUMBERS and hasattr(v, "free_symbols"):
            return True
    return False


def _each(name: str, *values: Any) -> Value:
    """Apply the SymPy function `name` to each element of object arrays, or once to plain symbols."""
    import sympy

    # A root is kept whole: SymPy would spread it over the factors below it.
    roots = {"sqrt": sympy.Rational(1, 2), "cbrt": sympy.Rational(1, 3)}
    function: Callable[..., Any] = getattr(sympy, name)
    if name in roots:
        function = functools.partial(_root, roots[name])
    if name in ("Min", "Max"):
        arrays = np.broadcast_arrays(*(np.asarray(v, dtype=object) for v in values))
        flat = [function(*items, evaluate=False) for items in zip(*(a.ravel() for a in arrays), strict=True)]
    else:
        arrays = np.broadcast_arrays(*(np.asarray(v, dtype=object) for v in values))
        flat = [function(*items) for items in zip(*(a.ravel() for a in arrays), strict=True)]
    if arrays[0].ndim == 0:
        symbol: Value = flat[0]
        return symbol
    out = np.empty(arrays[0].shape, dtype=object)
    out.ravel()[:] = flat
    return out


def _root(power: Any, x: Any) -> Any:
    import sympy

    return sympy.Pow(x, power, evaluate=False)


def _plain(x: Any) -> Value:
    """For the type checker: what a formula is written for, whatever kind of number it is."""
    result: Value = x
    return result


def _unary(name: str, numeric: Callable[[Any], Value], x: Any) -> Value:
    return _each(name, x) if _symbolic(x) else numeric(x)


def sqrt(x: Any) -> Value:
    """Square root."""
    return _unary("sqrt", np.sqrt, x)


def cbrt(x: Any) -> Value:
    """Real cube root of a value that is not negative."""
    return _unary("cbrt", np.cbrt, x)


def sin(x: Any) -> Value:
    """Sine of an angle in radians."""
    return _unary("sin", np.sin, x)


def cos(x: Any) -> Value:
    """Cosine of an angle in radians."""
    return _unary("cos", np.cos, x)


def tan(x: Any) -> Value:
    """Tangent of an angle in radians."""
    return _unary("tan", np.tan, x)


def atan(x: Any) -> Value:
    """Angle in radians whose tangent is x."""
    return _unary("atan", np.arctan, x)


def floor(x: Any) -> Value:
    """The whole number at or below a dimensionless value."""
    return _unary("floor", np.floor, x)


def exp(x: Any) -> Value:
    """Exponential of a dimensionless value."""
    return _unary("exp", np.exp, x)


def log(x: Any) -> Value:
    """Natural logarithm of a dimensionless positive value."""
    return _unary("log", np.log, x)


def absolute(x: Any) -> Value:
    """Magnitude."""
    return _unary("Abs", np.abs, x)


def minimum(a: Any, b: Any) -> Value:
    """The smaller of two values of one dimension."""
    x, y = type(a), type(b)
    # As `_symbolic`, without a call: a search asks for tens of thousands.
    if (a.dtype.char != "O" if x is ARRAY else x in NUMBERS) and (b.dtype.char != "O" if y is ARRAY else y in NUMBERS):
        return np.minimum(a, b)  # type: ignore[no-any-return]
    return _each("Min", a, b) if _symbolic(a, b) else _plain(np.minimum(a, b))


def maximum(a: Any, b: Any) -> Value:
    """The larger of two values of one dimension."""
    x, y = type(a), type(b)
    if (a.dtype.char != "O" if x is ARRAY else x in NUMBERS) and (b.dtype.char != "O" if y is ARRAY else y in NUMBERS):
        return np.maximum(a, b)  # type: ignore[no-any-return]
    return _each("Max", a, b) if _symbolic(a, b) else _plain(np.maximum(a, b))


def positive(x: Any) -> Value:
    """x where it is above zero, else zero of the same dimension (a bare 0 would have none)."""
    if type(x) is ARRAY and x.dtype.char == "d":
        out = np.abs(x)
        out += x
        out *= 0.5
        return out
    if _symbolic(x):
        return _each("Max", x, 0)
    return _plain((x + np.abs(x)) / 2)


def where(condition: Any, a: Any, b: Any) -> Value:
    """A where the condition holds, else b; both are evaluated, so guard the unused one."""
    if _symbolic(a, b) or hasattr(condition, "free_symbols"):
        import sympy

        return _plain(sympy.Piecewise((a, condition), (b, True), evaluate=False))
    return _plain(np.where(condition, a, b)[()])


def total(x: Any) -> Value:
    """Sum over the last axis; of one symbol that stands for a list, the sum over its items."""
    if hasattr(x, "free_symbols"):
        import sympy

        return _plain(sympy.Function("sum", real=True)(x))
    if type(x) is np.ndarray and x.dtype.char != "O" and x.shape[-1] >= PAIRWISE:
        # One after the other: a stack of sheets is then the same to the last bit whatever it is laid out with.
        return _plain(np.cumsum(x, axis=-1)[..., -1])
    return _plain(np.sum(x, axis=-1))


def largest(x: Any) -> Value:
    """The largest over the last axis."""
    if _symbolic(x):
        import sympy

        return _plain(sympy.Max(*x.ravel(), evaluate=False))
    return _plain(np.max(x, axis=-1))
