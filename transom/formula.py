"""One formula, three readings: the registry of everything that computes an engineering number.

A formula is a plain function of 1 to 15 lines with units in its signature and its source in the
decorator. Floats and arrays make it fast, SymPy symbols print it, Pint quantities prove its
dimensions. The decorator records the function and returns it unchanged.
"""

import inspect
from collections.abc import Callable, Mapping
from dataclasses import field
from functools import cached_property
from typing import Any, TypeVar, get_type_hints

from transom.frozen import dataclass
from transom.units import Unit, unit_of

EVIDENCE = ("published", "stated", "common practice", "convention", "estimate")
KNOWN_BY = ("read", "transcribed", "memory", "derived", "computed")

F = TypeVar("F", bound=Callable[..., Any])


@dataclass(frozen=True)
class Formula:
    """A registered formula: the function, its symbol, where it is published and how that is known."""

    name: str
    function: Callable[..., Any]
    symbol: str
    source: str
    evidence: str
    known_by: str
    typical: Mapping[str, float] = field(default_factory=dict)

    @cached_property
    def parameters(self) -> dict[str, Unit]:
        """The unit of each argument, in the order of the signature."""
        hints = get_type_hints(self.function, include_extras=True)
        return {name: unit_of(hints[name]) for name in inspect.signature(self.function).parameters}

    @cached_property
    def returns(self) -> Unit:
        """The unit of the result."""
        return unit_of(get_type_hints(self.function, include_extras=True)["return"])

    @property
    def says(self) -> str:
        """The first sentence of the docstring."""
        return (self.function.__doc__ or "").strip().split("\n")[0]


_FORMULAS: dict[str, Formula] = {}


def formula(
    *,
    symbol: str,
    source: str,
    evidence: str = "published",
    known_by: str = "transcribed",
    typical: Mapping[str, float] | None = None,
) -> Callable[[F], F]:
    """Register a function as a formula.

    Args:
        symbol: the result's symbol as the source writes it.
        source: document and clause, table or equation.
        evidence: one of `EVIDENCE`.
        known_by: one of `KNOWN_BY`; "memory" is printed as provisional.
        typical: values that a generated test may use where its usual ranges fall outside the
            formula's validity.

    Raises:
        ValueError: an evidence or known_by that is not one of ours, or a name taken twice.

    It stays the plain function it is; the registry knows where it comes from:

    >>> import transom.standards.ec3
    >>> found = formulas()["standards.ec3.bolt_tension_resistance"]
    >>> found.symbol, found.source
    ('F_t,Rd', 'EN 1993-1-8:2005, Table 3.4')
    >>> round(found.function(f_ub=800.0, A_s=84.3, gamma_M2=1.25))
    48557
    """
    if evidence not in EVIDENCE or known_by not in KNOWN_BY:
        raise ValueError(f"evidence {evidence!r} or known_by {known_by!r} is not one of ours")

    def record(function: F) -> F:
        name = f"{function.__module__.removeprefix('transom.')}.{function.__name__}"
        if name in _FORMULAS and _FORMULAS[name].function.__code__ != function.__code__:
            raise ValueError(f"formula {name} is registered twice")
        _FORMULAS[name] = Formula(name, function, symbol, source, evidence, known_by, dict(typical or {}))
        return function

    return record


def formulas() -> Mapping[str, Formula]:
    """Every formula registered so far, by name `room.module.function`; import its room first."""
    return dict(_FORMULAS)
