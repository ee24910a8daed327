"""`transom estimate`: what it costs, in three honest prices, and the papers that go with them."""

from pathlib import Path
from typing import Annotated, Literal

import typer

from transom.cli.guard import FAILS, PASSES
from transom.cli.jobs import AsJson, Force, JobPath, apart, path_of, read
from transom.cli.mounted import DespiteFailure
from transom.cli.papers import Papers, allowed
from transom.cli.size import Prices, Rank

Quote = Annotated[bool, typer.Option("--quote", help="Write the customer's quote: HTML, PDF, CSV, JSON; numbered.")]
Found = Annotated[
    Literal["dry", "wet", "frame"] | None,
    typer.Option(
        metavar="CASE", help="Write the change order for what was found: dry, wet or frame.", show_default=False
    ),
]
Buy = Annotated[bool, typer.Option("--buy", help="Write the buy list: HTML, PDF.")]
AsCsv = Annotated[
    Path | None, typer.Option("--csv", metavar="FILE", help="Write every line as CSV.", show_default=False)
]
Out = Annotated[
    Path | None, typer.Option(metavar="DIR", help="Folder for papers; left out, the job's.", show_default=False)
]
WritePrices = Annotated[
    Path | None, typer.Option(metavar="FILE", help="Write a price book to fill in, for this job.", show_default=False)
]


def estimate(
    job: JobPath = None,
    prices: Prices = None,
    rank: Rank = "material",
    quote: Quote = False,
    found: Found = None,
    buy: Buy = False,
    csv: AsCsv = None,
    out: Out = None,
    write_prices: WritePrices = None,
    despite_failure: DespiteFailure = False,
    force: Force = False,
    json: AsJson = False,
) -> None:
    """Price the mount: materials, hours, three prices by what opening-up finds."""
    from transom.catalogue import SHIPPED
    from transom.cli.stream import say, tell
    from transom.estimate.build import estimate as priced
    from transom.estimate.build import judged
    from transom.estimate.numbered import refuse
    from transom.estimate.rank import costs
    from transom.estimate.reading import book_for
    from transom.estimate.ways import ends, ways

    path = path_of(job)
    apart(path, csv, write_prices)
    stated = read(path)
    book = book_for(stated, path.parent, prices)
    if rank != "material" and stated.mount is not None:
        tell(f"--rank {rank}: ranks nothing here, {path} has a [mount] and that is what is priced")
    j, stands_in = judged(stated, SHIPPED, rank, costs(book) if rank == "cost" else None)
    e = priced(j, book, stands_in=stands_in)
    on_paper = bool(quote or found or buy or csv is not None) and allowed(e, despite_failure)
    if on_paper and (quote or found):
        refuse(e, path)
    papers = Papers(path, e, ways(e), ends(e, SHIPPED), out or path.parent, force)
    # Quote before change order, so that both in one run compare with the quote just written.
    for asked, write in (
        (on_paper and quote, papers.quote),
        (on_paper and found, lambda: papers.change(found or "")),
        (on_paper and buy, papers.buy),
        (on_paper and csv, lambda: papers.csv(csv or Path())),
        (write_prices, lambda: papers.book(write_prices or Path())),
    ):
        # Each told as it is written, so that a fault of the next one hides nothing.
        tell(*(write() if asked else ()))
    say(_answer(papers, json))
    raise typer.Exit(PASSES if e.passes else FAILS)


def _answer(papers: "Papers", json: bool) -> list[str]:
    from transom.report.money.books import to_json
    from transom.report.money.screen import estimate_screen

    return (
        [to_json(papers.e, papers.ways, papers.ends)] if json else estimate_screen(papers.e, papers.ways, papers.ends)
    )
