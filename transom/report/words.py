"""What the screen calls things: load cases, checks, evidence. Everyday output speaks the trade."""

import re
from collections.abc import Sequence

from transom.job.records import Job, ShopCase
from transom.result import ONCE, Check

EVIDENCE = {
    "published": "book",
    "stated": "you gave it",
    "common practice": "shop practice",
    "convention": "tool's choice",
    "estimate": "assumed",
}
METHODS = {"hand": "pencil method", "plate": "careful method"}

CHECKS = {
    ("board", "bending"): "board, bending and twist",
    ("board", "plies-sliding-upper-bolts"): "board, plies sliding at the upper bolts",
    ("board", "plies-sliding-lower-bolts"): "board, plies sliding at the lower bolts",
    ("board", "plies-sliding-pads"): "board, plies sliding at the bracket pads",
    ("board", "pad-bearing"): "wood crushing under the bracket's pads",
    ("backing", "wood-crushing-upper-bolts"): "wood crushing inside, upper bolts",
    ("backing", "wood-crushing-lower-bolts"): "wood crushing inside, lower bolts",
    ("backing", "plate-bending-upper-bolts"): "plate or washer bending, upper bolts",
    ("backing", "plate-bending-lower-bolts"): "plate or washer bending, lower bolts",
    ("engine-bolts", "tension"): "engine bolts, pull in the metal",
    ("engine-bolts", "shear"): "engine bolts, sideways in the metal",
    ("engine-bolts", "tension-and-shear"): "engine bolts, pull and sideways in metal",
    ("engine-bolts", "sideways-in-wood"): "engine bolts pushed sideways in the wood",
    ("engine-bolts", "pull-and-sideways-in-wood"): "engine bolts, pull and sideways in wood",
    ("engine-bolts", "edge-distance"): "engine bolts, distance to board's edge",
    ("engine-bolts", "bolt-spacing"): "engine bolts, distance between them",
    ("engine-bolts", "stretch-at-bolt-up"): "engine bolts stretched by your torque",
    ("engine-bolts", "length"): "engine bolts, long enough for the nut",
    ("engine-bolts", "shank-in-grip"): "engine bolts, plain shank within the grip",
    ("backing", "wood-crushing-at-bolt-up"): "wood crushed by your torque",
    ("backing", "plate-edge"): "plate, bolt hole to its edge",
    ("backing", "plate-pitch"): "plate, from bolt hole to bolt hole",
    ("backing", "plate-room"): "plate, on the board and off its neighbor",
    ("backing", "plate-between-frame"): "plate, between the frame's sides",
    ("assembly", "bracket-thickest"): "thickness, the most your bracket takes",
    ("assembly", "bracket-thinnest"): "thickness, the least your bracket takes",
    ("assembly", "thickest-judged"): "thickness, the most this tool judges",
    ("assembly", "thinnest-judged"): "thickness, the least this tool judges",
    ("assembly", "pocket"): "board and coats in the pocket",
    ("frame", "bolt-tension"): "frame bolts, pull in the metal",
    ("frame", "bolt-shear"): "frame bolts, sideways in the metal",
    ("frame", "bolt-tension-and-shear"): "frame bolts, pull and sideways",
    ("frame", "washer-on-wood"): "frame bolts, washer crushing the wood",
    ("frame", "withdrawal"): "lag screws drawn out of the board",
    ("frame", "screw-thread"): "lag screws, thread in the board",
    ("frame", "sideways-in-wood"): "frame bolts pushed sideways in the wood",
    ("frame", "pull-and-sideways-in-wood"): "frame bolts, pull and sideways in wood",
    ("frame", "flange-bearing"): "frame bolts crushing holes in the flange",
    ("frame", "flange-pull-through"): "frame bolts pulling through the flange",
    ("frame", "flange-bending-side"): "flange bending, sides of the board",
    ("frame", "flange-bending-end"): "flange bending, bottom or top line",
    ("frame", "hole-to-board-edge"): "frame bolts, hole to the board's edge",
    ("frame", "spacing"): "frame bolts, distance between them",
    ("frame", "count"): "frame bolts, enough for every line",
    ("crossmembers", "bolt-tension"): "pod bolts, pull in the metal",
    ("crossmembers", "bolt-shear"): "pod bolts, sideways in the metal",
    ("crossmembers", "bolt-tension-and-shear"): "pod bolts, pull and sideways",
    ("crossmembers", "wall-pull-through"): "pod bolts pulling through crossmembers",
    ("crossmembers", "wall-bearing"): "pod bolts crushing crossmember holes",
    ("bracket", "engine-bolt-tension"): "engine bolts on the bracket, pull",
    ("bracket", "engine-bolt-shear"): "engine bolts on the bracket, sideways",
    ("bracket", "engine-bolt-tension-and-shear"): "engine bolts on the bracket, both",
    ("bracket", "engine-plate-bearing"): "engine bolts crushing bracket's holes",
    ("bracket", "engine-plate-pull-through"): "engine bolts pulling through bracket",
    ("bracket", "engine-plate-edge"): "bracket's engine plate, hole to its edge",
    ("bracket", "engine-plate-bending-upper-bolts"): "bracket's engine plate bent, upper bolts",
    ("bracket", "engine-plate-bending-lower-bolts"): "bracket's engine plate bent, lower bolts",
    ("bracket", "engine-plate-bending-pads"): "engine plate bent under engine's pads",
    ("bracket", "side-plate-bending-base"): "bracket's side plates bent at the base",
    ("bracket", "side-plate-bending-between"): "bracket's side plates bent between",
    ("bracket", "side-plate-bending-engine-plate"): "bracket's side plates bent at the engine",
    ("bracket", "side-plate-shear"): "bracket's side plates cut through, shear",
    ("bracket", "side-plate-edge-buckling"): "bracket's side plates, edge buckling",
    ("bracket", "weld-base"): "bracket's welds at the base",
    ("bracket", "weld-engine-plate"): "bracket's welds at the engine plate",
    ("bracket", "metal-beside-weld-base"): "metal beside the bracket's base welds",
    ("bracket", "metal-beside-weld-engine-plate"): "metal beside the engine plate's welds",
    ("bracket", "base-plate-bending-upper-bolts"): "bracket's base plate bent, upper bolts",
    ("bracket", "base-plate-bending-lower-bolts"): "bracket's base plate bent, lower bolts",
    ("bracket", "base-bolt-tension"): "bracket's base bolts, pull with prying",
    ("bracket", "base-plate-pull-through"): "base bolts' heads through base plate",
    ("bracket", "base-plate-bearing"): "base bolts crushing base plate's holes",
    ("bracket", "base-plate-edge"): "bracket's base plate, hole to its edge",
    ("bracket", "gusset-shear"): "bracket's gusset, shear",
    ("bracket", "weld-gusset"): "welds of the bracket's gusset",
    ("bracket", "weld-fatigue"): "hours to the first look at the welds",
}

