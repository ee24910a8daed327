"""What a job has that its estimate does not price: said on every paper, never passed over."""

from collections.abc import Iterator

from transom.estimate.work import Work
from transom.job.records import Job


def left_out(job: Job, work: Work) -> tuple[str, ...]:
    """Things of this job that no line stands for, in words for a customer."""
    return tuple(_left_out(job, work))


def _left_out(job: Job, work: Work) -> Iterator[str]:
    if job.setback is not None:
        yield "The setback or built bracket itself, its own plates, welds and bolts"
    if job.engine.kicker is not None:
        yield "The kicker: taking it off, hanging it again, its bolts or clamps"
    if job.engine.count > 1:
        yield "All engines but one: bolts, plates and hours are for a single engine"
    if not work.engine_bolts:
        yield "Safety chain or cable for the engine's clamp screws"
    if job.board.openings:
        yield "Drains, fittings and hoses in the board's openings"
