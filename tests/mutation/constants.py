"""Tests chosen at random must fail when what they are about gives the same numbers whatever goes in.

    python tests/mutation/constants.py OUT [--tests 20] [--seed 20]      OUT as coverage_map.py left it
    python tests/mutation/constants.py OUT --every                       all of them; prints those that notice nothing

A test is about the function of the engineering rooms that it names itself; where it names none, about the one in whose
body the name of the check stands that it asks for, in its own row of parameters first; else about one that its helpers name,
else one of the module its file is named after, or one that it runs, by the words its name shares with the test's. Of several the one that the
fewest other tests run. Its stand-in returns what the function would, with every number
in it nought, or one, or with every text in it emptied too: same shape, same kind of record, true or false for a flag, and
no exception. Prints a row for each test.
"""

import argparse
import ast
import dataclasses
import json
import os
import random
import re
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ[name] = "1"
ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

import numpy as np  # noqa: E402 - after the threads are set
from coverage_map import PYTEST, ROOMS  # noqa: E402 - after the path is set
from forked import judge_in_child, living_functions, run_items  # noqa: E402

STANDS_IN = "transom_tests_stand_in"
EMPTY = np.float64(0.0)  # the nought that empties texts too
STANDINS = (0.0, 1.0, EMPTY)


@dataclasses.dataclass(frozen=True)
class Function:
    """A function of the rooms, by file and qualified name, and who runs it."""

    path: str
    name: str
    tests: frozenset[str]
    texts: frozenset[str]

    @property
    def short(self) -> str:
        return f"{self.path.removeprefix('transom/').removesuffix('.py').replace('/', '.')}.{self.name}"


def functions(out: Path) -> Iterator[Function]:
    lines = json.loads((out / "lines.json").read_text())
    for path, of_file in lines.items():
        for name, node in defined(ast.parse((ROOT / path).read_text(encoding="utf-8")), ""):
            body = range(node.body[0].lineno, (node.end_lineno or 0) + 1)
            contexts = {c for n in body for c in of_file.get(str(n), ()) if c.startswith("test ")}
            yield Function(path, name, frozenset(c.removeprefix("test ") for c in contexts), frozenset(texts_in(node)))


def texts_in(node: ast.AST) -> Iterator[str]:
    """Texts in a function's body, or between the gaps of one, that may be the name of a check."""
    yield from (n.value for n in ast.walk(node) if isinstance(n, ast.Constant) and isinstance(n.value, str)
                and len(n.value) > 2 and " " not in n.value)  # fmt: skip


def defined(tree: Any, prefix: str) -> Iterator[tuple[str, ast.FunctionDef]]:
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield prefix + node.name, node
        elif isinstance(node, ast.ClassDef):
            yield from defined(node, f"{prefix}{node.name}.")


@cache
def tree_of(path: str) -> ast.Module:
    return ast.parse((ROOT / path).read_text(encoding="utf-8"))


def node_of(test: str) -> ast.FunctionDef:
    path, _, name = test.partition("::")
    return next(n for _, n in defined(tree_of(path), "") if n.name == name.split("[")[0])


def imported(path: str, package: str) -> dict[str, str]:
    """Names that a file imports from a package, and the modules they come from."""
    imports = (n for n in ast.walk(tree_of(path)) if isinstance(n, ast.ImportFrom))
    return {
        a.asname or a.name: i.module or "" for i in imports if (i.module or "").startswith(package) for a in i.names
    }


def names_in(path: str, node: ast.FunctionDef) -> set[str]:
    """What a function of a test file uses of transom: names its file imports from there, `m.x` of a
    module m; `.x` for an attribute x."""
    ours = imported(path, "transom")
    attributes = [n for n in ast.walk(node) if isinstance(n, ast.Attribute)]
    of_modules = {f"{n.value.id}.{n.attr}" for n in attributes if isinstance(n.value, ast.Name) and n.value.id in ours}
    return names_used(node) & set(ours) | of_modules | {f".{n.attr}" for n in attributes if n.attr not in job_fields()}


@cache
def job_fields() -> frozenset[str]:
    """What a job's own records hold: to name one is not to call a property that bears the same name elsewhere."""
    paths = [p.relative_to(ROOT).as_posix() for p in (ROOT / "transom/job").glob("*records.py")]
    nodes = (n for p in paths for n in ast.walk(tree_of(p)) if isinstance(n, ast.AnnAssign))
    return frozenset(n.target.id for n in nodes if isinstance(n.target, ast.Name))


