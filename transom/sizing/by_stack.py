"""Many candidates on few stacks: what hangs on the stack alone is worked out once for each stack."""

from collections.abc import Sequence
from dataclasses import fields, is_dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from transom.checks.trial import Trial
from transom.result import Cases, CheckArray

if TYPE_CHECKING:
    from transom.sizing.field import Field

# Of a trial by the pencil; bolts and backing enter none of them.
SHARED = (
    "actions", "strips", "shear", "service_shear", "upper_tension", "lower_tension", "upper_mean", "lower_mean", "tension",
)  # fmt: skip


class ByStack:
    """The candidates at some places: their `trial`, and one of their stacks alone, `stacks`, each with any set."""

    def __init__(self, field: "Field", places: NDArray[np.int_], cases: Cases) -> None:
        each, of = np.unique(places // len(field.sets), return_inverse=True)
        self._n, self._of = len(each), of
        self.stacks = field.trial(each * len(field.sets), cases)
        self.trial: Trial = field.trial(places, cases)
        vars(self.trial).update({name: self._spread(getattr(self.stacks, name)) for name in SHARED})

    def spread(self, checks: Sequence[CheckArray]) -> list[CheckArray]:
        """Checks of the stacks as the candidates'."""
        return [self._of_candidates(c) for c in checks]

    def _of_candidates(self, check: CheckArray) -> CheckArray:
        out = replace(check, demand=self._spread(check.demand), resistance=self._spread(check.resistance))
        vars(out)["utilisation"] = self._spread(check.utilisation)
        return out

    def _spread(self, x: Any) -> Any:
        """Rows of stacks as rows of candidates; what is the same for all, or for all stacks, as it is."""
        if is_dataclass(x) and not isinstance(x, type):
            return replace(x, **{f.name: self._spread(getattr(x, f.name)) for f in fields(x)})
        return x[self._of] if isinstance(x, np.ndarray) and x.ndim == 2 and len(x) == self._n > 1 else x
