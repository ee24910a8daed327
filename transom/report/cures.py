"""What would make a mount work: other stock, another bracket, and what a shop can do by hand."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from transom.catalogue import Catalogue
from transom.errors import TransomError
from transom.job.records import Job, Stock
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import dual, percent
from transom.report.mounts import short_words
from transom.report.words import case_words, check_words
from transom.result import Check
from transom.sizing.sizing import picked

MOST_SHEETS = 4

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


class Told(Protocol):
    """A change that was tried, whatever it changes."""

    def words(self, units: str) -> str:
        """What it is, and what it leads to."""
        ...


@dataclass(frozen=True)
class Cure:
    """A change that was tried: what it is, and the judgement that it leads to."""

    change: str
    judgement: Judgement

    def words(self, units: str) -> str:
        """The change, and what then works with how much to spare."""
        j = self.judgement
        if j.mount is None:
            return self.change
        return (
            f"{self.change}: {short_words(j.mount, j.setup.tables, units)}{self._bolts(units)}. That works:"
            f" {show.length(j.total, units, towards='up')} in all, weakest link {percent(j.governing.utilisation)}"
            f" ({check_words(j.governing, j.job)}, {case_words(j.governing.case, j.job.cases)})"
        )

    def _bolts(self, units: str) -> str:
        mount, tables = self.judgement.mount, self.judgement.setup.tables
        if mount is None or mount.engine_bolts is None:
            return ""
        b = mount.engine_bolts
        return f"; bolts {b.thread} x {dual(b.length, units, metric=tables.thread(b.thread).system == 'metric')}"


def tried(job: Job, tables: Catalogue, rank: str = "material") -> tuple[Cure, ...]:
    """Changes that make a board work which has none: each is sized, and only what passes its checks is told."""
    found = []
    for change, other in _changes(job):
        j = _first(other, tables, rank)
        if j is not None and not j.failing:
            found.append(Cure(change, j))
            break
    return tuple(found)


def _first(job: Job, tables: Catalogue, rank: str) -> Judgement | None:
    """The best ranked mount that passes, judged; None where there is none. No nearest miss is looked for."""
    try:
        return picked(job, tables, rank)
    except TransomError:
        return None


def _changes(job: Job) -> Iterator[tuple[str, Job]]:
    """The smallest change first."""
    free = Stock(most_sheets=max(MOST_SHEETS, job.stock.most_sheets), measured=job.stock.measured)
    wide = replace(job, engine=replace(job.engine, takes=None))
    if job.stock != free:
        yield "with any sheet, plate and bolt in the shipped tables", replace(job, stock=free)
    if job.engine.takes is not None and job.setback is None:
        yield "if the bracket took a thicker board", wide
        yield "with other stock, if the bracket took a thicker board", replace(wide, stock=free)


def advice(failing: Sequence[Check]) -> tuple[str, ...]:
    """What a shop can do by hand about what fails, once each."""
    told = [BY_HAND[c.part, c.what] for c in failing if (c.part, c.what) in BY_HAND]
    told += ["hole or obstruction: move it, plug it with wood, or cut the plate smaller" for c in failing
             if c.what.startswith(("opening-", "obstruction-"))]  # fmt: skip
    told += ["side plates where they are cut away: cut less, or weld on thicker ones" for c in failing
             if c.what.startswith("side-plate-bending-step-")]  # fmt: skip
    return tuple(dict.fromkeys(told))


def joints_alone(j: Judgement) -> bool:
    """True where only bolts of frame and pod fail, and what can be added to them cures it."""
    failing = {c.part for c in j.failing}
    cured = {a.joint for a in j.could_add if a.holds}
    return bool(failing) and failing <= cured


def resized(job: Job, tables: Catalogue) -> tuple[Cure, ...]:
    """For a mount that fails: what the same stock would make, else what `tried` finds."""
    j = _first(job, tables, "material")
    return tried(job, tables) if j is None or j.failing else (Cure("from your stock", j),)
