"""Bending stiffness of stacks as composite sections, beside sectionproperties (a general-purpose library)."""

from itertools import product

import numpy as np
import pytest

from transom.board.lamination import Panel, stacks

FIR = {"E_par": 7000.0, "E_perp": 4000.0, "f_par": 23.0, "f_perp": 14.0, "f_v": 3.5, "f_r": 1.4, "f_c_90": 2.24,
       "G_12": 500.0, "G_trans": 120.0, "rho": 460.0}  # fmt: skip


def section_stiffness(moduli: list[float], thickness: list[float], width: float = 100.0) -> float:
    """EI about the elastic axis of veneers laid one on another, N*mm^2."""
    sections = pytest.importorskip("sectionproperties.analysis")
    library = pytest.importorskip("sectionproperties.pre.library")
    pre = pytest.importorskip("sectionproperties.pre")
    at, whole = 0.0, None
    for E, t in zip(moduli, thickness, strict=True):
        metal = pre.Material(f"E{E:.3f}", E, 0.0, 1.0, 1.0, "grey")
        ply = library.rectangular_section(d=t, b=width, material=metal).shift_section(y_offset=at)
        whole, at = (ply if whole is None else whole + ply), at + t
    whole.create_mesh(mesh_sizes=[200.0])
    section = sections.Section(whole)
    section.calculate_geometric_properties()
    return float(section.get_eic()[0])


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("turned", [*product((True, False), repeat=2)])
def test_a_stack_bends_like_the_composite_section_of_its_veneers(turned: tuple[bool, bool]) -> None:
    sheets, plies = [18.26, 11.91], [5, 5]
    stack = stacks([sheets], [list(turned)], [plies], Panel(**FIR))
    # The veneers' moduli, by the rule of the stacks themselves on single sheets: only the stacking is compared.
    moduli, thickness = [], []
    for t, across, p in zip(sheets, turned, plies, strict=True):
        z = np.arange(p + 1) / p - 0.5
        inertia = np.diff(z**3) / 3
        along, crossed = inertia[0::2].sum(), inertia[1::2].sum()
        # Each row of the table has its own modulus E, and a veneer square to it a twentieth of that.
        E_a, E_c = 7000 / 12 / (along + 0.05 * crossed), 4000 / 12 / (crossed + 0.05 * along)
        for i in range(p):
            runs_along_y = (i % 2 == 0) == across
            E = E_a if across else E_c
            moduli.append(float(E if runs_along_y else 0.05 * E))
            thickness.append(t / p)
    expected = section_stiffness(moduli, thickness)
    ours = float(stack.E_1[0]) * 100.0 * sum(sheets) ** 3 / 12
    assert ours == pytest.approx(expected, rel=1e-3)
