"""One mount judged: the path that `review` takes, and that `size` takes for its pick."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from transom.board.answer import Answer
from transom.catalogue import Catalogue
from transom.checks import all_checks, second_opinions
from transom.checks.assembly import total
from transom.checks.careful import Careful
from transom.checks.torque import proposed
from transom.checks.trial import Trial
from transom.formula import formula
from transom.frozen import dataclass
from transom.job.records import Job, Mount
from transom.judge.assumptions import assumptions, decides, nearness
from transom.judge.cautions import cautions
from transom.judge.evaluate import calibrate, careful_of, decided, trial_of
from transom.judge.fasteners import Added, Settled, additions, as_found, fastened, with_most, written
from transom.judge.notes import doubts, notes
from transom.judge.off_board import refuse_off_board
from transom.judge.records import Judgement, Stop
from transom.judge.stops import spacing_stop, stops
from transom.loads.cases import build_cases
from transom.loads.crossing import length_in_m
from transom.result import Assumption, Cases, Check, CheckArray, CheckRows, worst_of
from transom.setup.build import build, values_of
from transom.setup.facts import Facts, collect
from transom.setup.records import Setup
from transom.units import KG, KG_PER_M2, M

REQUIRED = ("board.width", "board.height", "frame.kind", "engine.power")
# Choices whose default is not the worst: what is asked of whoever left them open.
OPEN = {
    "boat.service": "the water she runs in: calm or open",
    "engine.steering": "how she is steered: wheel, tiller or full turn",
    "board.treatment": "whether the wood is copper-treated",
}


@formula(symbol="m", source="mass of an area", evidence="published", known_by="derived")
def board_mass(width: M, height: M, per_area: KG_PER_M2) -> KG:
    """Mass of the board."""
    return width * height * per_area


def prepared(job: Job, tables: Catalogue, like: tuple[Setup, Cases] | None = None) -> tuple[Facts, Setup, Cases]:
    """Facts, setup and load cases of a job; bolts of frame and pod with the most that may be added, unless settled.

    `like` is of a job that may have the same loads: then its cases are these.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    job = with_most(job, tables)
    facts = collect(job, tables)
    setup = build(job, tables, values_of(facts))
    refuse_off_board(setup)
    cases = like[1] if like is not None and like[0].loads == setup.loads else build_cases(setup.loads)
    return facts, setup, cases


def mass_of(trial: Trial) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Mass of board and backing, kg, (n,)."""
    place = trial.setup.place
    wood = board_mass(length_in_m(place.width), length_in_m(place.height), trial.stacks.mass)
    return np.asarray(wood + trial.hardware.mass[:, 0])


@dataclass(frozen=True)
class Decided:
    """What decides of one mount: its bolts of frame and pod settled, and every check in every case; `plate` by the careful method."""

    settled: Settled
    facts: Facts
    setup: Setup
    cases: Cases
    trial: Trial
    plate: Careful | None
    checks: tuple[CheckArray, ...]

    @property
    def holds(self) -> bool:
        """True where no check that decides fails."""
        return all(bool(c.worst[0] <= 1.0) for c in decided(self.checks))


def decide(
    job: Job,
    tables: Catalogue,
    mount: Mount,
    careful: bool = True,
    add: bool = False,
    kin: Careful | None = None,
    like: Careful | None = None,
    most: tuple[Setup, Cases] | None = None,
) -> Decided:
    """The checks that `judge` judges by, without anything that stands beside them; arguments are the same.

    `kin` may have the same board, `like` is one in all cases whose contacts are tried first. `most` is what `prepared`
    gave of this job, where somebody has it.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    stated = job if add else as_found(job, mount, tables)
    known = most if add else None
    settled, solved = _settled(stated, tables, mount, careful, kin=kin, like=like, most=known)
    facts, setup, cases = prepared(settled.job, tables, known)
    trial = trial_of(setup, cases, [mount])
    lifted = next(iter(like.let_go), None) if like else None
    plate = replace(careful_of(trial), solved=solved, lifted=lifted) if careful else None
    return Decided(settled, facts, setup, cases, trial, plate, all_checks(plate or trial))


def judge(
    job: Job,
    tables: Catalogue,
    mount: Mount,
    careful: bool = True,
    add: bool = False,
    beside: bool = True,
    known: Decided | None = None,
) -> Judgement:
    """Judge a stated mount: by the plate, or with `careful` False by the pencil alone; `known` is what `decide` said of it.

    Bolts of frame and pod are as the mount says, else as found; new ones that neither states are chosen. With
    `add` the least is added to them that carries the mount. `beside` False leaves out what would do were no weld near
    and all assumptions but those to measure first.

    Raises:
        JobError: what cannot be judged, one line each.
    """
    d = known or decide(job, tables, mount, careful, add)
    stated, settled, facts, setup, cases, trial, plate = job, d.settled, d.facts, d.setup, d.cases, d.trial, d.plate
    job, solved = settled.job, None if plate is None else plate.answer
    pencil = d.checks if plate is None else all_checks(trial)
    calibration = calibrate(pencil, d.checks)
    checks = CheckRows(side_by_side(pencil, d.checks, trial))
    found = assumptions(job, tables, facts, trial, calibration, near=not beside, pencil=pencil)
    named = (*stops(job, facts, tables), *spacing_stop(checks))
    measure = tuple(sorted((a for a in found if decides(a) and a.measure), key=nearness))
    fasteners = additions(stated, settled, tables, mount)
    return Judgement(
        job=stated,
        setup=setup,
        facts=facts,
        cases=cases,
        mount=written(mount, fasteners) if add else mount,
        fasteners=fasteners,
        could_add=() if add else _could_add(stated, tables, mount, solved, checks),
        unwelded=_unwelded(stated, tables, mount, solved, fasteners, checks, (setup, cases)) if beside else (),
        checks=checks,
        assumptions=found,
        to_measure=measure,
        stops=named,
        cautions=cautions(job, setup, mount, named, checks, bool(np.all(trial.strips.valid))),
        paper=paper(job, measure, works(checks, named) and not doubts(job, facts, tables)),
        notes=notes(job, facts, tables),
        wood=float(trial.stacks.t[0]),
        coated=float(trial.coated[0, 0]),
        total=float(total(trial)[0, 0]),
        mass=float(mass_of(trial)[0]),
        torque=torque_of(trial),
        careful=plate,
        calibration=calibration,
    )


