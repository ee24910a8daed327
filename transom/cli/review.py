"""`transom review`: the mount that stands in the job, judged."""

from typing import TYPE_CHECKING

import typer

from transom.cli.chance import Samples, WithUncertainty, refuse, sampled
from transom.cli.html import Html, written
from transom.cli.jobs import FAILS, PASSES, AsJson, Details, Force, JobPath, path_of, read
from transom.cli.maps import Maps, drawn

if TYPE_CHECKING:
    from transom.chance.sampling import Uncertainty
    from transom.job.records import Job
    from transom.judge.records import Judgement
    from transom.report.advice import Cure


def review(
    job: JobPath = None,
    html: Html = None,
    maps: Maps = None,
    force: Force = False,
    json: AsJson = False,
    details: Details = False,
    uncertainty: Samples = None,
    with_uncertainty: WithUncertainty = False,
) -> None:
    """Judge the mount in the job, as drawn or as built."""
    from transom.catalogue import SHIPPED
    from transom.cli.stream import say, tell
    from transom.errors import JobError
    from transom.judge.judging import judge

    refuse(uncertainty, with_uncertainty, html)
    path = path_of(job)
    stated = read(path)
    if stated.mount is None:
        raise JobError(
            f"{path}: [mount] is not there, so there is nothing to review; `transom size {path} --write FILE` fills it"
        )
    j = judge(stated, SHIPPED, stated.mount)
    cures = _cures(j, stated) if html is not None or not json else ()
    chance = sampled(j, uncertainty)
    if html is not None:
        tell(*written(j, cures, path, html, force, chance if with_uncertainty else None))
    if maps is not None:
        tell("\n".join(drawn(j, path, maps, force, "review")))
    say(_json(j, chance) if json else _screen(j, cures, details, chance))
    raise typer.Exit(PASSES if j.passes else FAILS)


def _json(j: "Judgement", chance: "Uncertainty | None") -> list[str]:
    from transom.report.chance import chance_data, first_data
    from transom.report.judgement import to_json

    more = {"measure_first": first_data(j)} | ({} if chance is None else {"uncertainty": chance_data(chance)})
    return [to_json(j, more)]


def _cures(j: "Judgement", job: "Job") -> "tuple[Cure, ...]":
    from transom.catalogue import SHIPPED
    from transom.report.cures_by_check import cures_by_check
    from transom.report.cures_by_mount import cures_of_failing_mount, joints_alone

    if not j.failing:
        return ()
    whole = () if joints_alone(j) or job.setback is not None else cures_of_failing_mount(job, SHIPPED)
    return (*cures_by_check(j, SHIPPED), *whole)


def _screen(j: "Judgement", cures: "tuple[Cure, ...]", details: bool, chance: "Uncertainty | None" = None) -> list[str]:
    import sys

    from transom.report.chance import chance_block
    from transom.report.details import details as every
    from transom.report.review_screen import review_screen
    from transom.report.text import bars_for

    asked = () if chance is None else chance_block(j, chance)
    return [*review_screen(j, bars_for(sys.stdout.encoding), cures), *asked, *(every(j) if details else ())]
