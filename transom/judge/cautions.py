"""What the paper must say whatever the numbers are. None of it can be switched off."""

from collections.abc import Iterator

import numpy as np

from transom.job.records import Job, Mount
from transom.judge.records import Stop
from transom.setup.facts import Facts
from transom.setup.records import Setup

ALWAYS = (
    "Covers the mount only: board, glue, engine bolts and what spreads them. Pod or frame, its welds, tubes, deck"
    " and hidden rot were not inspected: look yourself, and ask a surveyor where you cannot see.",
    "Not a survey and not approval. The boat's builder, the engine's manual, a licensed surveyor or engineer and"
    " local rules go before this paper.",
    "Shop hazards: support the engine before the last bolt is out; eyes and lungs when cutting, sanding or grinding;"
    " epoxy burns skin and heats up in the pot; keep hands clear of the propeller, key out, kill cord off.",
    "Bolt tension is known to about 30 %: the tool takes the high side, a torque wrench does not tell it.",
)


def cautions(
    job: Job, facts: Facts, setup: Setup, mount: Mount | None, stops: tuple[Stop, ...], valid: bool
) -> tuple[str, ...]:
    """All cautions, those of this job first."""
    own = [*_of_job(job), *_of_method(setup, valid), *_of_frame(job)]
    accepted = [f"Stop passed over: {s.name}. Accepted by {s.accepted}." for s in stops if not s.stands]
    return (*accepted, *own, *ALWAYS)


def _of_job(job: Job) -> Iterator[str]:
    if job.engine.takes is None:
        yield (
            "The thickness your bracket accepts was not measured and is not checked. Owners' manuals seen say 1-1/4 to"
            " 1-3/4 in on small engines, 1-5/8 to 2-3/4 in on mid-size ones: measure your bracket."
        )
    if job.engine.held_by == "clamps":
        yield (
            "Clamp screws: their own strength and how they hold sideways are the maker's; tighten, safety-wire or lock"
            " them, re-check every trip, and fit a safety chain or cable to something other than the board."
        )
    if job.engine.bracket.bolts:
        yield "Odd bolt pattern: rows between the top and the bottom row are not counted for pull (conservative)."
    for case in job.cases:
        yield f"Shop's own case {case.name}: like {case.like}, times {case.times:g}, because {case.reason}."
    if job.board.notch_width or job.board.openings:
        yield "Notch and openings in the board are not taken out of these sums yet: keep them clear of bolts and pads."


def _of_method(setup: Setup, valid: bool) -> Iterator[str]:
    yield "Pencil method throughout: it comes out thicker than a plate model would (median 15 to 20 %)."
    if not valid:
        yield (
            "Outside what the pencil method was set on (thickness 25 to 90 mm, wood left under the pads, bracket between"
            " the side lines): read these figures as a warning, not as a size."
        )
    if np.max(setup.power) >= BARE_BOARD_ENDS and setup.place.kind == "pod":
        yield (
            "Above about 140 hp a bare plywood board in a pod rarely works within a bracket's 2-3/4 in: ask about glass"
            " skins, closer uprights or a metal bracket."
        )


BARE_BOARD_ENDS = 140 * 745.69987158


def _of_frame(job: Job) -> Iterator[str]:
    if job.frame.bolts is None or not job.frame.bolts.keep:
        yield "Fasteners from board to frame are not sized here; they must carry the pulls listed for the boat."
    else:
        yield "Existing fasteners from board to frame are not judged here; they must carry the pulls listed for the boat."
