"""A page for somebody outside: headings, sentences, lists, tables and a box to sign, whoever prints it."""

from collections.abc import Sequence

from transom.frozen import dataclass


@dataclass(frozen=True)
class Heading:
    """A heading within the page."""

    text: str


@dataclass(frozen=True)
class Text:
    """A paragraph. `strong` is set larger; `warning` stands out."""

    text: str
    strong: bool = False
    warning: bool = False


@dataclass(frozen=True)
class Bullets:
    """A list, one line each; `small` for what must be said at length."""

    items: tuple[str, ...]
    small: bool = False


@dataclass(frozen=True)
class Table:
    """Rows of cells under a header; columns in `right` are flush right, a row in `strong` set bold.

    `widths` are shares of the page, for paper.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]
    right: tuple[int, ...] = ()
    strong: tuple[int, ...] = ()


@dataclass(frozen=True)
class Box:
    """Things to tick and lines to fill in by hand."""

    title: str
    ticks: tuple[str, ...]
    blanks: tuple[str, ...]


Block = Heading | Text | Bullets | Table | Box


@dataclass(frozen=True)
class Document:
    """One page or more. `marks` stand on every page: the paper's word, DOES NOT PASS, whose prices."""

    title: str
    subtitle: str
    shop: tuple[str, ...]
    marks: tuple[str, ...]
    blocks: tuple[Block, ...]
    notes: tuple[str, ...] = ()  # stops passed over: by whom, when, on what paper; on every page too
    dense: bool = False  # set small, to stay on one page

    @property
    def running(self) -> str:
        """What every page says of itself."""
        return " - ".join((self.title, *self.marks))


def bullets(items: Sequence[str], small: bool = False) -> tuple[Block, ...]:
    """A list, or nothing where there is nothing to list."""
    return (Bullets(tuple(items), small),) if items else ()
