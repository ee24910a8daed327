"""A derivation in Markdown and in LaTeX; whatever a user or a table wrote is text there, never markup."""

import re
from collections.abc import Iterator

from transom.derivation.lines import Derivation, Line
from transom.judge.records import Judgement
from transom.report.explain.words import ENTERS, STEPS, note, origin, sentence, value_text
from transom.report.page import boat_words
from transom.report.text import clean
from transom.report.words import spelled

CAREFUL = "Careful"


def title(j: Judgement) -> str:
    """Job, name, revision and the kind of paper."""
    h = j.job.head
    number = f"JOB {clean(h.number)}" if h.number else "JOB"
    return f"{number} {clean(h.name) or 'unnamed'}, rev {clean(h.revision)}: {j.paper}"


def markdown(j: Judgement, d: Derivation) -> list[str]:
    """The derivation in Markdown, line by line; formulas stand as code."""
    units = j.job.head.units
    out = [f"# {md(title(j))}", "", md(boat_words(j)), "", f"**{md(sentence(j, d.check))}**", "", f"`{d.check.id}`"]
    out += ["", f"## {ENTERS}", ""]
    out += [f"{x.number}. `{value_text(x, units)}`  \n   {md(origin(x, units))}" for x in d.given]
    out += ["", f"## {STEPS}", "", md(note(d)), ""]
    for x in d.steps:
        out += [f"({x.number}) {md(origin(x, units))}", "", "```text", *_rows(x), "```", ""]
    return [*out, f"## {CAREFUL}", "", *(f"- {md(spelled(text, units))}" for text in j.cautions)]


def _rows(line: Line) -> Iterator[str]:
    symbol, *parts = line.parts
    yield f"{symbol} = {parts[0]}"
    yield from (f"  = {p}" for p in parts[1:])


def md(text: str) -> str:
    """Text as text."""
    return re.sub(r"([\\`*_{}\[\]<>#|~&])", r"\\\1", clean(text))


def latex(j: Judgement, d: Derivation) -> list[str]:
    """The derivation as a LaTeX document of the usual packages, line by line."""
    units = j.job.head.units
    out = [
        r"\documentclass{article}",
        r"\usepackage[T1]{fontenc}",
        r"\usepackage{amsmath}",
        r"\usepackage[margin=20mm]{geometry}",
        r"\allowdisplaybreaks",
        rf"\markright{{{tex(title(j))}}}\pagestyle{{myheadings}}",
        r"\begin{document}",
        rf"\section*{{{tex(title(j))}}}",
        rf"{tex(boat_words(j))}",
        "",
        rf"\textbf{{{tex(sentence(j, d.check))}}}",
        "",
        rf"\texttt{{{tex(d.check.id)}}}",
        rf"\subsection*{{{ENTERS}}}",
        r"\begin{itemize}",
        *(rf"\item[({x.number})] ${x.latex}$\quad {tex(origin(x, units))}" for x in d.given),
        r"\end{itemize}",
        rf"\subsection*{{{STEPS}}}",
        tex(note(d)),
        "",
    ]
    for x in d.steps:
        out += [rf"\noindent({x.number}) {tex(origin(x, units))}", r"\begin{align*}", *_aligned(x), r"\end{align*}"]
    cautions = (rf"\item {tex(spelled(text, units))}" for text in j.cautions)
    return [*out, rf"\subsection*{{{CAREFUL}}}", r"\begin{itemize}", *cautions, r"\end{itemize}", r"\end{document}"]


def _aligned(line: Line) -> Iterator[str]:
    symbol, *parts = line.tex
    for i, part in enumerate(parts):
        yield f"{symbol if not i else ''} &= {part}" + (r" \\" if i < len(parts) - 1 else "")


SPECIAL = {
    "\\": r"\textbackslash{}", "~": r"\textasciitilde{}", "^": r"\textasciicircum{}", "<": r"\textless{}",
    ">": r"\textgreater{}", **{c: f"\\{c}" for c in "&%$#_{}"},
}  # fmt: skip


def tex(text: str) -> str:
    """Text as text."""
    return "".join(SPECIAL.get(c, c) for c in clean(text))