def names_used(node: ast.FunctionDef) -> set[str]:
    return {n.id for n in ast.walk(node) if isinstance(n, ast.Name)} | {a.arg for a in node.args.args}


def helpers(path: str, node: ast.FunctionDef) -> Iterator[tuple[str, ast.FunctionDef]]:
    """Functions of test files that one names, fixtures among them, and where they stand."""
    away = {n: m.replace(".", "/") + ".py" for n, m in imported(path, "tests").items()}
    for name in sorted(names_used(node)):
        there = away.get(name, path)
        if (ROOT / there).exists():
            yield from (
                (there, n)
                for n in tree_of(there).body
                if isinstance(n, ast.FunctionDef) and n.name == name != node.name
            )


def names_by_depth(test: str, most: int = 3) -> Iterator[set[str]]:
    """What the test names itself, what its helpers name, what theirs do."""
    nodes = [(test.partition("::")[0], node_of(test))]
    for _ in range(most):
        yield set().union(*(names_in(*n) for n in nodes))
        nodes = [h for n in nodes for h in helpers(*n)]


def texts_of_module(test: str) -> list[str]:
    """Texts in the test function, and behind the names of its file that it uses."""
    node, tree = node_of(test), tree_of(test.partition("::")[0])
    behind = [n for n in tree.body if isinstance(n, ast.Assign) and any(isinstance(t, ast.Name) and t.id in names_used(node)
              for target in n.targets for t in ast.walk(target))]  # fmt: skip
    return [t for n in (node, *behind) for t in texts_in(n)]


def subject(test: str, everyone: list[Function]) -> Function:
    file = Path(test.split("::", maxsplit=1)[0])
    run = [f for f in everyone if test in f.tests]
    named, *through = ([f for f in run if is_named(f, names)] for names in names_by_depth(test))
    row = test.partition("[")[2]
    said = (says(run, [row]) if "." in row else []) or says(run, texts_of_module(test))
    beside = [f for f in run if Path(f.path).parent.name == file.parent.name and Path(f.path).stem == file.stem[5:]]
    here = [f for f in said if f in beside]
    found = named or here or said or next((alike(test, fs) for fs in through if fs), []) or alike(test, beside or run)
    return min(found, key=lambda f: (len(f.tests), f.short))


def is_named(f: Function, names: set[str]) -> bool:
    return not names.isdisjoint((f.name, f"{Path(f.path).stem}.{f.name}")) or (
        "." in f.name and f".{f.name.split('.')[-1]}" in names
    )


def says(run: list[Function], asked: list[str]) -> list[Function]:
    """Those in whose body most of what is asked for stands, part.what.rule."""
    said = {f: max((sum(len(part) for part in a.split(".") if any(t in part for t in f.texts)) for a in asked), default=0)
            for f in run}  # fmt: skip
    return [f for f in run if said[f] == max(said.values()) > len("ec5")]


def alike(test: str, of: list[Function]) -> list[Function]:
    """Those whose names share most words with the test's."""
    shared = {f: len(words(test.partition("::")[2].split("[")[0]) & words(f.short)) for f in of}
    return [f for f in of if shared[f] == max(shared.values())]


def words(name: str) -> set[str]:
    """Its words of four letters and more, one and several alike."""
    return {w.rstrip("s") for w in re.split(r"[^a-z]+", name.lower()) if len(w) > len("the")} - {"test"}


def chosen(tests: list[str], n: int, seed: int) -> list[str]:
    """N test functions, and of each one of its parameters' rows."""
    rng = random.Random(seed)
    by_function: dict[str, list[str]] = {}
    for t in sorted(tests):
        by_function.setdefault(t.split("[")[0], []).append(t)
    return [rng.choice(by_function[f]) for f in rng.sample(sorted(by_function), n)]


def like(value: Any, number: float) -> Any:
    """The value with every number in it replaced."""
    import sympy

    if value is None or isinstance(value, str):
        return "" if value is not None and number is EMPTY else value
    if isinstance(value, bool | np.bool_):
        return bool(number)
    if isinstance(value, int | float | np.generic):
        return type(value)(number)
    if isinstance(value, np.ndarray):
        return np.full_like(value, number) if value.dtype.kind in "bifO" else value
    if isinstance(value, sympy.Basic):
        return sympy.Float(number)
    return like_record(value, number)


