"""`transom review`: the mount that stands in the job, judged."""

from typing import TYPE_CHECKING

import typer

from transom.cli.jobs import FAILS, PASSES, AsJson, Details, Force, JobPath, path_of, read
from transom.cli.maps import Maps, drawn

if TYPE_CHECKING:
    from transom.job.records import Job
    from transom.judge.records import Judgement


def review(
    job: JobPath = None, maps: Maps = None, force: Force = False, json: AsJson = False, details: Details = False
) -> None:
    """Judge the mount in the job, as drawn or as built."""
    from transom.catalogue import SHIPPED
    from transom.cli.stream import say, tell
    from transom.errors import JobError
    from transom.judge.judging import judge

    path = path_of(job)
    stated = read(path)
    if stated.mount is None:
        raise JobError(
            f"{path}: [mount] is not there, so there is nothing to review; `transom size {path} --write FILE` fills it"
        )
    j = judge(stated, SHIPPED, stated.mount)
    if maps is not None:
        tell("\n".join(drawn(j, path, maps, force, "review")))
    say(_json(j) if json else _screen(j, stated, details))
    raise typer.Exit(PASSES if j.passes else FAILS)


def _json(j: "Judgement") -> list[str]:
    from transom.report.judgement import to_json

    return [to_json(j)]


def _screen(j: "Judgement", job: "Job", details: bool) -> list[str]:
    import sys

    from transom.catalogue import SHIPPED
    from transom.report.cures import joints_alone, resized
    from transom.report.details import details as every
    from transom.report.review_screen import review_screen
    from transom.report.text import bars_for

    cures = resized(job, SHIPPED) if j.failing and not joints_alone(j) else ()
    return [*review_screen(j, bars_for(sys.stdout.encoding), cures), *(every(j) if details else ())]
