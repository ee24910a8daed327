"""Elementary functions that floats, arrays, SymPy expressions and Pint quantities all understand.

A formula that uses only these and the four operations can be computed fast, traced as symbols and
checked for its dimensions. SymPy is imported only on the symbolic branch.
"""

from collections.abc import Callable
from typing import Any

import numpy as np

PI = float(np.pi)


def _symbolic(*values: Any) -> bool:
    return any(
        hasattr(v, "free_symbols") or (isinstance(v, np.ndarray) and v.dtype == object) for v in values
    )


def _each(name: str, *values: Any) -> Any:
    """Apply the SymPy function `name` to each element of object arrays, or once to plain symbols."""
    import sympy

    function: Callable[..., Any] = getattr(sympy, name)
    if name in ("Min", "Max"):
        arrays = np.broadcast_arrays(*(np.asarray(v, dtype=object) for v in values))
        flat = [function(*items, evaluate=False) for items in zip(*(a.ravel() for a in arrays), strict=True)]
    else:
        arrays = np.broadcast_arrays(*(np.asarray(v, dtype=object) for v in values))
        flat = [function(*items) for items in zip(*(a.ravel() for a in arrays), strict=True)]
    if arrays[0].ndim == 0:
        return flat[0]
    out = np.empty(arrays[0].shape, dtype=object)
    out.ravel()[:] = flat
    return out


def _unary(name: str, numeric: Callable[[Any], Any], x: Any) -> Any:
    return _each(name, x) if _symbolic(x) else numeric(x)


def sqrt(x: Any) -> Any:
    """Square root."""
    return _unary("sqrt", np.sqrt, x)


def cbrt(x: Any) -> Any:
    """Real cube root of a value that is not negative."""
    return _unary("cbrt", np.cbrt, x)


def sin(x: Any) -> Any:
    """Sine of an angle in radians."""
    return _unary("sin", np.sin, x)


def cos(x: Any) -> Any:
    """Cosine of an angle in radians."""
    return _unary("cos", np.cos, x)


def tan(x: Any) -> Any:
    """Tangent of an angle in radians."""
    return _unary("tan", np.tan, x)


def atan(x: Any) -> Any:
    """Angle in radians whose tangent is x."""
    return _unary("atan", np.arctan, x)


def exp(x: Any) -> Any:
    """Exponential of a dimensionless value."""
    return _unary("exp", np.exp, x)


def log(x: Any) -> Any:
    """Natural logarithm of a dimensionless positive value."""
    return _unary("log", np.log, x)


def absolute(x: Any) -> Any:
    """Magnitude."""
    return _unary("Abs", np.abs, x)


def minimum(a: Any, b: Any) -> Any:
    """The smaller of two values of one dimension."""
    return _each("Min", a, b) if _symbolic(a, b) else np.minimum(a, b)


def maximum(a: Any, b: Any) -> Any:
    """The larger of two values of one dimension."""
    return _each("Max", a, b) if _symbolic(a, b) else np.maximum(a, b)


def positive(x: Any) -> Any:
    """x where it is above zero, else zero of the same dimension (a bare 0 would have none)."""
    return (x + absolute(x)) / 2


def where(condition: Any, a: Any, b: Any) -> Any:
    """A where the condition holds, else b; both are evaluated, so guard the unused one."""
    if _symbolic(a, b) or hasattr(condition, "free_symbols"):
        import sympy

        return sympy.Piecewise((a, condition), (b, True), evaluate=False)
    return np.where(condition, a, b)[()] if np.ndim(condition) == 0 else np.where(condition, a, b)


def total(x: Any) -> Any:
    """Sum over the last axis."""
    return np.sum(x, axis=-1)


def largest(x: Any) -> Any:
    """The largest over the last axis."""
    if _symbolic(x):
        import sympy

        return sympy.Max(*x.ravel(), evaluate=False)
    return np.max(x, axis=-1)
