"""The stops that a job may accept are the stops that a judgement can raise."""

import ast
from pathlib import Path

from transom.job import stop_names

SOURCE = Path(__file__).parents[2] / "transom" / "judge" / "stops.py"


def raised() -> dict[str, bool]:
    """Name of every stop that the judge's room can raise, and whether it is final.

    They are yielded, made as they are found, or chosen by what the plate says: from a table, else the one given to `get`.
    """
    found: dict[str, bool] = {}
    for node in ast.walk(ast.parse(SOURCE.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Yield) and isinstance(node.value, ast.Tuple):
            found |= named(node.value.elts)
        elif isinstance(node, ast.Dict):
            found |= several(node.values)
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Stop":
            found |= named(node.args)
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "get":
            found |= several(node.args)
    return found


def several(values: list[ast.expr]) -> dict[str, bool]:
    """Those of the values that are tuples of a name and what it says."""
    return {k: v for value in values if isinstance(value, ast.Tuple) for k, v in named(value.elts).items()}


def named(parts: list[ast.expr]) -> dict[str, bool]:
    """Name and finality of one stop: its first part, and whether True is among the others."""
    name, final = parts[0], any(isinstance(p, ast.Constant) and p.value is True for p in parts)
    return {name.value: final} if isinstance(name, ast.Constant) and isinstance(name.value, str) else {}


def test_both_rooms_know_the_same_stops() -> None:
    assert raised() == dict.fromkeys(stop_names.FINAL, True) | dict.fromkeys(stop_names.PASSABLE, False)


def test_no_stop_is_both() -> None:
    names = (*stop_names.FINAL, *stop_names.PASSABLE)
    assert len(set(names)) == len(names)
