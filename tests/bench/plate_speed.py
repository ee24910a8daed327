"""Every case of one board by the plate method beside one linear analysis by PyNiteFEA and one by scikit-fem, same grid.

    python tests/bench/plate_speed.py [--rows]

Wants `pip install PyNiteFEA scikit-fem`. Both get an easier board than ours: isotropic, simply supported, one pressure, no
contact; PyNiteFEA as thick plates, scikit-fem as thin ones by Morley's triangle (its own example 2). What each finds in
the middle is held against Navier's series first. One BLAS thread for all. Times are the processor's, so that other work
on the machine counts less; they take turns.
"""

import os

os.environ["OPENBLAS_NUM_THREADS"] = "1"

import time

import numpy as np
from hand_against_plate import board
from rows import WANTED_ROWS, Row, brief, hand_over, times

from transom.board.answer import answer, on_one_grid

E, NU, PRESSURE = 7000.0, 0.3, 0.01  # MPa
SCRIPT = "plate_speed.py"


def navier(wide: float, high: float, t: float, terms: int = 60) -> float:
    """Deflection in the middle of a thin plate, simply supported, mm (Timoshenko, Theory of Plates and Shells, art. 30)."""
    D = E * t**3 / 12 / (1 - NU**2)
    odd = np.arange(1, 2 * terms, 2)
    m, n = odd[:, None], odd[None, :]
    sign = np.sin(m * np.pi / 2) * np.sin(n * np.pi / 2)
    return float(16 * PRESSURE / np.pi**6 / D * np.sum(sign / (m * n * (m**2 / wide**2 + n**2 / high**2) ** 2)))


def pynite(on, t: float) -> tuple[float, float]:
    """Seconds of one analysis of the plate, and its deflection at the node nearest the middle."""
    from Pynite import FEModel3D

    model = FEModel3D()
    model.add_material("wood", E, E / 2 / (1 + NU), NU, 1e-9)
    for i, y in enumerate(on.y):
        for j, z in enumerate(on.z):
            model.add_node(f"N{i}_{j}", y, z, 0)
            rim = i in (0, len(on.y) - 1) or j in (0, len(on.z) - 1)
            model.def_support(f"N{i}_{j}", True, True, rim, False, False, True)
    for i in range(len(on.y) - 1):
        for j in range(len(on.z) - 1):
            corners = (f"N{i}_{j}", f"N{i + 1}_{j}", f"N{i + 1}_{j + 1}", f"N{i}_{j + 1}")
            model.add_quad(f"Q{i}_{j}", *corners, t, "wood")
            model.add_quad_surface_pressure(f"Q{i}_{j}", PRESSURE)
    start = time.process_time()
    model.analyze_linear(sparse=True, check_stability=False)
    spent = time.process_time() - start
    return spent, max(abs(node.DZ["Combo 1"]) for node in model.nodes.values())


def skfem(on, t: float) -> tuple[float, float]:
    """The same by scikit-fem: mesh, assembly and solution."""
    from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri, condense, solve
    from skfem.helpers import dd, ddot, eye, trace

    start = time.process_time()
    basis = Basis(MeshTri.init_tensor(np.asarray(on.y), np.asarray(on.z)), ElementTriMorley())

    @BilinearForm
    def stiffness(u, v, _):
        curvature = dd(u)
        moment = E * t**3 / 12 / (1 - NU**2) * ((1 - NU) * curvature + NU * eye(trace(curvature), 2))
        return ddot(moment, dd(v))

    @LinearForm
    def load(v, _):
        return PRESSURE * v

    held = basis.get_dofs().all("u")
    w = solve(*condense(stiffness.assemble(basis), load.assemble(basis), D=held))
    spent = time.process_time() - start
    return spent, float(np.max(np.abs(w[basis.nodal_dofs[0]])))


def ours(b, wrenches, method=answer, also=()) -> float:
    """Seconds of assembly, contact and recovery of every case: bolts, pads, and moments wherever a check reads them."""
    start = time.process_time()
    found = method(b, wrenches, [str(i) for i in range(len(wrenches))])
    for name in ("M_1", "M_2", "M_12", *also):
        getattr(found.fields, name)
    if also:
        _ = found.solution
    return time.process_time() - start


def others(on, t: float, turns: int = 3) -> dict[str, float]:
    """Median seconds of an analysis by each, once it has been seen to find what a series does."""
    wide, high = on.y[-1] - on.y[0], on.z[-1] - on.z[0]
    found: dict[str, list[float]] = {"PyNiteFEA": [], "scikit-fem": []}
    for _ in range(turns):
        for name, method in (("PyNiteFEA", pynite), ("scikit-fem", skfem)):
            spent, w = method(on, t)
            np.testing.assert_allclose(w, navier(wide, high, t), rtol=0.05, err_msg=name)
            found[name].append(spent)
    return {name: float(np.median(each)) for name, each in found.items()}


def main() -> None:
    """Print medians, or hand over the rows of the table."""
    rng = np.random.default_rng(1)
    wrenches = np.column_stack([rng.uniform(-6e3, 4e3, 150), rng.uniform(-2e6, 3e6, 150), rng.normal(0, 2e5, 150)])
    b = board(36.7, "pod", 610.0, 450.0, 60.0)
    fine = b.grid.finer()
    ours(b, wrenches[:1])
    theirs, spent = others(fine, 10.0), {}
    for _ in range(3):
        for n in (1, 25, 150):
            for method in (answer, on_one_grid):
                spent.setdefault((n, method), []).extend(ours(b, wrenches[:n], method) for _ in range(7))
    middle = {key: float(np.median(values)) for key, values in spent.items()}
    if not WANTED_ROWS:
        told(b, fine, middle, float(np.median([ours(b, wrenches, also=("Q_1", "Q_2")) for _ in range(7)])))
    hand_over(
        Row(
            f"plate with contact, cases: {n}, each on two grids", brief(middle[n, answer]),
            f"one linear analysis by {name}, finer grid: {brief(t)}", times(t / middle[n, answer]), "", SCRIPT,
        )
        for name, t in theirs.items() for n in (1, 150)
    )  # fmt: skip


def told(b, fine, middle, whole: float) -> None:
    """What the table leaves out."""
    print(
        f"finer grid {len(fine.y)} x {len(fine.z)} nodes, {len(b.seat.pads)} pad cells; milliseconds of processor time"
    )
    print(f"{'cases':>8}{'two grids':>12}{'coarser alone':>16}")
    for n in (1, 25, 150):
        print(f"{n:8}{1e3 * middle[n, answer]:12.1f}{1e3 * middle[n, on_one_grid]:16.1f}")
    many, one = middle[150, answer], middle[1, answer]
    print(f"a further case {1e3 * (many - one) / 149:.2f}, {(many - one) / 149 / one:.3f} of the first")
    print(f"all 150 with shears, deflections and reactions as well, which no check of `size` reads: {1e3 * whole:.1f}")


if __name__ == "__main__":
    main()
