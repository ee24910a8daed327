"""The hand screen on arrays beside the same formulas one candidate, one case and one number at a time, plain and with Pint.

    python tests/bench/sizing_speed.py [JOB.toml] [--rows]

Times are the processor's, one BLAS thread, the least of several turns taken in turn. The formulas' calls and numbers are
recorded from the checks themselves (`transom.derivation.record`), so that both loops do what the arrays do and nothing
else: no building of objects, no choosing, no maximum. Not collected by pytest.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

import numpy as np
import startup
from rows import Row, brief, hand_over, times

from tests.sizing.plain import Plain
from transom.catalogue import SHIPPED
from transom.checks import all_checks
from transom.derivation.record import Call, Watched, watching
from transom.job.read import load
from transom.judge.evaluate import decided
from transom.judge.judging import prepared
from transom.quantity import registry
from transom.sizing import sizing
from transom.sizing.field import Field, field_of
from transom.sizing.search import best_of_kinds, blocks, screened

ROOT = Path(__file__).parents[2]
BLOCK = 256  # candidates side by side, of the sizes that the search takes
TURNS = 7
SCRIPT = "sizing_speed.py"
Step = tuple[Callable[..., object], tuple[object, ...]]
EVERY = 97  # of the calls on single numbers: held against what the arrays gave


def seconds(work: Callable[[], object], turns: int = TURNS) -> float:
    """The least processor time of several turns."""
    found = []
    for _ in range(turns):
        start = time.process_time()
        work()
        found.append(time.process_time() - start)
    return min(found)


def array_screen(field: Field) -> tuple[float, int, int]:
    """Seconds a candidate on arrays, every deciding check in every case; how many checks, how many values of it."""
    places = field.order[:: max(1, len(field) // BLOCK)][:BLOCK]
    checks = decided(all_checks(field.trial(places)))
    values = sum(max(len(c.cases), 1) for c in checks)

    def work() -> None:
        for c in decided(all_checks(field.trial(places))):
            _ = c.worst

    return seconds(work) / len(places), len(checks), values


def steps(calls: list[Call], v: int, cases: range) -> Iterator[Step]:
    """Every recorded call taken apart: one for each number of its result, in these of its v cases."""
    count = 0
    for call in calls:
        vectors = {k for k, unit in call.formula.parameters.items() if unit.vector}
        rest = {k: np.asarray(a) for k, a in call.arguments.items()}
        shape = np.broadcast_shapes(*(a.shape[:-1] if k in vectors else a.shape for k, a in rest.items()))
        whole = {k: np.broadcast_to(a, (*shape, a.shape[-1]) if k in vectors else shape) for k, a in rest.items()}
        for index in np.ndindex(shape):
            if len(index) > 1 and shape[1] == v and index[1] not in cases:
                continue
            arguments = tuple(a[index] if k in vectors else float(a[index]) for k, a in whole.items())
            if count % EVERY == 0:
                result = np.broadcast_to(call.result, shape)[index]
                np.testing.assert_allclose(call.formula.function(*arguments), result, rtol=1e-12, atol=1e-12)
            count += 1
            yield call.formula.function, arguments


def recorded(field: Field) -> list[Call]:
    """What the checks of one candidate call, in all cases at once."""
    with watching(Watched({}, (), {})) as recording:
        for c in all_checks(field.trial(field.order[len(field) // 2 :][:1])):
            _ = c.utilisation
    return recording.calls


def in_turn(work: list[Step]) -> None:
    """The plain loop."""
    for function, arguments in work:
        function(*arguments)


def with_units(work: list[Step], calls: list[Call]) -> list[Step]:
    """The same calls with every number a Pint quantity."""
    units = {
        c.formula.function: [registry().parse_units(u.text) if u.text else registry().dimensionless for u in c.formula.parameters.values()]
        for c in calls
    }  # fmt: skip
    return [
        (f, tuple(registry().Quantity(a, u) for a, u in zip(arguments, units[f], strict=True))) for f, arguments in work
    ]


def candidate_by_candidate(field: Field, count: int = 12) -> float:
    """Seconds a candidate where each is put together and checked by itself, its cases still an array (tests/sizing/plain.py)."""
    plain = Plain(field.setup, field.cases, field.piles, field.sets)
    some = [divmod(int(p), len(field.sets)) for p in field.order[:: len(field) // count][:count]]
    for c in some:
        plain.worst(*c)
    return seconds(lambda: [plain.worst(*c) for c in some], 3) / len(some)


def shares(path: Path) -> tuple[float, float, float]:
    """Seconds of `size`, the whole process; of its search with the plates; of the search by arrays alone."""
    job = load(path)
    spent = {"search": 0.0, "asked": 0.0}
    kept = sizing.best_by_plate

    def searched(field: Field, most: int, passes: Callable[[object], bool]) -> list[int]:
        def asked(tried: object) -> bool:
            start = time.process_time()
            try:
                return passes(tried)
            finally:
                spent["asked"] += time.process_time() - start

        start = time.process_time()
        try:
            return kept(field, most, asked)
        finally:
            spent["search"] += time.process_time() - start

    sizing.best_by_plate = searched
    try:
        sizing.size(job, SHIPPED)
        found = []
        for _ in range(5):
            spent |= {"search": 0.0, "asked": 0.0}
            sizing.size(job, SHIPPED)
            found.append(spent["search"] - spent["asked"])
    finally:
        sizing.best_by_plate = kept
    _, setup, cases = prepared(job, SHIPPED)
    field = field_of(job, SHIPPED, setup, cases, "material", careful=False)
    process = min(startup.spent((*startup.SIZE, str(path.resolve()))).processor for _ in range(4))
    return process, min(found), seconds(lambda: best_of_kinds(field, 1), 5)


def whole_screen(field: Field) -> float:
    """Seconds to look at every candidate of a job in every case, as the search does it, in its blocks."""
    return seconds(lambda: [screened(field, block, field.cases) for block in blocks(field.order, BLOCK)], 1)


def rows(path: Path) -> Iterator[Row]:
    """The figures, as rows of the table."""
    job = load(path)
    _, setup, cases = prepared(job, SHIPPED)
    field = field_of(job, SHIPPED, setup, cases, "material")
    v = len(cases)
    array, checks, values = array_screen(field)
    calls = recorded(field)
    loop = list(steps(calls, v, range(v)))
    plain = seconds(lambda: in_turn(loop), 3)
    some = list(steps(calls, v, range(2)))
    in_units = with_units(some, calls)
    pint = seconds(lambda: in_turn(in_units), 2) / seconds(lambda: in_turn(some), 3) * plain
    alone = candidate_by_candidate(field)
    named = f"hand screen, a candidate in {v} cases and {checks} checks"
    yield Row(
        named,
        brief(array),
        f"plain loop, {len(loop):,} calls: {brief(plain)}",
        times(plain / array),
        "100x or more",
        SCRIPT,
    )
    yield Row(named, brief(array), f"the same loop with Pint: {brief(pint)}", times(pint / array), "", SCRIPT)
    yield Row(
        named,
        brief(array),
        f"one candidate at a time, its cases an array: {brief(alone)}",
        times(alone / array),
        "",
        SCRIPT,
    )
    yield Row(
        "hand screen, values of candidate, case and check a second",
        f"{values / array:.2g}",
        "one core",
        f"{values / array / 2e7:.2g} of 2e7",
        "2e7 or more",
        SCRIPT,
    )
    process, search, pencil = shares(path)
    every = whole_screen(field)
    yield Row(
        f"every candidate of a job, {len(field):,} of them",
        brief(every),
        f"plain loop, reckoned: {brief(plain * len(field))}",
        times(plain * len(field) / every),
        "",
        SCRIPT,
    )
    whole = f"whole process: {brief(process)}"
    yield Row(
        "search in `transom size`, its plates included",
        brief(search),
        whole,
        f"{search / process:.0%}",
        "20% or less",
        SCRIPT,
    )
    yield Row("search by the pencil alone", brief(pencil), whole, f"{pencil / process:.0%}", "20% or less", SCRIPT)


def main() -> None:
    """Print or hand over the rows."""
    named = [a for a in sys.argv[1:] if not a.startswith("--")]
    hand_over(rows(Path(named[0]) if named else ROOT / "examples" / "pontoon-40hp.toml"))


if __name__ == "__main__":
    main()
