"""Which test runs which line of the engineering rooms, recorded once: `python tests/mutation/coverage_map.py OUT`.

With test files named after OUT those alone are run and added to what is recorded: tests written since.

Also measures branch coverage of the rooms by the same tests. What runs while a test file is being read (a job worked
out at its top) is put down to the whole file; caches of the rooms are emptied before each test, so that the second to
use one is put down too.
"""

import gc
import json
import sys
import time
from collections.abc import Callable
from functools import _lru_cache_wrapper
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
ROOMS = ("loads", "statics", "board", "standards", "checks")
BESIDE = ("setup", "judge")  # what some of their tests are about, though it is not mutated
SHARED = ("tests/test_formulas.py", "tests/test_published.py")
PYTEST = ("-q", "-s", "-p", "no:cacheprovider", "-p", "no:xdist", "--hypothesis-seed=0",
          "-W", "ignore::pytest.PytestAssertRewriteWarning")  # fmt: skip


def room_caches() -> list[Any]:
    prefixes = tuple(f"transom.{r}." for r in ROOMS)
    return [o for o in gc.get_objects()
            if isinstance(o, _lru_cache_wrapper) and str(getattr(o, "__module__", "")).startswith(prefixes)]  # fmt: skip


class Recorder:
    """Switches coverage's context from file to file while they are read, then from test to test; times each."""

    def __init__(self, cov: Any) -> None:
        self.cov, self.seconds, self.caches, self.began = cov, {}, [], 0.0
        self.failed: list[str] = []

    def pytest_collectstart(self, collector: Any) -> None:
        if type(collector).__name__ == "Module":
            self.cov.switch_context("file " + collector.nodeid)

    def pytest_collection_finish(self) -> None:
        self.caches = room_caches()

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        self.cov.switch_context("test " + nodeid)
        for c in self.caches:
            c.cache_clear()
        self.began = time.process_time()

    def pytest_runtest_logfinish(self, nodeid: str) -> None:
        self.seconds[nodeid] = time.process_time() - self.began

    def pytest_runtest_logreport(self, report: Any) -> None:
        if report.failed:
            self.failed.append(report.nodeid)


def main(out: Path, more: list[str]) -> int:
    import coverage
    import pytest

    out.mkdir(parents=True, exist_ok=True)
    cov = coverage.Coverage(data_file=None, branch=True, config_file=False,
                            include=[f"{ROOT}/transom/{r}/*" for r in (*ROOMS, *BESIDE)])  # fmt: skip
    cov.exclude("if TYPE_CHECKING:")
    recorder = Recorder(cov)
    cov.start()
    pytest.main([*PYTEST, *(more or [*(f"tests/{r}" for r in ROOMS), *SHARED])], plugins=[recorder])
    cov.stop()
    if recorder.failed:
        print("not recorded: tests fail without a mutant:", *recorder.failed, sep="\n  ")
        return 1
    write(out / "seconds.json", recorder.seconds, bool(more), lambda a, b: b)
    write(out / "lines.json", lines_by_file(cov.get_data()), bool(more), both)
    if not more:
        show(cov)
    return 0


def write(path: Path, new: dict[str, Any], add: bool, merged: Callable[[Any, Any], Any]) -> None:
    known = json.loads(path.read_text()) if add else {}
    path.write_text(json.dumps(known | {k: merged(known[k], v) if k in known else v for k, v in new.items()}))


def both(a: dict[str, list[str]], b: dict[str, list[str]]) -> dict[str, list[str]]:
    """Who runs each line of a file, by either recording."""
    return {n: sorted({*a.get(n, ()), *b.get(n, ())}) for n in {*a, *b}}


def lines_by_file(data: Any) -> dict[str, dict[str, list[str]]]:
    return {
        Path(f).relative_to(ROOT).as_posix(): {str(n): sorted(c) for n, c in data.contexts_by_lineno(f).items()}
        for f in data.measured_files()
    }


def show(cov: Any) -> None:
    """Statements and branches together, by room, as coverage counts its per cent."""
    print("| room | statements | missed | branches | missed | covered |\n|---|---|---|---|---|---|")
    whole = [0, 0, 0, 0]
    for room in ROOMS:
        figures = [0, 0, 0, 0]
        for path in sorted((ROOT / "transom" / room).glob("*.py")):
            n = cov._analyze(str(path)).numbers
            figures = [
                a + b
                for a, b in zip(figures, (n.n_statements, n.n_missing, n.n_branches, n.n_missing_branches), strict=True)
            ]
        whole = [a + b for a, b in zip(whole, figures, strict=True)]
        print(row(room, figures))
    print(row("all", whole))


def row(name: str, f: list[int]) -> str:
    share = 1 - (f[1] + f[3]) / (f[0] + f[2])
    return f"| {name} | {f[0]} | {f[1]} | {f[2]} | {f[3]} | {100 * share:.1f} % |"


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    raise SystemExit(main(Path(sys.argv[1]), sys.argv[2:]))
