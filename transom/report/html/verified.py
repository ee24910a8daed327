"""Published cases for the document, area by area and source by source: as an appendix of a review, or a page of their own."""

from collections import Counter
from collections.abc import Sequence
from itertools import groupby

from transom.frozen import dataclass
from transom.report.html.page import HERE, environment
from transom.report.verified import KNOWN, Outcome, off, verdict

# A word in the narrow column, explained in the line above the list.
SHORT = {"read": "read", "transcribed": "copied", "derived": "worked", "computed": "computed", "memory": "provisional"}


@dataclass(frozen=True)
class Row:
    """One case in words."""

    id: str
    where: str
    printed: str
    ours: str
    off: str
    known: str
    agrees: bool
    error: str


@dataclass(frozen=True)
class Area:
    """A subject: how many of its cases agree, how many are provisional, and the rows of each source."""

    name: str
    cases: int
    agree: int
    provisional: int
    sources: tuple[tuple[str, tuple[Row, ...]], ...]


def areas(every: Sequence[Outcome]) -> tuple[Area, ...]:
    """The cases by area, in the order of the alphabet; within one by source, as filed."""
    listed = sorted(every, key=lambda o: o.case.area)
    return tuple(_area(name, tuple(of_one)) for name, of_one in groupby(listed, key=lambda o: o.case.area))


def _area(name: str, found: tuple[Outcome, ...]) -> Area:
    sources = dict.fromkeys(o.case.source for o in found)
    return Area(
        name,
        len(found),
        sum(o.agrees for o in found),
        sum(o.case.known_by == "memory" for o in found),
        tuple((source, tuple(_row(o) for o in found if o.case.source == source)) for source in sources),
    )


def _row(o: Outcome) -> Row:
    c = o.case
    printed = f"{c.printed:.6g} {c.unit}".strip()
    ours = "none" if o.error else f"{o.ours:.6g}"
    return Row(c.id, c.citation, printed, ours, off(o), SHORT[c.known_by], o.agrees, o.error)


def context(every: Sequence[Outcome]) -> dict[str, object]:
    """What the templates of the list want."""
    known = Counter(o.case.known_by for o in every)
    return {
        "areas": areas(every),
        "verified": verdict(every) if every else "",
        "all_agree": all(o.agrees for o in every),
        "shorts": tuple((SHORT[k], words, known[k]) for k, words in KNOWN.items()),
    }


def page(every: Sequence[Outcome]) -> str:
    """The cases as an HTML document of their own: no script, no network, the same bytes for the same copy."""
    from markupsafe import Markup

    from transom import __version__

    style = Markup((HERE / "style.css").read_text(encoding="utf-8"))
    template = environment().get_template("verify.html")
    return template.render(**context(every), style=style, version=__version__)
