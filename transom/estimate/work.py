"""What a judged mount comes to for an estimator: areas, counts, epoxy, plates, bolts."""

from typing import Protocol

import numpy as np

from transom.estimate.amounts import (
    coated_area,
    film_mass,
    glued_area,
    plug_volume,
    spread_mass,
    volume_mass,
    volume_of,
)
from transom.frozen import dataclass
from transom.job.records import Job, Mount
from transom.judge.fasteners import Added
from transom.judge.judging import board_mass
from transom.loads.crossing import length_in_m
from transom.setup.facts import Facts
from transom.setup.records import Setup

LITERS = 1000.0  # in a m3
WATTS = 1000.0  # in a kW


@dataclass(frozen=True)
class Epoxy:
    """Epoxy that stays in and on a board, kg, without waste."""

    glue: float
    coats: float
    plugs: float
    density: float  # kg/m3

    @property
    def mass(self) -> float:
        """All of it, kg."""
        return self.glue + self.coats + self.plugs

    @property
    def liters(self) -> float:
        """All of it, by its density."""
        return float(volume_of(self.mass, self.density)) * LITERS


@dataclass(frozen=True)
class Work:
    """What the work grows with. Areas in m2, edge in m, thickness in mm, power in kW, masses in kg."""

    boat: str
    frame: str
    power: float
    width: float  # mm
    height: float  # mm
    thickness: float
    area: float
    edge: float
    layers: int
    glued: float
    coated: float
    engine_bolts: int
    frame_bolts: int  # board to frame and, on a pod, pod to crossmembers
    holes: int  # through the board
    plates: int
    epoxy: Epoxy
    board_mass: float


PIECES = {"bolt": 0, "pair": 2, "all": 1}


class Ground(Protocol):
    """What an estimate stands on: a judgement, or a job prepared for one."""

    @property
    def job(self) -> Job:
        """What the user stated."""

    @property
    def setup(self) -> Setup:
        """Every number a judgement rests on."""

    @property
    def facts(self) -> Facts:
        """Each of these numbers with its evidence."""


def work_of(j: Ground, mount: Mount, fasteners: tuple[Added, ...]) -> Work:
    """The work of a mount on a judged job."""
    setup, place = j.setup, j.setup.place
    width, height = float(np.ravel(place.width)[0]), float(np.ravel(place.height)[0])
    count = engine_bolts(setup, mount)
    joints = {a.joint: a.bolts.count or 0 for a in fasteners}
    t = thickness_of(j, mount)
    w, h, t_m = (float(length_in_m(x)) for x in (width, height, t))
    lines = len(mount.layers) - 1
    return Work(
        boat=j.job.boat.kind,
        frame=place.kind,
        power=j.facts["engine.power"].value / WATTS,
        width=width,
        height=height,
        thickness=t,
        area=w * h,
        edge=2 * (w + h),
        layers=len(mount.layers),
        glued=float(glued_area(w, h, lines)),
        coated=float(coated_area(w, h, t_m)),
        engine_bolts=count,
        frame_bolts=sum(joints.values()),
        holes=count + joints.get("frame", 0),
        plates=pieces(mount, count),
        epoxy=epoxy_of(j, mount, w, h, t_m, count),
        board_mass=float(board_mass(w, h, sum(setup.tables.sheet(x.sheet).areal_mass_kg_m2 for x in mount.layers))),
    )


def engine_bolts(setup: Setup, mount: Mount) -> int:
    """Bolts through the bracket; none where clamps hold the engine."""
    if mount.engine_bolts is None or setup.holding.by == "clamps":
        return 0
    return int(np.ravel(setup.holding.bolt_y).size)


def pieces(mount: Mount, count: int) -> int:
    """Backing plates to make."""
    b = mount.engine_bolts
    if b is None or not b.forward.plate or not count:
        return 0
    return PIECES[b.forward.per] or count


def thickness_of(j: Ground, mount: Mount) -> float:
    """Of the stack with its glue lines, mm."""
    measured = dict(j.job.stock.measured)
    sheets = sum(measured.get(x.sheet, j.setup.tables.sheet(x.sheet).thickness_mm) for x in mount.layers)
    return float(sheets + (len(mount.layers) - 1) * j.setup.factors.glue_line)


def epoxy_of(j: Ground, mount: Mount, w: float, h: float, t: float, engine: int) -> Epoxy:
    """Epoxy in glue lines, coats and the engine bolts' over-bores, the only holes that are plugged; lengths in m."""
    tables, factors = j.setup.tables, j.setup.factors
    row = {r.name: r for r in tables.rows("epoxy")}
    rho = row["density, ambient cure"].value
    d = tables.thread(mount.engine_bolts.thread).d_mm if mount.engine_bolts is not None and engine else 0.0
    plugs = float(plug_volume(length_in_m(d + factors.over_bore), t, engine)) if engine else 0.0
    return Epoxy(
        glue=float(spread_mass(glued_area(w, h, len(mount.layers) - 1), row["spread, double"].value)),
        coats=float(film_mass(coated_area(w, h, t), length_in_m(factors.coat), rho)),
        plugs=float(volume_mass(plugs, rho)),
        density=rho,
    )
