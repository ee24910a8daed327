"""Every printed line of every derivation worked out again: each check of each job in its worst case, or in all.

    python tests/bench/every_derivation.py [--all-cases] JOB...

Without a job, the examples. Says of each how many checks and lines, what does not come out as printed, what
could not be traced, and what differs from the judgement. A minute for the examples; `--all-cases` an hour.
"""

import os
import sys
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

from tests.derivation.evaluator import fault  # noqa: E402 - after the thread and the path are set
from transom.cli.mounted import mounted  # noqa: E402
from transom.derivation.derive import derive  # noqa: E402
from transom.job.read import load  # noqa: E402


def faults(path: Path, all_cases: bool) -> int:
    """Derive one job's checks; how many lines are at fault."""
    j = mounted(load(path))
    checks = (
        j.checks if all_cases else (*j.worst, *(c for c in j.checks if c.information and c.case == j.governing.case))
    )
    wrong = lines = 0
    for d, c in zip(derive(j, checks), checks, strict=True):
        lines += len(d.steps)
        said = [f"line {x.number} {x.name}: {why}" for x in d.steps if (why := fault(x.numbers, x.result))]
        said += [f"untraced: {x.text}" for x in d.untraced]
        if abs(d.check.utilisation - c.utilisation) > 1e-6 * c.utilisation:
            said.append(f"comes to {d.check.utilisation}, the judgement says {c.utilisation}")
        wrong += len(said)
        for text in said:
            print(f"  {c.id}: {text}")
    print(f"{path.stem}: {len(checks)} checks, {lines} lines, {wrong} at fault")
    return wrong


def main() -> int:
    """0 where nothing is at fault."""
    arguments = [a for a in sys.argv[1:] if a != "--all-cases"]
    jobs = [Path(a) for a in arguments] or sorted((ROOT / "examples").glob("*.toml"))
    return min(1, sum(faults(p, "--all-cases" in sys.argv) for p in jobs if p.stem != "shop"))


if __name__ == "__main__":
    sys.exit(main())
