"""What a job file may say: one table of keys that the reader, the blank job and the questions share.

Lengths are in mm, masses in kg, powers in W, forces in N, torques in N*mm, speeds in m/s, rotations in
1/s, angles in rad, temperatures in degC. `low` and `high` are what a thing of this sort can be at all;
what the tool can size is narrower and is a stop, never a fault.
"""

from collections.abc import Iterator
from math import radians

from transom.job.keys import QUANTITIES as QUANTITIES  # noqa: PLC0414 part of this table's face
from transom.job.keys import Key as Key  # noqa: PLC0414
from transom.job.keys import Section as Section  # noqa: PLC0414
from transom.job.setback import SETBACK

HP = 745.6998715822702
KINDS = ("pontoon", "aluminium hull", "glass hull")
FRAMES = ("pod", "uprights", "cap rail")
HELD = ("bolts", "clamps")
FASTENERS = ("bolts", "lag screws", "blind rivets")
CASES = ("ahead", "hard-over", "astern", "wave", "turn", "road", "strike")
SHAFTS = (381.0, 508.0, 635.0, 762.0)

NOMINAL = "sheets or their nominal size"


def _at(*, wide: float = 3000.0) -> tuple[Key, Key]:
    """Where a thing is on the board."""
    return (
        Key("y", "length", "across from the center line, starboard +", -wide / 2, wide / 2, required=True,
            unknown=False),
        Key("down", "length", "down from the top edge", 0.0, wide, required=True, unknown=False),
    )  # fmt: skip


_ROUND = (
    *_at(),
    Key("diameter", "length", "across the hole or the thing", 1.0, 1000.0, required=True, unknown=False),
    Key("what", "text", "what it is", unknown=False),
)

JOB = Section("job", "Job", (
    Key("name", "text", "as the customer knows it", unknown=False, blank='""'),
    Key("number", "text", "your work order", unknown=False, blank='""'),
    Key("revision", "text", "A, B, C ...", unknown=False, blank='"A"'),
    Key("date", "date", "without quotes: 2026-05-04; the only date that is ever printed", unknown=False,
        blank="#2026-05-04"),
    Key("units", "choice", "how results read", choices=("us", "si"), unknown=False, blank='"us"'),
    Key("code", "choice", "which timber code decides sideways loads", choices=("EN", "US"), unknown=False,
        blank='"EN"'),
    Key("history", "text", "old engine, how its mount failed, signs of damage; kept for who opens it up", blank=""),
    Key("temperature", "temperature", "air where the epoxy cures, coldest hour", -40.0, 60.0),
    Key("shop", "text", "file with the shop's stock and prices; without this line, shop.toml beside the job",
        unknown=False, blank='#"shop.toml"'),
))  # fmt: skip

BOAT = Section("boat", "Boat", (
    Key("kind", "choice", "what she is", choices=KINDS, required=True, unknown=False),
    Key("plate_power", "power", 'builder\'s plate, largest engine; "none" (looked, there is none) or '
        '"cannot read"', 0.1 * HP, 5000 * HP, words=("none", "cannot read"), required=True),
    Key("plate_engine_weight", "mass", "builder's plate, largest engine weight", 2.0, 5000.0,
        field="plate_engine_mass"),
    Key("water", "choice", "where she lies", choices=("fresh", "salt")),
    Key("service", "choice", "the water she runs in", choices=("calm", "open")),
    Key("speed", "speed", "full throttle, by GPS, normal load", 0.5, 60.0),
    Key("trailer", "flag", "does she travel by road with the engine on", blank='"?"'),
    Key("road_support", "choice", "what holds the engine up on the road", choices=("none", "strut")),
    Key("bottom", "length", "from the board's top edge straight down to the tube or hull bottom at the stern", 100.0,
        1500.0, blank=""),
    Key("length", "length", "hull length; for the powering note of a monohull", 1500.0, 30000.0, blank=""),
    Key("transom_width", "length", "transom across, widest; same use", 300.0, 8000.0, blank=""),
))  # fmt: skip

