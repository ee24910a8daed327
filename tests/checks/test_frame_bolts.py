"""Frame bolts beside a board on flanges that only push and bolts that only hold, in soft, usual and stiff wood; cap rails."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.flanges import pulls
from tests.checks.shop import JOB, MOUNT, trial
from transom.checks import frame_pull
from transom.checks.careful import Careful
from transom.checks.frame_pull import pull_at_bolts
from transom.job.records import Frame, FrameBolts
from transom.judge.evaluate import careful_of

KINDS = {"pod": (38.1, 6.35, 12), "uprights": (76.2, 9.525, 8), "cap rail": (50.8, 4.7625, 16)}
BOLTS = FrameBolts("3/8 in", 12, True, 9.525, 50.8, 4.7625, 0.0, True)
WOOD = (0.5, 1.0, 2.0)


@pytest.fixture(scope="module", params=list(KINDS))
def plate(request: pytest.FixtureRequest) -> Careful:
    kind = request.param
    width, thick, count = KINDS[kind]
    at = (-225.0, 225.0) if kind == "uprights" else ()
    held = Frame(kind, width, thick, "5052-H32", replace(BOLTS, count=count), at=at, flange_weld=np.inf)
    return careful_of(trial(replace(JOB, frame=held), MOUNT))


def test_lines_pull_harder_than_flanges_and_bolts_that_give_whatever_the_wood(plate: Careful) -> None:
    """Every line whose worst bolt carries a third of the largest pull or more."""
    found = frame_pull.forces(plate)
    most = float(found.pull.max())
    each = [pulls(plate, times) for times in WOOD]
    asked = [line for line in each[0] if float(getattr(found, line).max()) > most / 3]
    assert asked
    for line in asked:
        other = max(float(forces[line].max()) for forces in each)
        assert 0.4 * float(getattr(found, line).max()) < other < float(getattr(found, line).max())


def test_bolts_below_the_edge_carry_more_by_levers() -> None:
    """1000 N at the edge, the bottom flange's bolts 431 down and its inner edge 412: bolts 19 down carry it on 393."""
    assert pull_at_bolts(1000.0, 431.0, 19.0, 19.0) == pytest.approx(1000.0 * 431.0 / 393.0)
    assert pull_at_bolts(1000.0, 40.0, 20.0, 20.0) == pytest.approx(40e3)


def capped() -> Careful:
    held = Frame("cap rail", 50.8, 4.7625, "5052-H32", replace(BOLTS, count=16), flange_weld=np.inf)
    return careful_of(trial(replace(JOB, frame=held), MOUNT))


def test_a_cap_rails_bolts_see_the_board_turn_about_its_edge() -> None:
    """The plate holds the top edge; held 25.4 down instead, the edge would move forward what the board there moves aft."""
    of = capped()
    top, g = of.edge_lines[3], of.answer.grid
    w = of.answer.solution.w
    assert top.overhang == pytest.approx(25.4)
    there = [
        [np.interp(-25.4, g.z, w[i, :, v]) for v in range(w.shape[2])] for i in range(len(g.y)) if abs(g.y[i]) <= 279.6
    ]
    assert len(there) == len(top.along)
    np.testing.assert_allclose(top.edge, -np.array(there), atol=1e-12)
    assert top.edge.min() < -0.05


def test_a_cap_rails_top_line_counts_lever_and_prying() -> None:
    of = capped()
    f, top = of.setup.frame, of.edge_lines[3]
    n = float(np.ravel(f.n_top)[0])
    lever = (450 - 25.4) / (450 - 25.4 - 25.4 - 25.4)
    bare = replace(top, edge=np.zeros_like(top.edge), pull=top.pull * lever)
    flat, turned = (frame_pull._end_pull(of, line, n) for line in (bare, replace(bare, edge=top.edge)))
    assert frame_pull.forces(of).top == pytest.approx(turned)
    assert (turned >= flat).all()
    assert turned.max() > 1.05 * frame_pull._end_pull(of, replace(top, edge=bare.edge), n).max()
