"""An invented setback bracket on the 40 hp job, in round numbers: plates 10 mm, 240 between base and engine plate."""

from dataclasses import replace
from typing import Any

import numpy as np

from tests.checks.shop import JOB, MOUNT, alone, cases, setup_of
from transom.checks.trial import Trial
from transom.job.records import Job
from transom.job.setback_records import BasePlate, EnginePlate, Fillet, Gusset, PlateBolts, Setback, SidePlates, Step
from transom.judge.evaluate import trial_of
from transom.loads.cases import build_cases

PLATES = Setback(
    distance=260.0,
    mass=15.0,
    kind="plates",
    height=0.0,
    alloy="5083-H116",
    filler="5356",
    gravity_aft=130.0,
    gravity_up=-150.0,
    base=BasePlate(10.0, 420.0, 360.0, 0.0, 320.0, 320.0, 220.0, 60.0, 50.0),
    side_plates=SidePlates(2, 10.0, 240.0, 20.0, 300.0, 20.0, 280.0),
    engine_plate=EnginePlate(10.0, 420.0, 340.0, 45.0),
    base_weld=Fillet(6.0, "both"),
    engine_weld=Fillet(6.0, "both"),
    bolts=PlateBolts("1/2 in", 12.7, 35.0, 3.0),
)
LEVEL = replace(JOB, board=replace(JOB.board, width=700.0, height=450.0, lean=0.0))


def job(**changes: Any) -> Job:
    """The job with something changed about its bracket; parts by their names with double underscores."""
    bracket = PLATES
    for key, value in changes.items():
        part, _, name = key.partition("__")
        bracket = replace(bracket, **{part: replace(getattr(bracket, part), **{name: value}) if name else value})
    return replace(LEVEL, setback=bracket)


def steps(*cut: tuple[float, float]) -> SidePlates:
    """The side plates cut away at places."""
    return replace(PLATES.side_plates, steps=tuple(Step(*c) for c in cut))


def whole(of: Job) -> Trial:
    """Under its own load cases."""
    setup = setup_of(of)
    return trial_of(setup, build_cases(setup.loads), [MOUNT])


def under(wrench: tuple[float, ...], of: Job | None = None) -> Trial:
    """Under one design wrench about the board's datum; the bracket weighs nothing."""
    setup = setup_of(of or job())
    setup = replace(setup, loads=replace(setup.loads, bracket=None))
    return trial_of(setup, alone(wrench), [MOUNT])


def worst(of: Trial, name: str) -> float:
    """Utilisation of one check of the bracket in its worst case."""
    from tests.checks.shop import found

    return float(found(of)[f"bracket.{name}"].worst[0])


def all_of(of: Trial) -> dict[str, float]:
    """Every check of the bracket that decides, by name."""
    from tests.checks.shop import found

    return {n: float(c.worst[0]) for n, c in found(of).items() if c.part == "bracket" and not c.information}


__all__ = ["LEVEL", "PLATES", "all_of", "cases", "job", "np", "steps", "under", "whole", "worst"]


# Fx, Fy, Fz (N), Mx, My, Mz (N mm) about the board's datum: engine end 260 aft.
STRAIGHT = (-4000.0, 0.0, -3000.0, 0.0, 4.0e6, 0.0)
OVER = (-3500.0, -3000.0, -3000.0, -2.2e6, 3.6e6, -1.0e6)
GUSSET = Gusset(6.0, 250.0, 4.0)


def spoilt(of: Trial, part: str, name: str, bad: float) -> Trial:
    """The trial with one number of its bracket replaced; the rest of the setup as it was."""
    hold = of.setup.bracket
    assert hold is not None
    b = hold.plates
    assert b is not None
    b = replace(b, **{part: replace(getattr(b, part), **{name: bad})})
    return replace(of, setup=replace(of.setup, bracket=replace(hold, plates=b)))
