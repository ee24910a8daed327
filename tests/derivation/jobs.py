"""The examples, judged once and derived once for all tests of this room."""

from functools import cache
from pathlib import Path

from transom.catalogue import SHIPPED
from transom.derivation.derive import derive
from transom.derivation.lines import Derivation
from transom.job.read import load
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.sizing.sizing import size

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = sorted(p.stem for p in EXAMPLES.glob("*.toml") if p.stem != "shop")


@cache
def judged(name: str) -> Judgement:
    job = load(EXAMPLES / f"{name}.toml")
    return size(job, SHIPPED, "material") if job.mount is None else judge(job, SHIPPED, job.mount)


@cache
def derived(name: str) -> tuple[Derivation, ...]:
    j = judged(name)
    return derive(j, j.worst)