GRAVITY = Section("gravity", "Engine: centre of gravity, engine down", (
    Key("aft", "length", "aft of the bracket's face; manual, or balance it on a bar", 10.0, 1500.0,
        field="gravity_aft"),
    Key("up", "length", "above the board's top edge; minus if below", -1000.0, 1000.0, field="gravity_up"),
))  # fmt: skip

PROPELLER = Section("propeller", "Engine: propeller", (
    Key("diameter", "length", "stamped on the hub: first figure", 75.0, 800.0),
    Key("pitch", "length", "stamped on the hub: second figure", 50.0, 1000.0),
    Key("blades", "count", "count them", 2, 8),
    Key("area_ratio", "ratio", "blade area over disc area; ordinary three blades 0.5 to 0.6", 0.2, 1.4),
    Key("gear", "ratio", "engine turns for one of the propeller; engine manual", 0.5, 6.0),
    Key("speed", "rotation", "rated engine speed, middle of the manual's full-throttle range", 10.0, 250.0),
    Key("below_plate", "length", "middle of the shaft below the anti-ventilation plate", 20.0, 500.0),
))  # fmt: skip

BRACKET = Section("bracket", "Bracket: the engine's own, holes centre to centre", (
    Key("upper_holes", "length", "upper pair, across", 40.0, 1000.0),
    Key("lower_holes", "length", "lower pair, across", 40.0, 1000.0),
    Key("rows_apart", "length", "upper row to lower row", 20.0, 800.0),
    Key("top_to_upper", "length", "board's top edge to the upper row", 5.0, 400.0),
    Key("ear", "length", "metal under the bolt head", 1.0, 60.0),
    Key("pads_apart", "length", "what bears on the board, middle to middle across", 40.0, 1000.0),
    Key("pad_width", "length", "how wide each bears", 5.0, 500.0),
    Key("pad_height", "length", "board's top edge to the foot of the bracket", 50.0, 1500.0),
), (
    Section("bolts", "odd pattern", _at(), many=True, blank="none"),
    Section("pads", "where the bracket bears", (
        *_at(),
        Key("width", "length", "across", 5.0, 1000.0, required=True, unknown=False),
        Key("height", "length", "up and down", 5.0, 1500.0, required=True, unknown=False),
    ), many=True, blank="none"),
))  # fmt: skip

CLAMPS = Section("clamps", "Clamp screws, where they hold the engine", (
    Key("screw_down", "length", "board's top edge to the middle of a screw", 15.0, 300.0),
    Key("screw_y", "length", "center line to the middle of a screw", 20.0, 500.0),
    Key("pad", "length", "across the swivel pad on the wood", 10.0, 150.0),
))  # fmt: skip

KICKER = Section("kicker", "Small second engine on the same board", (
    Key("power", "power", "on the cowl", 0.1 * HP, 200 * HP, required=True, unknown=False),
    Key("weight", "mass", "ready to run", 2.0, 300.0, field="mass"),
    Key("y", "length", "its middle from the center line, starboard +", -1500.0, 1500.0),
    Key("held_by", "choice", "how it hangs", choices=HELD),
), blank="none")  # fmt: skip