def _settled(
    job: Job,
    tables: Catalogue,
    mount: Mount,
    careful: bool,
    solved: Answer | None = None,
    kin: Careful | None = None,
    like: Careful | None = None,
    most: tuple[Setup, Cases] | None = None,
) -> tuple[Settled, Answer | None]:
    """The job with the least on its bolts of frame and pod that carries the mount, and the plate that told."""
    setup, cases = most or prepared(job, tables)[1:]
    trial = trial_of(setup, cases, [mount])
    if not careful:
        return fastened(job, tables, trial), None
    plate = replace(careful_of(trial, kin=kin), first=like.answer if like else None)
    answer = solved or plate.answer
    told = replace(plate, solved=answer)
    # Asked once for all the bolts that are tried.
    _ = told.actions, told.edge_lines
    return fastened(job, tables, told), answer


def _could_add(
    job: Job, tables: Catalogue, mount: Mount, solved: Answer | None, checks: Sequence[Check]
) -> tuple[Added, ...]:
    """What added to the bolts as found would make each joint hold that does not; nothing where all hold."""
    failing = {c.part for c in worst_of(checks) if not (c.passes or c.information)}
    if not failing & {"frame", "crossmembers"}:
        return ()
    settled, _ = _settled(job, tables, mount, solved is not None, solved)
    return additions(job, settled, tables, mount, failing)


def _unwelded(
    job: Job,
    tables: Catalogue,
    mount: Mount,
    solved: Answer | None,
    fasteners: Sequence[Added],
    checks: Sequence[Check],
    loaded: tuple[Setup, Cases],
) -> tuple[Added, ...]:
    """What the frame's bolts would need were no weld near, where one is assumed and something is added or fails."""
    fails = any(c.part == "frame" and not (c.passes or c.information) for c in worst_of(checks))
    adds = any(a.joint == "frame" and (a.more or a.washer or a.doubler) for a in fasteners)
    if job.frame.flange_weld is not None or not (fails or adds):
        return ()
    sound = replace(job, frame=replace(job.frame, flange_weld=math.inf))
    settled, _ = _settled(sound, tables, mount, solved is not None, solved, most=prepared(sound, tables, loaded)[1:])
    return tuple(a for a in additions(sound, settled, tables, mount, ("frame",)) if a not in fasteners)


def side_by_side(pencil: Sequence[CheckArray], careful: Sequence[CheckArray], trial: Trial) -> tuple[CheckArray, ...]:
    """The careful method's checks, which decide; the pencil's and other opinions beside them for information."""
    beside = (replace(c, information=True) for c, d in zip(pencil, careful, strict=True) if d.method == "plate")
    return (*careful, *beside, *second_opinions(trial))


def torque_of(trial: Trial) -> float:
    """The one torque to print, N*mm: the job's, else the most that passes neither bolt nor dry face; 0 for clamps."""
    if trial.setup.holding.by == "clamps":
        return 0.0
    stated = trial.setup.job.engine.torque
    return float(proposed(trial)[0, 0]) if stated is None else stated


def without_mount(job: Job, tables: Catalogue) -> Judgement:
    """The judgement of a job for which no mount works: cases, stops and cautions, nothing passes."""
    facts, setup, cases = prepared(job, tables)
    named = stops(job, facts, tables)
    return Judgement(
        job=job,
        setup=setup,
        facts=facts,
        cases=cases,
        mount=None,
        checks=(),
        assumptions=(),
        to_measure=(),
        stops=named,
        cautions=cautions(job, setup, None, named, (), True),
        paper="QUOTE",
        notes=notes(job, facts, tables),
    )


def works(checks: Sequence[Check], named: Sequence[Stop]) -> bool:
    """True where every check that decides passes and no stop stands."""
    return all(c.passes for c in worst_of(checks) if not c.information) and not any(s.stands for s in named)


def takes_unknown(job: Job) -> bool:
    """True where nobody measured what the engine's bracket takes, and it grips the board; a setback bracket bolts flat on."""
    return job.engine.takes is None and job.setback is None


def left_open(job: Job) -> tuple[tuple[str, str], ...]:
    """Choices answered "?", that another answer might not pass: what is asked, and what was taken."""
    taken = {
        "boat.service": job.boat.service,
        "engine.steering": job.engine.steering,
        "board.treatment": job.board.treatment,
    }
    return tuple((says, taken[key]) for key, says in OPEN.items() if key in (*job.unmeasured, *job.left_out))


def paper(job: Job, to_measure: tuple[Assumption, ...], passes: bool) -> str:
    """CUT once the mount passes and nothing that decides is assumed, else QUOTE.

    What the bracket takes is not checked while nobody has measured it, so that it may be what decides.
    """
    missing = any(key in job.unmeasured for key in REQUIRED) or takes_unknown(job) or bool(left_open(job))
    return "QUOTE" if missing or to_measure or not passes else "CUT"