def like_record(value: Any, number: float) -> Any:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = {f.name: like(getattr(value, f.name), number) for f in dataclasses.fields(value) if f.init}
        return dataclasses.replace(value, **fields)
    if isinstance(value, dict):
        return {k: like(v, number) for k, v in value.items()}
    if isinstance(value, tuple | list):
        return type(value)(like(v, number) for v in value)
    if hasattr(value, "units"):
        return type(value)(number, value.units)
    if hasattr(value, "__next__"):
        return iter([like(v, number) for v in value])
    return value


def apart(value: Any) -> Any:
    """A copy of an array: the function may not change its argument instead of giving an answer."""
    return value.copy() if isinstance(value, np.ndarray) else value


def stand_in(f: FunctionType, number: float) -> CodeType:
    """Code that needs nothing of the function's module."""
    original = FunctionType(f.__code__, f.__globals__, f.__name__, f.__defaults__, f.__closure__)
    original.__kwdefaults__ = f.__kwdefaults__

    def answer(*args: Any, **kwargs: Any) -> Any:
        try:
            return like(original(*map(apart, args), **{k: apart(v) for k, v in kwargs.items()}), number)
        except Exception:
            return number

    module = ModuleType(STANDS_IN)
    module.answer = answer  # type: ignore[attr-defined]
    sys.modules[STANDS_IN] = module
    space: dict[str, Any] = {}
    exec(f"def {f.__name__}(*args, **kwargs):\n    return __import__({STANDS_IN!r}).answer(*args, **kwargs)", space)
    code: CodeType = space[f.__name__].__code__
    return code


class Table:
    """A pytest plugin: instead of running the tests, run the chosen ones with stand-ins and print what became of each."""

    def __init__(self, out: Path, n: int, seed: int, every: bool) -> None:
        self.out, self.n, self.seed, self.every = out, n, seed, every
        self.items: dict[str, Any] = {}

    def pytest_collection_modifyitems(self, items: list[Any]) -> None:
        self.items = {i.nodeid: i for i in items}

    def pytest_runtestloop(self) -> bool:
        everyone, living = list(functions(self.out)), living_functions(ROOT)
        run = {t for f in everyone for t in f.tests}
        known = [t for t in self.items if t in run]
        n = len({t.split("[")[0] for t in known}) if self.every else self.n
        failing = 0
        print("\n| test | is about | with 0 | with 1 | emptied |\n|---|---|---|---|---|")
        for t in chosen(known, n, self.seed):
            f = subject(t, everyone)
            ends = list(self.all_ends(self.items[t], living[str(ROOT / f.path), f.name]))
            failing += "fails" in ends
            if not (self.every and "fails" in ends):
                print(f"| {t.removeprefix('tests/')} | {f.short} | {' | '.join(ends)} |", flush=True)
        print(f"\n{failing} of {n} fail")
        return True

    def all_ends(self, item: Any, functions: list[FunctionType]) -> Iterator[str]:
        """With each stand-in; of every test only until the first that it notices."""
        for number in STANDINS:
            yield (end := self.ends(item, functions, number))
            if self.every and end == "fails":
                return

    def ends(self, item: Any, functions: list[FunctionType], number: float) -> str:
        def work() -> None:
            for f in functions:
                f.__code__ = stand_in(f, number)
            run_items([item], {item.nodeid: 120.0})

        ended = judge_in_child(work, (item.nodeid,))["outcome"]
        return {"survived": "passes", "killed": "fails"}.get(ended, ended)


def main() -> None:
    import pytest

    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("out", type=Path)
    p.add_argument("--tests", type=int, default=20)
    p.add_argument("--seed", type=int, default=20)
    p.add_argument("--every", action="store_true", help="all test functions, one row of parameters of each")
    o = p.parse_args()
    pytest.main([*PYTEST, *(f"tests/{r}" for r in ROOMS)], plugins=[Table(o.out, o.tests, o.seed, o.every)])


if __name__ == "__main__":
    os.chdir(ROOT)
    main()
