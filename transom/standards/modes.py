"""Failure modes of a connection side by side, whatever the document."""

from collections.abc import Mapping

from transom.maths import minimum
from transom.units import Value


def least(modes: Mapping[str, Value]) -> Value:
    """The smallest of the modes in N, elementwise; NaN stays NaN."""
    values = iter(modes.values())
    result = next(values)
    for value in values:
        result = minimum(result, value)
    return result
