"""What the boat has to hold: a table of every line of fasteners, situation by situation, for whoever answers for it."""

from collections.abc import Iterator

import numpy as np

from transom.checks.plate_reactions import held
from transom.checks.pod_reactions import pod_reactions
from transom.checks.reactions import Reactions
from transom.judge.records import Judgement
from transom.quantity import show
from transom.report.forces import trial_of_mount
from transom.report.text import block, columns, rule
from transom.units import Array

SITUATIONS = {
    "ahead": "full throttle ahead", "hard-over": "full throttle, steering over", "astern": "full astern",
    "wave": "running hard in waves", "turn": "hard turn at speed", "strike": "gearcase hits something",
    "road": "on the trailer",
}  # fmt: skip
WIDE = (23, 15, 10, 10, 11, 9)


def situation_words(of: str) -> str:
    """A situation as people say it; the shop's own by its name."""
    bare = of.removeprefix("kicker-")
    return ("kicker alone: " if bare != of else "") + SITUATIONS.get(bare, bare.replace("-", " "))


def boat_holds(j: Judgement) -> Iterator[str]:
    """Frame lines along the board's axes, crossmembers level."""
    trial = trial_of_mount(j)
    if trial is None:
        return
    yield rule("=")
    how = "pencil method" if j.careful is None else "careful method"
    yield from block(
        "",
        f"WHAT THE BOAT HAS TO HOLD, {how}, no safety factor in: the most on each line, all of it together, in any case of the situation,"
        " board and its weight in. For whoever answers for pod welds, deck and tubes; --json has every case, in balance.",
        at=0,
    )
    yield from columns(
        _table(j, held(j.careful or trial), ("aft", "forward", "up or down", "sideways"), (0, 2, 1)), WIDE
    )
    pod = pod_reactions(trial)
    if pod is not None:
        yield " POD TO CROSSMEMBERS, level, pod's weight in; number 1 is the aftermost"
        yield from columns(_table(j, pod.forces, ("down", "up", "fore-aft", "sideways"), (2, 0, 1)), WIDE)


def _table(j: Judgement, found: Reactions, heads: tuple[str, ...], axes: tuple[int, int, int]) -> list[tuple[str, ...]]:
    """Both senses along the first axis, the larger of either sense along the other two."""
    rows: list[tuple[str, ...]] = [("situation", "line", *heads)]
    of, units = np.array(j.cases.of), j.job.head.units
    for situation in dict.fromkeys(j.cases.of):
        words = situation_words(situation)
        for name, _, wrench in found.of_lines():
            rows.append(
                (words, name, *(show.force(f, units, towards="up") for f in _most(wrench[of == situation], axes)))
            )
            words = ""
    return rows


def _most(wrench: Array, axes: tuple[int, int, int]) -> tuple[float, float, float, float]:
    """Largest along the first axis, and against it; largest of either sense along the others."""
    main = wrench[:, axes[0]]
    along, against = float(max(main.max(), 0.0)), float(max(-main.min(), 0.0))
    if axes[0] != 0:  # up and down: down comes first
        along, against = against, along
    return along, against, *(float(np.abs(wrench[:, a]).max()) for a in (axes[1], axes[2]))  # type: ignore[return-value]
