"""What may be put on a frame never fails by itself: bolts stand as far apart on its lines as metal asks."""

import numpy as np
import pytest

from tests.judge.mounts import HP
from transom.catalogue import SHIPPED
from transom.job.records import Board, Boat, Engine, Frame, FrameBolts, Head, Job
from transom.judge.fasteners import frame_options, with_most
from transom.judge.judging import prepared


def job(kind: str, height: float, **frame: object) -> Job:
    boat = Boat({"pod": "pontoon", "uprights": "aluminium hull", "cap rail": "glass hull"}[kind])
    return Job(Head(), boat, Engine(40 * HP, 40 * HP), Board(610.0, height), Frame(kind, **frame))  # type: ignore[arg-type]


@pytest.mark.parametrize("height", [380.0, 457.0, 560.0])
@pytest.mark.parametrize("kind", ["pod", "uprights", "cap rail"])
def test_the_most_that_may_be_added_is_three_diameters_apart(kind: str, height: float) -> None:
    """24 bolts of 1/2 in on two uprights 457 mm high would stand 37 mm apart, under the 38.1 of three diameters."""
    most = with_most(job(kind, height), SHIPPED)
    assert most.frame.bolts is not None
    assert most.frame.bolts.diameter is not None
    _, setup, _ = prepared(most, SHIPPED)
    apart = float(np.min(np.minimum(setup.frame.side_pitch, setup.frame.end_pitch)))
    assert apart >= 3.0 * most.frame.bolts.diameter


def test_a_stated_count_is_kept_whatever_room_there_is() -> None:
    stated = FrameBolts("1/2 in", 40, diameter=12.7)
    assert {b.count for b in frame_options(job("uprights", 457.0, bolts=stated), SHIPPED)} == {40}
