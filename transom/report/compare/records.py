"""What a comparison says. Frozen records, no printing."""

from typing import Any

from transom.frozen import dataclass


@dataclass(frozen=True)
class Change:
    """One value before and after, in working units; None where it was not there. `says` are the words for it."""

    key: str
    says: str
    unit: str
    before: Any
    after: Any
    evidence: tuple[str, str] = ("", "")


@dataclass(frozen=True)
class CheckChange:
    """One check's worst case before and after: share of the limit (None: no usable number, or not checked) and case.

    `there` says in which of the two it is at all. `cases` counts its cases of which the share changed.
    """

    name: str
    before: float | None
    after: float | None
    case: tuple[str, str]
    passes: tuple[bool, bool]
    there: tuple[bool, bool]
    cases: int

    @property
    def step(self) -> float:
        """By how much the share changed; infinite where one of them is no number."""
        if self.before is None or self.after is None:
            return float("inf")
        return self.after - self.before


@dataclass(frozen=True)
class Ratios:
    """New engine over old. `pull` is None where bolts hold neither or only one of the engines.

    Each pair is (before, after): weight kg, thrust moment N*mm, upper-bolt pull N with its case.
    """

    weight: tuple[float, float]
    moment: tuple[float, float]
    pull: tuple[float, float] | None
    cases: tuple[str, str]


@dataclass(frozen=True)
class Comparison:
    """Everything that differs between two judgements, A before and B after.

    `refused` says why the engines are not set against each other, "" where they are or are the same one.
    """

    identity: tuple[Change, ...]
    verdict: tuple[Change, ...]
    inputs: tuple[Change, ...]
    mount: tuple[Change, ...]
    stops: tuple[Change, ...]
    checks: tuple[CheckChange, ...]
    unchanged: int
    engine: Ratios | None
    refused: str
    stale: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def same(self) -> bool:
        """True where nothing differs."""
        return not (
            self.identity or self.verdict or self.inputs or self.mount or self.stops or self.checks or self.notes
        )
