"""N samples in chunks: how often each check goes over its limit, and which numbers cause its scatter.

A chunk's samples depend on the seed and the chunk's place alone, so that a run is the same every time and its
memory does not grow with N.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from transom.chance.inputs import Scatter, scatters
from transom.chance.ratios import Ratios, at_middle, with_slopes
from transom.chance.reliability import least_chance, most_chance
from transom.chance.scene import Scene, loaded
from transom.frozen import dataclass
from transom.judge.evaluate import PENCIL
from transom.judge.records import Judgement
from transom.result import CheckArray, rounded
from transom.units import Array

SEED = 1
CHUNK = 500
PILOT = 200
MATTERS = 0.01  # what moves no check by so much over two standard deviations is held
RESHAPES = 0.04  # what moves some check by so much has the careful method solved again for it
NEAR = 0.97  # cases that come so near to the worst in some sample of the pilot are kept
LEAST = 1e-9

NONE = Ratios(PENCIL, solves=0)
Progress = Callable[[int], None]


@dataclass(frozen=True)
class Chance:
    """A check over its limit in `over` of `n` samples, between `low` and `high` (19 of 20), with safety factors off.

    `middle` is the median utilisation in its worst case; `shares` are parts of its scatter by what causes them,
    largest first, as squared correlations with its logarithm; what acts together only is in none.
    """

    part: str
    what: str
    rule: str
    method: str
    over: int
    n: int
    low: float
    high: float
    middle: float
    shares: tuple[tuple[Scatter, float], ...]


@dataclass(frozen=True)
class Uncertainty:
    """Every check that a load enters, most often over its limit first; `any` is the chance that some link is."""

    n: int
    seed: int
    cases: int
    of_cases: int
    solves: int
    any: Chance
    chances: tuple[Chance, ...]
    scatters: tuple[Scatter, ...]


@dataclass(frozen=True)
class Plan:
    """What is sampled: the scene cut to what matters, and how the careful method follows the pencil's."""

    scene: Scene
    ratios: Ratios
    of_cases: int


def uncertainty(j: Judgement, n: int, seed: int = SEED, progress: Progress | None = None) -> Uncertainty:
    """Sample a judged mount; careful demands where the judgement has them.

    Raises:
        ValueError: no mount was judged, or n is below 1.
    """
    if n < 1:
        raise ValueError(f"{n} samples")
    p = plan(j)
    checks = loaded(p.scene.at(np.zeros((1, len(p.scene.scatters)))))
    sums = Sums.none(len(checks) + 1, len(p.scene.scatters))
    for z in draws(n, len(p.scene.scatters), seed):
        sums = sums.with_chunk(z, over_all(utilisations(p, z)))
        if progress is not None:
            progress(len(z))
    found = [_chance(p, c, sums, i) for i, c in enumerate(checks)]
    first = replace(_chance(p, checks[0], sums, len(checks)), part="any", what="link", rule="", method="")
    ranked = sorted(found, key=lambda c: (-c.over, -c.middle, c.part, c.what, c.rule))
    rows = p.scene.rows or range(p.of_cases)
    return Uncertainty(n, seed, len(rows), p.of_cases, p.ratios.solves, first, tuple(ranked), p.scene.scatters)


def draws(n: int, k: int, seed: int) -> Iterator[Array]:
    """Standard normal samples (m, k) in chunks, n in all."""
    for i, start in enumerate(range(0, n, CHUNK)):
        yield np.random.default_rng([seed, i]).standard_normal((min(CHUNK, n - start), k))


def utilisations(p: Plan, z: Array) -> Array:
    """The largest utilisation over the cases for each check, (c, m); missing is infinite."""
    checks = loaded(p.scene.at(z))
    return np.array([np.broadcast_to(np.max(p.ratios.applied(c, z), axis=1), len(z)) for c in checks])


def over_all(u: Array) -> Array:
    """The same with the largest of all as last row, (c + 1, m)."""
    return np.vstack([u, np.max(u, axis=0)])


