"""The build in order: what is done, what it waits for, what can hurt, what gets a tick on paper."""

from collections.abc import Iterator, Mapping

from transom.drawing import drilling
from transom.drawing.records import Drawing
from transom.drawing.words import corner_words
from transom.estimate.work import Work
from transom.floor.cure import Curing
from transom.frozen import dataclass
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.amounts import drill
from transom.report.ruler import ruler_words
from transom.report.shopping import torque
from transom.report.words import plural

KILOS_A_POUND = 0.45359237
PASSES = 3  # a torque is reached in thirds
RETORQUE = "after the first run, at 10 hours, then every 100 hours or yearly"


@dataclass(frozen=True)
class Step:
    """One step of the build.

    `hours` of hands; `after` are steps by name and the hours that must have passed since they ended; `within` is in
    how many hours of its beginning the glue must be closed, 0 where none is open. `boxes` are ticked and initialed.
    """

    name: str
    title: str
    says: tuple[str, ...]
    hazard: str
    hours: float
    after: tuple[tuple[str, float], ...] = ()
    within: float = 0.0
    boxes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Build:
    """What the steps are told from: the mount judged and drawn, its work, the glue, hours by operation."""

    j: Judgement
    drawing: Drawing
    work: Work
    curing: Curing
    hours: Mapping[str, float]

    @property
    def units(self) -> str:
        """How the job reads."""
        return self.j.job.head.units

    @property
    def bolted(self) -> bool:
        """True where bolts hold the engine, not clamps."""
        return self.work.engine_bolts > 0

    @property
    def stacked(self) -> bool:
        """True where there is a glue line."""
        return self.work.layers > 1


def steps(b: Build) -> tuple[Step, ...]:
    """Every step of this build in order."""
    return tuple(_steps(b))


def _steps(b: Build) -> Iterator[Step]:
    yield _off(b)
    yield _cut(b)
    if b.stacked:
        yield _glue(b)
        yield Step("unclamp", "CLAMPS OFF", ("Squeeze-out rings hard under a nail? Then off. Soft: wait, it was colder.",),
                   "edges of cured epoxy cut like glass", 0.25, (("glue", b.curing.hours("clamp")),))  # fmt: skip
    yield _trim(b)
    if any(h.over_bore for h in b.drawing.holes):
        yield _bore(b)
        yield _final(b)
    yield _coat(b)
    yield _metal(b)
    yield _dry_fit(b)
    yield _bed(b)
    yield _hang(b)
    yield _ruler(b)
    yield _trial(b)
    yield _retorque(b)


def _off(b: Build) -> Step:
    return Step(
        "off", "BEFORE ANYTHING COMES APART",
        (
            "Photographs by number; measure what still says \"?\" with the wood out: pocket in three places, wall, holes.",
            "Engine on a hoist or stand, key out, battery off, fuel line off and drained; then the last bolt.",
        ),
        "never under an engine that hangs; petrol vapor and sparks", b.hours.get("engine-off", 1.0) + b.hours.get("strip", 1.0),
        boxes=("engine held", "battery and fuel off", "pocket measured"),
    )  # fmt: skip


def _cut(b: Build) -> Step:
    grain = ", ".join(f"{layer.number} {'SIDEWAYS' if layer.grain == 'across' else 'UP'}" for layer in b.drawing.layers)
    return Step(
        "cut", "CUT AND FIT DRY",
        (
            f"{plural(b.work.layers, 'layer')} from the cut list, grain from the aft face: {grain}. Mark aft, up and center line on each.",
            "Sheets with a void at the edge or under a bolt go back. Dry stack, clamp, check against the pocket.",
        ),
        "saw and router: eyes, ears, lungs", b.hours.get("template", 0.5) + b.hours.get("cut", 0.5),
        boxes=("grain as drawn", "no voids seen", "dry stack fits"),
    )  # fmt: skip


