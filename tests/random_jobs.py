"""Jobs and mounts of every kind, drawn at random, and what the pencil method finds of them."""

import numpy as np
from hypothesis import settings
from hypothesis import strategies as st

from transom.catalogue import SHIPPED
from transom.checks import all_checks
from transom.checks.trial import Trial
from transom.job.records import (
    Backing,
    Board,
    Boat,
    Engine,
    EngineBolts,
    Frame,
    Head,
    Job,
    Layer,
    Mount,
)  # fmt: skip
from transom.judge.evaluate import trial_of
from transom.loads.cases import build_cases
from transom.setup.build import build, values_of
from transom.setup.facts import collect
from transom.units import Array

HP = 745.69987158
BOATS = {"pod": "pontoon", "uprights": "aluminium hull", "cap rail": "glass hull"}
SHEETS = ("douglas-fir-marine 3/4 in", "douglas-fir-marine 1/2 in", "okoume 18 mm", "okoume 12 mm")
NOISE = 1e-9  # of a utilisation; sums of six loads differ in their last digits
MANY = settings(max_examples=60, deadline=None, derandomize=True)

forward = st.one_of(
    st.builds(Backing, washer=st.sampled_from(["1/2 wide", "1/2 fender", "1/2 USS"])),
    st.builds(
        lambda t, side: Backing("", "6061-T6", t, side, side, "bolt"),
        st.sampled_from([4.7625, 6.35, 9.525]), st.sampled_from([50.8, 76.2, 88.9]),
    ),
    st.builds(lambda t: Backing("", "6061-T6", t, 420.0, 76.2, "pair"), st.sampled_from([4.7625, 6.35, 9.525])),
    st.builds(lambda t: Backing("", "6061-T6", t, 420.0, 290.0, "all"), st.sampled_from([6.35, 9.525])),
)  # fmt: skip


@st.composite
def jobs(draw: st.DrawFn, full_turn: bool = True) -> Job:
    """Any job of 30 to 200 hp with bolts; the engine's mass and centre of gravity stated or not."""
    kind = draw(st.sampled_from(list(BOATS)))
    power = draw(st.floats(30.0, 200.0)) * HP
    wide = draw(st.floats(560.0, 760.0))
    engine = Engine(
        power,
        power,
        shaft=draw(st.sampled_from([381.0, 508.0, 635.0])),
        mass=draw(st.none() | st.floats(0.003, 0.006).map(lambda per: per * power)),
        steering=draw(st.sampled_from(["wheel", "tiller", "full turn"] if full_turn else ["wheel", "tiller"])),
        gravity_aft=draw(st.none() | st.floats(160.0, 330.0)),
        gravity_up=draw(st.none() | st.floats(50.0, 250.0)),
    )
    return Job(
        Head(code=draw(st.sampled_from(["EN", "US"]))),
        Boat(
            BOATS[kind], service=draw(st.sampled_from(["calm", "open"])), speed=draw(st.none() | st.floats(6.0, 25.0))
        ),
        engine,
        Board(wide, draw(st.floats(400.0, 560.0)), lean=draw(st.none() | st.floats(0.0, 0.3))),
        Frame(kind, at=(-0.37 * wide, 0.37 * wide) if kind == "uprights" else ()),
    )


@st.composite
def mounts(draw: st.DrawFn) -> Mount:
    """Any stack of two to four equal sheets with any backing; the bolt long enough for all of them."""
    sheet, count = draw(st.sampled_from(SHEETS)), draw(st.integers(2, 4))
    layers = tuple(Layer(sheet, draw(st.sampled_from(["across", "along"]))) for _ in range(count))
    return Mount(layers, EngineBolts("1/2-13", "F593C", 152.4, Backing(washer="1/2 regular"), draw(forward)))


def trial(job: Job, mount: Mount, **changed: float) -> Trial:
    """One mount of a job; numbers of its facts changed by a factor, keys with dots as double underscores."""
    values = values_of(collect(job, SHIPPED))
    for name, times in changed.items():
        values[name.replace("__", ".")] *= times
    setup = build(job, SHIPPED, values)
    return trial_of(setup, build_cases(setup.loads), [mount])


def found(of: Trial) -> dict[str, Array]:
    """Utilisation of each check, (n, cases or 1)."""
    return {c.name: np.atleast_2d(c.utilisation) for c in all_checks(of)}


def part(name: str) -> str:
    """A check without rule and method."""
    return ".".join(name.split(".")[:2])


MOUNT = Mount(
    (Layer(SHEETS[0], "across"),) * 3,
    EngineBolts(
        "1/2-13", "F593C", 152.4, Backing(washer="1/2 regular"), Backing("", "6061-T6", 6.35, 420.0, 76.2, "pair")
    ),
)