ENGINE = Section("engine", "Engine", (
    Key("power", "power range", 'on the cowl; or a range, "40 to 60 hp": sized for the top', 0.5 * HP,
        1000 * HP, required=True),
    Key("count", "count", "engines on this board, a kicker not counted", 1, 6, unknown=False, blank=""),
    Key("shaft", "length", "class: 15, 20, 25 or 30 in", classes=SHAFTS),
    Key("weight", "mass", "ready to run: oil, propeller; not battery or tank", 2.0, 1500.0, field="mass"),
    Key("steering", "choice", "how she is steered", choices=("wheel", "tiller", "full turn")),
    Key("held_by", "choice", "how it hangs on the board", choices=HELD),
    Key("takes", "length", "thinnest and thickest board the bracket accepts; engine manual", 5.0, 200.0,
        items=(2, 2)),
    Key("torque", "torque", "of the mounting bolts, engine manual; makes the torque a failing check", 500.0,
        1.0e6),
    Key("threads", "choice", "of the mounting bolts when they are turned", choices=("dry", "oiled",
        "anti-seize")),
    Key("thrust", "force", "only if measured, tied to a post", 10.0, 1.0e5, blank=""),
    Key("lift_plate", "flag", "a powered lift between engine and board", unknown=False, blank=""),
), (GRAVITY, PROPELLER, BRACKET, CLAMPS, KICKER))  # fmt: skip

NOTCH = Section("top_notch", "notch in the top edge", (
    Key("width", "length", "across", 0.0, 3000.0),
    Key("depth", "length", "down", 0.0, 3000.0),
), blank="none")  # fmt: skip

CUTS = ("straight", "round", "square")


def _corners(name: str, which: str) -> Section:
    """Two corners of the board that are cut off, both alike."""
    return Section(name, f"both {which} corners cut off", (
        Key("width", "length", "what each cut takes of the edge", 0.0, 1500.0, required=True, unknown=False),
        Key("height", "length", "what it takes of the side", 0.0, 1500.0, required=True, unknown=False),
        Key("cut", "choice", "straight across, rounded, or a square step", choices=CUTS, unknown=False),
    ), blank="none")  # fmt: skip


BOARD = Section("board", "Board and place, old wood out", (
    Key("width", "length", "across, edge to edge", 100.0, 3000.0, required=True),
    Key("height", "length", "top edge to bottom edge, along the board", 100.0, 3000.0, required=True),
    Key("lean", "angle", 'top edge further aft: "12 deg", or "3-1/2 in on 14 in" by plumb line', 0.0,
        radians(45.0)),
    Key("pocket", "length", 'channel it drops into: narrowest of three places; "none" if it lies open', 5.0,
        300.0, words=("none",)),
    Key("material", "text", "what the new board is; only plywood is sized here", unknown=False, blank=""),
    Key("core", "choice", "glass hull only: a core inside that cannot be seen", choices=("none", "hidden"),
        blank=""),
    Key("sealed", "flag", "will every face, edge and hole be sealed with epoxy", unknown=False,
        blank="true"),
    Key("treatment", "choice", "of the new wood", choices=("none", "copper"), blank='"none"'),
), (
    Section("openings", "holes through the board, such as a drain", _ROUND, many=True, blank="list"),
    Section("obstructions", "things behind it within 1 in of a bolt or plate", _ROUND, many=True,
            blank="list"),
    NOTCH,
    _corners("top_corners", "top"),
    _corners("bottom_corners", "bottom"),
))  # fmt: skip

FRAME_BOLTS = Section("bolts", "Frame: bolts, board to frame", (
    Key("size", "size", "of the bolts or of the holes for them"),
    Key("count", "count", "all of them", 1, 200),
    Key("keep", "flag", "are the holes there already and to be used again"),
    Key("washer", "length", "across the washers under nut and head, or the side of plate washers", 3.0, 300.0),
    Key("washer_thickness", "length", "of the washers", 0.3, 30.0, field="washer_t"),
    Key("grade", "text", "marks on the heads, by its name in `transom materials grades`", family="grades", blank=""),
    Key("kind", "choice", "only if they are not through-bolts", choices=FASTENERS, unknown=False, blank=""),
    Key("length", "length", "of lag screws, under the head to the point", 10.0, 400.0, blank=""),
))  # fmt: skip

