"""How many small faults in the engineering rooms do their tests notice?

    python tests/mutation/coverage_map.py OUT                       once: which test runs which line
    python tests/mutation/mutate.py OUT --mutants 1500 --seed 10    judges a seeded sample; go on where it stopped
    python tests/mutation/mutate.py OUT --report                    the tables and who survived

A mutant is judged by the tests of its own room, tests/<room>/, and the two files that read every formula, test_formulas
and test_published; of these by what runs the mutated line, quickest first, then by the rest of the files those lie in.
The first failing test kills it; so does a test that takes ten times its time. Nothing on disk changes: one process imports everything and collects all
tests once, then forks for each mutant, and the child puts the mutated code into the living function. Faults in what a
module does while it is imported go into a process that has not imported transom yet.
Judge a checkout that stands still; OUT belongs to one state of it. Needs fork (Linux, macOS).
"""

import argparse
import ast
import json
import os
import random
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ[name] = "1"
ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(Path(__file__).parent)]

from choose import Chooser, Judged  # noqa: E402 - after the path is set
from coverage_map import PYTEST, ROOMS, SHARED  # noqa: E402
from forked import (  # noqa: E402
    judge_in_child,
    living_functions,
    put_into_constant,
    put_into_functions,
    put_into_import,
    run_items,
    watch,
)
from mutants import Mutant, mutants_of, reads  # noqa: E402
from tables import report  # noqa: E402


def all_mutants(rooms: tuple[str, ...] = ROOMS) -> list[Mutant]:
    trees = (ast.parse(p.read_text(encoding="utf-8")) for p in (ROOT / "transom").rglob("*.py"))
    early = set().union(*(reads(t)["import"] for t in trees))
    return [m for r in rooms for p in sorted((ROOT / "transom" / r).glob("*.py")) for m in mutants_of(ROOT, p, early)]


def faults(every: list[Mutant]) -> list[Mutant]:
    """Without what only a generated test reads."""
    return [m for m in every if m.kind != "typical"]


def sample(n: int, seed: int) -> list[Mutant]:
    """The first n of all mutants in an order drawn once: a larger sample holds the smaller one."""
    every = all_mutants()
    return faults(random.Random(seed).sample(every, len(every)))[:n]


class Book:
    """Results as JSON lines; what stands there is not judged again."""

    def __init__(self, path: Path) -> None:
        self.path = path
        lines = path.read_text().splitlines() if path.exists() else []
        self.known = {json.loads(line)["id"] for line in lines}

    def write(self, mutant: Mutant, result: dict[str, Any]) -> None:
        with self.path.open("a") as f:
            f.write(json.dumps(mutant.as_dict() | result) + "\n")


class Server:
    """A pytest plugin: instead of running the tests, judge mutants with them, a fork for each."""

    def __init__(self, jobs: list[Judged], write: Callable[[Mutant, dict[str, Any]], None], identity: bool) -> None:
        self.jobs, self.write, self.identity, self.living = jobs, write, identity, {}
        self.items: dict[str, Any] = {}

    def pytest_collection_modifyitems(self, items: list[Any]) -> None:
        self.items = {i.nodeid: i for i in items}

    def pytest_runtestloop(self) -> bool:
        import gc

        self.living = living_functions(ROOT)
        gc.collect()
        gc.freeze()
        for job in self.jobs:
            self.write(job.mutant, judge_in_child(lambda job=job: self.child(job), job.tests))
        return True

    def child(self, job: Judged) -> None:
        if job.mutant.kind == "constant":
            put_into_constant(ROOT, job.mutant, self.identity)
        else:
            put_into_functions(ROOT, self.living, job.mutant, self.identity)
        run_items([self.items[t] for t in job.tests if t in self.items], job.limits)


