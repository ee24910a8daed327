"""`--vary engine.power="40,60,90 hp"`: the values a key takes, one after the other, and the grid of several keys."""

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product

from transom.batch.keyed import Changes, keys_of, parts, value
from transom.errors import JobError
from transom.frozen import dataclass
from transom.job.faults import Fault, brief, sentence, toml
from transom.job.keys import QUANTITIES, Key
from transom.job.values import value_of
from transom.quantity.grammar import NUMBER, split, tidy
from transom.quantity.refusal import Refusal

MOST = 100_000  # values of one key
_STEPS = re.compile(r"(.+?) to (.+?),? (?:step|by) (.+)", re.IGNORECASE)
_BARE = re.compile(rf"[+-]?{NUMBER}")


@dataclass(frozen=True)
class Varied:
    """One key and what it takes, as texts."""

    path: str
    key: Key
    texts: tuple[str, ...]

    @property
    def says(self) -> str:
        """The values as they were read; of many the first, the second and the last."""
        few = self.texts if len(self.texts) <= 8 else (*self.texts[:2], "...", self.texts[-1])
        return f"{self.path}: {len(self.texts)} values, {', '.join(few)}"


def varied(options: Sequence[str]) -> tuple[Varied, ...]:
    """The keys to vary, each `KEY=VALUES`.

    Raises:
        JobError: one line for each option without a key, and each value that its key cannot take.
    """
    out, faults = list[Varied](), list[str]()
    for option in options:
        try:
            one = _one(*option.partition("="))
        except JobError as error:
            faults += error.faults
            continue
        faults += _faults(one)
        if one.path in (v.path for v in out):
            faults.append(f"--vary {one.path}: stands twice. Put all values into one.")
        out.append(one)
    if faults:
        raise JobError(*faults)
    return tuple(out)


def _one(name: str, equals: str, text: str) -> Varied:
    """One option. Raises JobError with what is wrong with it."""
    if not (equals and text.strip()):
        raise JobError(f'--vary {brief(name)}: no values. Write --vary engine.power="40, 60, 90 hp".')
    ((path, key),) = keys_of([name.strip()], "--vary").items()
    return Varied(path, key, _texts(path, key, text))


def _texts(path: str, key: Key, text: str) -> tuple[str, ...]:
    """The values as texts of their own, each with its unit."""
    measured = key.kind in QUANTITIES or key.kind == "power range"
    try:
        stepped = _STEPS.fullmatch(tidy(text)) if measured or key.kind in ("count", "ratio") else None
        if stepped:
            return _stepped(*stepped.groups())
        items = [part for part in parts(text) if part]
        return tuple(_with_units(items) if measured else items)
    except Refusal as error:
        raise JobError(f"--vary {path} = {toml(text)}: {error.rule}. {sentence(error.next_step)}") from None


def _with_units(items: Sequence[str]) -> list[str]:
    """A bare number takes the unit of the next value that has one."""
    out, unit = list[str](), ""
    for item in reversed(items):
        plain = tidy(item)
        if _BARE.fullmatch(plain):
            out.append(f"{plain} {unit}".strip())
            continue
        try:
            amount = split(plain)
            unit = "" if amount.feet_and_inches else amount.unit
        except Refusal:
            unit = ""  # a word, a range of powers, or at fault: its reader says so
        out.append(item)
    return out[::-1]


def _stepped(low: str, high: str, step: str) -> tuple[str, ...]:
    """`40 to 90 step 10 hp`: from the first up to the last, both among them where the step leads there."""
    ends = [split(tidy(x)) for x in (low, high, step)]
    units = {a.unit for a in ends if a.unit}
    if len(units) > 1 or any(a.feet_and_inches for a in ends):
        raise Refusal("from, to and step in different units", "write all three in one unit")
    first, last, by = (a.number for a in ends)
    if by <= 0 or last < first:
        raise Refusal("leads nowhere", "write the smaller value first, and a step above zero")
    count = int((last - first) / by) + 1
    if count > MOST:
        raise Refusal(f"gives {count} values, more than {MOST}", "take a larger step")
    unit = next(iter(units), "")
    return tuple(f"{_written(first + k * by)} {unit}".strip() for k in range(count))


def _written(number: Fraction) -> str:
    """A number exactly as a shop writes it: a decimal where it has one, else a mixed number."""
    decimal = f"{float(number):.9f}".rstrip("0").rstrip(".")
    if Fraction(decimal) == number:
        return decimal
    whole, rest = divmod(abs(number), 1)
    sign = "-" if number < 0 else ""
    return f"{sign}{whole}-{rest}" if whole else f"{sign}{rest}"


def _faults(v: Varied) -> Iterator[str]:
    """What its key cannot take, and what stands twice."""
    if not v.texts:
        yield f'--vary {v.path}: no values. Write --vary {v.path}="..., ..."'
    seen = set[str]()
    for text in v.texts:
        if text in seen:
            yield f"--vary {v.path} = {toml(text)}: stands twice. Keep one of the two."
        seen.add(text)
        try:
            value_of(v.key, value(v.key, text))
        except Fault as fault:
            yield f"--vary {v.path} = {toml(text)}: {fault.rule}. {sentence(fault.next_step)}"


def grid(several: Sequence[Varied]) -> Iterator[tuple[Changes, tuple[str, ...]]]:
    """Every combination, the last key fastest: the changes, and the texts that made them."""
    for texts in product(*(v.texts for v in several)):
        yield tuple((v.path, value(v.key, t)) for v, t in zip(several, texts, strict=True)), texts


def combinations(several: Sequence[Varied]) -> int:
    """How many there are; one where nothing is varied."""
    count = 1
    for v in several:
        count *= len(v.texts)
    return count
