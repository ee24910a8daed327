"""Every load case as a wrench on the mount: characteristic and factored, in the board's axes.

Actions are summed in level axes about the datum and then turned by the board's lean.
"""

import re
from collections.abc import Iterator

import numpy as np

from transom.errors import JobError
from transom.loads.actions import (
    Component,
    Situation,
    components_of,
    level_wrench,
    like,
    per_case,
    side_by_side,
)
from transom.loads.inputs import LoadInputs, OwnCase, checked, columns
from transom.loads.road import road
from transom.loads.situations import Scene, ahead, astern, hard_over, strike, turn, wave
from transom.result import Cases
from transom.statics.wrench import turned


def build_cases(inputs: LoadInputs) -> Cases:
    """Every variant of every situation; wrenches (v, 6), or (n, v, 6) where inputs are arrays (n,).

    In light cases (names ending in `-light`) the characteristic wrench holds the light engine's weight.

    Raises:
        ValueError: inputs that are not usable numbers.
        JobError: an own case that is like nothing there is, or takes a name that is taken.
    """
    x = columns(checked(inputs))
    found = situations(x)
    names, of, duration = zip(*((n, s.of, s.duration) for s in found for n in s.names), strict=True)
    return Cases(
        names=names,
        of=of,
        duration=duration,
        factor=side_by_side([per_case(s.factor, len(s.names)) for s in found]),
        weight_factor=side_by_side([per_case(s.weight_factor, len(s.names)) for s in found]),
        wrench=turned(side_by_side([level_wrench(s, factored=False) for s in found], axis=-2), x.lean_rad),
        design=turned(side_by_side([level_wrench(s, factored=True) for s in found], axis=-2), x.lean_rad),
    )


def components(inputs: LoadInputs) -> tuple[Component, ...]:
    """What each case is made of: thrust, weight, inertia, strut, each with its wrench and its factor.

    The characteristic wrenches of a case's components add up to the case's; so do the design ones, each
    times its factor.
    """
    x = columns(checked(inputs))
    return tuple(c for s in situations(x) for c in components_of(s, x.lean_rad))


def reasons(inputs: LoadInputs) -> dict[str, str]:
    """The shop's reason for each of its own cases, by the name of the case."""
    return {name: s.reason for s in situations(columns(checked(inputs))) if s.reason for name in s.names}


def situations(x: LoadInputs) -> tuple[Situation, ...]:
    """The situations of the inputs (arrays as columns), the shop's own last."""
    return with_own(tuple(usual(x)), x.own)


def usual(x: LoadInputs) -> Iterator[Situation]:
    """The situations that every job is judged in."""
    scene = Scene(x, "", x.engine, x.kicker)
    yield from (ahead(scene), hard_over(scene), astern(scene), wave(scene), turn(scene), strike(scene))
    if x.trailer:
        yield road(x)
    if x.kicker:
        beside = Scene(x, "kicker-", x.kicker, x.engine)
        yield from (ahead(beside), hard_over(beside), astern(beside), strike(beside))


def with_own(found: tuple[Situation, ...], own: tuple[OwnCase, ...]) -> tuple[Situation, ...]:
    """The situations and the shop's own after them.

    Raises:
        JobError: one line for each own case that cannot be built.
    """
    taken = {s.of for s in found} | {n for s in found for n in s.names}
    faults: list[str] = []
    added: list[Situation] = []
    for case in own:
        name = re.sub(r"[^a-z0-9]+", "-", case.name.lower()).strip("-")
        fault = fault_of(case, name, taken)
        if fault:
            faults.append(fault)
            continue
        taken.add(name)
        added += [again(s, case, name) for s in found if alike(s, case.like)]
    if faults:
        raise JobError(*faults)
    return (*found, *added)


def fault_of(case: OwnCase, name: str, taken: set[str]) -> str:
    """What is wrong with an own case, in one line; empty where nothing is."""
    where = f'case "{case.name}"'
    if not name or name in taken:
        return f"{where}: name is {'empty' if not name else 'taken'}; give it a name of its own"
    if case.like not in taken:
        import difflib

        near = difflib.get_close_matches(case.like, sorted(taken), n=1)
        hint = f'; nearest is "{near[0]}"' if near else ""
        return f'{where}: like = "{case.like}" is not a load case{hint}'
    if not (np.isfinite(case.times) and case.times > 0):
        return f"{where}: times = {case.times} must be a number above 0"
    return ""


def alike(situation: Situation, pattern: str) -> list[int]:
    """Which cases of a situation an own case is like: all of it, or one name and its light companion."""
    if situation.of == pattern:
        return list(range(len(situation.names)))
    return [i for i, n in enumerate(situation.names) if n in (pattern, f"{pattern}-light")]


def again(situation: Situation, case: OwnCase, name: str) -> Situation:
    """The shop's own case, made from those it is like."""
    found = alike(situation, case.like)
    names = tuple(f"{name}{situation.names[i].removeprefix(case.like)}" for i in found)
    return like(situation, name, names, found, case.times, case.reason)
