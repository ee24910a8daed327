"""The shopping list: sheets, plates, bolts, torque, holes. The answer, for the bench."""

from collections.abc import Iterator

import numpy as np

from transom.job.records import Board, EngineBolts, FrameBolts, Mount
from transom.judge.fasteners import Added
from transom.judge.records import Judgement
from transom.maths import scalar
from transom.quantity import show
from transom.report.amounts import tape
from transom.report.mounts import (
    bolt_words,
    grain_words,
    hole_rows,
    measure_words,
    panel_words,
    plate_words,
    stack_words,
)
from transom.report.page import beyond_brackets, most_seen, size_words
from transom.report.text import block, columns
from transom.report.words import plural, spelled
from transom.setup.support_facts import weld_reach
from transom.sizing.sheets import NONE_BIG_ENOUGH, halves
from transom.units import Value

Item = tuple[str, str]  # label, words


def shopping(j: Judgement, mount: Mount) -> Iterator[str]:
    """Board, plate, total, bolts, torque, frame, holes, one block each."""
    for label, words in items(j, mount):
        yield from block(label, words)
    rows = holes(j)
    if rows:
        yield from columns(rows, (14, 19, 17, 13, 14))
    for label, words in more(j):
        yield from block(label, words)


def items(j: Judgement, mount: Mount) -> Iterator[Item]:
    """Each line of the list with its label, holes apart; no label goes on with the one above."""
    yield from board(j, mount)
    if mount.engine_bolts is not None and j.setup.holding.by == "bolts":
        yield from _bolted(j, mount.engine_bolts)
    else:
        yield from _clamped(j)
    yield from frame(j)


def board(j: Judgement, mount: Mount) -> Iterator[Item]:
    """What to cut and glue."""
    tables, units, layers = j.setup.tables, j.job.head.units, mount.layers
    words = (
        f"{size_words(j)}, {stack_words(layers, tables)} {panel_words(layers, tables)}"
        f" ({measure_words(layers, tables, j.job)})"
    )
    yield ("BOARD", words)
    glued = ", glued with epoxy" if len(layers) > 1 else ""
    out = f"comes out {show.length(j.coated, units, towards='up')} coated; {pocket(j)}"
    yield ("", f"{grain_words(layers)}{glued}{_halves(j)}; {out}")
    cut = tuple(_cut_out(j.job.board, units))
    if cut:
        yield ("", f"cut out: {', '.join(cut)}")


def _cut_out(b: Board, units: str) -> Iterator[str]:
    """What the board's edge lacks of a rectangle."""
    if b.notch_width > 0 and b.notch_depth > 0:
        yield f"top notch {tape(b.notch_width, units)} x {tape(b.notch_depth, units)} deep"
    for which, c in (("top", b.top_corners), ("bottom", b.bottom_corners)):
        if c:
            size = f"{tape(c.width, units)} along the edge x {tape(c.height, units)} up the side"
            yield f"both {which} corners, {c.cut}, {size}"


def _halves(j: Judgement) -> str:
    count = halves_of(j)
    if count >= NONE_BIG_ENOUGH:
        return "; NO SHEET IS LARGE ENOUGH"
    return f"; takes {plural(count, 'half sheet')}" if count else "; cut from offcuts"


def halves_of(j: Judgement) -> int:
    """Half sheets to buy for the mount, at least `NONE_BIG_ENOUGH` where no sheet is; 0 where there is no mount."""
    if j.mount is None:
        return 0
    width, height = (j.facts[f"board.{key}"].value for key in ("width", "height"))
    return halves(j.mount.layers, width, height, j.setup.tables, j.job.stock.offcuts)


def pocket(j: Judgement) -> str:
    """Whether the coated board goes into its channel, and what is left."""
    b, units = j.job.board, j.job.head.units
    if b.pocket is None:
        return "no pocket to fit" if b.pocket_stated else "pocket not measured"
    free = b.pocket - j.coated
    text = f"pocket is {show.length(b.pocket, units, towards='down')}"
    if free < j.setup.factors.pocket_clearance:
        return f"{text}: DOES NOT GO IN"
    return f"{text}: goes in, {show.length(free, units, towards='down')} free"


