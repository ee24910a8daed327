"""Which test runs which line of the engineering rooms, recorded once: `python tests/mutation/coverage_map.py OUT`.

Also measures branch coverage of the rooms by the same tests. What runs while a test file is being read (a job worked
out at its top) is put down to the whole file; caches of the rooms are emptied before each test, so that the second to
use one is put down too.
"""

import gc
import json
import sys
import time
from functools import _lru_cache_wrapper
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
ROOMS = ("loads", "statics", "board", "standards", "checks")
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


def main(out: Path) -> int:
    import coverage
    import pytest

    out.mkdir(parents=True, exist_ok=True)
    cov = coverage.Coverage(data_file=str(out / "data"), branch=True, config_file=False,
                            include=[f"{ROOT}/transom/{r}/*" for r in ROOMS])  # fmt: skip
    cov.exclude("if TYPE_CHECKING:")
    recorder = Recorder(cov)
    cov.start()
    pytest.main([*PYTEST, *(f"tests/{r}" for r in ROOMS), *SHARED], plugins=[recorder])
    cov.stop()
    cov.save()
    if recorder.failed:
        print("not recorded: tests fail without a mutant:", *recorder.failed, sep="\n  ")
        return 1
    (out / "seconds.json").write_text(json.dumps(recorder.seconds))
    (out / "lines.json").write_text(json.dumps(lines_by_file(cov.get_data())))
    show(cov)
    return 0


def lines_by_file(data: Any) -> dict[str, dict[int, list[str]]]:
    return {
        Path(f).relative_to(ROOT).as_posix(): {n: sorted(c) for n, c in data.contexts_by_lineno(f).items()}
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
    raise SystemExit(main(Path(sys.argv[1])))
