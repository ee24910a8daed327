"""A derivation as data: what enters, then one formula a line, down to the share of the limit."""

from transom.frozen import dataclass
from transom.result import Check

FORMULA, GIVEN, PLATE, UNTRACED = "formula", "given", "plate", "untraced"


@dataclass(frozen=True)
class Line:
    """One line: `symbol = expression = numbers = result unit`, and where it comes from.

    `kind` is "formula"; "given" for a number that enters (`expression` and `numbers` are empty); "plate" for
    one that the careful method solved for; "untraced" for one that no formula computed and no table holds.
    `number` counts the lines from 1; `uses` are the numbers of the lines whose results stand in this one.
    `name` is the formula's, the fact's or the row's. `tex` are the parts of the line in LaTeX math, as in `text`.
    """

    number: int
    kind: str
    name: str
    symbol: str
    expression: str
    numbers: str
    result: str
    unit: str
    value: float
    says: str
    source: str
    evidence: str
    known_by: str
    tex: tuple[str, ...]
    uses: tuple[int, ...] = ()

    @property
    def parts(self) -> tuple[str, ...]:
        """What stands between the signs of equality, in ASCII: symbol, expression, numbers, result with its unit."""
        return tuple(p for p in (self.symbol, self.expression, self.numbers, f"{self.result} {self.unit}".strip()) if p)

    @property
    def text(self) -> str:
        """The line in ASCII: `symbol = expression = numbers = result unit`."""
        return " = ".join(self.parts)

    @property
    def latex(self) -> str:
        """The whole line in LaTeX math."""
        return " = ".join(self.tex)

    @property
    def provisional(self) -> bool:
        """True where nobody has held it against its source yet."""
        return self.known_by == "memory"


@dataclass(frozen=True)
class Derivation:
    """One check from what enters to its share of the limit; the last line is demand over resistance."""

    check: Check
    lines: tuple[Line, ...]

    @property
    def given(self) -> tuple[Line, ...]:
        """What enters: facts, rows of tables, numbers of the careful method, and what could not be traced."""
        return tuple(line for line in self.lines if line.kind != FORMULA)

    @property
    def steps(self) -> tuple[Line, ...]:
        """One formula a line."""
        return tuple(line for line in self.lines if line.kind == FORMULA)

    @property
    def untraced(self) -> tuple[Line, ...]:
        """Numbers of which it is not known where they come from."""
        return tuple(line for line in self.lines if line.kind == UNTRACED)
