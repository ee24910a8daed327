"""Figures of a trial written back into the job, comments kept, the file before beside it as .bak."""

from collections.abc import Mapping
from pathlib import Path

from transom.errors import JobError
from transom.interview.keep import added_to
from transom.job.files import text_of, write_atomic
from transom.job.read import loads


def kept(path: Path, found: Mapping[str, str]) -> Path:
    """Write figures by dotted path ("trial.speed") into the job; the .bak is whole before the job changes.

    Returns the .bak file.

    Raises:
        JobError: a figure is at fault, one line each; nothing is written then.
    """
    text = text_of(path)
    changed = added_to(text, dict(found))
    loads(changed, folder=path.parent)
    bak = path.with_name(f"{path.name}.bak")
    if bak.is_symlink() or (bak.exists() and not bak.is_file()):
        raise JobError(f"{bak}: is no ordinary file, so the old job cannot be kept there. Remove it")
    write_atomic(bak, text, force=True)
    write_atomic(path, changed, force=True)
    return bak
