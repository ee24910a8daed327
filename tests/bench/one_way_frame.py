"""What the board's checks would read on a flange that only pushes and bolts that only hold, beside the lines that decide.

    PYTHONPATH=. python tests/bench/one_way_frame.py [JOBS]

`review` and `size` hold the board on rigid lines, both ways. Here each line's flange pushes along its length with the
stiffness of the wood on it, and every bolt holds at its place with its own give. Examples and random jobs that are
not far over their limits; prints how many times the lines' figure each check comes to, and the worst frame bolt's pull.
"""

import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

sys.path.append(str(Path(__file__).parents[2]))

import numpy as np

from tests.bench.judgements import jobs, mount_of
from transom.board.answer import Answer, answer
from transom.board.bracket import Rest
from transom.board.grid import Rectangle
from transom.catalogue import SHIPPED
from transom.checks import all_checks, frame_pull
from transom.checks.careful import Careful
from transom.checks.plate_reactions import bolt_places
from transom.checks.trial import Trial
from transom.judge.judging import judge

SEAT = 25.0  # mm of flange that a board presses on along its line
MOST = 1.3  # utilisation over which a random mount tells nothing
PARTS = ("board", "engine-bolts")


def one(x: object) -> float:
    """A number out of whatever it is in."""
    return float(np.ravel(np.asarray(x))[0])


def give(c: Careful) -> float:
    """How far a frame bolt, the wood under its washer and the flange give, mm/N."""
    f, t = c.setup.frame, one(c.t)
    area = max(one(frame_pull.round_net_area(f.bolts.washer, f.bolts.hole)), 1.0)
    flange = frame_pull.flange_give(f.arm, frame_pull.working_length(f.side_pitch, f.arm, f.arm), f.flange, f.doubler)
    wood = frame_pull.wood_give(t, area, c.factor("board.pad_stiffness_MPa"))
    return one(frame_pull.bolt_give(t, f.flange, f.bolts.A_s, frame_pull.STEEL)) + one(wood) + one(flange)


def rests(c: Careful) -> Iterator[Rest]:
    """Flanges that push, bolts that hold, these at the nearest nodes of the finer grid."""
    fine, bed = c.board.grid.finer(), c.factor("board.pad_stiffness_MPa") * SEAT / one(c.t)
    for line in c.lines:
        yield Rest(line, bed * max(line.y_hi - line.y_lo, line.z_hi - line.z_lo), True)
    _, y, z = bolt_places(c)
    places = {
        tuple(float(on[np.argmin(np.abs(on - v))]) for on, v in ((fine.y, a), (fine.z, b)))
        for a, b in zip(y, z, strict=True)
    }
    for a, b in sorted(places):
        yield Rest(Rectangle(a, a, b, b), 1 / give(c), False)


def one_way(c: Careful) -> Answer:
    """Every case on these."""
    v, a = len(c.cases), c.actions
    wrenches = np.stack([np.broadcast_to(x, (1, v))[0] for x in (-a.N, a.M, a.M_z)], axis=-1)
    return answer(replace(c.board, supports=(), rests=tuple(rests(c))), wrenches, c.cases.names)


def worst(c: Trial) -> dict[str, float]:
    """The board's and the engine bolts' checks that the plate decides."""
    return {f"{k.part}.{k.what}": one(k.worst) for k in all_checks(c) if k.method == "plate" and k.part in PARTS}


def main() -> None:
    """One line for each job, then the spread of every check."""
    spread: dict[str, list[float]] = {}
    for name, job, spare in jobs(int(sys.argv[1]) if sys.argv[1:] else 60):
        mount = mount_of(job, spare, {})
        c = None if mount is None else judge(job, SHIPPED, mount, add=job.mount is None).careful
        if c is None or c.clamped:
            continue
        lines, found = worst(c), one_way(c)
        if max(lines.values()) > MOST:
            continue
        bolts = worst(replace(c, solved=found))
        times = {k: bolts[k] / lines[k] for k in lines if lines[k] > 0.4}
        held = np.array([n[3] for n in found.seated[-1].nodes]) < 0
        times["frame-bolt pull"] = float(found.borne.rests[held].max()) / float(np.max(frame_pull.forces(c).pull))
        for k, v in times.items():
            spread.setdefault(k, []).append(v)
        print(f"{name:24} " + ", ".join(f"{k} {v:.2f}" for k, v in times.items()))
    for k, values in spread.items():
        cells = np.percentile(values, [0, 50, 95, 100])
        print(f"{k:44}" + "".join(f"{v:7.2f}" for v in cells))


if __name__ == "__main__":
    main()
