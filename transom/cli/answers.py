"""What `size` and `review` answer, as lines."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from transom.errors import JobError

if TYPE_CHECKING:
    from transom.chance.sampling import Uncertainty
    from transom.job.records import Job, Mount
    from transom.judge.records import Judgement
    from transom.report.advice import Cure


def mount_in(job: "Job", path: Path) -> "Mount":
    """The mount that stands in a job. Raises JobError where there is none."""
    if job.mount is None:
        raise JobError(
            f"{path}: [mount] is not there, so there is nothing to review; `transom size {path} --write FILE` fills it"
        )
    return job.mount


def size_json(j: "Judgement") -> list[str]:
    """What `size --json` says."""
    from transom.report.judgement import to_json

    return [to_json(j)]


def size_lines(j: "Judgement", job: "Job", rank: str, details: bool) -> list[str]:
    """What `size` says."""
    from transom.catalogue import SHIPPED
    from transom.report.cures_by_mount import cures_where_nothing_works
    from transom.report.size_screen import size_screen
    from transom.report.text import bars_for

    cures = cures_where_nothing_works(job, SHIPPED, "material" if rank == "cost" else rank) if j.mount is None else ()
    answer = size_screen(j, bars_for(sys.stdout.encoding), cures)
    if not details:
        return answer
    from transom.report.details import details as every

    return [*answer, *every(j)]


def review_json(j: "Judgement", chance: "Uncertainty | None" = None) -> list[str]:
    """What `review --json` says."""
    from transom.report.chance import chance_data, first_data
    from transom.report.judgement import to_json

    more = {"measure_first": first_data(j)} | ({} if chance is None else {"uncertainty": chance_data(chance)})
    return [to_json(j, more)]


def cures_of(j: "Judgement", job: "Job") -> "tuple[Cure, ...]":
    """What would make a mount pass; nothing for one in which nothing fails."""
    from transom.catalogue import SHIPPED
    from transom.report.cures_by_check import cures_by_check
    from transom.report.cures_by_mount import cures_of_failing_mount, joints_alone

    if not j.failing:
        return ()
    whole = () if joints_alone(j) or job.setback is not None else cures_of_failing_mount(job, SHIPPED)
    return (*cures_by_check(j, SHIPPED), *whole)


def review_lines(
    j: "Judgement", cures: "tuple[Cure, ...]", details: bool, chance: "Uncertainty | None" = None
) -> list[str]:
    """What `review` says."""
    from transom.report.chance import chance_block
    from transom.report.details import details as every
    from transom.report.review_screen import review_screen
    from transom.report.text import bars_for

    asked = () if chance is None else chance_block(j, chance)
    return [*review_screen(j, bars_for(sys.stdout.encoding), cures), *asked, *(every(j) if details else ())]
