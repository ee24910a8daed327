"""Laws that hold for any job, whole: each takes a seed and gives the ways in which it was broken, none if it held.

`test_laws.py` asks a few seeds of each, `tests/fuzz/whole_jobs.py` hundreds.
"""

import random
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from tests.laws import jobs
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.job.records import Job, Mount
from transom.job.write import with_mount
from transom.judge.evaluate import decided
from transom.judge.judging import judge, prepared
from transom.judge.records import Judgement
from transom.report.compare.comparing import compare
from transom.report.judgement import as_object, to_json
from transom.result import CheckArray
from transom.sizing.field import Field, field_of
from transom.sizing.sizing import picked

# What is typed has nine digits, and a unit's factor more: nothing may hang on the last ones.
DIGITS = 2e-6
FEW_MOUNTS = (("across", "across", "along"), ("across", "across"), ("along", "across", "across", "along"))
Broken = Iterator[str]


def a_mount(seed: int, job: Job) -> Mount:
    """Some mount of the job's stock, passing or not."""
    chance = random.Random(seed)
    _, setup, cases = prepared(job, SHIPPED)
    field = field_of(job, SHIPPED, setup, cases, "material")
    return field.mount(chance.randrange(len(field)))


def judged(seed: int, text: str) -> Judgement:
    """A random mount on the job of a text; the same mount for the same seed and stock."""
    job = loads(text)
    return judge(job, SHIPPED, a_mount(seed, job))


def plain(j: Judgement) -> dict[str, Any]:
    """The judgement as data, without what only tells which file it came from."""
    found = as_object(j)
    found["job"] = {k: v for k, v in found["job"].items() if k != "sha256"}
    return found


def apart(a: Any, b: Any, where: str = "", within: float = DIGITS, least: float = 1.0) -> Broken:
    """Where two pieces of data differ by more than digits of themselves, or of `least`: forces are sums that cancel."""
    if isinstance(a, dict) and isinstance(b, dict):
        for key in (*a, *(k for k in b if k not in a)):
            yield from apart(a.get(key), b.get(key), f"{where}.{key}", within, least)
    elif isinstance(a, list) and isinstance(b, list) and len(a) == len(b):
        for i, (x, y) in enumerate(zip(a, b, strict=True)):
            yield from apart(x, y, f"{where}[{i}]", within, least)
    elif isinstance(a, float | int) and isinstance(b, float | int) and not isinstance(a, bool):
        if abs(a - b) > within * max(abs(a), abs(b), least):
            yield f"{where}: {a} against {b}"
    elif a != b:
        yield f"{where}: {a!r} against {b!r}"


def units(seed: int) -> Broken:
    """The same job typed in US units, in SI and in whatever came to hand is the same judgement."""
    job = jobs.job(seed)
    at_hand = [plain(judged(seed, jobs.text(job, unit))) for unit in (jobs.si, jobs.us, jobs.mixed(seed))]
    for other, name in zip(at_hand[1:], ("us", "mixed"), strict=True):
        for key in ("checks", "cases", "mount", "inputs", "stops", "paper"):
            least = 1000.0 if key == "cases" else 1.0
            yield from (f"{name} {key}{fault}" for fault in apart(at_hand[0][key], other[key], least=least))


def order(seed: int) -> Broken:
    """The order of tables and keys says nothing."""
    job = jobs.job(seed)
    one, other = (plain(judged(seed, t)) for t in (jobs.text(job), jobs.text(job, shuffle=random.Random(seed))))
    yield from apart(one, other, within=0.0)


def twice(seed: int) -> Broken:
    """The same job, judged or sized again, gives the same bytes."""
    text = jobs.text(jobs.job(seed))
    if to_json(judged(seed, text)) != to_json(judged(seed, text)):
        yield "other bytes"


def mirror(seed: int) -> Broken:
    """Port for starboard: every situation has its counterpart, by the careful method too, and the same verdict."""
    job = jobs.job(seed)
    one, other = judged(seed, jobs.text(job)), judged(seed, jobs.text(jobs.mirrored(job)))
    a, b = by_situation(one), by_situation(other)
    if a.keys() != b.keys():
        yield f"checks differ: {sorted(set(a) ^ set(b))}"
    for name in a.keys() & b.keys():
        if not np.allclose(a[name], b[name], rtol=1e-6, atol=1e-9):
            yield f"{name}: {max(a[name])} against {max(b[name])}"
    if (one.passes, one.paper) != (other.passes, other.paper):
        yield "another verdict"


