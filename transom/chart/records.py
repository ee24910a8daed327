"""A chart before it is drawn: lines of points, the job's own board, what it rests on. Frozen records."""

from transom.frozen import dataclass
from transom.job.records import Layer
from transom.judge.records import Judgement, Required
from transom.result import Check

SIZED, NOTHING = "sized", "nothing in stock works"


@dataclass(frozen=True)
class Point:
    """One panel at one power.

    Attributes:
        power: of the engine, W.
        state: SIZED, the board that `size` picks; NOTHING, it finds none, and the figures are of the board
            picked at the power before, else of the nearest miss.
        needs: thickness of wood at which a check comes to exactly its limit, and which; None where none does.
        pencil: the same by the pencil method alone, mm; infinite where thickness cures nothing.
        layers: of the board built, aft face first.
        wood, total: of the board built, mm; `total` with glue, coats and what lies under the bracket.
        weakest: the weakest link of the board built.
        failing: the checks of it that fail, weakest first.
        beyond_brackets: True where nobody measured the bracket and no bracket seen takes so much.
    """

    power: float
    state: str
    needs: Required | None
    pencil: float
    layers: tuple[Layer, ...]
    wood: float
    total: float
    weakest: Check
    failing: tuple[Check, ...]
    beyond_brackets: bool


@dataclass(frozen=True)
class Line:
    """One panel over rising powers, up to the first at which nothing works.

    `as_sold` where its sheets are not on the job's shelf and every size sold was tried.
    """

    panel: str
    points: tuple[Point, ...]
    as_sold: bool

    @property
    def sized(self) -> tuple[Point, ...]:
        """Points with a board that works."""
        return tuple(p for p in self.points if p.state == SIZED)

    @property
    def ends(self) -> Point | None:
        """The first point at which nothing works; None where something always did."""
        return next((p for p in self.points if p.state == NOTHING), None)


@dataclass(frozen=True)
class Chart:
    """Lines over the powers asked for (W), and the job's own board: its mount, else its pick, else its nearest miss."""

    powers: tuple[float, ...]
    lines: tuple[Line, ...]
    own: Judgement
    mounted: bool  # the job states a mount
    left_out: tuple[str, ...]  # powers that cannot be judged, and why
