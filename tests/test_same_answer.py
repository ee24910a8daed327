"""What never changes an answer: port for starboard, and the units that it is stated in or reads in."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.random_jobs import HP, MANY, MOUNT, found, jobs, mounts, trial
from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.job.records import (
    EngineBracket,
    Hole,
    Job,
    Kicker,
    Mount,
    Pad,
)  # fmt: skip
from transom.judge.judging import judge


def flipped(job: Job) -> Job:
    """The job in a mirror: port for starboard."""
    bracket, kicker = job.engine.bracket, job.engine.kicker
    engine = replace(
        job.engine,
        bracket=replace(
            bracket,
            bolts=tuple(replace(h, y=-h.y) for h in bracket.bolts),
            pads=tuple(replace(p, y=-p.y) for p in bracket.pads),
        ),
        kicker=None if kicker is None or kicker.y is None else replace(kicker, y=-kicker.y),
    )
    board = replace(job.board, openings=tuple(replace(h, y=-h.y) for h in job.board.openings))
    return replace(job, engine=engine, board=board, frame=replace(job.frame, at=tuple(-y for y in job.frame.at)))


@MANY
@given(
    jobs(), mounts(), st.floats(-250.0, 250.0), st.floats(-400.0, 400.0).filter(lambda y: abs(y) > 50), st.floats(0.0, 5.0),
    st.booleans(),
)  # fmt: skip
def test_a_mirrored_job_mirrors_its_answer(
    job: Job, mount: Mount, drain: float, beside: float, uneven: float, kicked: bool
) -> None:
    """Every case has its counterpart on the other side, and for every hand of propeller."""
    bolts = tuple(Hole(side * y + uneven, down) for y, down in ((163.0, 48.0), (125.0, 250.0)) for side in (-1, 1))
    pads = (Pad(-140.0, 0.0, 70.0, 330.0), Pad(140.0, 0.0, 70.0, 330.0))
    whole = replace(
        job,
        engine=replace(job.engine, bracket=EngineBracket(bolts=bolts, pads=pads),
                       kicker=Kicker(8 * HP, y=beside) if kicked else None),
        board=replace(job.board, openings=(Hole(drain, 380.0, 25.0, "drain"),)),
    )  # fmt: skip
    one, other = trial(whole, mount), trial(flipped(whole), mount)
    before, after = found(one), found(other)
    assert before.keys() == after.keys()
    for name, u in before.items():
        for of in set(one.cases.of) if u.shape[1] == len(one.cases) else {""}:
            rows = [i for i, o in enumerate(one.cases.of) if o == of] if of else [0]
            np.testing.assert_allclose(
                np.sort(after[name][0, rows]), np.sort(u[0, rows]), rtol=1e-9, atol=1e-12, err_msg=name
            )


INCHES = """
[job]
units = "us"
[boat]
kind = "pontoon"
plate_power = "50 hp"
speed = "22 mph"
[engine]
power = "40 hp"
shaft = "20 in"
weight = "260 lb"
thrust = "500 lbf"
[engine.gravity]
aft = "9 in"
[engine.bracket]
upper_holes = "12-7/8 in"
lower_holes = "9-7/8 in"
rows_apart = "8 in"
top_to_upper = "1-7/8 in"
[board]
width = "24 in"
height = "18 in"
lean = "12 deg"
[frame]
kind = "pod"
[frame.bolts]
size = "3/8 in"
"""
METRIC = {
    '"us"': '"si"', '"50 hp"': '"37.2849936 kW"', '"22 mph"': '"9.83488 m/s"', '"40 hp"': '"29.8279949 kW"',
    '"20 in"': '"508 mm"', '"260 lb"': '"117.934016 kg"', '"500 lbf"': '"2224.11081 N"', '"9 in"': '"22.86 cm"',
    '"12-7/8 in"': '"327.025 mm"', '"9-7/8 in"': '"250.825 mm"', '"8 in"': '"203.2 mm"', '"1-7/8 in"': '"47.625 mm"',
    '"24 in"': '"609.6 mm"', '"18 in"': '"0.4572 m"',
}  # fmt: skip


def test_the_unit_system_never_changes_the_answer() -> None:
    """Quantities written in the other system, to nine digits; and the same job asked to read in the other."""
    text = INCHES
    for us, si in METRIC.items():
        assert us in text
        text = text.replace(us, si)
    by_inch, by_mm = (judge(loads(t), SHIPPED, MOUNT) for t in (INCHES, text))
    assert [c.id for c in by_inch.checks] == [c.id for c in by_mm.checks]
    for one, other in zip(by_inch.checks, by_mm.checks, strict=True):
        assert other.utilisation == pytest.approx(one.utilisation, rel=1e-6, abs=1e-9), one.id
    read: Any = judge(replace(by_inch.job, head=replace(by_inch.job.head, units="si")), SHIPPED, MOUNT)
    assert read.checks == by_inch.checks
    assert read.assumptions == by_inch.assumptions
    assert read.paper == by_inch.paper
