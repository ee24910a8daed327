"""Pull of the frame's bolts by the plate: levers and prying worked by hand, statics of the lines, limits."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import HARD_OVER, JOB, MOUNT, alone, setup_of, trial
from transom.board.grid import Rectangle
from transom.checks import frame, frame_pull
from transom.checks.careful import Careful
from transom.checks.edge_lines import EdgeLine
from transom.job.records import Frame, FrameBolts
from transom.judge.evaluate import careful_of

KEPT = FrameBolts("3/8 in", 12, True, 9.525, 50.8, 4.7625, 0.0, True)
HELD = replace(JOB, frame=Frame("pod", 38.1, 6.35, "5052-H32", KEPT, flange_weld=np.inf))


@pytest.fixture(scope="module")
def plate() -> Careful:
    return careful_of(trial(HELD, MOUNT))


def line(pull: dict[float, float], edge: float = 0.0, overhang: float = 19.05) -> EdgeLine:
    along = np.array(sorted(pull))
    there = np.array([[pull[s]] for s in along])
    return EdgeLine(np.zeros((len(along), 2)), along, there, np.full_like(there, edge), overhang)


def worst(of: Careful, held: EdgeLine, n: float = 3.0, first: float = 50.0, pitch: float = 100.0) -> float:
    """Pull of the worst of n bolts at 50, 150, 250 ... mm."""
    return float(frame_pull._line_pull(of, held, n, first, pitch)[0, 0])


def test_a_pull_between_two_bolts_is_shared_as_by_a_lever(plate: Careful) -> None:
    assert worst(plate, line({80.0: 1000.0})) == pytest.approx(700.0)
    assert worst(plate, line({150.0: 1000.0})) == pytest.approx(1000.0)
    assert worst(plate, line({80.0: 1000.0, 120.0: 500.0})) == pytest.approx(0.7 * 1000 + 0.3 * 500)


def test_past_the_end_bolt_all_of_it_and_more(plate: Careful) -> None:
    """40 mm past the end of 100 mm spacing: 1.4 times, as the lever over the next bolt has it."""
    assert worst(plate, line({10.0: 1000.0})) == pytest.approx(1400.0)
    assert worst(plate, line({290.0: 1000.0})) == pytest.approx(1400.0)


def test_no_push_relieves_a_pull_beside_it(plate: Careful) -> None:
    assert worst(plate, line({80.0: 1000.0, 90.0: -5000.0})) == pytest.approx(700.0)
    assert worst(plate, line({80.0: -1000.0})) == 0.0


def test_a_corner_that_lifts_counts(plate: Careful) -> None:
    """A pull at one end of a line that is pushed everywhere else, as twist leaves at a corner."""
    held = line({0.0: 300.0, 100.0: -2000.0, 200.0: -2000.0})
    assert worst(plate, held) == pytest.approx(450.0)


def test_prying_by_hand(plate: Careful) -> None:
    """T 1000 N at a bolt; the edge would travel 0.6 mm x 19.05/19.05. Gives, 36.52 mm of wood:

    bolt (36.52 + 6.35)/(210e3 A_s); washer 36.52/(250 pi/4 (50.8^2 - 10.325^2)) = 7.517e-5; flange 4 x 19.05^3 /
    (70e3 x 100.0 x 6.35^3) = 1.543e-5; edge 36.52/(250 x 100 x 19.05/2) = 1.534e-4 mm/N.
    """
    b = plate.setup.frame.bolts
    bolt = (36.52 + 6.35) / (210e3 * float(np.ravel(b.A_s)[0]))
    c_b = bolt + 7.517e-5 + 1.543e-5
    Q = (0.6 - 1000 * c_b) / (c_b + 1.534e-4)
    assert worst(plate, line({150.0: 1000.0}, edge=-0.6)) == pytest.approx(1000 + Q, rel=1e-3)


def test_an_edge_that_lifts_or_is_not_there_pries_nothing(plate: Careful) -> None:
    assert worst(plate, line({150.0: 1000.0}, edge=0.6)) == pytest.approx(1000.0)
    assert worst(plate, line({150.0: 1000.0}, edge=-0.6, overhang=0.0)) == pytest.approx(1000.0)


def test_lines_hold_what_the_plate_says(plate: Careful) -> None:
    """Every line's nodes sum to the plate's own reaction, and all of them to the push on the board."""
    W, H = float(plate.setup.place.span) / 2, 450.0
    side = -plate.answer.pull(Rectangle(W, W, -H, 0.0))
    np.testing.assert_allclose(plate.edge_lines[1].pull.sum(axis=0), side, rtol=1e-9, atol=1e-6)
    places = np.concatenate([x.places for x in plate.edge_lines])
    pulls = np.concatenate([x.pull for x in plate.edge_lines])
    _, once = np.unique(np.round(places, 6), axis=0, return_index=True)
    np.testing.assert_allclose(pulls[once].sum(axis=0), -np.ravel(plate.actions.N), rtol=1e-6, atol=1e-3)


def test_bolts_together_carry_every_pull(plate: Careful) -> None:
    """What the bolts of a line share is at least the pulls along it: levers past the ends only add."""
    f = plate.setup.frame
    for held in plate.edge_lines[:2]:
        bolts = np.arange(float(np.ravel(f.n_side)[0]))
        first, pitch = (float(np.ravel(np.asarray(x))[0]) for x in (f.first, f.side_pitch))
        share = frame_pull._shares(held.along, bolts, first, pitch)
        assert np.all(share >= 0.0)
        assert np.all(share.sum(axis=1) >= 1.0 - 1e-12)


def test_more_bolts_on_a_line_never_pull_harder(plate: Careful) -> None:
    held = plate.edge_lines[0]
    bare = replace(held, edge=np.zeros_like(held.edge))
    pulls = [frame_pull._line_pull(plate, bare, n, 19.05, (450 - 38.1) / (n - 1)).max() for n in (2.0, 3.0, 5.0, 9.0)]
    assert pulls == sorted(pulls, reverse=True)
    assert pulls[0] > pulls[-1] > 0


def test_the_pencil_pulls_harder_than_the_plate(plate: Careful) -> None:
    """Rows taken as points on the nearest bolt: on the safe side of the plate in every round load."""
    pencil, careful = frame_pull.forces(trial(HELD, MOUNT)), frame_pull.forces(plate)
    assert np.max(careful.side) < np.max(pencil.side)
    np.testing.assert_allclose(careful.shear, pencil.shear)


def test_what_is_not_a_number_never_passes(plate: Careful) -> None:
    bad = replace(
        plate, setup=replace(plate.setup, frame=replace(plate.setup.frame, flange=np.nan)), solved=plate.answer
    )
    names = {c.name: c for c in frame.checks(bad) if c.method == "plate" and not c.information}
    assert names
    for name in ("frame.flange-pull-through.ec9.plate", "frame.flange-bending-side.ec9.plate"):
        assert names[name].worst[0] > 1.0


def test_the_plate_does_not_hang_on_the_frames_bolts(plate: Careful) -> None:
    """One solution serves every choice of bolts: solved again with other bolts the lines hold the same."""
    other = careful_of(trial(setup=setup_of(replace(HELD, frame=replace(HELD.frame, bolts=replace(KEPT, count=24))))))
    for a, b in zip(plate.edge_lines, other.edge_lines, strict=True):
        np.testing.assert_array_equal(a.pull, b.pull)
        assert np.ptp(a.pull) > 100.0


def test_the_flange_and_bolt_checks_imply_the_t_stub(plate: Careful) -> None:
    """EN 1993-1-8 6.2.4, one bolt, m from the root and n from it to the toe: a bolt that passes tension and a flange
    that passes bending pass its mode 1, 2 M_pl/m, and mode 2, (M_pl + n F_t)/(m + n); mode 3 is the bolt's own."""
    rng = np.random.default_rng(7)
    T, m, n = rng.uniform(100, 5000, 200), rng.uniform(10, 30, 200), rng.uniform(5, 37, 200)
    M_pl, F_t = T * m * rng.uniform(1, 3, 200), T * rng.uniform(1, 3, 200)
    assert np.all(2 * M_pl / m >= T)
    assert np.all((M_pl + n * F_t) / (m + n) + 1e-9 >= T)