CLAMPED = {
    ("board", "plies-sliding-upper-bolts"): "plies sliding, clamp screws, top aft",
    ("board", "plies-sliding-lower-bolts"): "plies sliding, clamp screws, foot aft",
    ("backing", "wood-crushing-upper-bolts"): "wood crushing, clamp screws, top aft",
    ("backing", "wood-crushing-lower-bolts"): "wood crushing, clamp screws, foot aft",
}
NUMBERED = {
    ("board", "opening"): "hole in the board, clear of the bolts",
    ("assembly", "obstruction"): "obstruction inside, clear of the plates",
    ("bracket", "side-plate-bending-step"): "bracket's side plates bent where cut away",
}
# A fit asks for so much and finds so much; the rest come to so much and may be so much.
ASKS = ("needs", "has")
FITS = {
    "bracket-thickest": ("comes to", "may be"),
    "thickest-judged": ("comes to", "may be"),
    "shank-in-grip": ("comes to", "may be"),
    "bracket-thinnest": ASKS,
    "thinnest-judged": ASKS,
    "pocket": ASKS,
    "edge-distance": ASKS,
    "bolt-spacing": ASKS,
    "plate-edge": ASKS,
    "plate-pitch": ASKS,
    "plate-room": ("takes", "may take"),
    "plate-between-frame": ("reaches", "may reach"),
    "length": ASKS,
    "hole-to-board-edge": ASKS,
    "screw-thread": ASKS,
    "spacing": ASKS,
    "count": ASKS,
    "engine-plate-edge": ASKS,
    "base-plate-edge": ASKS,
    "weld-fatigue": ("is to be", "is"),
}

