"""What a key and a table of the job file are; `transom/job/schema.py` lists them."""

from transom.frozen import dataclass

QUANTITIES = ("length", "mass", "force", "power", "torque", "speed", "rotation", "angle", "temperature")


@dataclass(frozen=True)
class Key:
    """One key: what sort of value, its limits, and how a shop finds it.

    `kind` is one of `QUANTITIES`, or power range, choice, text, flag, count, ratio, date, size (of a bolt),
    stop (the name of one that can be accepted).
    `words` are answers in place of a quantity. `field` is the record's name for it where that differs.
    `unknown` says whether "?" is an answer. `items` is how many values a list must have; None: no list.
    `family` is the table whose names it takes; of a `free` key, whose names may stand.
    `blank` is what a blank job holds: TOML, or nothing to leave the line out; # first: as a comment.
    """

    name: str
    kind: str
    how: str
    low: float = float("-inf")
    high: float = float("inf")
    choices: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    classes: tuple[float, ...] = ()
    items: tuple[int, int] | None = None
    required: bool = False
    unknown: bool = True
    blank: str = '"?"'
    field: str = ""
    family: str = ""

    @property
    def target(self) -> str:
        """The record's field."""
        return self.field or self.name


@dataclass(frozen=True)
class Section:
    """A table of the job. `many`: a list of such tables. `free`: any name may stand, each read as this key.

    `opaque`: kept as it stands. `judged` is False where it says what came after the building, by which neither size nor review decides.
    """

    name: str
    title: str
    keys: tuple[Key, ...] = ()
    parts: "tuple[Section, ...]" = ()
    many: bool = False
    free: Key | None = None
    opaque: bool = False
    judged: bool = True
    blank: str = "table"  # table | list | none: how a blank job shows it

    @property
    def names(self) -> tuple[str, ...]:
        """Every name that may stand in it."""
        return tuple(k.name for k in self.keys) + tuple(p.name for p in self.parts)
