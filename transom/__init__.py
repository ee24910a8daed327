"""Sizes the structural mount that carries an outboard engine. What may be imported from here is in `transom/api.py`."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from transom.api import (
        Check,
        Job,
        JobError,
        Judgement,
        Published,
        example_text,
        job_from_text,
        published_values,
        read_job,
        review,
        size,
        to_json,
    )

__version__ = "0.1.0"
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


def __getattr__(name: str) -> Any:
    """What is public, imported when it is first asked for: `import transom` alone stays as quick as `--help`."""
    if name not in __all__:
        raise AttributeError(f"transom has no {name!r}")
    from transom import api

    return getattr(api, name)