@pytest.mark.parametrize("n, pitch, y_pad, share", [
    (0, 100.0, 75.0, 1.0),  # no bolt: the whole pull is asked of one that is not there
    (4, 100.0, 75.0, 0.75),  # 75 is 2.25 pitches along from -150; wider than the pads are from the middle: of both
    (4, 60.0, 75.0, 0.375),  # 2.75 along, of one half alone
    (4, 75.0, 75.0, 0.25),  # at 37.5 and 112.5: half way, of one half alone
    (2, 100.0, 75.0, 1.25),  # 25 past the last
])  # fmt: skip
def test_share_of_an_end_lines_worst_bolt(n: int, pitch: float, y_pad: float, share: float) -> None:
    of = trial(HELD, MOUNT)
    frame, holding = replace(of.setup.frame, end_pitch=pitch), of.setup.holding
    holding = replace(holding, pattern=replace(holding.pattern, y_pad=y_pad))
    of = replace(of, setup=replace(of.setup, frame=frame, holding=holding))
    assert float(np.ravel(np.asarray(frame_pull._end_share(of, float(n))))[0]) == pytest.approx(share)


def test_the_side_that_is_pulled_harder_counts_whichever_it_is() -> None:
    """Steered hard over to either hand: the same pull, of the other side line."""
    mirrored = tuple(v * s for v, s in zip(HARD_OVER, (1, -1, 1, -1, 1, -1), strict=True))
    found = []
    for load in (HARD_OVER, mirrored):
        of = careful_of(trial(HELD, MOUNT, loads=alone(load)))
        f = of.setup.frame
        sides = [float(frame_pull._line_pull(of, e, f.n_side, f.first, f.side_pitch)[0, 0]) for e in of.edge_lines[:2]]
        assert max(sides) > 1.05 * min(sides)
        assert float(frame_pull.forces(of).side[0, 0]) == pytest.approx(max(sides))
        found.append(sides)
    assert found[0] == pytest.approx(found[1][::-1], rel=1e-3)