def plan(j: Judgement) -> Plan:
    """Hold what moves nothing, drop cases that never come near, and solve for the ratios."""
    every = Scene(j, scatters(j))
    scene = every.of(np.flatnonzero(_moved(every) > MATTERS).tolist())
    ratios = at_middle(scene) if j.careful is not None else NONE
    z = np.random.default_rng([SEED, PILOT]).standard_normal((PILOT, len(scene.scatters)))
    near = replace(scene, rows=_cases_near(scene, ratios, z))
    return Plan(near, with_slopes(near, _reshaping(near)) if j.careful is not None else NONE, len(j.cases))


def _moved(scene: Scene) -> Array:
    """How far each of what scatters moves the check it moves most, over two standard deviations, as a share, (k,)."""
    k = len(scene.scatters)
    z = np.vstack([np.eye(k), -np.eye(k)])
    worst = np.array([np.broadcast_to(c.worst, 2 * k) for c in loaded(scene.at(z))])
    logs = np.log(np.clip(worst, LEAST, 1.0 / LEAST))
    return np.asarray(np.abs(logs[:, :k] - logs[:, k:]).max(axis=0))


def _reshaping(scene: Scene) -> tuple[int, ...]:
    """Which of what scatters the careful method is solved again for."""
    moved = _moved(scene)
    return tuple(i for i, s in enumerate(scene.scatters) if s.reshapes and moved[i] > RESHAPES)


def _cases_near(scene: Scene, ratios: Ratios, z: Array) -> tuple[int, ...]:
    """Cases that come near to the worst of some check in some sample."""
    trial = scene.at(z)
    near = np.zeros(len(trial.cases), dtype=bool)
    for check in loaded(trial):
        u = np.broadcast_to(ratios.applied(check, z), (len(z), len(check.cases)))
        hit = (u >= NEAR * u.max(axis=1, keepdims=True)).any(axis=0)
        near[[trial.cases.names.index(check.cases[i]) for i in np.flatnonzero(hit)]] = True
    return tuple(int(i) for i in np.flatnonzero(near))


@dataclass(frozen=True)
class Sums:
    """Running sums over samples: how often over, and first and second moments of log utilisation and z."""

    n: int
    over: Array
    u: Array
    uu: Array
    z: Array
    zz: Array
    uz: Array

    @classmethod
    def none(cls, c: int, k: int) -> "Sums":
        """Before any sample, for c rows and k inputs."""
        return cls(0, np.zeros(c), np.zeros(c), np.zeros(c), np.zeros(k), np.zeros(k), np.zeros((c, k)))

    def with_chunk(self, z: Array, u: Array) -> "Sums":
        """With the samples z (m, k) and their utilisations u (c, m)."""
        logs = np.log(np.clip(u, LEAST, 1.0 / LEAST))
        return Sums(
            self.n + len(z),
            self.over + (~(u <= 1.0)).sum(axis=1),
            self.u + logs.sum(axis=1),
            self.uu + (logs**2).sum(axis=1),
            self.z + z.sum(axis=0),
            self.zz + (z**2).sum(axis=0),
            self.uz + logs @ z,
        )

    def shares(self, i: int) -> Array:
        """Squared correlation of row i's logarithm with each input, (k,)."""
        var_u = self.uu[i] / self.n - (self.u[i] / self.n) ** 2
        var_z = self.zz / self.n - (self.z / self.n) ** 2
        both = self.uz[i] / self.n - self.u[i] * self.z / self.n**2
        product = np.maximum(var_u * var_z, LEAST**2)
        return np.asarray(np.minimum(both**2 / product, 1.0))


def _chance(p: Plan, check: CheckArray, sums: Sums, i: int) -> Chance:
    over, n = int(sums.over[i]), sums.n
    shares: Sequence[float] = [rounded(float(x)) for x in sums.shares(i)]
    ranked = sorted(zip(p.scene.scatters, shares, strict=True), key=lambda pair: (-pair[1], pair[0].key))
    key = (check.part, check.what, check.rule)
    method = "plate" if key in p.ratios.middle.times else "hand"
    low = 0.0 if over == 0 else rounded(float(least_chance(over, n)))
    high = 1.0 if over == n else rounded(float(most_chance(over, n)))
    return Chance(*key, method, over, n, low, high, rounded(float(np.exp(sums.u[i] / n))), tuple(ranked))
