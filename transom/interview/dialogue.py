"""One question after another: back, stop and keep, "12 of 31"; who asks and who listens are given."""

from collections.abc import Callable, Mapping
from dataclasses import field
from textwrap import wrap
from typing import Any

from transom.frozen import dataclass
from transom.interview.answers import Answer, answer
from transom.interview.questions import YES_OR_NO, Question, Stop
from transom.job.faults import Fault, sentence

WIDTH = 78
BACK, STOP, HELP = ("b", "back"), ("q", "quit", "stop"), ("h", "help")
KEYS = "Enter or ? not measured, b one back, q stop and keep, h how to answer."
HOW = (
    'Any unit the trade writes: 20-1/2 in, 3 ft 4 in, 18 mm, 260 lb, 40 hp, 55 lb-ft. A bare number takes the unit '
    "named in brackets. A choice by its number, its first letters, or in full; y or n."
)  # fmt: skip


@dataclass
class Talk:
    """What has been answered, by path, and how far the tape has come; `stopped` where somebody wanted out."""

    answers: dict[str, Any] = field(default_factory=dict)
    stopped: bool = False


def run(
    stops: tuple[Stop, ...],
    ask: Callable[[str], str],
    tell: Callable[[str], None],
    talked: Talk,
    *,
    si: bool = False,
    skip: Mapping[str, Any] | None = None,
) -> None:
    """Ask everything that is due, in order; `talked` holds what was answered, also when `ask` raises."""
    asked = [(number, stop, q) for number, stop in enumerate(stops, 1) for q in stop.asks if q.path not in (skip or {})]
    tell(KEYS)
    at, past = 0, list[int]()
    while at < len(asked):
        number, stop, question = asked[at]
        if not question.due(talked.answers):
            at += 1
            continue
        said = _one(number, len(stops), stop, question, ask, tell, si=si, before=talked.answers.get(question.path))
        if said in STOP:
            talked.stopped = True
            return
        if isinstance(said, Answer):
            talked.answers[question.path] = said.stands
            past.append(at)
            at += 1
        else:
            at = past.pop() if past else 0


def _one(
    number: int, of: int, stop: Stop, question: Question, ask: Callable[[str], str], tell: Callable[[str], None],
    *, si: bool, before: Any,
) -> Answer | str:  # fmt: skip
    """One question until it is answered, or the word that leads away from it."""
    for line in _asked(number, of, stop, question, si=si, before=before):
        tell(line)
    doubted = ""
    while True:
        typed = ask("  > ").strip()
        word = typed.lower()
        if word in (*BACK, *STOP) and not _is_choice(question, word):
            return BACK[0] if word in BACK else STOP[0]
        if word in HELP:
            tell(f"  {HOW}")
            continue
        try:
            found = answer(question, doubted if doubted and not typed else typed, si)
        except Fault as fault:
            tell(f"    no: {fault.rule}; {fault.next_step}")
            doubted = ""
            continue
        tell(f"    {found.read_back}")
        if found.doubt and (typed or not doubted) and typed != doubted:
            tell(f"    {sentence(found.doubt)} Enter keeps {found.read_back}; or type it again.")
            doubted = typed
            continue
        return found


def _is_choice(question: Question, word: str) -> bool:
    """Whether a word such as b is the answer itself: it never is, unless spelled out as a choice."""
    return question.path not in YES_OR_NO and word in question.key.choices


def _asked(number: int, of: int, stop: Stop, question: Question, *, si: bool, before: Any) -> list[str]:
    """The question's lines: where on the tape, what and how, why, and what it was told before."""
    lines = ["", f"{number} of {of}  {stop.title}"]
    lines += wrap(_what(question, si=si), WIDTH, initial_indent="  ", subsequent_indent="  ")
    lines += wrap(f"why: {question.why}", WIDTH, initial_indent="  ", subsequent_indent="  ")
    return lines + ([f"  you said: {before}"] if before not in (None, "?") else [])


def _what(question: Question, *, si: bool) -> str:
    if question.path in YES_OR_NO:
        return f"{YES_OR_NO[question.path]}? (y/n)"
    key = question.key
    name = key.name.replace("_", " ")
    if key.choices:
        listed = ", ".join(f"{i} {c}" for i, c in enumerate(key.choices, 1))
        return f"{name}: {key.how} ({listed})"
    unit = f" [{question.bare[si]}]" if question.bare[si] else ""
    return f"{name}: {key.how}{unit}" + (" (y/n)" if key.kind == "flag" else "")
