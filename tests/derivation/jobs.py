"""The examples, judged once and derived once for all tests of this room."""

from functools import cache
from pathlib import Path

from transom.catalogue import SHIPPED
from transom.derivation.derive import derive
from transom.derivation.lines import Derivation
from transom.job.read import load
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.result import Check
from transom.sizing.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = sorted(p.stem for p in EXAMPLES.glob("*.toml") if p.stem != "shop")
WHOLE = "uprights-90hp"  # every check of this one; of the others the weakest of each part


@cache
def judged(name: str) -> Judgement:
    job = load(EXAMPLES / f"{name}.toml")
    return size(job, SHIPPED, "material") if job.mount is None else judge(job, SHIPPED, job.mount)


def sampled(name: str) -> tuple[Check, ...]:
    """The checks derived in the tests; `tests/bench/every_derivation.py` derives all of all."""
    worst = judged(name).worst
    if name == WHOLE:
        return worst
    return tuple({c.part: c for c in reversed(worst)}.values())


@cache
def derived(name: str) -> tuple[Derivation, ...]:
    return derive(judged(name), sampled(name))
