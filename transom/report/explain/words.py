"""What terminal, Markdown and LaTeX say alike: the sentence, what a line is, where it comes from."""

from transom.derivation.lines import GIVEN, PLATE, UNTRACED, Derivation, Line
from transom.judge.records import Judgement
from transom.report.amounts import amount, compared, percent
from transom.report.text import clean
from transom.report.words import EVIDENCE, METHODS, case_words, check_words, spelled
from transom.result import ONCE, Check

ENTERS = "What enters"
STEPS = "Step by step"
NOTE = (
    "One formula a line: symbol = formula = numbers = result. Forces in N, lengths in mm, stresses in N/mm^2 where no"
    " other unit stands; angles in rad. A result has five digits, what goes into the next as many as that one needs."
    " [2] behind a symbol is its second value, not a power."
)
BESIDE = {"us": ("mm", "kg", "N", "N/mm^2", "N*mm", "W", "m/s", "rad", "1/s"), "si": ("W", "rad", "1/s")}
TABLE_UNITS = {"N/mm^2": "MPa"}


NO_EDGE = " 1000000 mm stands for an edge that is not there."


def note(d: Derivation) -> str:
    """How the lines are read."""
    return NOTE + (NO_EDGE if any("1000000" in line.numbers for line in d.steps) else "")


def sentence(j: Judgement, c: Check) -> str:
    """A check in one plain sentence: what it carries and may carry, its share of the limit, when."""
    units, when = j.job.head.units, case_words(c.case, j.job.cases)
    words = spelled(check_words(c, j.job), units)
    fails = "" if c.passes else ": DOES NOT PASS"
    how = "" if c.case == ONCE else f" By the {METHODS.get(c.method, c.method)}."
    said = f"{words[:1].upper()}{words[1:]} {compared(c, units)}: {percent(c.utilisation)} of limit{fails}"
    return said + (f", {when}." if when else ".") + how + (" It decides nothing." if c.information else "")


def value_text(line: Line, units: str) -> str:
    """A number that enters, and beside it as the job's units read."""
    own = f"{line.symbol} = {line.result} {line.unit}".rstrip()
    if line.unit not in BESIDE[units] or line.kind != GIVEN or not line.value:
        return own
    beside = amount(line.value, TABLE_UNITS.get(line.unit, line.unit), units)
    return own if beside.startswith("0 ") else f"{own} ({beside})"


def origin(line: Line, units: str) -> str:
    """What a line says and where it comes from, in words."""
    if line.kind == UNTRACED:
        return f"{line.says}; not traced any further"
    if line.kind == PLATE:
        return f"{line.says}; {line.source}"
    memory = ", from memory: provisional" if line.provisional else ""
    says = spelled(clean(line.says).rstrip("."), units)
    if line.evidence == "stated":
        return f"{says} ({EVIDENCE['stated']})"
    return f"{says} ({EVIDENCE[line.evidence]}{memory}: {spelled(clean(line.source), units)})"
