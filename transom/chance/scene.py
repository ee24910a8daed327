"""A judged mount with its safety factors taken off, at any number of samples of what scatters."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cached_property
from typing import Any

import numpy as np

from transom.board.lamination import Stacks
from transom.catalogue import Catalogue
from transom.chance.inputs import Scatter
from transom.chance.reliability import scattered
from transom.checks import all_checks
from transom.checks.hardware import Hardware
from transom.checks.trial import Trial
from transom.frozen import dataclass
from transom.judge.evaluate import trial_of
from transom.judge.records import Judgement
from transom.loads.cases import build_cases
from transom.loads.inputs import LoadInputs
from transom.result import ONCE, CheckArray
from transom.setup.build import build, values_of
from transom.units import Array, Value

# Safety factors, and the allowance for a centre of gravity nobody measured, which scatters here instead.
TAKEN_OFF = {"gravity.up_spread_mm": 0.0}
SAFETY = ("gamma_F.", "gamma_M", "adm.phi_pull_over")


@dataclass(frozen=True)
class Scene:
    """One mount, what scatters in it, and the cases it is tried in (`rows`, all where None)."""

    judged: Judgement
    scatters: tuple[Scatter, ...]
    rows: tuple[int, ...] | None = None

    @cached_property
    def tables(self) -> Catalogue:
        """The tables without safety factors."""
        return without_factors(self.judged.setup.tables)

    @cached_property
    def base(self) -> Trial:
        """The mount as judged, safety factors in."""
        j = self.judged
        if j.mount is None:
            raise ValueError("no mount to sample")
        return trial_of(j.setup, j.cases, [j.mount])

    def of(self, keep: Iterable[int]) -> "Scene":
        """The same with some of what scatters; the rest stays where it is used. A strength stays: its middle differs."""
        kept = set(keep)
        return replace(self, scatters=tuple(s for i, s in enumerate(self.scatters) if i in kept or s.middle != 1.0))

    def at(self, z: Array) -> Trial:
        """The mount at samples z (n, k), standard normal, k as `scatters`."""
        times = dict(self._times(z))
        facts = values_of(self.judged.facts)
        values: dict[str, Value] = {k: v * times[k] if k in times else v for k, v in facts.items()}
        setup = build(self.judged.setup.job, self.tables, values)
        setup = replace(setup, loads=scattered_loads(setup.loads, times, len(z)))
        cases = build_cases(setup.loads)
        stacks, hardware = scattered_wood(self.base.stacks, times), scattered_metal(self.base.hardware, times)
        return Trial(setup, cases if self.rows is None else cases.take(self.rows), stacks, hardware)

    def _times(self, z: Array) -> Iterable[tuple[str, Array]]:
        for i, s in enumerate(self.scatters):
            for key in s.keys:
                yield key, np.asarray(scattered(s.middle, s.s, z[:, i]))


def without_factors(tables: Catalogue) -> Catalogue:
    """The same tables with every safety factor at one."""
    rows = tuple(replace(row, value=_off(row.name, row.value)) for row in tables.rows("factors"))
    return Catalogue({**tables.shop, "factors": rows})


def _off(name: str, value: float) -> float:
    return 1.0 if name.startswith(SAFETY) else TAKEN_OFF.get(name, value)


GROUPS = {
    "load.thrust": ("thrust_N", "thrust_under_way_N"),
    "load.inertia": ("service_g", "turn_g"),
    "load.road": ("road_down_g", "road_up_g", "road_forward_g", "road_rearward_g", "road_sideways_g"),
    "load.strike": ("strike_ratio",),
}


def scattered_loads(loads: LoadInputs, times: Mapping[str, Array], n: int) -> LoadInputs:
    """Loads of each group times its samples (n,); the kicker's thrust with the engine's."""
    changed: dict[str, Any] = {
        name: getattr(loads, name) * times[key] for key, names in GROUPS.items() if key in times for name in names
    }
    if loads.kicker is not None and "load.thrust" in times:
        changed["kicker"] = replace(loads.kicker, thrust_N=loads.kicker.thrust_N * times["load.thrust"])
    return replace(loads, **changed)


def scattered_wood(stacks: Stacks, times: Mapping[str, Array]) -> Stacks:
    """Stacks whose sheets' thickness, strengths and moduli are times their samples (n,)."""

    def many(key: str) -> Array:
        return np.asarray(times.get(key, np.ones(1)))

    stacks = stacks.scaled(times["wood.thickness"]) if "wood.thickness" in times else stacks
    stiff, weak = many("wood.stiffness"), 1.0 / many("wood.bending")[:, None]
    moduli = {name: getattr(stacks, name) * stiff for name in ("E_1", "E_2", "G_12", "G_trans")}
    return replace(
        stacks,
        s=stacks.s * weak,
        r=stacks.r * weak,
        f_r=stacks.f_r * many("wood.sliding"),
        f_c_90=stacks.f_c_90 * many("wood.crushing"),
        **moduli,
    )


def scattered_metal(w: Hardware, times: Mapping[str, Array]) -> Hardware:
    """Hardware whose strengths are times their samples, columns (n, 1)."""
    bolts, plates = (times[k][:, None] if k in times else 1.0 for k in ("bolts.strength", "plates.strength"))
    return replace(w, f_ub=w.f_ub * bolts, f_y=w.f_y * plates)


def loaded(trial: Trial) -> tuple[CheckArray, ...]:
    """The checks that decide and that a load enters; fit, length and spacing do not scatter with a load."""
    return tuple(c for c in all_checks(trial) if not c.information and c.cases != (ONCE,))