@pytest.mark.parametrize("kind, line, lever", [("cap rail", "top", 430.95 / 392.85), ("pod", "bottom", 1.0)])
def test_an_end_line_takes_what_the_strips_lay_on_it(kind: str, line: str, lever: float) -> None:
    """By the pencil: its force times the share of the worst bolt; of the top the lever of bolts 19.05 down, on flanges
    whose inner edge lies 450 - 38.1 down."""
    of = trial(replace(HELD, frame=replace(HELD.frame, kind=kind)), MOUNT)
    f = of.setup.frame
    pull = np.maximum(-np.asarray(getattr(of.strips, f"{line}_force")), 0.0)
    share = float(np.ravel(np.asarray(frame_pull._end_share(of, getattr(f, f"n_{line}"))))[0])
    found = getattr(frame_pull.forces(of), line)
    assert found == pytest.approx(np.broadcast_to(pull * lever * share, found.shape))
    assert float(np.max(pull)) > 0.0


@pytest.mark.parametrize("overhang, pries", [(0.99, False), (1.05, True), (19.05, True)])
def test_wood_pries_from_a_millimeter_beyond_the_line(plate: Careful, overhang: float, pries: bool) -> None:
    pulled = worst(plate, line({150.0: 1000.0}, edge=-1.0, overhang=overhang))
    assert (pulled > 1000.0) is pries
