"""The hand method beside the plate method over random boards: ratios of utilisation and bolt tension.

    python tests/bench/hand_against_plate.py [BOARDS]
    python tests/bench/hand_against_plate.py --judged JOBS

Invented boards and loads, fixed seed: bare boards under one load each; or whole jobs as they are judged, every check that
both methods have, its worst case by either, where the plate's is over a tenth of the limit.
"""

import os
import sys
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.append(str(Path(__file__).parents[2]))

import numpy as np

from tests.bench.judgements import random_job
from transom.board.answer import Board, answer
from transom.board.bracket import Bolt, Seat, bolt_stiffness, pad_cells, shank_stiffness, wood_stiffness
from transom.board.elements import Section
from transom.board.grid import Rectangle, grid
from transom.board.plate import Support
from transom.catalogue import SHIPPED
from transom.checks import all_checks
from transom.errors import JobError
from transom.judge.evaluate import careful_of, trial_of
from transom.judge.fasteners import with_most
from transom.loads.cases import build_cases
from transom.setup.build import build, values_of
from transom.setup.facts import collect
from transom.statics.contact import Pattern, prying_factor
from transom.statics.crossed import crossed_strips

E_1, E_2, G_12, G_T, F_1, F_2, F_V = 7000.0, 4000.0, 500.0, 120.0, 23.0, 14.0, 3.5
PATTERN = Pattern(z_u=47.6, z_l=250.8, y_u=163.5, y_l=125.4, h=330.0, y_pad=140.0)


def board(t: float, kind: str, W: float, H: float, plate: float) -> Board:
    """Default bracket on a uniform panel."""
    inertia, half = t**3 / 12, plate / 2
    k = bolt_stiffness(shank_stiffness(200e3, 91.5, t + 20), wood_stiffness(250.0, plate**2, t))
    places = [(s * y, -z) for z, y in ((PATTERN.z_u, PATTERN.y_u), (PATTERN.z_l, PATTERN.y_l)) for s in (-1, 1)]
    bolts = tuple(Bolt(y, z, k, Rectangle(y - half, y + half, z - half, z + half)) for y, z in places)
    pads = sum((pad_cells(Rectangle(y - 35, y + 35, -330, 0), 250.0, t) for y in (-140, 140)), ())
    on = grid(
        [-W / 2, W / 2, -175, -105, 105, 175, *(p[0] for p in places)], [-H, -330, 0, *(p[1] for p in places)], 40.0
    )
    lines = [Rectangle(s * W / 2, s * W / 2, -H, 0) for s in (-1, 1)]
    lines += [Rectangle(-W / 2, W / 2, -H, -H)] if kind != "uprights" else []
    lines += [Rectangle(-W / 2, W / 2, 0, 0)] if kind == "cap rail" else []
    section = Section(E_1 * inertia, 0.0, E_2 * inertia, G_12 * inertia, G_T * t / 1.2, G_T * t / 1.2)
    return Board(on, section, tuple(Support(line) for line in lines), Seat(bolts, pads))


def utilisation(M_1, M_2, M_12):
    """Of a uniform panel, without t²/6 and k_mod: both methods alike."""
    return np.hypot(np.maximum(np.abs(M_1) / F_1, np.abs(M_2) / F_2), np.abs(M_12) / F_V)


def one(kind: str, rng) -> tuple[float, float, float]:
    """Hand over plate: utilisation of the board, largest bolt tension with prying, and without."""
    t, W, H = rng.uniform(25, 80), rng.uniform(420, 760), rng.uniform(400, 520)
    thrust = rng.uniform(1500, 9000) * rng.choice([1.0, -0.7])
    arm, weight, x = rng.uniform(600, 900), rng.uniform(900, 4000), rng.uniform(170, 325)
    N, M = thrust + 0.25 * weight * rng.uniform(-1, 0), thrust * arm + weight * x + weight * t / 2
    a = answer(board(t, kind, W, H, rng.uniform(50, 90)), np.array([[-N, M, 0.0]]), ["job"])
    u = np.nanmax(utilisation(a.fields.M_1, a.fields.M_2, a.fields.M_12))
    h = crossed_strips(
        kind=kind, N=np.array([N]), M=np.array([M]), t=t, E1=E_1, E2=E_2, G=G_T, G12=G_12, W=W, H=H, bracket=PATTERN
    )
    hand = utilisation(h.Mx, h.My, h.Mxy)
    T = max(float(np.max(h.T_u)), float(np.max(h.T_l)))
    bolt = T / a.borne.bolts.max()
    return float(np.max(hand) / u), bolt * float(np.asarray(prying_factor(t))), bolt


LEAST = 0.1  # of the limit


def judged(seed: int, kind: str) -> Iterator[tuple[str, float]]:
    """Hand over plate for each check of one random job on such a frame."""
    job, mount = random_job(seed)
    job = with_most(replace(job, frame=replace(job.frame, kind=kind)), SHIPPED)
    setup = build(job, SHIPPED, values_of(collect(job, SHIPPED)))
    pencil = trial_of(setup, build_cases(setup.loads), [mount])
    for hand, plate in zip(all_checks(pencil), all_checks(careful_of(pencil)), strict=True):
        if plate.method == "plate" and not plate.information:
            u_hand, u_plate = float(np.max(hand.utilisation)), float(np.max(plate.utilisation))
            if u_plate > LEAST and np.isfinite(u_hand) and np.isfinite(u_plate):
                yield f"{plate.part}.{plate.what}", u_hand / u_plate


def table(count: int) -> None:
    """Minimum, median, 95 % and largest ratio of every check, by kind of support; how many jobs had it."""
    for kind in ("pod", "uprights", "cap rail"):
        ratios, done = defaultdict(list), 0
        for seed in range(count):
            try:
                for name, ratio in judged(seed, kind):
                    ratios[name].append(ratio)
                    if name == "board.bending" and not seed % 3:  # a third have a notch, a third openings
                        ratios[f"{name}, nothing cut out"].append(ratio)
                done += 1
            except JobError:
                continue
        print(f"{kind}: {done} of {count} jobs")
        for name, found in sorted(ratios.items()):
            cells = "".join(f"{v:7.2f}" for v in np.percentile(found, [0, 50, 95, 100]))
            print(f"  {name:46}{cells}{len(found):6}", flush=True)


def main() -> None:
    """Print minimum, median, 95 % and largest ratio by kind of support."""
    if sys.argv[1:2] == ["--judged"]:
        table(int(sys.argv[2]))
        return
    jobs = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    print(f"{'':10}{'board utilisation':^32}{'bolts with prying':^32}{'bolts alone':^32}")
    for kind in ("pod", "uprights", "cap rail"):
        rng = np.random.default_rng(11)
        ratios = np.array([one(kind, rng) for _ in range(jobs)])
        cells = [np.percentile(r, [0, 50, 95, 100]) for r in ratios.T]
        print(f"{kind:10}" + "".join("".join(f"{v:7.2f}" for v in c) + "    " for c in cells))


if __name__ == "__main__":
    main()
