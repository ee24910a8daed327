"""Every case of one board by the plate method beside one linear analysis by PyNiteFEA on the same grid.

Run with one BLAS thread: OPENBLAS_NUM_THREADS=1 python tests/bench/plate_speed.py
"""

import time

import numpy as np
from hand_against_plate import board
from Pynite import FEModel3D

from transom.board.answer import answer


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
    start = time.perf_counter()
    model.analyze_linear(sparse=True, check_stability=False)
    return time.perf_counter() - start


def ours(b, wrenches) -> float:
    """Seconds of assembly, both grids, contact and recovery of every case."""
    start = time.perf_counter()
    answer(b, wrenches, [str(i) for i in range(len(wrenches))])
    return time.perf_counter() - start


def main() -> None:
    """Print medians."""
    rng = np.random.default_rng(1)
    wrenches = np.column_stack([rng.uniform(-6e3, 4e3, 150), rng.uniform(-2e6, 3e6, 150), rng.normal(0, 2e5, 150)])
    b = board(36.7, "pod", 610.0, 450.0, 60.0)
    ours(b, wrenches[:1])
    many, one, theirs = (
        np.median([f() for _ in range(n)])
        for f, n in (
            (lambda: ours(b, wrenches), 7),
            (lambda: ours(b, wrenches[:1]), 7),
            (lambda: pynite(b.grid.finer(), 36.7), 3),
        )
    )
    print(
        f"150 cases {1e3 * many:.0f} ms, one case {1e3 * one:.0f} ms, a further case {1e3 * (many - one) / 149:.2f} ms"
    )
    print(f"one PyNiteFEA analysis on the same grid {1e3 * theirs:.0f} ms: {theirs / many:.0f} times ours")


if __name__ == "__main__":
    main()
