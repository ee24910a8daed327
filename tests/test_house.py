"""The house's own rules, read from the code: imports run one way, and arithmetic is registered."""

import ast
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest

from tests.imports import DEVELOPERS, PACKAGE, drawing, drawn, imported_rooms, levels, modules, room, rooms

FORMULA_ROOMS = {"units", "maths", "formula", "errors"}
MAY_IMPORT = {
    "errors": set(),
    "frozen": set(),
    "running": set(),
    "units": set(),
    "maths": {"units"},
    "formula": {"units", "maths"},
    "result": FORMULA_ROOMS,
    "published": FORMULA_ROOMS | {"catalogue"},
    "quantity": FORMULA_ROOMS,
    "catalogue": FORMULA_ROOMS,
    "job": FORMULA_ROOMS | {"quantity", "catalogue"},
    "loads": FORMULA_ROOMS | {"job", "catalogue", "result", "statics"},
    "statics": FORMULA_ROOMS,
    "standards": FORMULA_ROOMS,
    "board": FORMULA_ROOMS | {"statics"},
    "setup": FORMULA_ROOMS | {"job", "catalogue", "result", "loads", "statics", "standards"},
    "checks": FORMULA_ROOMS | {"job", "catalogue", "result", "setup", "loads", "statics", "standards", "board"},
    "interview": {"job", "quantity", "errors"},
    "judge": FORMULA_ROOMS
    | {"job", "catalogue", "result", "setup", "loads", "statics", "standards", "board", "checks"},
    "nesting": FORMULA_ROOMS,
    "derivation": FORMULA_ROOMS
    | {"job", "catalogue", "result", "setup", "loads", "statics", "standards", "board", "checks", "judge"},
    "sizing": FORMULA_ROOMS
    | {"job", "catalogue", "result", "setup", "loads", "statics", "standards", "board", "checks", "judge", "nesting"},
}
MAY_IMPORT["api"] = MAY_IMPORT["sizing"] | {"sizing", "published", "report"}
MAY_IMPORT["chance"] = MAY_IMPORT["judge"] | {"judge"}
MAY_IMPORT["drawing"] = MAY_IMPORT["sizing"] | {"sizing", "quantity", "report", "estimate"}
MAY_IMPORT["estimate"] = MAY_IMPORT["sizing"] | {"sizing"}
MAY_IMPORT["chart"] = MAY_IMPORT["drawing"] | {"drawing"}
MAY_IMPORT["floor"] = MAY_IMPORT["drawing"] | {"drawing", "estimate", "interview", "running"}
MAY_IMPORT["batch"] = MAY_IMPORT["sizing"] | {"sizing", "quantity", "report", "running"}
OPEN = {"report", "cli", "__init__", "__main__"}

# Functions of the engineering rooms that do arithmetic without being a formula, each with its reason.
PLACING = "puts lines, bolts and pads on the plate's grid: where things lie, no engineering number"
NOT_FORMULAS: dict[str, str] = dict.fromkeys(
    (f"checks.careful.{name}" for name in ("_apart", "_bolt", "_lines", "_pad", "_pieces", "_bolts", "board", "corners", "cuts", "moments_at_bolts",
                                           "pushes_low", "extent")),
    PLACING,
) | {
    "checks.abreast._strips": PLACING,
    "checks.abreast._worked": PLACING,
    "checks.instead.plates_of": PLACING,
    "checks.lifting.rests": PLACING,
    "checks.lifting._lifting": "picks the cases that bend the board most: which rows, no engineering number",
}  # fmt: skip