def by_situation(j: Judgement) -> Mapping[tuple[str, str], list[float]]:
    """Utilisations of each check in each situation, whatever side they are on, in order of size."""
    kind = dict(zip(j.cases.names, j.cases.of, strict=True))
    found: dict[tuple[str, str], list[float]] = {}
    for c in j.checks:
        found.setdefault((f"{c.part}.{c.what}.{c.rule}.{c.method}", kind.get(c.case, c.case)), []).append(c.utilisation)
    return {k: sorted(v) for k, v in found.items()}


def reviewed(seed: int) -> Broken:
    """The pick, written into the job and read back, is judged as it was when it was picked; and A against A is empty."""
    text = jobs.text(jobs.job(seed))
    pick = picked(loads(text), SHIPPED)
    if pick is None:
        return
    assert pick.mount is not None
    back = loads(with_mount(text, pick.mount))
    assert back.mount is not None
    again = judge(back, SHIPPED, back.mount)
    if back.mount != pick.mount:
        yield "another mount was read back"
    # A plate that knows a like one takes another way to the same figures: to the digits that are written.
    yield from apart(as_object(pick)["checks"], as_object(again)["checks"], "review", 2e-9)
    if pick.failing or again.failing:
        yield "the pick fails a check"
    yield from same_to_itself(as_object(again))


def same_to_itself(a: dict[str, Any]) -> Broken:
    """Compared with itself nothing has changed, and nothing is stale."""
    c = compare(a, a)
    for name in ("identity", "verdict", "inputs", "mount", "stops", "checks", "stale"):
        if getattr(c, name):
            yield f"compared with itself: {name} {getattr(c, name)}"
    if c.unchanged == 0:
        yield "compared with itself: no check is unchanged"


def tighter(seed: int) -> Broken:
    """Less on the shelf never finds a better pick; better is what the rank puts first of all that the full shelf has."""
    chance = random.Random(seed)
    job, rank = jobs.job(seed), chance.choice(("material", "mass", "thickness"))
    less = jobs.changed(job, "stock", **fewer(job["stock"], chance))
    full, poor = (loads(jobs.text(j)) for j in (job, less))
    best, found = picked(full, SHIPPED, rank), picked(poor, SHIPPED, rank)
    if found is None or found.mount is None:
        return
    if best is None or best.mount is None:
        yield f"{rank}: nothing with {job['stock']}, yet with {less['stock']}: {found.mount.layers}"
        return
    _, setup, cases = prepared(full, SHIPPED)
    field = field_of(full, SHIPPED, setup, cases, rank)
    a, b = (place_of(field, m) for m in (best.mount, found.mount))
    if b < a:
        yield f"{rank}: {found.mount} is place {b}, before the pick's {a}: {best.mount}"


def fewer(stock: Mapping[str, Any], chance: random.Random) -> dict[str, Any]:
    """One or two of the lists cut, or fewer sheets in a board."""
    out: dict[str, Any] = {}
    for key in chance.sample(("sheets", "plate_thicknesses", "most_sheets"), 2):
        has = stock[key]
        out[key] = max(has - 1, 2) if isinstance(has, int) else chance.sample(has, max(1, len(has) - 1))
    return out


def place_of(field: Field, mount: Mount) -> int:
    """Place of a mount in the order of the rank."""
    s = field.piles.index(mount.layers)
    sets = [replace(b, length=0.0) for b in field.sets]
    bolts = mount.engine_bolts
    b = 0 if bolts is None else sets.index(replace(bolts, length=0.0))
    return int(np.flatnonzero(field.order == s * len(field.sets) + b)[0])


def nothing_before(seed: int) -> Broken:
    """Of mounts that rank before the pick none passes: the search, which leaves most unsolved, lost none of a sample."""
    chance = random.Random(seed)
    job = loads(jobs.text(jobs.job(seed)))
    pick = picked(job, SHIPPED)
    _, setup, cases = prepared(job, SHIPPED)
    field = field_of(job, SHIPPED, setup, cases, "material")
    last = len(field) if pick is None or pick.mount is None else place_of(field, pick.mount)
    for place in chance.sample(range(last), min(last, 6)):
        mount = field.mount(int(field.order[place]))
        if not judge(job, SHIPPED, mount, add=True).failing:
            yield f"place {place} of {last} passes: {mount}"


def worst_by_check(checks: tuple[CheckArray, ...]) -> dict[str, float]:
    """The worst of each check, whichever method it is by."""
    return {f"{c.part}.{c.what}.{c.rule}": float(c.worst.max()) for c in decided(checks)}


EVERY = (units, order, twice, mirror, reviewed, tighter, nothing_before)