FRAME = Section("frame", "Frame: what holds the board", (
    Key("kind", "choice", "what holds it", choices=FRAMES, required=True),
    Key("at", "length", "uprights only: each one's middle from the center line", -1500.0, 1500.0,
        items=(2, 6), blank=""),
), (
    Section("flange", "Frame: flange the board lies on", (
        Key("width", "length", "of the flange", 5.0, 500.0),
        Key("thickness", "length", "of the metal, by caliper at an edge or a hole", 0.5, 40.0),
        Key("alloy", "text", "stamp, drawing or builder"),
        Key("weld", "length", 'nearest weld to the bolts or to the corner the flange springs from; "none" if it is bent'
            " or extruded", 0.0, 3000.0, words=("none",)),
        Key("left", "length", "only if pitted: metal left at the deepest pit near a bolt", 0.1, 40.0, blank=""),
    )),
    FRAME_BOLTS,
    Section("lines", "lines of support, if not as the kind has them", (
        Key("from", "length", "one end: y, down", -1500.0, 3000.0, items=(2, 2), required=True,
            unknown=False, field="start"),
        Key("to", "length", "other end: y, down", -1500.0, 3000.0, items=(2, 2), required=True,
            unknown=False, field="end"),
        Key("fixed", "flag", "built in, so that it cannot turn", unknown=False),
    ), many=True, blank="none"),
))  # fmt: skip

CROSSMEMBERS = Section("crossmembers", "Crossmembers: what the pod hangs from", (
    Key("count", "count", "that the pod is bolted to", 1, 40),
    Key("wall", "length", "of the metal, by caliper at an open end or a drain hole", 0.5, 40.0),
    Key("at", "length", "each one, forward of the board's aft face", 0.0, 12000.0, items=(1, 40), blank=""),
    Key("down", "length", "their undersides, straight down from the board's top edge", 0.0, 1500.0, blank=""),
    Key("alloy", "text", "stamp, drawing or builder", blank=""),
    Key("left", "length", "only if pitted: metal left at the deepest pit near a bolt", 0.1, 40.0, blank=""),
), (
    Section("bolts", "Crossmembers: bolts, pod to crossmembers", FRAME_BOLTS.keys, blank="none"),
    Section("holes", "every bolt up into a crossmember, if they do not stand in even rows", (
        Key("y", "length", "across from the center line, starboard +", -1500.0, 1500.0, required=True, unknown=False),
        Key("forward", "length", "forward of the board's aft face", -500.0, 12000.0, required=True, unknown=False),
    ), many=True, blank="none"),
))  # fmt: skip

_STOCK_KEYS = (
    Key("panels", "text", "panels you buy: `transom materials panels`", items=(1, 100), unknown=False,
        blank="", family="panels"),
    Key("sheets", "text", "sheets you buy, or their thicknesses", items=(1, 100), unknown=False, blank="",
        family=NOMINAL),
    Key("most_sheets", "count", "most sheets in one board", 1, 8, unknown=False, blank="#4"),
    Key("grades", "text", "bolt grades you buy", items=(1, 100), unknown=False, blank="", family="grades"),
    Key("threads", "text", "bolt threads you buy", items=(1, 100), unknown=False, blank="", family="threads"),
    Key("plates", "text", "plate alloys you buy", items=(1, 100), unknown=False, blank="", family="plates"),
    Key("plate_thicknesses", "length", "plate thicknesses you buy", 0.5, 60.0, items=(1, 100),
        unknown=False, blank=""),
    Key("washers", "text", "washers you buy", items=(1, 100), unknown=False, blank="", family="washers"),
)  # fmt: skip

MEASURED = Section(
    "measured", "Stock: what a sheet measures, by caliper in four places",
    free=Key("", "length", "thickness of this sheet as measured", 2.0, 60.0, family="sheets"), blank="none",
)  # fmt: skip

OFFCUTS = Section("offcuts", "Stock: pieces left of sheets, cut from before a sheet is bought", (
    Key("sheet", "text", "panel and thickness", required=True, unknown=False, family="sheets"),
    Key("length", "length", "along the face grain", 50.0, 6000.0, required=True, unknown=False),
    Key("width", "length", "across the face grain", 50.0, 3000.0, required=True, unknown=False),
), many=True, blank="none")  # fmt: skip