def _bolted(j: Judgement, bolts: EngineBolts) -> Iterator[Item]:
    tables, units = j.setup.tables, j.job.head.units
    count = int(np.ravel(j.setup.holding.bolt_y).size)
    yield ("PLATE", f"inside, {plate_words(bolts.forward, tables, units, count)}")
    yield from total(j)
    yield ("ENGINE" if j.setup.bracket is None else "BRACKET", spelled(bolt_words(bolts, count, tables, units), units))
    yield ("TORQUE", torque(j))


def _clamped(j: Judgement) -> Iterator[Item]:
    yield from total(j)
    yield ("ENGINE", "hangs on its own clamp screws: no bolts, no holes to drill")
    yield ("CHAIN", "safety chain or cable from the engine to something other than this board")


def total(j: Judgement) -> Iterator[Item]:
    """Thickness under the bracket against what the bracket takes."""
    units, takes = j.job.head.units, j.job.engine.takes
    text = f"{show.length(j.total, units, towards='up')} under the bracket"
    if j.setup.bracket is not None:
        yield ("TOTAL", f"{text}'s base plate")
        return
    if takes is None:
        yield ("TOTAL", f"{text} ({_unmeasured(j)})")
        return
    low = show.length(takes[0], units, towards="up", unit=False)
    yield ("TOTAL", f"{text}   (yours takes {low} to {show.length(takes[1], units, towards='down')})")


def _unmeasured(j: Judgement) -> str:
    """What to say of a bracket whose range was not measured: small engines' manuals say one, others' another."""
    seen = show.length(most_seen(j), j.job.head.units, towards="down")
    if beyond_brackets(j):
        return f"MORE than the {seen} that manuals seen allow: measure yours before anything else"
    return f"measure what yours takes; manuals seen allow up to {seen}"


def torque(j: Judgement) -> str:
    """The one torque: the job's, else the most that neither bolt nor dry wood minds."""
    e, units = j.job.engine, j.job.head.units
    if e.torque is not None:
        text = f"{show.torque(e.torque, units)} (you gave it; threads {e.threads}, by hand)."
    else:
        most = show.torque(j.torque, units, towards="down")
        text = f"at most {most} (tool's, threads {e.threads}, by hand; manual says more? Type it in)."
    return f"{text} Nut turns, torque does not climb? STOP: wood crushes."


def frame(j: Judgement) -> Iterator[Item]:
    """Bolts of frame and pod: enough, what to add, or which new ones; where they are judged as they are, whether they do."""
    labels = {"frame": "FRAME", "crossmembers": "POD"}
    failing = {c.part for c in j.failing}
    could = {a.joint: a for a in j.could_add}
    for a in j.fasteners:
        stated = j.mount is not None and getattr(j.mount, STATED[a.joint]) is not None and not j.sizing
        units, fails = j.job.head.units, a.joint in failing
        text = stated_words(a, units) if stated else fastener_words(a, units, fails)
        cure = f"; {cure_words(could.get(a.joint), units)}" if fails else ""
        yield (
            labels[a.joint],
            f"{text}{': NOT ENOUGH' if fails else ''}{cure}",
        )


def more(j: Judgement) -> Iterator[Item]:
    """Where new bolts go, and what would do were no weld near the flange: below the list, which is for the bench."""
    new = [_where(j, a.joint) for a in j.fasteners if not a.bolts.keep]
    words = "; ".join(w for w in new if w)
    if words:
        yield ("NEW BOLTS", words)
    if j.unwelded:
        yield ("FLANGE", _unwelded(j))


