"""`size` and `review` of one job with nothing written beside the answer; without Typer, whose import takes a tenth of a size."""

from pathlib import Path

from transom.cli.answers import cures_of, mount_in, review_json, review_lines, size_json, size_lines
from transom.cli.guard import FAILS, PASSES
from transom.cli.stream import say


def size(job: Path, json: bool = False, details: bool = False) -> int:
    """Find the mount to build and say it; the exit code. Raises JobError where a job cannot be sized."""
    from transom.catalogue import SHIPPED
    from transom.job.read import load
    from transom.sizing.sizing import size as sized

    stated = load(job)
    j = sized(stated, SHIPPED, "material")
    say(size_json(j) if json else size_lines(j, stated, "material", details))
    return PASSES if j.passes else FAILS


def review(job: Path, json: bool = False, details: bool = False) -> int:
    """Judge the mount in the job and say it; the exit code. Raises JobError where it cannot be judged."""
    from transom.catalogue import SHIPPED
    from transom.job.read import load
    from transom.judge.judging import judge

    stated = load(job)
    j = judge(stated, SHIPPED, mount_in(stated, job))
    say(review_json(j) if json else review_lines(j, cures_of(j, stated), details))
    return PASSES if j.passes else FAILS
