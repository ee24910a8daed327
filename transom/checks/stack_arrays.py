"""From what a job or a search names to the arrays the checks run on."""

from collections.abc import Sequence

import numpy as np

from transom.board.lamination import Panel, Stacks, stacks
from transom.catalogue import Catalogue
from transom.errors import JobError
from transom.job.records import Layer


def stacks_of(piles: Sequence[Sequence[Layer]], tables: Catalogue, measured: dict[str, float] | None = None) -> Stacks:
    """Glue up piles of layers (aft face first) at once.

    Args:
        piles: one sequence of layers for each candidate.
        tables: where sheets and panels are looked up.
        measured: thickness in mm that the shop measured, by name of sheet; it goes before the table's.

    Raises:
        JobError: a sheet that the tables do not hold, or a pile without sheets.
    """
    if not piles or not all(piles):
        raise JobError("[mount] layers: none; list the sheets, aft face first")
    n, most = len(piles), max(len(p) for p in piles)
    names = sorted({layer.sheet for pile in piles for layer in pile})
    sheets = [tables.sheet(name) for name in names]
    panels = [tables.panel(s.panel) for s in sheets]
    place = {name: i for i, name in enumerate(names)}
    index = np.zeros((n, most), dtype=int)
    used = np.zeros((n, most), dtype=bool)
    across = np.zeros((n, most), dtype=bool)
    for i, pile in enumerate(piles):
        for j, layer in enumerate(pile):
            index[i, j], used[i, j], across[i, j] = place[layer.sheet], True, layer.grain == "across"
    thickness = np.array([(measured or {}).get(s.name, s.thickness_mm) for s in sheets])
    plies = np.array([s.plies for s in sheets])

    def of(column: str) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        return np.array([getattr(p, column) for p in panels], dtype=float)[index]

    panel = Panel(
        E_par=of("E_par_MPa"),
        E_perp=of("E_perp_MPa"),
        f_par=of("f_m_par_k_MPa"),
        f_perp=of("f_m_perp_k_MPa"),
        f_v=of("f_v_k_MPa"),
        f_r=of("f_r_k_MPa"),
        f_c_90=of("f_c_90_k_MPa"),
        G_12=of("G12_MPa"),
        G_trans=of("G_trans_MPa"),
        rho=of("rho_k_kg_m3"),
    )
    return stacks(thickness[index], across, plies[index], panel, used)