STOCK = Section("stock", "Stock for this job alone; left out, the shop's", _STOCK_KEYS, (MEASURED, OFFCUTS))

_BACKING = (
    Key("washer", "text", "washer, by its name in the tables", unknown=False, family="washers"),
    Key("plate", "text", "or plate alloy", unknown=False, family="plates"),
    Key("thickness", "length", "of the plate", 0.5, 60.0, unknown=False),
    Key("width", "length", "of the plate, across", 10.0, 3000.0, unknown=False),
    Key("height", "length", "of the plate, up and down", 10.0, 3000.0, unknown=False),
    Key("per", "choice", "one plate for each", choices=("bolt", "pair", "all"), unknown=False),
)
BONDED = Key("bonded", "flag", "is the plate glued to the wood over its whole face", unknown=False)
_SETTLED = (
    Key("size", "size", "of the bolts", required=True, unknown=False),
    Key("count", "count", "all of them", 1, 200, required=True, unknown=False),
    Key("washer", "length", "across the washers, or the side of plate washers", 3.0, 300.0, unknown=False),
    Key("washer_thickness", "length", "of the washers", 0.3, 30.0, unknown=False, field="washer_t"),
    Key("doubler", "length", "of the angle laid into the flange's corner", 0.0, 40.0, unknown=False),
)
MOUNT = Section("mount", "Mount: as drawn or as built", (), (
    Section("layers", "sheets, aft face first", (
        Key("sheet", "text", "panel and thickness", required=True, unknown=False, family="sheets"),
        Key("grain", "choice", "way of the face grain", choices=("across", "along"), required=True,
            unknown=False),
    ), many=True, blank="none"),
    Section("engine_bolts", "bolts through bracket and board", (
        Key("thread", "text", "thread", required=True, unknown=False, family="threads"),
        Key("grade", "text", "grade", required=True, unknown=False, family="grades"),
        Key("length", "length", "under the head to the end", 10.0, 500.0, required=True, unknown=False),
    ), (
        Section("aft", "under the bracket's side", _BACKING, blank="none"),
        Section("forward", "inside the boat", (*_BACKING, BONDED), blank="none"),
    ), blank="none"),
    Section("frame_bolts", "bolts from board to frame as they are to be, old and new together", _SETTLED, blank="none"),
    Section("pod_bolts", "the same from pod to crossmembers", _SETTLED, blank="none"),
), blank="none")  # fmt: skip

CASE = Section("case", "The shop's own case, or a changed factor", (
    Key("name", "text", "your name for it", required=True, unknown=False),
    Key("like", "choice", "the case it is like", choices=CASES, required=True, unknown=False),
    Key("times", "ratio", "how many times its loads", 0.05, 20.0, required=True, unknown=False),
    Key("reason", "text", "why; it is printed", required=True, unknown=False),
), many=True, blank="none")  # fmt: skip

ACCEPT = Section("accept", "A stop, knowingly passed over", (
    Key("stop", "stop", "the stop's name as printed", required=True, unknown=False),
    Key("by", "text", "who takes it on", required=True, unknown=False),
    Key("date", "date", "when, without quotes", required=True, unknown=False),
    Key("paper", "text", "the paper relied on", required=True, unknown=False),
), many=True, blank="none")  # fmt: skip

SIGN = Section("sign", "Who answers for the report", (
    Key("made_by", "text", "who drew up the mount", unknown=False),
    Key("checked_by", "text", "who went over it, somebody else", unknown=False),
    Key("accepted_by", "text", "who takes it on for shop or owner, somebody else again", unknown=False),
), blank="none")  # fmt: skip

