"""`transom review`: the mount that stands in the job, judged."""

import typer

from transom.cli.answers import cures_of, mount_in, review_json, review_lines
from transom.cli.chance import Samples, WithUncertainty, refuse, sampled
from transom.cli.guard import FAILS, PASSES
from transom.cli.html import Html, written
from transom.cli.jobs import AsJson, Details, Force, JobPath, path_of, read
from transom.cli.maps import Maps, drawn


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
    from transom.judge.judging import judge

    refuse(uncertainty, with_uncertainty, html)
    path = path_of(job)
    stated = read(path)
    j = judge(stated, SHIPPED, mount_in(stated, path))
    cures = cures_of(j, stated) if html is not None or not json else ()
    chance = sampled(j, uncertainty)
    if html is not None:
        tell(*written(j, cures, path, html, force, chance if with_uncertainty else None))
    if maps is not None:
        tell("\n".join(drawn(j, path, maps, force, "review")))
    say(review_json(j, chance) if json else review_lines(j, cures, details, chance))
    raise typer.Exit(PASSES if j.passes else FAILS)
