"""What is asked, in the order a tape meets it: why it matters, the unit of a bare number, and the usual range.

How each thing is found is said once, by its key in the job's table of keys.
"""

from collections.abc import Mapping
from typing import Any

from transom.frozen import dataclass
from transom.job.schema import Key, keys

KEYS: Mapping[str, Key] = dict(keys())


@dataclass(frozen=True)
class Question:
    """One key asked for.

    `bare` is the unit of a number without one, for a shop that measures in US and in SI units. `usual` is the range
    outside which it is asked again, in the first of these; empty where any answer is as likely. `only_if` is an answer
    that must have been given to `when` for this to be asked: its path and the values that count.
    """

    path: str
    why: str
    bare: tuple[str, str] = ("", "")
    usual: tuple[str, str] = ("", "")
    when: str = ""
    only_if: tuple[str, ...] = ()

    @property
    def key(self) -> Key:
        """The key in the job's table."""
        return KEYS[self.path]

    def due(self, answers: Mapping[str, Any]) -> bool:
        """Whether what has been answered so far leaves this to be asked."""
        return not self.when or str(answers.get(self.when, "")).lower() in self.only_if


@dataclass(frozen=True)
class Stop:
    """One numbered halt of the tape: what is asked there together."""

    title: str
    asks: tuple[Question, ...]


IN_MM = ("in", "mm")
LB_KG = ("lb", "kg")
KICKER = "engine.kicker.power"
SETBACK = "bracket.setback"
_ONE_MORE = ("yes",)


def _length(path: str, why: str, low: str = "", high: str = "", **more: Any) -> Question:
    return Question(path, why, IN_MM, (low, high), **more)


def _small(path: str, why: str) -> Question:
    return _length(path, why, when="engine.kicker", only_if=_ONE_MORE)


KIND = Question("boat.kind", "tubes, metal and glass carry an engine in different ways")
PLATE = Question("boat.plate_power", "more engine than the plate allows is a stop", ("hp", "kW"), ("2 hp", "300 hp"))
POWER = Question("engine.power", "thrust follows from it, and thrust sizes the board", ("hp", "kW"), ("2 hp", "300 hp"))
WEIGHT = Question(
    "engine.weight", "a book weight is on the heavy side; yours may save wood", LB_KG, ("40 lb", "800 lb")
)
HELD = Question("engine.held_by", "clamp screws press on wood where bolts pull through it")
STEERED = Question("engine.steering", "hard over is what twists the board")
WATER = Question("boat.water", "salt asks for other bolts and other metal")
TRAILER = Question("boat.trailer", "the road shakes a tilted engine harder than most water")
WIDTH = _length("board.width", "edge to edge; it bends over what lies between its supports", "12 in", "48 in")
HEIGHT = _length("board.height", "wood below the lower bolts is what holds them", "10 in", "36 in")
SIGNS = Question("job.history", "how the last mount went is the best test there was")

