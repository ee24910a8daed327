"""Each check a little under and a little over its limit, worked by hand: a forgotten factor, a swapped axis or a wrong
sign would pass what must fail here. Shares of the loads of `shop`; the limits are those worked in the other files.
"""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import (
    AHEAD,
    ASTERN,
    BOLTS,
    HARD_OVER,
    JOB,
    MOUNT,
    SHEET,
    alone,
    found,
    on_board,
    plate,
    row,
    setup_of,
    trial,
    with_bolts,
    with_engine,
)
from tests.checks.test_board import bending, moments
from tests.checks.test_bolts import en_resistance
from transom.job.records import Backing, Crossmembers, EngineBracket, Frame, FrameBolts, Hole, Layer, Mount

# What the plate over the pair is bent by with the board: 69,600 x 6.35^3/(5806.6 x 36.52^3) = 0.06301 of its moment.
FOLLOWED = 0.06301 * moments()[0]

# name, load, how often the load may be laid on until the limit (hand), what would let it pass beyond
LIMITS = (
    ("board.bending.ec5", AHEAD, 1 / bending(0.7332, 0.75), "gamma_M 1.2, k_mod, holes 0.75"),
    ("board.plies-sliding-upper-bolts.ec5", AHEAD, 0.8167 / 0.7240, "prying 1.23, c 1.31 and 1.68, open at the edge and to the middle"),
    ("board.plies-sliding-lower-bolts.ec5", ASTERN, 0.8167 / 0.3636, "prying, c"),
    ("board.plies-sliding-pads.ec5", AHEAD, 0.8167 / 0.4526, "half of C a pad, C = N + 2 T"),
    ("backing.wood-crushing-upper-bolts.ec5", AHEAD, 20355 / 5251.4, "k_mod, gamma_M, prying, reach of the plate"),
    ("backing.wood-crushing-lower-bolts.ec5", ASTERN, 25141 / 3946.5, "sign of M: the lower row pulls astern"),
    ("backing.plate-bending-upper-bolts.dg1", AHEAD, 2199.4 / (567.4 + FOLLOWED), "pressure on the net area, board's curve"),
    ("engine-bolts.tension.ec3", HARD_OVER, 45391 / 5308.8, "the couple about z, half of it"),
    ("engine-bolts.shear.ec3", HARD_OVER, 25217 / 1857.7, "Mx about the centroid; alpha_v 0.5"),
    ("engine-bolts.tension-and-shear.ec3", HARD_OVER, 1 / 0.1572, "shear beside tension"),
    ("engine-bolts.sideways-in-wood.ec5", HARD_OVER, en_resistance() / 1857.7, "gamma 1.3, edge, row"),
    ("engine-bolts.pull-and-sideways-in-wood.ec5", HARD_OVER, 1 / 0.4179, "either alone"),
)  # fmt: skip


@pytest.mark.parametrize("name, load, most, forgotten", LIMITS, ids=[x[0] for x in LIMITS])
def test_passes_just_under_and_fails_just_over(name: str, load: tuple[float, ...], most: float, forgotten: str) -> None:
    under, over = (row(trial(loads=alone(load, times=k * most)), name, "only") for k in (0.995, 1.005))
    assert under.passes, forgotten
    assert not over.passes, forgotten


def test_pad_block_at_its_limit() -> None:
    """y = h/2 = 165 at M' = f b (282.4 x 165 - 165^2/2) = 548.8 x 32,983.5 = 18,101,345, so 7.259 times ahead."""
    most = 18101345 / 2493720
    under, over = (
        row(trial(loads=alone(AHEAD, times=k * most)), "board.pad-bearing.ec5", "only") for k in (0.995, 1.005)
    )
    assert under.passes
    assert not over.passes


def test_sign_of_M_decides_the_row() -> None:
    """Ahead pulls the upper row alone, astern the lower alone; swapped, the weaker patch would go unchecked."""
    of = trial()
    ahead, astern = (of.cases.names.index(n) for n in ("ahead", "astern"))
    assert of.upper_tension[0, ahead] > 1000 > of.lower_tension[0, ahead]
    assert of.lower_tension[0, astern] > 1000 > of.upper_tension[0, astern]


def test_in_plane_load_acts_at_the_aft_face() -> None:
    """Weight alone, My 0: Fz t/2 must add to the pull (6000 x 18.26 = 109,560 N mm; T = 109,560/432.8 = 253.1)."""
    of = trial(loads=alone((0.0, 0.0, -6000.0, 0.0, 0.0, 0.0)))
    assert of.upper_tension[0, 0] == pytest.approx(253.1 * 45 / 36.52, rel=1e-3)


def test_side_force_and_couple_add_at_mid_thickness() -> None:
    """Mz 400,000 with Fy 3000: 400,000 + 3000 x 18.26 = 454,780; /(4 x 163.5) = 695.4. The other sign gives 527.9."""
    of = trial(loads=alone((0.0, 3000.0, 0.0, 0.0, 0.0, 4e5)))
    assert of.upper_tension[0, 0] == pytest.approx(695.4, rel=1e-3)


def test_couple_uses_each_rows_own_spacing() -> None:
    of = trial(loads=alone((0.0, 0.0, 0.0, 0.0, 0.0, 4e5)))
    assert of.upper_tension[0, 0] == pytest.approx(4e5 / (4 * 163.5), rel=1e-6)
    assert of.lower_tension[0, 0] == pytest.approx(4e5 / (4 * 125.4), rel=1e-6)


