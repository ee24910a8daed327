"""Who answers for the report: three names, and whether two of them are the same."""

import unicodedata

from transom.frozen import dataclass
from transom.job.records import Job

ROLES = (("made_by", "made by"), ("checked_by", "checked by"), ("accepted_by", "accepted by"))


@dataclass(frozen=True)
class Signing:
    """Role and name, empty where nobody is named yet; and what is wrong with the names."""

    rows: tuple[tuple[str, str], ...]
    flags: tuple[str, ...]


def signing(job: Job) -> Signing:
    """Names to sign; one name in two places is flagged, and a stop passed over by who made the mount."""
    rows = tuple((words, getattr(job.sign, key)) for key, words in ROLES)
    return Signing(rows, (*_twice(rows), *_own_stops(job)))


def same(one: str, other: str) -> bool:
    """True for one name written twice, whatever its capitals, spaces, stops, accents and unseen marks."""
    return bool(_bare(one)) and _bare(one) == _bare(other)


def _bare(name: str) -> str:
    text = unicodedata.normalize("NFKD", unicodedata.normalize("NFKC", name).casefold())
    return "".join(c for c in text if unicodedata.category(c)[0] in "LN")


def _twice(rows: tuple[tuple[str, str], ...]) -> tuple[str, ...]:
    pairs = [(a, b) for i, a in enumerate(rows) for b in rows[i + 1 :]]
    return tuple(
        f"SAME NAME TWICE: {a[0]} and {b[0]} are one person. A second pair of eyes is missing."
        for a, b in pairs
        if same(a[1], b[1])
    )


def _own_stops(job: Job) -> tuple[str, ...]:
    return tuple(
        f"SAME NAME TWICE: the stop {a.stop} was passed over by the one who made the mount."
        for a in job.accepts
        if same(a.by, job.sign.made_by)
    )
