"""How far a run is and how fast, for whoever waits: rewritten in place on a terminal."""

import time
from dataclasses import field

from transom.frozen import dataclass

EVERY = 0.5  # s


@dataclass
class Progress:
    """Rows done so far; `total` is None where only the end of the table tells."""

    total: int | None
    done: int = 0
    kept: int = 0
    _start: float = field(default_factory=time.monotonic)
    _told: float = 0.0

    def due(self) -> bool:
        """Whether it is time for another line."""
        now = time.monotonic()
        if now - self._told < EVERY:
            return False
        self._told = now
        return True

    @property
    def rate(self) -> float:
        """Rows a second, those kept from before left out."""
        return self.done / max(time.monotonic() - self._start, 1e-3)

    def line(self) -> str:
        """`1200 of 10000 jobs, 38.1 a second, 4 min left`."""
        of = f" of {self.total}" if self.total is not None else ""
        return f"{self.done + self.kept}{of} jobs, {self.rate:.3g} a second{self._left()}"

    def _left(self) -> str:
        if self.total is None or not self.done:
            return ""
        seconds = (self.total - self.done - self.kept) / self.rate
        return f", {seconds / 60:.0f} min left" if seconds > 90 else f", {max(seconds, 0):.0f} s left"
