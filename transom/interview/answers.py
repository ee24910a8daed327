"""What somebody types at a question, and what it becomes in the job file."""

import re
from collections.abc import Mapping
from typing import Any

from transom.frozen import dataclass
from transom.interview.questions import YES_OR_NO, Question
from transom.job.faults import Fault, shown
from transom.job.names import chosen
from transom.job.schema import QUANTITIES, Key
from transom.job.values import Unmeasured, unmeasured, value_of

UNKNOWN = "?"
_YES, _NO = ("yes", "y", "true"), ("no", "n", "false", "none")
_FLAG = {**dict.fromkeys(_YES, True), **dict.fromkeys(_NO, False)}
_MEASURED = (*QUANTITIES, "power range", "size")


@dataclass(frozen=True)
class Answer:
    """`stands` is what the file holds; `read_back` how it was understood; `doubt` what else may be meant, or nothing."""

    stands: Any
    read_back: str
    doubt: str = ""


def answer(question: Question, typed: str, si: bool) -> Answer:
    """What was typed, read as the question's key.

    Raises:
        Fault: it is no answer to this question.
    """
    text = typed.strip()
    if question.path in YES_OR_NO:
        return _yes_or_no(text)
    if not text or text == UNKNOWN:
        return _unknown(question.key)
    key = question.key
    if key.items is not None:
        return _list(question, text, si)
    raw = _raw(key, text, question.bare[si])
    try:
        value = value_of(key, raw)
    except Fault as fault:
        meant = _meant(question, text, si)
        raise Fault(fault.rule, f"did you mean {meant}?" if meant else fault.next_step) from None
    return Answer(raw, _read_back(key, value, raw), _doubt(question, value, text, si))


def _yes_or_no(text: str) -> Answer:
    if text.lower() in _YES:
        return Answer("yes", "yes")
    if text.lower() in (*_NO, "", UNKNOWN):
        return Answer("no", "no")
    raise Fault("must be yes or no", "type y or n")


def _unknown(key: Key) -> Answer:
    if key.required and not key.unknown:
        raise Fault("is needed to go on", f"type {' | '.join(key.choices)}" if key.choices else "type an answer")
    return Answer(UNKNOWN if key.unknown else None, "not measured" if key.unknown else "left out")


def _raw(key: Key, text: str, unit: str) -> Any:
    """The text as the file holds it: a bare number with its unit, a choice by its number, a flag, a count."""
    if key.choices:
        return _choice(key, text)
    if key.kind in _MEASURED and unit and _bare(text):
        return f"{text} {unit}"
    if key.kind == "date":
        return _date(text)
    if key.kind == "count" and text.isdigit():
        return int(text)
    return _FLAG.get(text.lower(), text) if key.kind == "flag" else text


def _bare(text: str) -> bool:
    """True for figures alone, or two with "to" between them."""
    rest = text.replace(" to ", " ")
    return any(c.isdigit() for c in rest) and not any(c.isalpha() or c in "'\"°%" for c in rest)


def _choice(key: Key, text: str) -> str:
    """A choice by its number, or by its first letters where only one begins so."""
    if text.isdigit() and 0 < int(text) <= len(key.choices):
        return key.choices[int(text) - 1]
    begun = [c for c in key.choices if c.lower().startswith(text.lower())]
    return begun[0] if len(begun) == 1 and not chosen(text, key.choices) else text


def _date(text: str) -> Any:
    import datetime as dt

    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        return text


def _list(question: Question, text: str, si: bool) -> Answer:
    """Several values with "to" or commas between them."""
    parts = [p.strip() for p in text.replace(" to ", ",").split(",") if p.strip()]
    raw = [_raw(question.key, part, question.bare[si]) for part in parts]
    values = value_of(question.key, raw)
    backs = [_read_back(question.key, v, r) for v, r in zip(values, raw, strict=True)]
    doubts = [_doubt(question, v, p, si) for v, p in zip(values, parts, strict=True)]
    return Answer(raw, " to ".join(backs), next((d for d in doubts if d), ""))


def _read_back(key: Key, value: Any, raw: Any) -> str:
    if isinstance(value, Unmeasured):
        return "not measured"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if key.kind == "power range" and isinstance(value, tuple):
        low, high = (shown(v, "power") for v in value)
        return low if value[0] == value[1] else f"{low} to {high}, sized for the top"
    if key.kind in QUANTITIES and not isinstance(value, str | tuple):
        return shown(value, key.kind)
    return str(raw) if isinstance(value, tuple) else str(value)


def _doubt(question: Question, value: Any, text: str, si: bool) -> str:
    """Nothing where the value is usual; else the usual range, and what was perhaps meant."""
    if not question.usual[0] or isinstance(value, str | Unmeasured):
        return ""
    had = value[-1] if isinstance(value, tuple) else value
    if _is_usual(question, had):
        return ""
    meant = _meant(question, text, si)
    return f"usual is {question.usual[0]} to {question.usual[1]}" + (f"; did you mean {meant}?" if meant else "")


def _is_usual(question: Question, value: float) -> bool:
    low, high = (_number(question.key, limit) for limit in question.usual)
    return low <= value <= high


def _number(key: Key, text: str) -> float:
    value = value_of(key if key.items is None else _one_of(key), text)
    return float(value[-1] if isinstance(value, tuple) else value)


def _one_of(key: Key) -> Key:
    return Key(key.name, key.kind, key.how, key.low, key.high)


def _meant(question: Question, text: str, si: bool) -> str:
    """The same figures in the other unit or with the point elsewhere, where that would be usual."""
    if not question.usual[0]:
        return ""
    found = re.search(r"\d(?:[\d./ -]*\d)?", text)
    figures = found[0] if found else ""
    units = (question.bare[not si], question.bare[si]) if _bare(text) else (question.bare[si], question.bare[not si])
    tries = [f"{figures} {unit}" for unit in units]
    tries += [f"{number * k:g} {question.bare[si]}" for number in _plain(figures) for k in (0.1, 10.0)]
    for guess in tries:
        try:
            if _is_usual(question, _number(question.key, guess)):
                return guess
        except Fault:
            continue
    return ""


def _plain(figures: str) -> list[float]:
    try:
        return [float(figures)]
    except ValueError:
        return []


def file_answers(answers: Mapping[str, Any]) -> dict[str, Any]:
    """What goes into the job file: no yes-or-no, nothing left out, no "?" in a section that is there only if answered."""
    given = {p: a for p, a in answers.items() if p not in YES_OR_NO and a is not None}
    told = {p.rpartition(".")[0] for p, a in given.items() if not unmeasured(a)}
    return {p: a for p, a in given.items() if not unmeasured(a) or p.rpartition(".")[0] in told}
