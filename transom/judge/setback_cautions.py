"""What the paper must say of a setback bracket, judged or not."""

from collections.abc import Iterator, Sequence
from math import floor, isfinite, log10

from transom.result import Check, worst_of
from transom.setup.records import Setup

CLOSED = (
    "BRACKET NOT CHECKED, rests on its maker's paper. Its weight, setback and bolts are in the loads; how it is made is not."
    " What its bolts carry is in --json."
)
PLATES = (
    "Setback bracket: side plates are taken to share the load evenly, twist as cantilevers, sideways load as a frame; welds"
    " as sound, with the smallest leg all along; metal near welds at the lowest listed strength. Welds were not inspected:"
    " clean them and look for cracks, with dye where you doubt, before the engine goes on."
)
FARTHEST = 1000.0  # hours; sums of conventions say nothing beyond
AIR = "A bracket that floats, or has a step or a swim platform on it, carries more than is in these loads."
HIGHER = (
    "Setback moves the engine's height, steering and tilt room, the boat's trim and the builder's plate limits: ask the"
    " builder, then test in steps."
)

CLAMPS = (
    "Clamp screws on a setback bracket: packing that cannot slip or rot must fill what the engine plate lacks of the"
    " thickness they take; that, and how they hold on metal, is not judged."
)


def setback_cautions(setup: Setup, checks: Sequence[Check]) -> Iterator[str]:
    """Cautions of a setback bracket; none without one."""
    hold = setup.bracket
    if hold is None:
        return
    if hold.plates is None:
        yield CLOSED
    else:
        yield PLATES
        yield from _first_look(checks)
    yield AIR
    yield HIGHER
    if hold.by == "clamps":
        yield CLAMPS
    if setup.job.engine.kicker is not None:
        yield "Kicker: taken as hung on the setback bracket beside the engine, not on the board."


def _first_look(checks: Sequence[Check]) -> Iterator[str]:
    """When to look at the welds first; a figure of conventions, and no pass."""
    for c in worst_of(checks):
        if c.what == "weld-fatigue":
            when = (
                f"at {two_digits(min(c.resistance, FARTHEST))} h"
                if isfinite(c.resistance) and c.resistance >= 1
                else "before every trip"
            )
            yield (
                f"First weld look {when}, and every season whatever comes first. Provisional: the detail class is from"
                " memory and the cycles an hour are this tool's convention; it is no pass, and no promise that none cracks"
                " sooner."
            )


def two_digits(hours: float) -> str:
    """Rounded down to two digits, so that no figure looks surer than it is."""
    step = 10 ** max(floor(log10(hours)) - 1, 0)
    return f"{floor(hours / step) * step:,}"
