"""`transom` from Python: read a job, size it or judge what stands in it, and look at what was found.

`import transom` gives all of it and imports nothing heavy until something is used. Everything a call returns is a
frozen record in working units: mm, N, N*mm, MPa, kg, W, m/s, rad, s. Arrays run over candidates and load cases, (n, v).
A check that fails is a result; what cannot be judged is raised as `JobError`, one line each in its `faults`.
"""

from pathlib import Path

from transom.catalogue import SHIPPED
from transom.errors import JobError
from transom.job.read import load, loads
from transom.job.records import Job
from transom.job.write import example_text
from transom.judge.judging import judge
from transom.judge.records import Judgement
from transom.published import Published, published_cases, shipped
from transom.report.judgement import to_json
from transom.result import Check
from transom.sizing import sizing
from transom.sizing.field import RANKS

__all__ = [
    "Check",
    "Job",
    "JobError",
    "Judgement",
    "Published",
    "example_text",
    "job_from_text",
    "published_values",
    "read_job",
    "review",
    "size",
    "to_json",
]


def read_job(path: Path | str) -> Job:
    """The job in a TOML file, with the shop's file that it names or that lies beside it.

    Args:
        path: the file; README's "Writing a job" has its keys.

    Returns:
        What the file states, in working units; None where a value is left out or "?".

    Raises:
        JobError: the file cannot be read, or one line for each fault in it: what, value, rule, next step.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder) / "job.toml"
    ...     _ = path.write_text(example_text(), encoding="utf-8")
    ...     job = read_job(path)
    >>> job.board.width, job.head.units
    (609.6, 'us')
    """
    return load(path)


def job_from_text(text: str, folder: Path | str | None = None) -> Job:
    """The job in a text, as `read_job` reads it from a file.

    Args:
        text: TOML.
        folder: where the shop's file is looked for; without one, nowhere.

    Raises:
        JobError: one line for each fault.

    >>> job_from_text('''[board]
    ... width = "20,5 in"
    ... ''')
    Traceback (most recent call last):
    ...
    transom.errors.JobError: ...
    """
    return loads(text, folder=folder)


def size(job: Job, rank: str = "material") -> Judgement:
    """The mount to build: of every stack, bolt and backing in stock, the best ranked that passes by the plate method.

    Args:
        job: what to size for; a `[mount]` in it is not looked at.
        rank: what is least, of `material` (half sheets to buy), `mass`, `thickness`.

    Returns:
        The pick, judged in every load case. Where nothing works its `mount` is None and `sizing.nearest_miss` says what
        came nearest. It may be strong and still not `passes`, where a stop stands.

    Raises:
        JobError: what cannot be judged, or a rank that is none.

    >>> j = size(job_from_text(example_text()))
    >>> j.passes, len(j.mount.layers), j.governing.utilisation < 1
    (True, 3, True)
    >>> to_json(j)[:34]
    '{\\n "schema": "transom-judgement-1"'
    """
    if rank not in RANKS:
        raise JobError(f"rank: {rank!r} is none. Say one of {', '.join(RANKS)}")
    return sizing.size(job, SHIPPED, rank)


def review(job: Job) -> Judgement:
    """The mount that stands in the job's `[mount]`, as drawn or as built, judged by the plate method.

    Returns:
        Every check in every load case (`checks`), the worst of each (`worst`), what fails (`failing`), the weakest link
        (`governing`), what was assumed and where the answer flips (`assumptions`), stops and cautions.

    Raises:
        JobError: the job states no mount, or what cannot be judged, one line each.

    >>> review(job_from_text(example_text()))
    Traceback (most recent call last):
    ...
    transom.errors.JobError: [mount] is not there, so there is nothing to review; size the job first
    """
    if job.mount is None:
        raise JobError("[mount] is not there, so there is nothing to review; size the job first")
    return judge(job, SHIPPED, job.mount)


def published_values() -> tuple[Published, ...]:
    """Values that others printed, each with what our function makes of it: what `transom verify` prints.

    Raises:
        TableError: the tables of this copy cannot be read.

    >>> [v.id for v in published_values() if not v.agrees]
    []
    """
    return tuple(published_cases(shipped()))