def _unwelded(j: Judgement) -> str:
    """What would do were no weld near the flange's bolts, where one is assumed and it makes a difference."""
    units = j.job.head.units
    reach = show.length(weld_reach(j.facts["frame.flange.thickness"].value, j.setup.tables), units, towards="up")
    return "".join(
        f"taken as welded near its bolts; no weld within {reach}? Then {cure_words(a, units).removesuffix(': that holds')}"
        for a in j.unwelded
    )


def _where(j: Judgement, joint: str) -> str:
    """Where new bolts go: how many on each line, how far apart, how far from the edge."""
    units = j.job.head.units

    def wide(x: Value) -> str:
        return show.length(scalar(x), units)

    if joint == "crossmembers":
        g = j.setup.pod.group if j.setup.pod is not None else None
        if g is None or j.job.crossmembers.holes or not len(g.at):
            return ""
        return f"pod: spread {wide(2 * np.max(np.abs(g.at[:, 1])))} across each"
    f = j.setup.frame
    side, bottom, top = (round(scalar(n)) for n in (f.n_side, f.n_bottom, f.n_top))
    parts = [f"{side} each side {wide(f.side_pitch)} apart"]
    parts += [f"{n} along the {name} {wide(f.end_pitch)} apart" for n, name in ((bottom, "bottom"), (top, "top")) if n]
    return f"frame: {', '.join(parts)}, {wide(f.edge)} from the board's edge"


STATED = {"frame": "frame_bolts", "crossmembers": "pod_bolts"}


def cure_words(a: Added | None, units: str) -> str:
    """What would make a joint hold, or that nothing on the list does."""
    if a is None:
        return "see CURE"
    if not a.holds:
        return "no bolts, washers or angle that this tool adds make it hold"
    what = f"ADD {', '.join(_extra(a, units))}" if a.bolts.keep else fastener_words(a, units)
    return f"{what}: that holds" if _extra(a, units) or not a.bolts.keep else "they hold as found"


def stated_words(a: Added, units: str) -> str:
    """A joint's bolts as the mount states them."""
    b = a.bolts
    parts = [f"{b.count} bolts {_size(b, units)}, as the mount has them"]
    if b.washer is not None:
        parts.append(f"washers {show.length(b.washer, units, towards='down')} across")
    if b.doubler:
        parts.append(f"{show.length(b.doubler, units, unit=False)} flange angle")
    return ", ".join(parts)


def fastener_words(a: Added, units: str, fails: bool = False) -> str:
    """One joint's bolts as a shop reads them, on one line."""
    b = a.bolts
    size, kind = _size(b, units), b.kind
    extra = _extra(a, units)
    catch = f"; in {a.rows} crossmembers or more" if a.rows else ""
    if not b.keep:
        return ", ".join((f"{b.count} {kind} {size}, new", *extra)) + catch
    mine = f"your {(b.count or 0) - a.more} {kind} {size}"
    if fails and not extra:
        return mine
    return (f"{mine}: ADD {', '.join(extra)}" if extra else f"{mine}: enough") + catch


def _size(b: FrameBolts, units: str) -> str:
    """A size as it was typed; a size that nobody measured says so."""
    if b.size:
        return b.size
    return "of a size not measured" if b.diameter is None else show.length(b.diameter, units)


def _extra(a: Added, units: str) -> list[str]:
    """What is added, one part each."""
    extra = [f"{a.more} {a.bolts.kind}"] if a.more > 0 else []
    if a.washer is not None:
        side, t = (show.length(x, units, towards="up", unit=False) for x in a.washer)
        extra.append(f"{side} x {side} x {t} plate washers")
    if a.doubler:
        extra.append(f"{show.length(a.doubler, units, towards='up', unit=False)} flange angle")
    return extra


def holes(j: Judgement) -> tuple[tuple[str, ...], ...]:
    """Where to drill and how large, headed; the over-bore is filled with thickened epoxy and drilled again."""
    rows = hole_rows(j)
    if not rows:
        return ()
    header = ("HOLES", "from center line", "below top edge", "over-bore", "final drill")
    return (tuple(spelled(x, j.job.head.units) for x in header), *rows)
