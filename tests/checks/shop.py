"""An invented 40 hp pod job and round loads, so that every check can be worked beside it with a pocket calculator.

Board 610 x 450 mm, two Douglas-fir marine 3/4 in sheets (18.26 mm each, 36.52 mm), all across; four 1/2-13 F593C bolts on
the usual pattern (y 163.5 and 125.4, down 47.6 and 250.8); one 381 x 76.2 x 6.35 mm 6061-T6 plate for each pair.
"""

from dataclasses import replace
from typing import Any

import numpy as np

from transom.catalogue import SHIPPED
from transom.checks import all_checks, second_opinions
from transom.checks.trial import Trial
from transom.job.records import Backing, Board, Boat, Engine, EngineBolts, Frame, Head, Job, Layer, Mount
from transom.judge.evaluate import trial_of
from transom.judge.fasteners import with_most
from transom.loads.cases import build_cases
from transom.result import Cases, Check, CheckArray
from transom.setup.build import build, values_of
from transom.setup.facts import collect
from transom.setup.records import Setup

HP = 745.69987158
SHEET = "douglas-fir-marine 3/4 in"
PAIR = Backing("", "6061-T6", 6.35, 381.0, 76.2, "pair")
BOLTS = EngineBolts("1/2-13", "F593C", 88.9, Backing(washer="1/2 regular"), PAIR)
MOUNT = Mount((Layer(SHEET, "across"), Layer(SHEET, "across")), BOLTS)
JOB = Job(
    Head(),
    Boat("pontoon", "stated", 50 * HP),
    Engine(40 * HP, 40 * HP, shaft=508.0, mass=136.0),
    Board(610.0, 450.0, lean=0.2443461),
    Frame("pod"),
)
# Design wrenches Fx, Fy, Fz (N), Mx, My, Mz (N mm) about the datum; round, of the size a 40 hp engine gives.
AHEAD = (-3000.0, 0.0, -2000.0, 0.0, 2.6e6, 0.0)
HARD_OVER = (-2500.0, -2000.0, -2000.0, -1.2e6, 2.2e6, -0.5e6)
ASTERN = (3000.0, 0.0, -1000.0, 0.0, -1.4e6, 0.0)
ROUND = {
    "ahead": ("short", AHEAD),
    "hard-over": ("short", HARD_OVER),
    "astern": ("short", ASTERN),
    "wave": ("instantaneous", (-700.0, 0.0, -6000.0, 0.0, 2.8e6, 0.0)),
    "strike": ("accidental", (4100.0, 0.0, -350.0, 0.0, -2.3e6, 0.0)),
}


def cases(named: dict[str, tuple[str, tuple[float, ...]]] = ROUND, gamma: float = 1.5, times: float = 1.0) -> Cases:
    """Cases of given design wrenches; the characteristic ones are smaller by gamma."""
    names = tuple(named)
    design = np.array([w for _, w in named.values()]) * times
    return Cases(
        names, names, np.full(len(names), gamma), np.ones(len(names)), tuple(d for d, _ in named.values()),
        design / gamma, design,
    )  # fmt: skip


def setup_of(job: Job = JOB, **values: float) -> Setup:
    """The setup of a job, the most added to its frame bolts; facts may be put in by key with dots written as double underscores."""
    job = with_most(job, SHIPPED)
    known = values_of(collect(job, SHIPPED))
    return build(job, SHIPPED, known | {k.replace("__", "."): v for k, v in values.items()})


def trial(job: Job = JOB, mount: Mount = MOUNT, loads: Cases | None = None, setup: Setup | None = None) -> Trial:
    """One mount of a job under the round loads, or others."""
    return trial_of(setup or setup_of(job), loads or cases(), [mount])


def whole(job: Job = JOB, mount: Mount = MOUNT) -> Trial:
    """One mount of a job under its own load cases."""
    setup = setup_of(job)
    return trial_of(setup, build_cases(setup.loads), [mount])


def found(of: Trial) -> dict[str, CheckArray]:
    """Every check and second opinion by name without method."""
    return {c.name.removesuffix(".hand"): c for c in (*all_checks(of), *second_opinions(of))}


def row(of: Trial, name: str, case: str = "once") -> Check:
    """One check in one case."""
    (one,) = [r for r in found(of)[name].rows() if r.case == case]
    return one


def alone(wrench: tuple[float, ...], duration: str = "short", times: float = 1.0) -> Cases:
    """One case, named `only`."""
    return cases({"only": (duration, wrench)}, times=times)


def with_bolts(mount: Mount = MOUNT, **changes: Any) -> Mount:
    """The mount with something changed about its bolts."""
    assert mount.engine_bolts is not None
    return replace(mount, engine_bolts=replace(mount.engine_bolts, **changes))


def plate(thickness: float = 6.35, width: float = 381.0, height: float = 76.2, per: str = "pair") -> Mount:
    """The mount on another plate."""
    return with_bolts(forward=Backing("", "6061-T6", thickness, width, height, per))


def on_board(**changes: Any) -> Job:
    """The job with something changed about its board."""
    return replace(JOB, board=replace(JOB.board, **changes))


def with_engine(**changes: Any) -> Job:
    """The job with something changed about its engine."""
    return replace(JOB, engine=replace(JOB.engine, **changes))
