"""Every case of one board by the plate method beside one linear analysis by PyNiteFEA on the same grid.

Run: python tests/bench/plate_speed.py. One BLAS thread for both. Times are the processor's, so that other
work on the machine counts less; the two take turns.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import time

import numpy as np
from hand_against_plate import board
from Pynite import FEModel3D

from transom.board.answer import answer, on_one_grid


def pynite(on, t: float) -> float:
    """Seconds of one analysis of a simply supported isotropic plate under one pressure."""
    model = FEModel3D()
    model.add_material("wood", 7000.0, 2700.0, 0.3, 1e-9)
    for i, y in enumerate(on.y):
        for j, z in enumerate(on.z):
            model.add_node(f"N{i}_{j}", y, z, 0)
            rim = i in (0, len(on.y) - 1) or j in (0, len(on.z) - 1)
            model.def_support(f"N{i}_{j}", True, True, rim, False, False, True)
    for i in range(len(on.y) - 1):
        for j in range(len(on.z) - 1):
            corners = (f"N{i}_{j}", f"N{i + 1}_{j}", f"N{i + 1}_{j + 1}", f"N{i}_{j + 1}")
            model.add_quad(f"Q{i}_{j}", *corners, t, "wood")
            model.add_quad_surface_pressure(f"Q{i}_{j}", 0.01)
    start = time.process_time()
    model.analyze_linear(sparse=True, check_stability=False)
    return time.process_time() - start


def ours(b, wrenches, method=answer, also=()) -> float:
    """Seconds of assembly, contact and recovery of every case: bolts, pads, and moments wherever a check reads them."""
    start = time.process_time()
    found = method(b, wrenches, [str(i) for i in range(len(wrenches))])
    for name in ("M_1", "M_2", "M_12", *also):
        getattr(found.fields, name)
    if also:
        _ = found.solution
    return time.process_time() - start


def main() -> None:
    """Print medians."""
    rng = np.random.default_rng(1)
    wrenches = np.column_stack([rng.uniform(-6e3, 4e3, 150), rng.uniform(-2e6, 3e6, 150), rng.normal(0, 2e5, 150)])
    b = board(36.7, "pod", 610.0, 450.0, 60.0)
    fine = b.grid.finer()
    ours(b, wrenches[:1])
    theirs, times = [], {}
    for _ in range(3):
        theirs.append(pynite(fine, 36.7))
        for n in (1, 25, 150):
            for method in (answer, on_one_grid):
                times.setdefault((n, method), []).extend(ours(b, wrenches[:n], method) for _ in range(7))
    middle = {key: 1e3 * float(np.median(values)) for key, values in times.items()}
    print(
        f"finer grid {len(fine.y)} x {len(fine.z)} nodes, {len(b.seat.pads)} pad cells; milliseconds of processor time"
    )
    print(f"{'cases':>8}{'two grids':>12}{'coarser alone':>16}")
    for n in (1, 25, 150):
        print(f"{n:8}{middle[n, answer]:12.1f}{middle[n, on_one_grid]:16.1f}")
    whole = 1e3 * float(np.median([ours(b, wrenches, also=("Q_1", "Q_2")) for _ in range(7)]))
    many, one, other = middle[150, answer], middle[1, answer], 1e3 * float(np.median(theirs))
    print(f"a further case {(many - one) / 149:.2f}, {(many - one) / 149 / one:.3f} of the first")
    print(f"all 150 with shears, deflections and reactions as well, which no check of `size` reads: {whole:.1f}")
    print(f"one PyNiteFEA analysis on the finer grid {other:.0f}: {other / many:.0f} times all 150 cases")


if __name__ == "__main__":
    main()
