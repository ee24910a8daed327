"""The load's path from engine to water, part by part: by what each was looked at, or that nobody did."""

from collections.abc import Iterator

from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.result import Check


@dataclass(frozen=True)
class Part:
    """A part of the path and its deciding checks, each in its worst case; where there are none, `why`."""

    words: str
    checks: tuple[Check, ...] = ()
    why: str = ""

    @property
    def looked_at(self) -> bool:
        """True where a check that decides enters it."""
        return bool(self.checks)

    @property
    def unseen(self) -> str:
        """The part with the reason why nobody looked at it."""
        return f"{self.words}: {self.why}" if self.why else self.words


NOT_STATED = "not stated in the job"
NOT_MEASURED = "not measured"
LOOK = "look yourself"


def walk(j: Judgement) -> tuple[Part, ...]:
    """Every part in the order in which the load meets it."""
    return (*_engine(j), *_spread(j), *_board(j), *_frame(j), *_boat(j), *_over_time(j))


def not_looked_at(j: Judgement) -> tuple[str, ...]:
    """Parts of the load path that no check of this judgement enters, in words."""
    return tuple(p.unseen for p in walk(j) if not p.looked_at)


def _of(j: Judgement, words: str, why: str, part: str, *whats: str) -> Part:
    """A part by the checks that enter it: all of a name, or those whose name of what happens starts so."""
    mine = tuple(c for c in j.worst if c.part == part and (not whats or c.what.startswith(whats)))
    return Part(words, mine, why)


def _engine(j: Judgement) -> Iterator[Part]:
    yield Part("the engine's own bracket, clamp and tilt pin", why="the maker's")
    if j.job.setback is None:
        yield _of(j, "the bracket's thickness range", NOT_MEASURED, "assembly", "bracket-")
    else:
        yield _of(j, "the setback or built bracket", "BRACKET NOT CHECKED, rests on its maker's paper", "bracket")
        yield Part("how sound the setback bracket's welds are, and its corrosion", why=LOOK)
    if j.job.engine.kicker is not None:
        yield Part("the kicker's own clamps or bolts, and the wood about them", why="not sized")
    if j.setup.holding.by == "clamps":
        yield Part("the clamp screws themselves", why="the maker's")
        return
    yield _of(j, "engine bolts", "not sized", "engine-bolts", "tension", "shear", "sideways", "pull", "edge", "bolt-spacing",
              "length", "shank")  # fmt: skip
    yield _of(j, "the engine bolts' torque against bolt and wood", NOT_STATED, "engine-bolts", "stretch-at-bolt-up")


def _spread(j: Judgement) -> Iterator[Part]:
    yield _of(j, "what spreads the pull inside: plates, washers, screws' pads", "not sized", "backing")


def _board(j: Judgement) -> Iterator[Part]:
    yield _of(j, "board", "not sized", "board", "bending", "plies", "pad")
    yield _of(j, "the board's thickness for this tool's sums", "not sized", "assembly", "thickest-", "thinnest-")
    openings = j.job.board.openings or j.job.board.obstructions
    if openings:
        yield Part("drains, holes and things behind the board", (
            *_of(j, "", "", "board", "opening-").checks, *_of(j, "", "", "assembly", "obstruction-").checks), "not sized")  # fmt: skip
    else:
        yield Part("drains, holes and things behind the board", why=f"the job names none, {LOOK}")
    if j.job.board.pocket is not None or not j.job.board.pocket_stated:
        yield _of(j, "the pocket the board drops into", NOT_MEASURED, "assembly", "pocket")


def _frame(j: Judgement) -> Iterator[Part]:
    yield _of(j, "board-to-frame bolts and the flange they go through", "not sized", "frame")
    yield Part("welds of the flange and of what carries it", why=f"not judged, {LOOK}")


def _boat(j: Judgement) -> Iterator[Part]:
    if j.setup.place.kind == "pod":
        yield _of(j, "pod bolts and the crossmember wall about them", "not sized", "crossmembers")
        yield Part("the pod's own walls, and the crossmembers' own bending and fastening", why="not judged")
    elif j.setup.place.kind == "uprights":
        yield Part("the uprights' own bending, and how they stand on the boat", why="not judged")
    else:
        yield Part("the hull's skin, stringers and knees about the board", why="not judged")
    yield Part("deck, tubes, hull and hidden rot", why=LOOK)
    yield Part("balance, steering, cables, fuel and electrics with this engine", why="not this tool's")


def _over_time(j: Judgement) -> Iterator[Part]:
    yield Part("the sheets and the glue as they really are", why="taken sound, true to their stamp and well laid up")
    yield Part("years of shaking: tiring of metal and wood, bolts working loose, rust and rot", why="look every season")
    if j.job.not_judged:
        yield Part("in the job, but nothing is decided by it", why=", ".join(j.job.not_judged))
