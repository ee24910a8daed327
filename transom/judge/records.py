"""What a judgement says. Frozen records, no printing."""

from collections.abc import Iterable, Sequence
from functools import cached_property

from transom.checks.careful import Careful
from transom.checks.ruler import PUSH, Ruler, ruler
from transom.frozen import dataclass
from transom.job.records import Job, Mount
from transom.judge.evaluate import PENCIL, Calibration
from transom.judge.fasteners import Added
from transom.loads.height import Height, height
from transom.result import ONCE, Assumption, Cases, Check, worst_of
from transom.setup.facts import Facts
from transom.setup.records import Setup


def weakest(checks: Iterable[Check]) -> Check:
    """The weakest of some checks. Fit and length are no link in a load's path: they count only where they fail.

    Raises:
        ValueError: nothing was checked.
    """
    listed = list(checks)
    if not listed:
        raise ValueError("nothing was checked")
    links = [c for c in listed if c.case != ONCE or not c.passes]
    return max(links or listed, key=lambda c: (c.utilisation, c.id))


@dataclass(frozen=True)
class Stop:
    """A reason not to build. A final one cannot be accepted; `accepted` says by whom, when, on what paper."""

    name: str
    says: str
    final: bool
    accepted: str = ""

    @property
    def stands(self) -> bool:
        """True while nobody has taken it on."""
        return self.final or not self.accepted


@dataclass(frozen=True)
class Option:
    """A mount on the shelf: what it comes to, its weakest link, and why it is or is not the pick."""

    mount: Mount
    wood: float  # mm
    total: float  # mm under the bracket
    mass: float  # kg
    halves: int  # half sheets to buy
    weakest: Check
    failing: tuple[Check, ...]

    @property
    def passes(self) -> bool:
        """True where nothing fails."""
        return not self.failing


@dataclass(frozen=True)
class Required:
    """The thickness of wood at which a check comes to exactly its limit, mm."""

    check: str
    thickness: float


@dataclass(frozen=True)
class Sizing:
    """How the pick was found."""

    rank: str
    candidates: int
    required: tuple[Required, ...]
    next_thinner: Option | None
    alternatives: tuple[Option, ...]
    nearest_miss: Option | None


@dataclass(frozen=True)
class GoodFor:
    """How far the mount goes with all else as it is: power in W, mass in kg."""

    power: float
    mass: float


def _worse(c: Check, than: Check) -> bool:
    """True where a check is used more, or as much and named later."""
    return c.utilisation > than.utilisation or (c.utilisation == than.utilisation and c.id > than.id)


@dataclass(frozen=True)
class Judgement:
    """A job judged: with a mount, or with none that works.

    `checks` hold every check in every case; `wood`, `coated` and `total` are mm, `mass` kg (board and
    backing). `to_measure` are the assumptions that decide, most urgent first.
    """

    job: Job
    setup: Setup
    facts: Facts
    cases: Cases
    mount: Mount | None
    checks: Sequence[Check]
    assumptions: tuple[Assumption, ...]
    to_measure: tuple[Assumption, ...]
    stops: tuple[Stop, ...]
    cautions: tuple[str, ...]
    paper: str
    notes: tuple[str, ...]
    wood: float = 0.0
    coated: float = 0.0
    total: float = 0.0
    mass: float = 0.0
    torque: float = 0.0  # N*mm, the one to print; 0 where clamps hold the engine
    careful: Careful | None = None  # the plate under every case
    calibration: Calibration = PENCIL
    fasteners: tuple[Added, ...] = ()  # bolts of frame and pod: enough, or what to add
    unwelded: tuple[Added, ...] = ()  # the frame's bolts were no weld near, where one is assumed and it tells
    could_add: tuple[Added, ...] = ()  # where they are judged as they are and fail: what added would make them hold
    good_for: GoodFor | None = None
    sizing: Sizing | None = None

    @property
    def deciding(self) -> tuple[Check, ...]:
        """The checks that decide; those printed for information do not."""
        return tuple(c for c in self.checks if not c.information)

    @cached_property
    def worst(self) -> tuple[Check, ...]:
        """The worst case of each deciding check, weakest first."""
        best: dict[tuple[str, str, str, str], Check] = {}
        for c in (c for c in worst_of(self.checks) if not c.information):
            key = (c.part, c.what, c.rule, c.method)
            if key not in best or _worse(c, best[key]):
                best[key] = c
        return tuple(sorted(best.values(), key=lambda c: (-c.utilisation, c.id)))

    @property
    def failing(self) -> tuple[Check, ...]:
        """The worst case of each deciding check that fails."""
        return tuple(c for c in self.worst if not c.passes)

    @property
    def governing(self) -> Check:
        """The weakest link, in its worst case.

        Raises:
            ValueError: nothing was checked.
        """
        return weakest(self.worst)

    @cached_property
    def ruler(self) -> Ruler | None:
        """What somebody's weight on the anti-ventilation plate moves; None where no plate was run."""
        if self.careful is None:
            return None
        return ruler(self.careful, PUSH[self.job.head.units], self.facts["engine.propeller.diameter"].value)

    @cached_property
    def height(self) -> Height:
        """How high the engine hangs by each of its bracket's holes."""
        tables, v = self.setup.tables, {key: fact.value for key, fact in self.facts.items()}
        kind = "tubes" if self.job.boat.kind == "pontoon" else "hull"
        below, above = (tables.factor(f"height.{kind}_{end}_mm").value for end in ("below", "above"))
        return height(
            bottom=v["boat.bottom"],
            shaft=v["engine.shaft"],
            below_plate=v["engine.propeller.below_plate"],
            diameter=v["engine.propeller.diameter"],
            band=(-below, above),
            setback=v.get("bracket.setback", 0.0),
            up=v.get("bracket.height", 0.0),
        )

    @property
    def passes(self) -> bool:
        """True where there is a mount, something was checked, all of it passes and no stop stands."""
        return (
            self.mount is not None and bool(self.worst) and not self.failing and not any(s.stands for s in self.stops)
        )
