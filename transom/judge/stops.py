"""Reasons not to build, however strong the board: final ones, and those that name, date and paper can pass."""

from collections.abc import Iterator, Sequence

from transom.catalogue import Catalogue
from transom.job.records import Accept, Job
from transom.judge.records import Stop
from transom.result import Check, worst_of
from transom.setup.facts import Facts


def stops(job: Job, facts: Facts, tables: Catalogue) -> tuple[Stop, ...]:
    """Every stop of a job, with who accepted it on what paper where somebody did."""
    found = [*_final(job, facts, tables), *_passable(job, facts, tables)]
    taken = {a.stop: a for a in job.accepts}
    return tuple(Stop(name, says, final, _words(taken.get(name))) for name, says, final in found)


def spacing_stop(checks: Sequence[Check]) -> tuple[Stop, ...]:
    """The final stop of bolts nearer to an edge or to each other than the code's floor."""
    below = [
        c for c in worst_of(checks) if c.what in ("edge-distance", "bolt-spacing") and c.rule == "ec5" and not c.passes
    ]
    return tuple(
        Stop(
            "spacing-below-code",
            f"{c.what.replace('-', ' ')} {c.resistance:.0f} mm is under the floor of {c.demand:.0f} mm: move the bolt or the edge",
            True,
        )
        for c in below
    )


def _words(accept: Accept | None) -> str:
    return "" if accept is None else f"{accept.by}, {accept.date.isoformat()}, on {accept.paper}"


def _final(job: Job, facts: Facts, tables: Catalogue) -> Iterator[tuple[str, str, bool]]:
    power, most = facts["engine.power"].value, tables.factor("scope.power_max_W").value
    if power > most:
        yield "out-of-scope", "more than 225 kW (300 hp): this method was not made for it; ask an engineer", True
    if job.engine.count > 1:
        yield (
            "twins",
            "two or more engines are not sized here; an engineer will ask for both weights, centers of gravity,"
            " spacing, and the loads with one engine hard over and one astern",
            True,
        )
    if job.engine.lift_plate:
        yield "lift-plate", "a powered lift plate between board and engine carries its own loads; ask its maker", True
    if job.frame.lines:
        yield (
            "support-lines",
            "lines of support of the job's own are not in these sums, which take the usual ones of the frame's kind",
            True,
        )
    yield from _lopsided(job)
    if job.board.material != "plywood":
        yield (
            "not-plywood",
            f"a board of {job.board.material} is not sized here: its strength under clamp load, wet and over years is"
            " not in any table this tool trusts; use marine plywood or ask an engineer",
            True,
        )
    if job.boat.kind == "glass hull" and job.board.core == "hidden":
        yield "hidden-core", "cannot size from outside: open the transom and ask a surveyor what the core is", True


EVEN = 6.0  # mm; brackets of one pattern differ by up to 5


def _lopsided(job: Job) -> Iterator[tuple[str, str, bool]]:
    """These sums halve every load between the two sides of the center line."""
    at = job.frame.at
    if at and (len(at) < 2 or abs(max(at) + min(at)) > EVEN):
        yield (
            "support-lines",
            "the uprights do not stand alike on both sides of the center line, and these sums take them so",
            True,
        )
    middles = [pad.y for pad in job.engine.bracket.pads if pad.y]
    if middles and not _even(middles):
        yield (
            "out-of-scope",
            "what bears on the board does not lie alike on both sides of the center line: the nearer side would push harder"
            " than these sums say; list every pad, measured from the center of the bracket",
            True,
        )
    holes = job.engine.bracket.bolts
    depths = sorted({round(h.down, 1) for h in holes})
    for depth in depths[:1] + depths[1:][-1:]:
        if not _even([h.y for h in holes if round(h.down, 1) == depth]):
            yield (
                "out-of-scope",
                f"bolts {depth:.0f} mm down do not lie alike on both sides of the center line: the nearer one would carry"
                " more than these sums say; measure again from the center of the bracket",
                True,
            )


def _even(across: Sequence[float]) -> bool:
    """True where the nearest on either side lie as far from the center line, and there is one on each, mm."""
    port, starboard = (min((side * y for y in across if side * y > 0), default=float("inf")) for side in (-1, 1))
    return abs(port - starboard) <= EVEN


NOT_CHECKED = (
    "BRACKET NOT CHECKED: one that is not of plates, or whose plates nobody measured, rests on its maker's paper; its bolts,"
    " the board and the frame are judged under the load it passes on"
)


def _passable(job: Job, facts: Facts, tables: Catalogue) -> Iterator[tuple[str, str, bool]]:
    yield from _plate(job, facts, tables)
    power = facts["engine.power"].value
    kicker, most = job.engine.kicker, tables.factor("clamps.up_to_W").value * ROUNDING
    beside = kicker is not None and kicker.held_by == "clamps" and kicker.power > most
    if (job.engine.held_by == "clamps" and power > most) or beside:
        yield "clamps-alone", "clamp screws alone above 15 hp: bolt it through", False
    if job.setback is not None and not job.setback.judged:
        yield "bracket-not-checked", NOT_CHECKED, False
    if not job.board.sealed:
        yield (
            "unsealed-wood",
            "edges, faces and holes not sealed: the wood will be wetter than these checks allow",
            False,
        )
    if job.board.treatment == "copper":
        yield (
            "copper-on-aluminium",
            "copper-treated wood eats aluminum it touches: use untreated marine plywood, or isolate and accept",
            False,
        )


ROUNDING = 1.0005  # a plate of 50 hp and an engine of 37.3 kW are the same power


def _engines_mass(job: Job, facts: Facts, tables: Catalogue) -> float:
    """Mass of every engine on the board, kg: the plate's limit is for all of them."""
    main, kicker = facts["engine.weight"].value, job.engine.kicker
    if kicker is None:
        return main
    return main + (tables.engine_weight(kicker.power).running_kg if kicker.mass is None else kicker.mass)


def _kicker_power(job: Job) -> float:
    """Power of a kicker beside the engine, W; none without one."""
    return 0.0 if job.engine.kicker is None else job.engine.kicker.power


def _plate(job: Job, facts: Facts, tables: Catalogue) -> Iterator[tuple[str, str, bool]]:
    plate, power = job.boat.plate_power, facts["engine.power"].value
    most, mass = job.boat.plate_engine_mass, _engines_mass(job, facts, tables)
    if most is not None and mass > most * ROUNDING:
        who = "the engine is" if job.engine.kicker is None else "engine and kicker together are"
        yield "over-builders-plate-weight", f"{who} heavier than the builder's plate allows", False
    if plate is not None and power > plate * ROUNDING:
        yield (
            "over-builders-plate",
            "the engine is over the builder's plate; the plate wins unless the builder writes",
            False,
        )
    elif plate is not None and power + _kicker_power(job) > plate * ROUNDING:
        yield (
            "over-builders-plate",
            "engine and kicker together are over the builder's plate, which allows so much for all engines on the boat:"
            " the plate wins unless the builder writes that a kicker run alone does not count",
            False,
        )
    if plate is None and job.boat.kind == "pontoon":
        name, says = {
            "none": ("plate-missing", "no builder's plate on a pontoon: ask the builder what the tubes and deck may carry"),
            "cannot read": ("plate-power-unreadable", "the builder's plate cannot be read: ask the builder, or the registry"),
        }.get(job.boat.plate, ("plate-not-read", "the builder's plate was not read: look at the transom or the helm"))  # fmt: skip
        yield name, says, False
