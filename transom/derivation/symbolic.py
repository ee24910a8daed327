"""A formula as text: its own function run on SymPy symbols, printed with names or with numbers in their place.

Symbols and numbers go through one expression and one printer, so that terms stand in the same order.
"""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np

from transom.formula import Formula

if TYPE_CHECKING:
    from sympy import Expr

GREEK = (
    "alpha", "beta", "gamma", "delta", "epsilon", "eta", "theta", "lambda", "mu", "nu", "pi", "rho", "sigma", "tau",
    "phi", "psi", "omega", "Delta", "Omega", "Phi", "Psi", "Sigma",
)  # fmt: skip


def traced(formula: Formula, items: Mapping[str, int]) -> "Expr":
    """The formula on symbols of its arguments' names.

    `items`: how many items each listed argument has, `name_1`, `name_2`, ...; one symbol stands for all of
    them where it is zero.
    """
    import sympy
    from sympy.core.parameters import distribute

    def symbol(name: str) -> Any:
        n = items.get(name, 0)
        one = sympy.Symbol(name, real=True)
        return np.array([sympy.Symbol(f"{name}_{i + 1}", real=True) for i in range(n)]) if n else one

    with distribute(False):
        found = formula.function(**{name: symbol(name) for name in formula.parameters})
        expression: Expr = sympy.sympify(np.asarray(found, dtype=object)[()], strict=True)
        return expression


@lru_cache(maxsize=4096)  # the same few constants on line after line
def meant(x: float) -> tuple[int, int, int]:
    """A float that is p/q, p pi/q or p/(q pi) in disguise, as p, q and the power of pi; q is zero where it is none."""
    from fractions import Fraction

    if len(repr(x)) > 12:
        for power in (0, 1, -1):
            r = Fraction(x / np.pi**power).limit_denominator(360)
            if r and abs(float(r) * np.pi**power - x) < 1e-14 * abs(x):
                return r.numerator, r.denominator, power
    return 0, 0, 0


def constant_text(x: float) -> str:
    """A constant as one types it: 0.785398163397448 is pi/4."""
    p, q, power = meant(x)
    if not q:
        return repr(x).removesuffix(".0")
    top = {0: str(p), 1: "pi" if p == 1 else f"{p}*pi", -1: str(p)}[power]
    below = "*".join(t for t in (str(q) if q > 1 else "", "pi" if power < 0 else "") if t)
    return f"{top}/{below if '*' not in below else f'({below})'}" if below else top


def constant_latex(x: float) -> str:
    """A constant in LaTeX."""
    p, q, power = meant(x)
    if not q:
        return repr(x).removesuffix(".0")
    top = {0: str(p), 1: r"\pi" if p == 1 else rf"{p}\pi", -1: str(p)}[power]
    below = (str(q) if q > 1 else "") + (r"\pi" if power < 0 else "")
    return rf"\frac{{{top}}}{{{below}}}" if below else top


def plain_text(expression: "Expr", names: Mapping[str, str]) -> str:
    """The expression in ASCII, as one types it into a calculator: + - * / ^ sqrt() min() max() abs() if(,,) sum()."""
    return str(_plain_printer()(names).doprint(expression))


@lru_cache(maxsize=1)
def _plain_printer() -> Any:
    """The class that prints ASCII with names in their places; made once, and not before SymPy is wanted."""
    import sympy
    from sympy.printing.precedence import PRECEDENCE
    from sympy.printing.str import StrPrinter

    class Printer(StrPrinter):  # type: ignore[misc]
        def __init__(self, names: Mapping[str, str]) -> None:
            super().__init__()
            self.names = names

        def _print_Symbol(self, e: Any) -> str:  # noqa: N802 - SymPy's names
            return self.names.get(e.name, e.name)

        def _print_Float(self, e: Any) -> str:  # noqa: N802 - SymPy's names
            return constant_text(float(e))

        def _print_Pow(self, e: Any, rational: bool = False) -> str:  # noqa: N802 - SymPy's names
            if e.exp.is_negative and e.exp.is_number:
                return f"1/{self.parenthesize(e.base**-e.exp, PRECEDENCE['Pow'])}"
            if e.exp == sympy.S.Half:
                return f"sqrt({self._print(e.base)})"
            return f"{self.parenthesize(e.base, PRECEDENCE['Pow'])}^{self.parenthesize(e.exp, PRECEDENCE['Pow'])}"

        def _call(self, name: str, e: Any) -> str:
            return f"{name}({', '.join(self._print(a) for a in e.args)})"

        def _print_Max(self, e: Any) -> str:  # noqa: N802 - SymPy's names
            return self._call("max", e)

        def _print_Min(self, e: Any) -> str:  # noqa: N802 - SymPy's names
            return self._call("min", e)

        def _print_Abs(self, e: Any) -> str:  # noqa: N802 - SymPy's names
            return self._call("abs", e)

        def _print_Piecewise(self, e: Any) -> str:  # noqa: N802 - SymPy's names
            text = self._print(e.args[-1].expr)
            for arg in reversed(e.args[:-1]):
                text = f"if({self._print(arg.cond)}, {self._print(arg.expr)}, {text})"
            return str(text)

    return Printer


def double_brackets_off(text: str) -> str:
    """One pair of brackets about a negative number is enough."""
    return re.sub(r"\(\((-[0-9.e-]+)\)\)", r"(\1)", text)


def latex_text(expression: "Expr", names: Mapping[str, str]) -> str:
    """The expression in LaTeX."""
    symbols = {s: names.get(s.name, latex_name(s.name)) for s in expression.free_symbols}
    return str(_latex_printer()({"symbol_names": symbols, "mul_symbol": "dot"}).doprint(expression))


@lru_cache(maxsize=1)
def _latex_printer() -> Any:
    """The class that prints LaTeX; made once, and not before SymPy is wanted."""
    from sympy.printing.latex import LatexPrinter

    class Printer(LatexPrinter):  # type: ignore[misc]
        def _print_Float(self, e: Any) -> str:  # noqa: N802 - SymPy's names
            return constant_latex(float(e))

    return Printer


def latex_result(result: str, unit: str) -> str:
    """A result and its unit in LaTeX math."""
    number = latex_number(result) if result[0] in "-0123456789" else rf"\text{{{result}}}"
    return rf"{number}\ \mathrm{{{latex_unit(unit)}}}" if unit else number


def latex_number(text: str) -> str:
    """A number in LaTeX: powers of ten as such."""
    return re.sub(r"e(-?\d+)", r" \\cdot 10^{\1}", text)


def latex_unit(unit: str) -> str:
    """A unit as our formulas write it, in LaTeX."""
    return re.sub(r"\^(\d)", r"^{\1}", unit).replace("*", r"\cdot ")


def latex_name(symbol: str) -> str:
    """A symbol as our ASCII writes it, in LaTeX: `F_ax,Rk` with its index below, Greek letters by name."""
    name, _, again = symbol.partition("[")
    base, _, index = name.partition("_")
    prime = "'" * base.count("'")
    stem = base.replace("'", "")
    stem = f"\\{stem}" if stem in GREEK else stem if len(stem) == 1 else f"\\mathit{{{stem}}}"
    upper = f"^{{({again.rstrip(']')})}}" if again else ""
    if not index:
        return f"{stem}{prime}{upper}"
    inner = re.sub(r"[A-Za-z]+", lambda m: f"\\{m[0]}" if m[0] in GREEK else m[0], index.replace("_", ","))
    return f"{stem}{prime}_{{{inner}}}{upper}"