@pytest.mark.parametrize("path", modules(), ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_imports_run_one_way(path: Path) -> None:
    here = room(path)
    if here in OPEN:
        return
    assert here in MAY_IMPORT, f"{here} is a room nobody has placed on the walk"
    found = set(imported_rooms(ast.parse(path.read_text(encoding="utf-8")))) - {here, "__version__"}
    assert found <= MAY_IMPORT[here], f"{here} imports {found - MAY_IMPORT[here]}"


def test_no_room_imports_itself_over_others() -> None:
    assert max(levels(rooms()).values()) > 5
    with pytest.raises(ValueError, match="circle of imports: a > b > a"):
        levels({"a": frozenset({"b"}), "b": frozenset({"a"})})


def test_the_drawing_of_the_rooms_is_the_codes() -> None:
    found = drawn(DEVELOPERS.read_text(encoding="utf-8"))
    assert found == drawing(), (
        "the rooms have changed: run `python tests/imports.py`, which draws them in DEVELOPERS.md"
    )


THIRD_PARTY = {
    "pint": {"quantity"},
    "sympy": {"maths", "formula", "derivation"},
    "rich": {"report", "cli"},
    "typer": {"report", "cli"},
    "click": {"report", "cli"},
    "reportlab": {"drawing", "floor", "report"},
    "ezdxf": {"drawing"},
    "distributed": {"batch"},
    "pyarrow": {"batch"},
}


@pytest.mark.parametrize("path", modules(), ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_third_parties_stay_in_their_rooms(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = [a.name for a in node.names] if isinstance(node, ast.Import) else []
        names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        for name in names:
            allowed = THIRD_PARTY.get(name.split(".")[0])
            assert allowed is None or room(path) in allowed, f"{name} in {room(path)}"


ARITHMETIC = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow, ast.MatMult)


def arithmetic_functions(path: Path) -> Iterator[str]:
    """Functions whose own body (nested functions apart) multiplies, divides, adds or subtracts numbers."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    module = ".".join(path.relative_to(PACKAGE).with_suffix("").parts)
    for node in ast.walk(tree):
        if not isinstance(node, ast.FunctionDef):
            continue
        if any(
            isinstance(d, ast.Call) and isinstance(d.func, ast.Name) and d.func.id == "formula"
            for d in node.decorator_list
        ):
            continue
        operations = [
            n for n in ast.walk(node) if isinstance(n, ast.BinOp) and isinstance(n.op, ARITHMETIC) and not textual(n)
        ]
        if operations:
            yield f"{module}.{node.name}"


def textual(node: ast.BinOp) -> bool:
    """Joining text or tuples is not arithmetic."""
    return any(isinstance(n, ast.JoinedStr | ast.Tuple | ast.List) or
               (isinstance(n, ast.Constant) and isinstance(n.value, str)) for n in ast.walk(node))  # fmt: skip


def test_arithmetic_is_registered_or_listed_with_a_reason() -> None:
    rooms = ("loads", "statics", "standards", "checks")
    found = {f for p in modules() if room(p) in rooms for f in arithmetic_functions(p)}
    assert not found - set(NOT_FORMULAS), f"register or list: {sorted(found - set(NOT_FORMULAS))}"
    assert not set(NOT_FORMULAS) - found, f"no longer there: {sorted(set(NOT_FORMULAS) - found)}"
    assert all(len(reason) > 20 for reason in NOT_FORMULAS.values())


def test_functions_are_short() -> None:
    """Half of them take 12 lines or fewer, in every room that has some."""
    lengths: dict[str, list[int]] = {}
    for path in modules():
        functions = (n for n in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(n, ast.FunctionDef))
        lengths.setdefault(room(path), []).extend((n.end_lineno or 0) - n.lineno + 1 for n in functions)
    assert {name: n for name, n in lengths.items() if n and median(n) > 12 and name not in {"cli", "api"}} == {}
    assert median(n for some in lengths.values() for n in some) <= 12


def test_no_file_is_over_400_lines() -> None:
    tests = (PACKAGE.parent / "tests").rglob("test_*.py")
    long = {p.relative_to(PACKAGE.parent).as_posix(): n for p in (*modules(), *tests)
            if (n := len(p.read_text(encoding="utf-8").splitlines())) > 400}  # fmt: skip
    assert not long