class Chosen:
    """A pytest plugin for a process of its own: the chosen tests in their order, each with its limit."""

    def __init__(self, job: Judged) -> None:
        self.job, self.by = job, ""

    def pytest_collection_modifyitems(self, items: list[Any]) -> None:
        place = {t: i for i, t in enumerate(self.job.tests)}
        items[:] = sorted((i for i in items if i.nodeid in place), key=lambda i: place[i.nodeid])

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        watch(self.job.limits.get(nodeid, 60.0))

    def pytest_runtest_logreport(self, report: Any) -> None:
        if report.failed:
            self.by = report.nodeid
            raise SystemExit(self.by)


def in_process_of_its_own(job: Judged, identity: bool) -> None:
    import pytest

    put_into_import(ROOT, job.mutant, identity)
    watch(90.0)
    files = list(dict.fromkeys(t.split("::")[0] for t in job.tests))
    tests = Chosen(job)
    code = pytest.main([*PYTEST, *files], plugins=[tests])
    if code == pytest.ExitCode.NO_TESTS_COLLECTED:
        raise RuntimeError("none of the tests was collected")
    if code != pytest.ExitCode.OK:
        raise SystemExit(tests.by or f"pytest ended with {code}")


def preimport() -> None:
    """What tests import and no mutant can touch; compiled files go beside the results."""
    import hypothesis
    import numpy
    import pint
    import pydantic
    import pytest
    import scipy.sparse.linalg
    import sympy

    assert all((hypothesis, numpy, pint, pydantic, pytest, scipy, sympy))


def judge_all(jobs: list[Judged], write: Callable[[Mutant, dict[str, Any]], None], identity: bool = False) -> None:
    """First those in living functions, in a child that imports transom; then the others from here, which never does."""
    import pytest

    untested = [j for j in jobs if not j.tests]
    for j in untested:
        write(j.mutant, {"outcome": "no test runs it", "by": "", "cpu": 0.0})
    living = [j for j in jobs if j.tests and not j.at_import]
    if living and (pid := os.fork()):
        os.waitpid(pid, 0)
    elif living:
        pytest.main([*PYTEST, *(f"tests/{r}" for r in ROOMS), *SHARED], plugins=[Server(living, write, identity)])
        os._exit(0)
    for job in (j for j in jobs if j.tests and j.at_import):
        write(job.mutant, judge_in_child(lambda job=job: in_process_of_its_own(job, identity), job.tests))


def options() -> argparse.Namespace:
    p = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    p.add_argument("out", type=Path)
    p.add_argument("--mutants", type=int, default=1500)
    p.add_argument("--seed", type=int, default=10)
    p.add_argument("--control", type=int, default=0, help="so many runs without a fault: none may be killed")
    p.add_argument(
        "--most",
        type=float,
        default=12.0,
        help="seconds of tests for one mutant, as recorded; slow ones drop out first",
    )
    p.add_argument("--again", type=Path, help="judge again what survived in this file of results")
    p.add_argument("--report", action="store_true")
    return p.parse_args()


def chosen(o: argparse.Namespace) -> Iterator[Mutant]:
    if not o.again:
        yield from sample(o.control or o.mutants, o.seed)
        return
    rows = [json.loads(line) for line in o.again.read_text().splitlines()]
    alive = {r["id"] for r in rows if r["outcome"] in ("survived", "no test runs it")}
    yield from (m for m in faults(all_mutants()) if m.id in alive)


def main() -> int:
    o = options()
    kind = "control" if o.control else "again" if o.again else "results"
    book = Book(o.out / f"{kind}-{o.seed}.jsonl")
    if o.report:
        report(book.path, faults(all_mutants()))
        return 0
    sys.dont_write_bytecode, sys.pycache_prefix = False, str(o.out.resolve() / "compiled")
    preimport()
    chooser = Chooser(ROOT, o.out, o.most)
    jobs = [chooser.judged(m) for m in chosen(o) if m.id not in book.known]
    judge_all(jobs, book.write, identity=bool(o.control))
    report(book.path, faults(all_mutants()))
    return 0


if __name__ == "__main__":
    os.chdir(ROOT)
    raise SystemExit(main())