FULL = (
    Stop("Job", (
        Question("job.name", "it stands on every page"),
        Question("job.number", "so that the page finds its job again"),
        Question("job.date", "the only date that is ever printed"),
    )),
    Stop("Boat: what she is", (KIND,)),
    Stop("Boat: builder's plate", (
        PLATE,
        Question("boat.plate_engine_weight", "the plate may limit weight as well", LB_KG, ("40 lb", "2000 lb")),
    )),
    Stop("Boat: water", (WATER, Question("boat.service", "open water throws the engine about nearly twice as hard"))),
    Stop("Boat: speed", (
        Question("boat.speed", "thrust under way, in waves and turns", ("mph", "km/h"), ("5 mph", "60 mph")),
    )),
    Stop("Boat: road", (
        TRAILER,
        Question("boat.road_support", "a strut takes its share on the road", when="boat.trailer", only_if=("true",)),
    )),
    Stop("Engine: power", (POWER,)),
    Stop("Engine: weight", (WEIGHT,)),
    Stop("Engine: shaft", (
        Question("engine.shaft", "the longer the leg, the harder it levers", IN_MM),
    )),
    Stop("Engine: steering", (STEERED,)),
    Stop("Engine: held by", (HELD,)),
    Stop("Engine: propeller", (
        _length("engine.propeller.diameter", "a wide propeller pulls harder tied to a post", "7 in", "17 in"),
        _length("engine.propeller.pitch", "with diameter and gear it says what thrust there can be", "5 in", "25 in"),
    )),
    Stop("Engine: kicker", (
        Question("engine.kicker", "a second small engine on the same board pulls on it too"),
        Question(KICKER, "its thrust", ("hp", "kW"), ("2 hp", "20 hp"), "engine.kicker", _ONE_MORE),
        Question("engine.kicker.weight", "it hangs there all day", LB_KG, ("25 lb", "150 lb"), "engine.kicker", _ONE_MORE),
        _small("engine.kicker.y", "far from the middle it twists the board"),
        Question("engine.kicker.held_by", "clamps or bolts", when="engine.kicker", only_if=_ONE_MORE),
    )),
    Stop("Engine: the old mount", (SIGNS,)),
    Stop("Bracket: upper holes", (
        _length("engine.bracket.upper_holes", "drill to the bracket you measured; makers differ", "6 in", "16 in"),
    )),
    Stop("Bracket: lower holes", (_length("engine.bracket.lower_holes", "the same", "5 in", "16 in"),)),
    Stop("Bracket: rows", (_length("engine.bracket.rows_apart", "the arm that holds the thrust", "4 in", "14 in"),)),
    Stop("Bracket: top", (
        _length("engine.bracket.top_to_upper", "wood above the bolt is what it tears through", "1 in", "6 in"),
    )),
    Stop("Bracket: ear", (_length("engine.bracket.ear", "counts in the bolt's length", "1/4 in", "1-1/2 in"),)),
    Stop("Bracket: board it takes", (
        Question("engine.takes", "a board thicker than that cannot be hung on", IN_MM, ("1 in", "3-1/2 in")),
    )),
    Stop("Bracket: torque", (
        Question("engine.torque", "stated, it becomes a check: does the wood crush", ("lb-ft", "Nm"), ("10 lb-ft", "80 lb-ft")),
        Question("engine.threads", "grease clamps twice as hard as dry at one torque"),
    )),
    Stop("Old board: size", (WIDTH, HEIGHT)),
    Stop("Old board: pocket", (
        _length("board.pocket", "the stack must go in, coats and all; wood out, three places", "1/2 in", "4 in"),
    )),
    Stop("Old board: lean", (
        Question("board.lean", "lean adds a tenth to a quarter to the upper bolts", ("deg", "deg"), ("0 deg", "25 deg")),
    )),
    Stop("What holds it: kind", (Question("frame.kind", "what the board is bolted to"),)),
    Stop("What holds it: metal", (
        _length("frame.flange.width", "room for the bolts, and the board's seat", "3/4 in", "6 in"),
        _length("frame.flange.thickness", "caliper, at an edge or a hole; thin metal bends", "0.06 in", "1/2 in"),
        Question("frame.flange.alloy", "unknown takes the weakest listed"),
    )),
    Stop("What holds it: bolts", (
        Question("frame.bolts.size", "judged as found: enough, or what to add", IN_MM),
        Question("frame.bolts.count", "all round the board"),
        Question("frame.bolts.keep", "kept holes are judged as they are"),
    )),
    Stop("Under the pod: crossmembers", (
        Question("crossmembers.count", "on pontoon boats this tears before the board does", when="frame.kind", only_if=("pod",)),
        _length("crossmembers.wall", "caliper, at an open end or a drain hole; the likeliest weakest link", "0.05 in",
                "3/8 in", when="frame.kind", only_if=("pod",)),
        Question("crossmembers.bolts.size", "bolts up into them", IN_MM, when="frame.kind", only_if=("pod",)),
        Question("crossmembers.bolts.count", "all of them", when="frame.kind", only_if=("pod",)),
    )),
    Stop("Setback bracket", (
        Question("bracket", "a bracket between board and engine moves every load"),
        _length(SETBACK, "the arm of the engine's weight", "4 in", "36 in", when="bracket", only_if=_ONE_MORE),
        Question("bracket.kind", "plates are judged; others rest on their maker's paper", when="bracket", only_if=_ONE_MORE),
        Question("bracket.weight", "it hangs on the board too", LB_KG, ("10 lb", "150 lb"), "bracket", _ONE_MORE),
    )),
    Stop("Shop", (
        Question("job.temperature", "epoxy below its floor never cures", ("F", "C"), ("40 F", "100 F")),
    )),
)  # fmt: skip

QUICK = (
    Stop("Customer and boat", (Question("job.name", "it stands on every page"),)),
    Stop("What she is", (KIND,)),
    Stop("Power", (POWER,)),
    Stop("Builder's plate", (PLATE,)),
    Stop("Weight", (WEIGHT,)),
    Stop("Held and steered", (HELD, STEERED)),
    Stop("Board, as far as you see it", (WIDTH, HEIGHT)),
    Stop("Water and trailer", (WATER, TRAILER)),
    Stop("Signs of damage", (SIGNS,)),
)

# Asked only to know whether to go on with a section; neither stands in the file.
YES_OR_NO = {"engine.kicker": "is there one on the same board", "bracket": "is there one"}
