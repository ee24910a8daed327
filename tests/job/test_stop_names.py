"""The stops that a job may accept are the stops that a judgement can raise."""

import ast
from pathlib import Path

from transom.job import stop_names

SOURCE = Path(__file__).parents[2] / "transom" / "judge" / "stops.py"


def raised() -> dict[str, bool]:
    """Name of every stop in the judge's room, and whether it is yielded there as final.

    They stand as the first of a tuple with what the stop says, or with finality third.
    """
    found: dict[str, bool] = {}
    for node in ast.walk(ast.parse(SOURCE.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Tuple) or len(node.elts) < 2:
            continue
        first, last = node.elts[0], node.elts[-1]
        if isinstance(first, ast.Constant) and isinstance(first.value, str):
            found[first.value] = isinstance(last, ast.Constant) and last.value is True
    return found


def test_both_rooms_know_the_same_stops() -> None:
    assert raised() == dict.fromkeys(stop_names.FINAL, True) | dict.fromkeys(stop_names.PASSABLE, False)


def test_no_stop_is_both() -> None:
    names = (*stop_names.FINAL, *stop_names.PASSABLE)
    assert len(set(names)) == len(names)
