"""What the laws of spoilt files share: a scratch folder, the jobs that mutants are made of, what any answer must rest on."""

import json
import math
import random
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Any

from transom.catalogue import SHIPPED
from transom.errors import JobError, TransomError
from transom.job.read import load
from transom.job.records import Job
from transom.judge.judging import judge
from transom.judge.records import Judgement

SEEDS = Path(__file__).with_name("seeds")


class Broken(AssertionError):  # noqa: N818 - the word for it
    """A law that a file broke."""


@dataclass(frozen=True)
class Bench:
    """A scratch folder, and which share of the jobs that read is judged."""

    folder: Path
    judged: float = 1.0

    @cached_property
    def job(self) -> Path:
        return self.folder / "job.toml"

    def put(self, name: str, data: bytes) -> Path:
        path = self.folder / name
        path.write_bytes(data)
        return path


@cache
def jobs() -> dict[str, str]:
    """The jobs that mutants are made of."""
    return {p.stem: p.read_text(encoding="utf-8") for p in sorted(SEEDS.glob("*.toml"))}


def numbers(value: Any) -> Iterator[float]:
    """Every number in a record or a document, however deep."""
    if is_dataclass(value) and not isinstance(value, type):
        for f in fields(value):
            yield from numbers(getattr(value, f.name))
    elif isinstance(value, dict):
        for each in value.values():
            yield from numbers(each)
    elif isinstance(value, tuple | list):
        for each in value:
            yield from numbers(each)
    elif isinstance(value, float):
        yield value


def told(error: TransomError) -> None:
    """A refusal is lines, each of them one line that a terminal can print."""
    lines = error.faults if isinstance(error, JobError) else tuple(str(error).splitlines())
    if not lines or not all(line.strip() for line in lines):
        raise Broken("refused without a word")
    for line in lines:
        if len(line) > 2_000:
            raise Broken(f"a fault of {len(line)} letters")
        if isinstance(error, JobError) and len(line.splitlines()) != 1:
            raise Broken(f"a fault that is not one line: {line!r}")


def finite(value: Any, what: str) -> None:
    """No number that is none."""
    if not all(math.isfinite(n) for n in numbers(value)):
        raise Broken(f"{what} with a number that is not finite")


def sane(j: Judgement) -> str:
    """What a pass must rest on; the answer in a word."""
    if not j.passes:
        return "fails"
    deciding = [c for c in j.checks if not c.information]
    for c in deciding:
        if not (
            math.isfinite(c.demand)
            and math.isfinite(c.resistance)
            and c.resistance > 0
            and c.demand <= c.resistance * (1 + 1e-9)
        ):
            raise Broken(f"passes with {c.id}: carries {c.demand!r}, may carry {c.resistance!r}")
    if len(deciding) < 500 or any(s.stands for s in j.stops):
        raise Broken(f"passes by {len(deciding)} checks, stops {[s.name for s in j.stops]}")
    b, e = j.setup.place, j.job.engine
    # A job's own limits; of power 0.5 to 300 hp.
    for what, value, low, high in (
        ("wood", j.wood, 20.0, 95.0), ("mass", j.mass, 0.5, 200.0), ("width", b.width, 200.0, 3_000.0), ("height", b.height, 150.0, 1_500.0),
        ("power", e.power, 372.0, 225_500.0), ("layers", float(len(j.mount.layers) if j.mount else 0), 1.0, 20.0),
    ):  # fmt: skip
        if not low <= float(value) <= high:
            raise Broken(f"passes with {what} {value!r}")
    if j.paper == "CUT" and e.mass is not None and e.mass < 0.5 * SHIPPED.engine_weight(e.power).dry_kg:
        raise Broken(f"CUT with an engine of {e.mass} kg")
    return "passes"


def judged(job: Job, bench: Bench, chance: random.Random, tables: Any = SHIPPED) -> str:
    """By the pencil, the mount that the job states."""
    if job.mount is None or chance.random() >= bench.judged:
        return "read"
    j = judge(job, tables, job.mount, careful=False)
    for c in j.checks:
        if not (c.utilisation >= 0):
            raise Broken(f"{c.id}: % of limit {c.utilisation!r}")
    return sane(j)


def job_numbers(job: Job) -> Any:
    """A job without the distance to a weld that is nowhere near."""
    return [n for n in numbers(job) if n != job.frame.flange_weld or n is not math.inf]


@cache
def good() -> Judgement:
    """A judged mount to price."""
    with tempfile.TemporaryDirectory() as name:
        path = Path(name, "job.toml")
        path.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
        job = load(path)
    assert job.mount is not None
    return judge(job, SHIPPED, job.mount, careful=False)


def plain(text: str) -> Any:
    """JSON without NaN or Infinity."""

    def no(name: str) -> float:
        raise Broken(f"{name} in the JSON")

    return json.loads(text, parse_constant=no)
