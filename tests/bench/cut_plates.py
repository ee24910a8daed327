"""Values of notched, cut and stiffened plates by PyNiteFEA, for `materials/published/pynite_plates.toml`.

    python tests/bench/cut_plates.py STEP > FILE

Thick quads with sides of at most STEP mm (6 was used; at 10 the moments lie 0.4 to 1.4 % lower, deflections 0.4 %). Half of each plate is solved. The lines printed are the file;
`tests/test_published.py` and `transom verify` read it. Wants PyNiteFEA.
"""

import sys
from importlib.metadata import version

import numpy as np
import Pynite

from tests.board.test_outline import at_node, node, pynite
from transom.board.grid import Rectangle, grid

NOTCH = [-120.0, 120.0, -60.0, 0.0]
CORNERS = [
    [-300.0, -210.0, -400.0, -340.0],
    [210.0, 300.0, -400.0, -340.0],
    [-300.0, -240.0, -40.0, 0.0],
    [240.0, 300.0, -40.0, 0.0],
]
PATCH = [-120.0, 120.0, -240.0, -180.0]
BOARDS = {
    "notched": ([NOTCH], []),
    "corners": (CORNERS, []),
    "stiffened": ([], PATCH),
    "all": ([NOTCH, *CORNERS], PATCH),
}
WORDS = {
    "notched": "notch 240 x 60 in its top edge",
    "corners": "bottom corners 90 x 60 and top corners 60 x 40 cut out",
    "stiffened": "240 x 60 of it 52 thick",
    "all": "notch, corners and thicker part together",
}
POINTS = {"w": [(0.0, -210.0), (150.0, -90.0), (0.0, -330.0)], "M_1": [(0.0, -330.0), (150.0, -120.0)]}
BASE = "width = 600.0, height = 400.0, t = 40.0, E = 10000.0"


def case(board: str, name: str, quantity: str, at: list[float], printed: float, tolerance: float, why: str) -> str:
    missing, patch = BOARDS[board]
    more = f", missing = {missing}" if missing else ""
    more += f", thicker = {patch}, t_thicker = 52.0" if patch else ""
    return "\n".join((
        "", "[[case]]", f'id = "cut-plate-{board}-{name}"', 'area = "plates"', 'formula = "board.cut_plate:cut_plate"',
        f'inputs = {{ quantity = "{quantity}", at = {at}, {BASE}{more} }}', f"printed = {printed:.5g}",
        f'unit = "{"mm" if quantity == "w" else "N"}"', f"tolerance = {tolerance}", f'why = "{why}"',
        f'citation = "600 x 400 x 40 mm, E 10,000 MPa, nu 0.3, 0.01 MPa, three sides held: {WORDS[board]}"',
        'known_by = "computed"',
    ))  # fmt: skip


def main(step: float) -> None:
    print(f'[source]\ntitle = "PyNiteFEA {version("PyNiteFEA")}, Quad elements"')
    print(
        f'note = "Computed by the general-purpose library PyNiteFEA, thick quads of {step:g} mm or less (tests/bench/cut_plates.py)."'
    )
    for board, (missing, patch) in BOARDS.items():
        gone = [Rectangle(*r) for r in missing]
        y, z = (
            [-300.0, -150.0, -120.0, 0.0, 120.0, 150.0, 300.0],
            [-400.0, -330.0, -240.0, -210.0, -180.0, -120.0, -90.0, -60.0, 0.0],
        )
        on = grid(y, z, step, missing=gone)
        y_mid, z_mid = ((v[1:] + v[:-1]) / 2 for v in (on.y, on.z))
        there = (
            np.outer(np.abs(y_mid) < 120.0, (z_mid > -240.0) & (z_mid < -180.0))
            if patch
            else np.zeros(on.present.shape, bool)
        )
        model, names = pynite(Pynite, on, np.where(there, 52.0, 40.0), 10000.0, 0.3)
        for n, place in enumerate(POINTS["w"], 1):
            w = abs(model.nodes[names[node(on, *place)]].DZ["Combo 1"])
            print(case(board, f"w{n}", "w", list(place), w, 0.005, "grids of 40 and 20 mm against quads of 6 mm"))
        for n, place in enumerate(POINTS["M_1"], 1):
            print(
                case(
                    board,
                    f"M1-{n}",
                    "M_1",
                    list(place),
                    at_node(model, *node(on, *place)),
                    0.015,
                    "grids of 40 and 20 mm against quads of 6 mm, a moment",
                )
            )


if __name__ == "__main__":
    main(float(sys.argv[1]))
