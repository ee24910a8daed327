"""What a shop can do by hand about a check that fails, in words; and what every cure that was tried can say."""

from collections.abc import Sequence
from typing import Protocol

from transom.result import Check

BY_HAND = {
    (
        "board",
        "bending",
    ): "bending: bring the frame's sides closer to the engine, face the board with glass skins, hang the"
    " engine on a metal bracket, or hang a smaller one",
    ("board", "plies-sliding-upper-bolts"): "plies sliding at the bolts: larger plates inside; let the shop stock them",
    ("board", "plies-sliding-lower-bolts"): "plies sliding at the bolts: larger plates inside; let the shop stock them",
    ("board", "plies-sliding-pads"): "plies sliding at the pads: a full plate between bracket and board",
    ("board", "pad-bearing"): "wood crushing at the pads: a full plate between bracket and board",
    ("backing", "wood-crushing-upper-bolts"): "wood crushing inside: larger or thicker plates",
    ("backing", "wood-crushing-lower-bolts"): "wood crushing inside: larger or thicker plates",
    ("backing", "plate-bending-upper-bolts"): "plate bending: a thicker plate",
    ("backing", "plate-bending-lower-bolts"): "plate bending: a thicker plate",
    ("assembly", "bracket-thickest"): "thickness: a bracket that takes more, or skins and plates let into the board",
    ("assembly", "bracket-thinnest"): "thickness: a shim the size of the bracket, glued on",
    ("assembly", "pocket"): "pocket: open the channel, or plane a rabbet along the edges only",
    (
        "backing",
        "wood-crushing-at-bolt-up",
    ): "wood crushed at bolt-up: larger or thicker plates, or anti-seize and less torque",
    (
        "engine-bolts",
        "stretch-at-bolt-up",
    ): "bolts stretched at bolt-up: a stronger grade, or anti-seize and less torque",
    (
        "engine-bolts",
        "sideways-in-wood",
    ): "bolts sideways in wood: more wood below and beside the bolts, or larger bolts if the bracket has room",
    ("engine-bolts", "pull-and-sideways-in-wood"): "bolts pulled and pushed sideways: larger plates inside",
    ("engine-bolts", "edge-distance"): "edge distance: a board that stands higher above the bolts, or lower holes",
    ("engine-bolts", "bolt-spacing"): "spacing: the bracket's other holes, if it has any",
    ("backing", "plate-room"): "plate room: a smaller plate, or one across the pair",
    ("backing", "plate-between-frame"): "plate on the frame: a narrower plate, or one for each bolt",
    ("backing", "plate-edge"): "plate edge: a larger plate",
    ("engine-bolts", "length"): "bolts: longer ones, so that two threads show beyond the nut",
    ("frame", "withdrawal"): "lag screws: through-bolts with plate washers in their place",
    ("frame", "screw-thread"): "lag screws: longer ones if the board has the thickness, else through-bolts",
    ("frame", "washer-on-wood"): "frame bolts: plate washers on the wood",
    (
        "frame",
        "pull-and-sideways-in-wood",
    ): "frame bolts: more of them, or plate washers; a wider flange keeps holes off the edge",
    ("frame", "sideways-in-wood"): "frame bolts: more or larger ones, farther from the board's edge",
    ("frame", "count"): "frame bolts: more of them, two on every line at least",
    ("crossmembers", "bolt-tension"): "pod bolts: larger ones, or more crossmembers caught",
    ("frame", "flange-bending-side"): "flange bending: a doubler under the bolts, or more bolts along the sides",
    ("frame", "flange-bending-end"): "flange bending: a doubler under the bolts, or more bolts along that line",
    ("crossmembers", "wall-pull-through"): "crossmember wall: plate washers inside it, or more pod bolts",
    ("bracket", "engine-plate-edge"): "bracket, engine plate: a wider plate, or holes farther in; nothing welded up",
    ("bracket", "base-plate-edge"): "bracket, base plate: a wider plate, or holes farther in; nothing welded up",
    (
        "bracket",
        "weld-base",
    ): "bracket's base welds: both faces of each side plate, then a larger leg, no larger than the"
    " thinner plate; deeper or more side plates",
    (
        "bracket",
        "weld-engine-plate",
    ): "welds at the engine plate: both faces of each side plate, then a larger leg, no larger"
    " than the thinner plate; deeper or more side plates",
    ("bracket", "metal-beside-weld-base"): "side plates at the base: thicker, deeper or wider apart",
    ("bracket", "metal-beside-weld-engine-plate"): "side plates at the engine plate: thicker, deeper or wider apart",
    ("bracket", "side-plate-bending-base"): "side plates at the base: thicker, deeper or wider apart",
    ("bracket", "side-plate-bending-between"): "side plates between: cut less away, or thicker plates",
    ("bracket", "side-plate-bending-engine-plate"): "side plates at the engine plate: thicker, deeper or wider apart",
    ("bracket", "gusset-shear"): "gusset: a thicker one",
    ("bracket", "weld-gusset"): "gusset's welds: a larger leg, no larger than the thinner plate",
    ("bracket", "side-plate-shear"): "side plates: thicker, deeper or wider apart",
    (
        "bracket",
        "side-plate-edge-buckling",
    ): "side plates' edges: rods or plates that tie them to each other, or thicker",
    ("bracket", "engine-plate-bending-upper-bolts"): "engine plate: thicker, or side plates nearer to the bolts",
    ("bracket", "engine-plate-bending-lower-bolts"): "engine plate: thicker, or side plates nearer to the bolts",
    ("bracket", "engine-plate-bending-pads"): "engine plate: thicker, or side plates under the bracket's pads",
    ("bracket", "base-plate-bending-upper-bolts"): "base plate: thicker, or side plates nearer to the bolts",
    ("bracket", "base-plate-bending-lower-bolts"): "base plate: thicker, or side plates nearer to the bolts",
    ("bracket", "engine-bolt-tension"): "engine bolts: larger or stronger ones, if the engine's holes take them",
    (
        "bracket",
        "engine-bolt-tension-and-shear",
    ): "engine bolts: larger or stronger ones, if the engine's holes take them",
    ("bracket", "engine-bolt-shear"): "engine bolts: larger or stronger ones, if the engine's holes take them",
    ("bracket", "engine-plate-bearing"): "engine plate: thicker, or holes farther from its edge and from welds",
    ("bracket", "engine-plate-pull-through"): "engine plate: thicker, or larger and thicker washers under the nuts",
    ("bracket", "base-plate-bearing"): "base plate: thicker, or holes farther from its edge and from welds",
    ("bracket", "base-plate-pull-through"): "base plate: thicker",
    ("bracket", "base-bolt-tension"): "base bolts: a stronger grade, or a thicker base plate, which pries less",
    ("engine-bolts", "shank-in-grip"): "bolts: fully threaded ones, or a washer more",
}


class Cure(Protocol):
    """A change that was tried, whatever it changes."""

    def words(self, units: str) -> str:
        """What it is, and what it leads to."""
        ...


def advice(failing: Sequence[Check]) -> tuple[str, ...]:
    """What a shop can do by hand about what fails, once each."""
    told = [BY_HAND[c.part, c.what] for c in failing if (c.part, c.what) in BY_HAND]
    told += ["hole or obstruction: move it, plug it with wood, or cut the plate smaller" for c in failing
             if c.what.startswith(("opening-", "obstruction-"))]  # fmt: skip
    told += ["side plates where they are cut away: cut less, or weld on thicker ones" for c in failing
             if c.what.startswith("side-plate-bending-step-")]  # fmt: skip
    return tuple(dict.fromkeys(told))