def _glue(b: Build) -> Step:
    mix = b.work.epoxy.glue
    opens = b.curing.hours("open")
    return Step(
        "glue", "GLUE UP",
        (
            "Sand both faces with 80 grit, vacuum, wipe dry. Neat epoxy on both first, wet until they stop drinking; then thickened on one.",
            f"About {_grams(mix, b.units)} mixed stays in the lines; mix a fifth more, in small flat pots.",
            f"All clamps on within {_spell(opens)} of the first pot. Contact pressure: a bead out all round, never squeezed dry.",
            "Screws or pins outside the holes keep layers from sliding; out again when it has set.",
        ),
        "epoxy burns skin and the pot heats: gloves, eyes, air", b.hours.get("laminate", 1.0), within=opens,
        boxes=("batch noted", "bead all round", "shop temperature noted"),
    )  # fmt: skip


def _trim(b: Build) -> Step:
    after = (("glue", b.curing.hours("work")),) if b.stacked else ()
    corners = f", {corner_words(b.drawing.outline, b.units)}" if b.drawing.outline.cut else ""
    return Step(
        "trim", "TRIM AND SAND",
        (f"To the outline{corners}; edges eased. Thickness with a caliper in four places: write them down.",),
        "sanding dust of fresh epoxy: mask, not just glasses", 0.75, after, boxes=("four thicknesses noted",),
    )  # fmt: skip


def _bore(b: Build) -> Step:
    found = [s for s in drilling.steps(b.drawing) if s.kind == drilling.BORES]
    bits = "; ".join(f"{_bit(s, b)} through {', '.join(s.holes)}" for s in found)
    return Step(
        "fill", "OVER-BORE AND FILL",
        (
            "Pilot every mark first, from the aft face, square to it, backing block behind.",
            f"Over-bore {bits}. Tape the back, neat epoxy round the wood, fill flush with thickened, no bubbles.",
        ),
        "hole saw grabs: clamp the board, both hands", b.hours.get("bore", 1.0), (("trim", 0.0),),
        boxes=("square to the face", "filled without bubbles"),
    )  # fmt: skip


def _final(b: Build) -> Step:
    found = [s for s in drilling.steps(b.drawing) if s.kind == drilling.FINALS]
    bits = "; ".join(f"{_bit(s, b)} through {', '.join(s.holes)}" for s in found)
    return Step(
        "drill", "DRILL THROUGH THE PLUGS",
        (f"{bits or 'engine holes to size'}. Every hole keeps a wall of epoxy all round; bare wood showing: bore and fill it again.",),
        "swarf in the eyes", 0.75, (("fill", b.curing.hours("work")),), boxes=("epoxy all round every hole",),
    )  # fmt: skip


def _coat(b: Build) -> Step:
    recoat = b.curing.hours("recoat")
    return Step(
        "coat", "SEAL EVERY FACE, EDGE AND HOLE",
        (
            f"Two coats at least, three on edges; about {_grams(b.work.epoxy.coats, b.units)} stays on.",
            f"Next coat while the last is still tacky, within {_spell(recoat)}; later, wash with water and sand first.",
        ),
        "gloves, eyes, air", b.hours.get("coat", 1.5),
        (("drill", 0.0),) if any(h.over_bore for h in b.drawing.holes) else (("trim", 0.0),),
        boxes=("edges three coats", "every hole sealed"),
    )  # fmt: skip


def _metal(b: Build) -> Step:
    plates = plural(len(b.drawing.plates), "plate") if b.drawing.plates else "washers"
    bolts = b.j.mount.engine_bolts if b.j.mount is not None else None
    glue = bolts is not None and bolts.forward.bonded
    glued = (
        "Glued plates: metal abraded bright and wiped, neat then thickened epoxy at once over the whole face, bolts snug while it sets.",
    )
    return Step(
        "metal", "PLATES, WASHERS, BARRIER",
        (
            f"{plates}: corners rounded, holes deburred, backs flat. Paint, tape or sleeve between unlike metals; bedding on bare aluminum.",
            *(glued if glue else ()),
            "Look at pod, frame and welds with the board out: cracks, pits, soft spots. What you find goes on the record.",
        ),
        "grinding sparks near fuel: boat out of reach", b.hours.get("plates", 0.5), (("coat", b.curing.hours("work")),),
        boxes=("metals kept apart", "welds looked at"),
    )  # fmt: skip


