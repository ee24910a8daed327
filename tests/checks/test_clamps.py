"""A 9.9 hp engine on clamp screws: no bolt is checked; the hook holds it in reverse. A kicker beside a main engine."""

from dataclasses import replace

import numpy as np
import pytest

from tests.checks.shop import HP, JOB, MOUNT, SHEET, alone, found, row, setup_of, trial, whole, with_engine
from transom.checks import all_checks
from transom.job.records import Kicker, Layer, Mount
from transom.judge.evaluate import trial_of, worst
from transom.loads.cases import build_cases

BOARD = Mount((Layer(SHEET, "across"), Layer(SHEET, "across")))
CLAMPED = with_engine(power=9.9 * HP, power_low=9.9 * HP, held_by="clamps", mass=45.0, shaft=381.0, steering="tiller")


def test_it_runs_and_passes_without_bolts() -> None:
    of = whole(CLAMPED, BOARD)
    parts = {(c.part, c.what) for c in all_checks(of)}
    assert not any(part == "engine-bolts" for part, _ in parts)
    assert not any(w in ("plate-edge", "plate-room", "bolt-spacing", "shank-in-grip") for _, w in parts)
    assert {"bending", "pad-bearing", "wood-crushing-upper-bolts", "plies-sliding-upper-bolts"} <= {w for _, w in parts}
    assert np.isfinite(worst(of)).all()


def test_ahead_the_screws_push_where_bolts_would_pull() -> None:
    """Pads to 220: foot at 176, screws 60 down, 100 across. N 1000, My 500,000, Fz -600: M = 500,000 + 600 x 18.26
    = 510,956; T = (510,956 - 176,000)/(2 x 116) = 1443.8, x 45/36.52 = 1779.0.

    Swivel pad 44 mm: pi/4 x 44^2 = 1520.5 mm^2 at 3.92 = 5960.5 N.
    """
    of = trial(CLAMPED, BOARD, alone((-1000.0, 0.0, -600.0, 0.0, 5e5, 0.0)))
    one = row(of, "backing.wood-crushing-upper-bolts.ec5", "only")
    assert one.demand == pytest.approx(1779.0, rel=1e-3)
    assert one.resistance == pytest.approx(5960.5, rel=1e-3)


def test_reverse_is_held_by_the_hook_at_the_top_edge() -> None:
    """The screws 60 down against the top edge 5 down: T = (-M + 5 N)/(2 x 55). Fx 700, Fz -400, My -400,000:
    M = -400,000 + 400 x 18.26 = -392,696; T = (392,696 - 3500)/110 = 3538.1, x 45/36.52 = 4359.7 N a screw.

    A bracket bolted 250 down would have carried it at 1060: taking the bolts' lever is unsafe here.
    """
    of = trial(CLAMPED, BOARD, alone((700.0, 0.0, -400.0, 0.0, -4e5, 0.0)))
    one = row(of, "backing.wood-crushing-lower-bolts.ec5", "only")
    assert one.demand == pytest.approx(4359.7, rel=1e-3)
    assert one.utilisation == pytest.approx(4359.7 / 5960.5, rel=1e-3)


def test_twice_that_reverse_crushes_the_wood_under_the_screws() -> None:
    of = trial(CLAMPED, BOARD, alone((1400.0, 0.0, -800.0, 0.0, -8e5, 0.0)))
    assert not row(of, "backing.wood-crushing-lower-bolts.ec5", "only").passes


def test_no_holes_are_bored_for_clamps() -> None:
    """Bending of the whole section, however much of it is used."""
    load = alone((-4000.0, 0.0, -2400.0, 0.0, 2e6, 0.0))
    of = trial(CLAMPED, BOARD, load)
    s = of.strips
    whole_section = of.stacks.veneer_utilisation(s.Mx, s.My, s.Mxy, of.k)
    assert whole_section[0, 0] > 0.6
    assert row(of, "board.bending.ec5", "only").demand == pytest.approx(whole_section[0, 0])


def test_a_kicker_brings_its_own_situations() -> None:
    job = with_engine(kicker=Kicker(power=8 * HP, mass=38.0, y=230.0))
    bare, beside = whole(), whole(job)
    assert not any(n.startswith("kicker-") for n in bare.cases.names)
    for of in ("kicker-ahead", "kicker-hard-over", "kicker-astern", "kicker-strike"):
        assert of in beside.cases.of
    assert np.isfinite(worst(beside)).all()


def test_a_kicker_never_helps() -> None:
    job = with_engine(kicker=Kicker(power=8 * HP, mass=38.0, y=230.0))
    bare, beside = found(whole()), found(whole(job))
    for name, check in bare.items():
        # The bottom line's pull in a strike comes from thrust alone, which a kicker's weight does relieve.
        if not check.information and name != "frame.flange-bending-end.ec9":
            assert beside[name].worst[0] >= check.worst[0] - 1e-9, name


def test_a_kicker_off_center_turns_the_bracket_about_the_upward_axis() -> None:
    """600 N x 1.5 at y 230 to starboard: Mz = 207 N m, over 4 x 163.5: 316.5 N on an upper bolt."""
    setup = setup_of(with_engine(kicker=Kicker(power=8 * HP, mass=38.0, y=230.0)))
    cases = build_cases(setup.loads)
    at = cases.names.index("kicker-ahead")
    thrust = float(setup.loads.kicker.thrust_N) * 1.5  # type: ignore[union-attr]
    lean = JOB.board.lean or 0.0
    assert abs(cases.design[at, 5]) == pytest.approx(thrust * 230.0 * np.cos(lean), rel=0.15)
    assert trial_of(setup, cases, [MOUNT]).upper_tension[0, at] > 0


def test_mirrored_kicker_mirrors() -> None:
    u = [worst(whole(with_engine(kicker=Kicker(power=8 * HP, mass=38.0, y=y))))[0] for y in (230.0, -230.0)]
    assert u[0] == pytest.approx(u[1], rel=1e-9)
    assert replace(CLAMPED).engine.held_by == "clamps"
