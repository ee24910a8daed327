"""What an answer rests on, in truth: a number that the tool chose, or took for want of a better, is nobody's statement."""

from dataclasses import replace

from transom.judge.records import Judgement
from transom.setup.facts import Facts, collect
from transom.setup.records import Fact

CHOSEN = "this tool"


def facts_told(j: Judgement) -> Facts:
    """The facts of a judgement; bolts of frame and pod are the user's only where the job or a reviewed mount states them."""
    own, theirs, kept = collect(j.job, j.setup.tables), _of_the_mount(j), _kept(j)
    return {
        key: fact if key.startswith(theirs) else _told(fact, own.get(key), key.startswith(kept))
        for key, fact in j.facts.items()
    }


def _told(fact: Fact, own: Fact | None, kept: bool) -> Fact:
    """A fact as settled, and as the job alone has it; `kept` is of bolts that are there already."""
    if fact.evidence != "stated":
        return fact
    if own is not None and own.value == fact.value and (own.evidence == "stated" or kept):
        return own
    return replace(fact, evidence="convention", known_by="derived", source=CHOSEN, measure="")


def _kept(j: Judgement) -> tuple[str, ...]:
    """How the keys of bolts begin that are there to be used again."""
    found = {"frame.bolts.": j.job.frame.bolts, "crossmembers.bolts.": j.job.crossmembers.bolts}
    return tuple(key for key, bolts in found.items() if bolts is not None and bolts.keep)


def _of_the_mount(j: Judgement) -> tuple[str, ...]:
    """How the keys begin that a mount under review states; one that was sized is the tool's own."""
    if j.mount is None or j.sizing is not None:
        return ()
    stated = {"frame.bolts.": j.mount.frame_bolts, "crossmembers.bolts.": j.mount.pod_bolts}
    return tuple(key for key, bolts in stated.items() if bolts is not None)