def _dry_fit(b: Build) -> Step:
    return Step(
        "dry-fit", "DRY FIT",
        (
            "Board in without bedding: goes in by hand, bears all round, holes line up. Never pull it in with bolts.",
            f"Tape checks of the bench card: each hole to both {'ends of the top edge' if b.drawing.outline.top else 'corners'}, diagonals.",
        ),
        "pinched fingers", 0.5, boxes=("goes in by hand", "holes line up"),
    )  # fmt: skip


def _bed(b: Build) -> Step:
    wear = "fit" if b.drawing.frame_kind != "cap rail" else "cap-on"
    return Step(
        "bed", "BED IT AND BOLT IT TO THE FRAME",
        (
            "Bedding on every mating face and round every hole; bolts in by hand from the middle out, snug, then tight once it has set.",
            f"{plural(b.work.frame_bolts, 'bolt')} in frame and pod together: every one in, kept and new; washers as listed.",
        ),
        "bedding and solvent: air", b.hours.get(wear, 1.0), boxes=("every frame bolt in", "bedding out all round"),
    )  # fmt: skip


def _hang(b: Build) -> Step:
    wait = (("coat", b.curing.hours("hang")),)
    if not b.bolted:
        return Step(
            "hang", "HANG THE ENGINE",
            ("Clamps full on the board, pads flat; screws by hand, both alike. Safety chain from engine to boat, short.",),
            "two people or a hoist", b.hours.get("engine-on", 1.0), wait, boxes=("port screw", "starboard screw", "chain on"),
        )  # fmt: skip
    names = [h.name for h in b.drawing.of("engine")]
    return Step(
        "hang", "HANG THE ENGINE, ONE TORQUE",
        (
            "Bedding under every head, plate and washer; bolts in by hand, all of them, before any is turned.",
            f"Crosswise in {PASSES} passes to {torque(b.j)}",
        ),
        "nobody under the engine; no impact driver on stainless", b.hours.get("engine-on", 1.0), wait,
        boxes=tuple(f"bolt {name}: torque" for name in names),
    )  # fmt: skip


def _ruler(b: Build) -> Step:
    return Step(
        "ruler", "RULER CHECK", (ruler_words(b.j) or "Somebody's weight on the cav plate, a rule at the top edge.", "Write down weight and movement."),
        "engine locked down, boat chocked", 0.25, boxes=("weight", "moved"),
    )  # fmt: skip


def _trial(b: Build) -> Step:
    return Step(
        "trial", "TRIAL ON THE WATER",
        ("Not sooner: the glue is not hard yet. `transom trial` says what to watch, and takes what you found.",),
        "kill cord on; bilge and mount watched by a second person", b.hours.get("trial", 1.0),
        (("coat", b.curing.hours("load")),), boxes=("speed", "engine speed"),
    )  # fmt: skip


def _retorque(b: Build) -> Step:
    what = "Every bolt to the same torque" if b.bolted else "Both screws by hand, chain"
    return Step(
        "re-torque", "RE-TORQUE",
        (f"{what} {RETORQUE}. Wood creeps: a bolt that takes more than a quarter turn each time is crushing it.",),
        "engine off, key out", b.hours.get("re-torque", 0.5), boxes=("after first run", "10 hours", "100 hours or a year"),
    )  # fmt: skip


def _bit(s: drilling.Step, b: Build) -> str:
    return drill(s.diameter, b.units, "nearest")


def _grams(kg: float, units: str) -> str:
    """A weight of epoxy: ounces beside grams where results read in US units."""
    grams = f"{max(5, round(kg * 1000 / 5) * 5):,} g"
    return grams if units == show.SI else f"{kg / KILOS_A_POUND * 16:.0f} oz ({grams})"


def _spell(hours: float) -> str:
    """Hours and minutes, rounded down to five: what must happen within a time."""
    minutes = int(hours * 12) * 5
    whole, rest = divmod(minutes, 60)
    return " ".join([f"{whole} h"] * bool(whole) + [f"{rest} min"] * bool(rest or not whole))
