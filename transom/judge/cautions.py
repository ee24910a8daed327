"""What the paper must say whatever the numbers are. None of it can be switched off."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

import numpy as np

from transom.job.records import Job, Mount
from transom.judge.always import ALWAYS, CAREFUL_METHOD
from transom.judge.galvanic import joints
from transom.judge.records import Stop
from transom.judge.setback_cautions import setback_cautions
from transom.result import Check, worst_of
from transom.setup.records import Setup


def cautions(
    job: Job, setup: Setup, mount: Mount | None, stops: tuple[Stop, ...], checks: Sequence[Check], valid: bool
) -> tuple[str, ...]:
    """All cautions, those of this job first."""
    own = [
        *_of_job(job),
        *setback_cautions(setup, checks),
        *_of_bolts(setup, mount),
        *_of_checks(checks),
        *_of_method(setup, valid),
        *_of_frame(setup),
    ]
    accepted = [f"Stop passed over: {s.name}. Accepted by {s.accepted}." for s in stops if not s.stands]
    return (*accepted, *own, *ALWAYS)


def _of_bolts(setup: Setup, mount: Mount | None) -> Iterator[str]:
    if mount is None or mount.engine_bolts is None:
        return
    bolts = mount.engine_bolts
    if setup.tables.grade(bolts.grade, bolts.thread).kind == "stainless":
        yield (
            "Stainless nut on stainless bolt seizes (galls): anti-seize on the threads, turn slowly by hand, no impact"
            " driver; a nut that binds is cut off, not forced."
        )
    if float(np.min(np.asarray(setup.holding.pattern.z_u))) < 4 * setup.tables.thread(bolts.thread).d_mm:
        yield (
            "Upper bolts lie nearer the top edge than the 4 diameters NDS 12.5.1 asks of a loaded edge. The bracket"
            " maker's own pattern does that; EN's 3.5 diameters for cross-banded plywood are kept, at less resistance."
        )
    yield from _of_metals(setup, mount)


def _of_metals(setup: Setup, mount: Mount) -> Iterator[str]:
    """Metals that must be kept apart, once each with every joint they meet in."""
    where: dict[str, list[str]] = {}
    for joint in joints(setup.job, mount, setup.tables):
        if joint.apart:
            says = f"{joint.metals[0]} on {joint.metals[1]}, {joint.difference:.2f} V apart: {joint.cure}."
            where.setdefault(says, []).append(joint.where)
    for says, places in where.items():
        yield f"{'; '.join(places)}: {says}"


def _worst(checks: Iterable[Check]) -> dict[tuple[str, str, str], Check]:
    """The worst case of each check."""
    out: dict[tuple[str, str, str], Check] = {}
    for c in checks:
        key = (c.part, c.what, c.rule)
        if key not in out or c.utilisation > out[key].utilisation:
            out[key] = c
    return out


# Pencil over careful, worst cases: what 200 jobs of many kinds gave; beyond it one of the two is to be doubted.
USUAL = {"board": (0.8, 2.2), "engine-bolts": (0.75, 1.8)}


def _apart(
    deciding: Mapping[tuple[str, str, str], Check], beside: Mapping[tuple[str, str, str], Check]
) -> Iterator[str]:
    """The pencil and the careful method further apart than usual, where it matters: at the check nearest to failing of
    those of a part that both have."""
    for part, (low, high) in USUAL.items():
        both = [(c, beside[key]) for key, c in deciding.items() if c.part == part and key in beside]
        if not both:
            continue
        c, pencil = max(both, key=lambda pair: pair[0].utilisation)
        if c.utilisation < MATTERS or low <= pencil.utilisation / c.utilisation <= high:
            continue
        yield (
            f"{part.replace('-', ' ')}, {c.what.replace('-', ' ')}: pencil {pencil.utilisation * 100:.0f} %, careful"
            f" {c.utilisation * 100:.0f} %. Further apart than usual: have somebody look before you rely on it."
        )


MATTERS = 0.5


def _of_checks(checks: Sequence[Check]) -> Iterator[str]:
    """A second opinion that says no, and a torque that passes a limit."""
    checks = worst_of(checks)
    deciding = _worst(c for c in checks if not c.information)
    beside = _worst(c for c in checks if c.information)
    yield from _apart(deciding, beside)
    for (part, what, rule), c in beside.items():
        if c.passes or (part, what, rule) in deciding:
            continue
        yield f"Second opinion ({rule.upper()}, decides nothing here): {what.replace('-', ' ')} at {c.utilisation * 100:.0f} % of limit."
    if any(c.what.endswith("at-bolt-up") and not c.passes for c in checks):
        yield (
            "The stated torque passes a limit at bolt-up: a larger or thicker plate or washer, a stronger bolt, or less"
            " torque with anti-seize cures it; ask the engine's maker before going below the manual."
        )


def _of_job(job: Job) -> Iterator[str]:
    if job.engine.takes is None and job.setback is None:
        yield (
            "The thickness your bracket accepts was not measured and is not checked. Owners' manuals seen say 1-1/4 to"
            " 1-3/4 in on small engines, 1-5/8 to 2-3/4 in on mid-size ones: measure your bracket."
        )
    if job.board.pocket is None and not job.board.pocket_stated:
        yield "The pocket the board drops into was not measured and is not checked: measure it at its narrowest."
    if job.engine.held_by == "clamps":
        yield (
            "Clamp screws: their own strength and how they hold sideways are the maker's; tighten, safety-wire or lock"
            " them, re-check every trip, and fit a safety chain or cable to something other than the board. In reverse the"
            " bracket bears on the aft face right under the top edge: ease that edge there by no more than 1/16 in."
        )
    if job.engine.bracket.bolts:
        yield "Odd bolt pattern: rows between the top and the bottom row are not counted for pull (conservative)."
    for case in job.cases:
        yield f"Shop's own case {case.name}: like {case.like}, times {case.times:g}, because {case.reason}."
    if job.board.notch_width or job.board.openings:
        yield "By the pencil method notch and openings count in full against the narrower strip, wherever they sit (conservative)."
    if job.board.top_corners or job.board.bottom_corners:
        yield (
            "Cut corners: the whole rectangle about each cut is taken as gone, straight or round alike, the frame as holding"
            " nothing there, and what would be worse with the corners whole counts so (conservative). Frame bolts are taken"
            " between them: compare with the holes."
        )
    if job.mount is not None and job.mount.engine_bolts is not None and job.mount.engine_bolts.forward.bonded:
        yield (
            "Plates glued to the wood: every check counts the worse of glued and loose, so that nothing rests on the glue,"
            " which is not checked: heat moves the metal, damp the wood, and it may let go unseen. Glued counts alone only"
            " in the ruler check: more movement than it says may be the glue gone."
        )
    if job.engine.kicker is not None:
        yield (
            "Kicker: its weight and thrust are in the loads on the board and, conservatively, on the main engine's bolts;"
            " its own clamps or bolts, and the wood about them, are not sized."
        )
    if job.boat.plate_engine_mass is None and job.boat.plate == "stated":
        yield "The builder's plate may limit the engine's weight too: read it before hanging a heavier engine."


def _of_method(setup: Setup, valid: bool) -> Iterator[str]:
    yield CAREFUL_METHOD
    if not valid:
        yield (
            "Outside what the pencil method was set on (thickness 25 to 90 mm, wood left under the pads, bracket between"
            " the side lines): read these figures as a warning, not as a size."
        )
    if np.max(setup.power) >= BARE_BOARD_ENDS and setup.place.kind == "pod":
        yield (
            "Above about 100 hp a bare plywood board in a pod rarely works within a bracket's 2-3/4 in: ask about glass"
            " skins, closer uprights or a metal bracket."
        )


BARE_BOARD_ENDS = 100 * 745.69987158


def _of_frame(setup: Setup) -> Iterator[str]:
    yield "Bolts from board to frame are taken evenly along each line, half a flange in: compare with the holes."
    if setup.job.frame.flange_weld is None:
        yield (
            "Flange taken as welded near its bolts or corner, where aluminum is only a third to two thirds as strong: bent"
            " or extruded metal carries more ([frame.flange] weld). Cracks beside welds: look, with dye where you can."
        )
    if setup.frame.bolts.kind == "lag screws":
        yield (
            "Lag screws hold by the wood's thread alone: it rots and strips out of sight, and a screw taken out and driven"
            " again holds less. Through-bolts with plate washers wherever the nut can be reached."
        )
    if setup.pod is not None and setup.pod.bolts.kind == "blind rivets":
        yield (
            "Blind rivets shake loose and corrode unseen; their table is the least of their class, new. Bolts with plate"
            " washers wherever the far side can be reached."
        )
    if setup.pod is not None:
        yield (
            ("Pod bolts are judged where they were measured. " if setup.job.crossmembers.holes else
             "Pod bolts are taken in even rows as wide apart as the board's side lines. ")
            + "The pod's own walls and welds, the crossmembers' own bending and what they hang from are not judged."
        )  # fmt: skip