_SIDE = r"(?:-(?P<side>starboard|port)(?:-(?P<deg>\d+))?)?"
_DRIVEN = re.compile(rf"(?P<of>ahead|astern|hard-over|turn|wave|strike){_SIDE}")
_ROAD = re.compile(
    r"road-(?P<way>down|up)-(?P<to>forward|rearward|starboard|port)-(?P<deg>\d+)(?:-(?P<cg>low|mid|high))?"
)
_STRAIGHT = {
    "ahead": "full throttle ahead",
    "astern": "full astern",
    "wave": "running hard in waves",
    "strike": "gearcase hits something",
    "turn": "hard turn at speed",
    "hard-over": "full throttle, hard over",
}
_STEERED = {"hard-over": "full throttle", "astern": "full astern", "turn": "turning at speed"}
_ROAD_TO = {
    "forward": "braking",
    "rearward": "pulling away",
    "starboard": "swaying to starboard",
    "port": "swaying to port",
}
_ROAD_WAY = {"down": "dropping into a hole", "up": "bouncing up"}
_CG = {"low": ", weight low", "high": ", weight high"}


def case_words(name: str, own: Sequence[ShopCase] = ()) -> str:
    """A load case as people say it; "" for a check that no load enters."""
    if name in (ONCE, "bolt-up"):
        return "" if name == ONCE else "at bolt-up"
    mine = next((c for c in own if name == slug(c.name) or name.startswith(slug(c.name) + "-")), None)
    if mine is not None:
        rest = name.removeprefix(slug(mine.name))
        return f"the shop's own case {mine.name}" + (f" ({rest.strip('-').replace('-', ' ')})" if rest else "")
    bare = name.removeprefix("kicker-")
    before = "kicker alone: " if bare != name else ""
    heavy = bare.removesuffix("-light")
    right = heavy.removesuffix("-left-hand")
    after = ", left-hand propeller" * (right != heavy) + ", light engine" * (heavy != bare)
    return before + _situation(right) + after


def slug(name: str) -> str:
    """A shop's own name for a case as it stands in the name of the case."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")


def _situation(name: str) -> str:
    road = _ROAD.fullmatch(name)
    if road:
        way, to, deg, cg = _ROAD_WAY[road["way"]], _ROAD_TO[road["to"]], road["deg"], _CG.get(road["cg"] or "", "")
        return f"on the trailer, {way}, {to}, tilted {deg} deg{cg}"
    driven = _DRIVEN.fullmatch(name)
    if not driven:
        return name.replace("-", " ")
    if not driven["side"]:
        return _STRAIGHT[driven["of"]]
    if driven["deg"]:
        return f"{_STEERED[driven['of']]}, steered {driven['deg']} deg to {driven['side']}"
    return f"{_STEERED[driven['of']]}, hard over to {driven['side']}"


def check_words(check: Check, job: Job) -> str:
    """A check as people say it; a numbered one by what its note calls it."""
    words = part_words(check.part, check.what, job)
    name = check.note.split(":")[0] if _numbered(check.part, check.what) else ""
    return f"{words} ({name})" if name else words


def part_words(part: str, what: str, job: Job) -> str:
    """A part of the load path and what happens to it, as people say it; clamp screws stand in for bolts."""
    if job.engine.held_by == "clamps" and job.setback is None and (part, what) in CLAMPED:
        return CLAMPED[part, what]
    words = CHECKS.get((part, what)) or _numbered(part, what)
    if part == "engine-bolts" and job.setback is not None:
        words = words.replace("engine bolts", "bracket's base bolts")
    return words or f"{part.replace('-', ' ')}, {what.replace('-', ' ')}"


def _numbered(part: str, what: str) -> str:
    stem, _, number = what.rpartition("-")
    return NUMBERED.get((part, stem), "") if number.isdigit() else ""


def verbs(what: str) -> tuple[str, str]:
    """What stands before a check's two numbers."""
    return FITS.get(what) or (ASKS if what.startswith(("opening-", "obstruction-")) else ("carries", "may carry"))


def name_words(name: str, job: Job) -> str:
    """A check by its name without a case, `part.what[.rule].method`, as people say it."""
    part, what, *_ = name.split(".")
    return part_words(part, what, job)


def plural(count: int, one: str, many: str = "") -> str:
    """ "1 stop", "2 stops"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


_US = {"aluminium": "aluminum", "Aluminium": "Aluminum", "centre": "center", "Centre": "Center", "metre": "meter"}
_SI = {v: k for k, v in _US.items()}


def spelled(text: str, units: str) -> str:
    """The text as the readers of these units spell it."""
    table = _US if units == "us" else _SI
    # A diameter and a perimeter are spelled alike everywhere.
    return re.sub(rf"(?<![Dd]ia)(?<![Pp]eri)(?:{'|'.join(table)})", lambda m: table[m[0]], text)
