"""The steps on a terminal, as data, and as a checklist to print."""

import datetime as dt
from collections.abc import Iterator
from typing import Any

from transom.drawing.notes import HAZARDS, accepted_words, job_words, paper_words, reasons
from transom.floor import paper
from transom.floor.clock import CLOSES, OPENS, Timed, said
from transom.floor.cure import Curing
from transom.floor.steps import Build
from transom.quantity import show
from transom.report.text import block, rule
from transom.report.words import spelled


def screen(b: Build, told: tuple[Timed, ...], start: dt.datetime | None) -> list[str]:
    """The build in order, 80 columns."""
    i = b.drawing.identity
    lines = [f" {paper_words(i)}  {job_words(i)}", rule("=")]
    for line in (*accepted_words(i), *reasons(i)):
        lines += block("", line, at=1)
    lines += block("GLUE", glue_words(b.curing, b.units), at=8)
    for number, t in enumerate(told, 1):
        lines += ["", *_head(number, t, start)]
        for line in t.step.says:
            lines += block("", f"- {spelled(line, b.units)}", at=5)
        lines += block("", f"! {spelled(t.step.hazard, b.units)}", at=5)
    lines += ["", *(line for c in cautions(b) for line in block("", f"- {c}", at=2))]
    return lines


def _head(number: int, t: Timed, start: dt.datetime | None) -> Iterator[str]:
    line = f" {number:2}  {t.step.title}"
    when = f"{said(t.begins, start)}, {t.step.hours:g} h"
    yield f"{line}{when:>{79 - len(line)}}"
    if t.step.within:
        yield f"     closed up by {said(t.by, start)}"


def glue_words(c: Curing, units: str) -> str:
    """The glue, the temperature it is told for, and where its times come from."""
    at = show.temperature(c.temperature, units)
    where = f"{at} (assumed: nobody measured the shop)" if c.assumed else at
    return (
        f"{c.glue.name} at {where}. Times: {c.row.source} ({c.row.evidence}, from {c.row.known_by}); they double for each"
        f" {_step(c.row.doubling_C, units)} colder. Wood as warm as the air, no colder than"
        f" {show.temperature(c.glue.cure_floor_C, units)} until it is hard."
    )


def _step(doubling: float, units: str) -> str:
    return f"{doubling:g} C" if units == show.SI else f"{doubling * 1.8:g} F"


def cautions(b: Build) -> tuple[str, ...]:
    """What stands on every list of steps."""
    hours = (
        f"Hours of hands are estimates for one person, {OPENS:g} to {CLOSES:g} o'clock, weekends counted as days; cure"
        " is the least wait, and a finger nail that marks it says it is not over."
    )
    return (hours, *b.drawing.identity.cautions, *HAZARDS)


def data(b: Build, told: tuple[Timed, ...], start: dt.datetime | None) -> dict[str, Any]:
    """The steps for other programs. Without a start, times are of a Monday that stands for day 1."""
    c = b.curing
    return {
        "schema": "transom-steps-1",
        "job": {"name": b.j.job.head.name, "revision": b.j.job.head.revision, "sha256": b.j.job.sha256},
        "paper": b.j.paper,
        "passes": b.j.passes,
        "glue": {"name": c.glue.name, "temperature": round(c.temperature, 3), "assumed": c.assumed,
                 "evidence": c.row.evidence, "known_by": c.row.known_by, "source": c.row.source},
        "day_1": start is None,
        "steps": [
            {
                "name": t.step.name,
                "title": t.step.title,
                "says": list(t.step.says),
                "hazard": t.step.hazard,
                "begins": t.begins.isoformat(timespec="minutes"),
                "ends": t.ends.isoformat(timespec="minutes"),
                "closed_up_by": t.by.isoformat(timespec="minutes") if t.step.within else None,
                "after": [{"step": name, "hours": round(hours, 3)} for name, hours in t.step.after],
                "boxes": list(t.step.boxes),
            }
            for t in told
        ],
        "cautions": list(cautions(b)),
    }  # fmt: skip


def checklist(b: Build, told: tuple[Timed, ...], start: dt.datetime | None) -> bytes:
    """The same to print, a box and room for initials for everything that gets a tick."""
    flows: list[paper.Flow] = [paper.words(glue_words(b.curing, b.units))]
    for number, t in enumerate(told, 1):
        when = f"{said(t.begins, start)}, {t.step.hours:g} h"
        closed = f"; closed up by {said(t.by, start)}" if t.step.within else ""
        part = [paper.heading(f"{number}  {t.step.title}   ({when}{closed})")]
        part += [paper.words(f"- {spelled(line, b.units)}") for line in t.step.says]
        part += [paper.words(f"Hazard: {spelled(t.step.hazard, b.units)}", bold=True)]
        if t.step.boxes:
            part += [paper.ticks([paper.Tick(box, _line_of(box, b.units)) for box in t.step.boxes])]
        flows.append(paper.together(part))
    flows.append(paper.heading("CAREFUL"))
    flows += [paper.words(f"- {line}") for line in cautions(b)]
    return paper.pdf("BUILD CHECKLIST", flows, b.units, b.drawing.identity)


def _line_of(box: str, units: str) -> str:
    """What goes on the line beside a box: a figure in its unit, or initials."""
    us = units == show.US
    figures = {"torque": "lb-ft" if us else "Nm", "thicknesses": "in" if us else "mm", "temperature": "F" if us else "C",
               "weight": "lb" if us else "kg", "moved": "in" if us else "mm", "speed": "mph" if us else "km/h",
               "engine speed": "rpm", "batch": "batch"}  # fmt: skip
    return next((unit for word, unit in reversed(figures.items()) if word in box), "initials")