QUOTE = Section("quote", "Quote", (
    Key("customer", "text", "whom it is for", unknown=False, blank='""'),
    Key("kind", "choice", "how far the price binds you", choices=("estimate", "firm"), unknown=False,
        blank='"estimate"'),
    Key("call_before", "ratio", "you stop and call before going over this, in your money", 1.0, 1.0e7,
        unknown=False, blank="#2500"),
    Key("valid_days", "count", "days that it stands from the job's date", 1, 365, unknown=False, blank=""),
    Key("includes", "text", "what else is in the price, one each", items=(1, 12), unknown=False, blank=""),
    Key("excludes", "text", "what else is not, one each", items=(1, 12), unknown=False, blank=""),
))  # fmt: skip

TRIAL = Section("trial", "Trial on the water, found", (
    Key("speed", "speed", 'full throttle, by GPS, both ways; or "no GPS"', 0.5, 60.0, words=("no GPS",)),
    Key("engine_speed", "rotation", 'full throttle; or "no tachometer"', 5.0, 250.0, words=("no tachometer",)),
    Key("height", "length", "anti-ventilation plate above the hull's or tubes' bottom; minus if below", -300.0, 300.0),
), (
    Section("push", "ruler check", (
        Key("weight", "mass", "put on the plate above the propeller", 1.0, 500.0),
        Key("moved", "length", "how far the top edge moved", 0.0, 200.0),
    ), blank="none"),
), judged=False, blank="none")  # fmt: skip

BUILT = Section("built", "As built", (
    Key("date", "date", "without quotes: when it was finished", unknown=False),
    Key("by", "text", "who built it", unknown=False),
    Key("hull", "text", "hull identification number, on the transom", unknown=False),
    Key("engine_serial", "text", "engine's serial number, on its bracket", unknown=False),
    Key("thickness", "length", "of the finished board, four places", 5.0, 300.0, items=(1, 20)),
    Key("batches", "text", "wood and epoxy", items=(1, 50)),
    Key("torque", "torque", "of each bolt", 500.0, 1.0e6, items=(1, 50)),
    Key("photos", "text", "numbers of the photographs that were taken, from the list", items=(1, 30), unknown=False),
    Key("found", "text", "what opening up showed", unknown=False),
), judged=False, blank="none")  # fmt: skip

SECTIONS = (
    JOB,
    BOAT,
    ENGINE,
    BOARD,
    FRAME,
    SETBACK,
    CROSSMEMBERS,
    STOCK,
    MOUNT,
    CASE,
    ACCEPT,
    SIGN,
    QUOTE,
    TRIAL,
    BUILT,
)

SHOP_SECTIONS = (
    Section("shop", "Shop", (
        Key("name", "text", "on the paper you hand out", unknown=False),
        Key("temperature", "temperature", "air where the epoxy cures, coldest hour", -40.0, 60.0),
        Key("second_look", "ratio", "share of the limit above which you want to look again", 0.05, 1.0),
        Key("rate", "ratio", "for an hour of work, in your money", 0.0, 1.0e6),
        Key("address", "text", "lines under the name on your paper", items=(1, 5), unknown=False),
    )),
    STOCK,
    Section("quote", "What every quote of yours says, in your own words", (
        Key("valid_days", "count", "days that a quote stands", 1, 365, unknown=False),
        Key("warranty", "text", "your warranty, a line each", items=(1, 12), unknown=False),
        Key("storage", "text", "what you say of storage and pick-up, a line each", items=(1, 12), unknown=False),
        Key("payment", "text", "deposit and payment, a line each", items=(1, 12), unknown=False),
    )),
    Section("prices", "Prices", opaque=True),
)  # fmt: skip


def walk(sections: tuple[Section, ...], above: str = "") -> Iterator[tuple[str, Section]]:
    """Every section with its dotted path, parents first."""
    for section in sections:
        path = f"{above}{section.name}"
        yield path, section
        yield from walk(section.parts, f"{path}.")


def keys(sections: tuple[Section, ...] = SECTIONS) -> Iterator[tuple[str, Key]]:
    """Every key with its dotted path, in tape order."""
    for path, section in walk(sections):
        for key in section.keys:
            yield f"{path}.{key.name}", key