def test_across_and_up_are_not_swapped_in_shear() -> None:
    """Fy alone 4000 at 149.2 down (no couple): 1000 a bolt; Fz alone the same. With Fy at the datum the couple counts.

    Fy 4000 at z 0: Mx about the centroid 149.2 x 4000... = -596,800: lower bolt across -1000 - 480.4, up 593.
    """
    at_centroid = trial(loads=alone((0.0, 4000.0, 0.0, 149.2 * 4000.0, 0.0, 0.0)))
    assert np.max(at_centroid.shear) == pytest.approx(1000.0, rel=1e-6)
    at_datum = trial(loads=alone((0.0, 4000.0, 0.0, 0.0, 0.0, 0.0)))
    J = 2 * (163.5**2 + 125.4**2) + 4 * 101.6**2
    M = 149.2 * 4000
    # Upper bolts: the couple adds to the force across, as the force acts above the centroid.
    expected = max(np.hypot(1000 + M * 101.6 / J, M * 163.5 / J), np.hypot(1000 - M * 101.6 / J, M * 125.4 / J))
    assert np.max(at_datum.shear) == pytest.approx(expected, rel=1e-6)


def test_width_and_height_of_a_plate_are_not_swapped() -> None:
    """A pair's plate 76.2 wide and 381 high reaches no bolt: it must fail, its twin lying right passes."""
    assert not row(trial(mount=plate(6.35, 76.2, 381.0)), "backing.plate-edge").passes
    assert row(trial(), "backing.plate-edge").passes


def test_grain_across_and_along_are_not_swapped() -> None:
    """One sheet of 30 mm measured: across its E1 is 7000 and E2 4000, along the other way about."""
    job = replace(JOB, stock=replace(JOB.stock, measured=((SHEET, 30.0),)))
    for grain, moduli in (("across", (7000.0, 4000.0)), ("along", (4000.0, 7000.0))):
        s = trial(job, Mount((Layer(SHEET, grain),), BOLTS)).stacks
        assert (s.E_1[0], s.E_2[0]) == pytest.approx(moduli)


def test_long_load_is_not_judged_as_a_short_one() -> None:
    """The same wrench, short 0.7/1.2 and instantaneous 0.9/1.2: a swap would pass 0.7/0.9 of what is there."""
    short, brief = (
        row(trial(loads=alone(AHEAD, d)), "board.plies-sliding-upper-bolts.ec5", "only")
        for d in ("short", "instantaneous")
    )
    assert short.resistance == pytest.approx(1.4 * 0.7 / 1.2)
    assert brief.resistance == pytest.approx(1.4 * 0.9 / 1.2)


def test_design_loads_decide_not_service_ones() -> None:
    """A load that passes at its characteristic value and fails factored."""
    one = row(trial(loads=alone(AHEAD, times=1.2)), "board.plies-sliding-upper-bolts.ec5", "only")
    assert one.utilisation / 1.5 < 1 < one.utilisation


def test_flat_washers_do_not_do_at_40_hp() -> None:
    """Basis of the trade: flat 35 mm washers crush the face from 40 hp up; plates do."""
    of = trial(mount=with_bolts(forward=Backing(washer="1/2 USS")))
    assert row(of, "backing.wood-crushing-upper-bolts.ec5", "ahead").utilisation > 2
    assert row(trial(), "backing.wood-crushing-upper-bolts.ec5", "ahead").passes


def test_every_check_fails_somewhere() -> None:
    """No check that cannot fail: one mount and job spoilt in every way fails each of them."""
    spoilt = on_board(
        width=400.0, height=300.0, pocket=20.0, pocket_stated=True, notch_width=330.0, notch_depth=30.0,
        openings=(_hole(163.5, 60.0),), obstructions=(_hole(0.0, 47.6),),
    )  # fmt: skip
    spoilt = replace(
        spoilt, engine=replace(spoilt.engine, takes=(60.0, 61.0), torque=2e5, bracket=EngineBracket(ear=5.0))
    )
    mount = replace(
        with_bolts(forward=Backing("", "5052-H32", 3.175, 330.0, 150.0, "pair"), length=50.8), layers=MOUNT.layers
    )
    heavy = alone((-30000.0, -60000.0, -90000.0, -9e6, 2.6e7, -9e6))
    back = alone((30000.0, 60000.0, -90000.0, 9e6, -2.6e7, 9e6))
    failing = set()
    for load in (heavy, back):
        failing |= {n for n, c in found(trial(spoilt, mount, load)).items() if c.worst.max() > 1}
    few, many = (FrameBolts("1/4 in", count, True, 6.35, chosen=True) for count in (4, 400))
    thin = Frame("pod", flange_width=8.0, flange_thickness=0.5, bolts=few)
    for poor in (
        replace(JOB, frame=thin, crossmembers=Crossmembers(count=2, wall=0.5, bolts=few)),
        replace(JOB, frame=replace(thin, bolts=many), crossmembers=Crossmembers(bolts=many)),
    ):
        for load in (heavy, back):
            failing |= {n for n, c in found(trial(poor, MOUNT, load)).items() if c.worst.max() > 1}
    failing |= {n for n, c in found(trial(mount=with_bolts(length=200.0))).items() if c.worst.max() > 1}
    failing |= {n for n, c in found(trial(mount=Mount(MOUNT.layers[:1], BOLTS))).items() if c.worst.max() > 1}
    failing |= {n for n, c in found(trial(mount=Mount(MOUNT.layers * 3, BOLTS))).items() if c.worst.max() > 1}
    failing |= {n for n, c in found(trial(with_engine(takes=(20.0, 30.0)))).items() if c.worst.max() > 1}
    close = setup_of(
        engine__bracket__rows_apart=30.0, engine__bracket__upper_holes=60.0, engine__bracket__lower_holes=60.0
    )
    failing |= {n for n, c in found(trial(setup=close)).items() if c.worst.max() > 1}
    assert set(found(trial(spoilt, mount, heavy))) - failing == set()


def _hole(y: float, down: float) -> Hole:
    return Hole(y, down, 25.0)
