"""Which tests judge a mutant, in which order, and how long each may take."""

import json
import re
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate
from pathlib import Path

from coverage_map import SHARED
from mutants import Mutant


@dataclass(frozen=True)
class Judged:
    """A mutant, its tests in order, the most seconds of each, and whether the fault acts while modules are imported."""

    mutant: Mutant
    tests: tuple[str, ...]
    limits: dict[str, float]
    at_import: bool


class Chooser:
    """Reads what `coverage_map.py` recorded; of a mutant's tests as many as take `most` seconds together, and one at least."""

    def __init__(self, root: Path, out: Path, most: float) -> None:
        self.root, self.most = root, most
        self.lines: dict[str, dict[str, list[str]]] = json.loads((out / "lines.json").read_text())
        self.seconds: dict[str, float] = json.loads((out / "seconds.json").read_text())

    def judged(self, m: Mutant) -> Judged:
        contexts = self.contexts(m)
        at_import = m.kind == "module" or any(not c.startswith("test ") for c in contexts)
        if m.kind == "constant":  # also where a test file reads it first of all
            at_import = any(c.startswith("file ") for c in contexts)
        direct = {c.removeprefix("test ") for c in contexts if c.startswith("test ")} & self.of_room(m.room)
        rest = self.own(m.room) if at_import else self.beside(direct)
        tests = self.affordable([*self.quickest_first(direct), *self.quickest_first(rest - direct)])
        limits = {t: 3.0 + 10 * self.seconds[t] for t in tests}
        return Judged(m, tests, limits, at_import)

    def of_room(self, room: str) -> set[str]:
        return self._of_room[room]

    @cached_property
    def _of_room(self) -> dict[str, set[str]]:
        rooms = {path.split("/")[1] for path in self.lines}
        return {r: {t for t in self.seconds if t.startswith((f"tests/{r}/", *SHARED))} for r in rooms}

    def affordable(self, tests: list[str]) -> tuple[str, ...]:
        together = list(accumulate(self.seconds[t] for t in tests))
        return tuple(t for i, t in enumerate(tests) if i == 0 or together[i] <= self.most)

    def own(self, room: str) -> set[str]:
        return {t for t in self.of_room(room) if not t.startswith(SHARED)}

    def beside(self, direct: set[str]) -> set[str]:
        """The other tests of those files: a fixture or a cached answer may have run the line for them."""
        files = {t.split("::")[0] for t in direct} - set(SHARED)
        return {t for t in self.seconds if t.split("::")[0] in files}

    def quickest_first(self, tests: set[str]) -> list[str]:
        return sorted(tests, key=lambda t: (self.seconds[t], t))

    def contexts(self, m: Mutant) -> set[str]:
        """Who runs the mutated lines; of a default who runs the function, of a constant who runs a line that names it."""
        if m.kind == "body":
            return self.between(m.path, m.line, m.end_line)
        if m.kind == "default":
            return self.between(m.path, m.first_line, m.last_line)
        lines = set().union(*(self.naming(n) for n in m.names))
        return lines if m.kind == "module" else lines - self.between(m.path, m.line, m.end_line)

    def between(self, path: str, first: int, last: int) -> set[str]:
        return {c for n, cs in self.lines.get(path, {}).items() if first <= int(n) <= last for c in cs if c}

    def naming(self, name: str) -> set[str]:
        found: set[str] = set()
        for path in self.lines:
            for n, text in enumerate((self.root / path).read_text(encoding="utf-8").splitlines(), start=1):
                if re.search(rf"\b{re.escape(name)}\b", text):
                    found |= {c for c in self.lines[path].get(str(n), ()) if c}
        return found
