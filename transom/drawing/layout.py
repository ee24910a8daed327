"""From a judgement to the one drawing that every writer draws."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from transom.drawing import faces
from transom.drawing.doubts import doubts
from transom.drawing.holes import holes
from transom.drawing.identity import identity
from transom.drawing.records import Cut, Drawing, Outline
from transom.drawing.stack import layers, stack
from transom.errors import JobError
from transom.judge.records import Judgement


def drawing_of(j: Judgement) -> Drawing:
    """The geometry of a judged mount, passing or not. What cannot be built is for `buildable.faults` to say.

    Raises:
        JobError: there is no mount to draw.
    """
    mount = j.mount
    if mount is None:
        raise JobError("there is no mount that works, so there is nothing to draw; `transom size` says what is nearest")
    outline = outline_of(j)
    parts = layers(j.job, mount, j.setup.tables, outline)
    through = holes(j, mount)
    drawing = Drawing(
        identity=identity(j),
        outline=outline,
        lean=float(np.ravel(j.setup.place.lean)[0]),
        holes=through,
        plates=tuple(faces.plates(j, mount, through)),
        washers=tuple(faces.washers(j, mount, through)),
        pads=faces.pads(j),
        keep_outs=tuple(faces.keep_outs(j, outline)),
        layers=parts,
        stack=stack(j, mount, parts),
        held_by=j.setup.holding.by,
        frame_kind=j.setup.place.kind,
        torque=j.torque,
    )
    return doubts(replace(drawing, doubts=tuple(not_drawn(j))))


def not_drawn(j: Judgement) -> Iterator[str]:
    """What belongs to the job and is on no drawing."""
    if j.setup.pod is not None:
        yield "Not drawn: the bolts from pod to crossmembers."
    if any(a.doubler for a in j.fasteners):
        yield "Not drawn: the angle laid into the flange behind the frame's bolts."
    if j.setup.bracket is not None:
        yield "Not drawn: the setback bracket itself; the holes are its base plate's."
    if j.job.engine.kicker is not None:
        yield "Not drawn: the kicker's own clamps or bolts; keep them off what is drawn."


def outline_of(j: Judgement) -> Outline:
    """The board's edge: stated sizes, or the presets that the paper then calls assumed."""
    place = j.setup.place
    sizes = (place.width, place.height, place.notch_width, place.notch_depth)
    width, height, wide, deep = (float(np.ravel(v)[0]) for v in sizes)
    top, bottom = (Cut(c.width, c.height, c.cut) for c in (j.job.board.top_corners, j.job.board.bottom_corners))
    return Outline(width, height, wide, deep, top, bottom)
