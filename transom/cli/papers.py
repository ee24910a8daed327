"""What `transom estimate` writes: quote, change order, buy list, CSV, a price book to fill in. Logged beside the job."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from transom.frozen import dataclass

if TYPE_CHECKING:
    from transom.estimate.records import Estimate
    from transom.estimate.ways import End, Way


# A quote's lines hold what the shop pays.
BOOKS = {".csv": ", for the books: your costs stand in it", ".json": ", for the books: your costs stand in it"}


def allowed(e: "Estimate", despite_failure: bool) -> bool:
    """Whether paper may be made: from a mount that does not pass only where asked for, else stderr says why not."""
    from transom.cli.mounted import refusal
    from transom.cli.stream import tell

    if e.passes or despite_failure:
        return True
    tell(*refusal(e.judgement, "Paper"))
    return False


@dataclass(frozen=True)
class Papers:
    """An estimate and where its papers go. Each method writes one and says so in lines for stderr."""

    job: Path
    e: "Estimate"
    ways: "Sequence[Way]"
    ends: "Sequence[End]"
    folder: Path
    force: bool

    def quote(self) -> Iterator[str]:
        """The next revision of the quote; nothing where the last one says the same."""
        from transom.estimate.numbered import hand_out, number_of
        from transom.report.money.papers import quote_files

        self._folder()
        stem = f"quote-{number_of(self.e.judgement.job, self.job)}"
        made = hand_out(self.folder, stem, lambda n: quote_files(self.e, self.ways, self.ends, stem, n))
        yield from self._told("estimate --quote", made.files, f"{self.folder / made.name}: stands, nothing has changed")
        yield from self._silent()
        if self.e.old:
            yield f"{len(self.e.old)} of its prices are old: `transom estimate` names them"

    def _folder(self) -> None:
        """Make the folder for papers where it is missing. Raises JobError where that cannot be."""
        from transom.errors import JobError

        try:
            self.folder.mkdir(exist_ok=True)
        except OSError as error:
            raise JobError(
                f"{self.folder}: no folder can be made there ({error.strerror}). Choose another place."
            ) from None

    def _silent(self) -> Iterator[str]:
        """What the shop has no words for yet."""
        shop = self.e.judgement.job.shop
        words = {} if shop is None else {k: getattr(shop.words, k) for k in ("warranty", "storage", "payment")}
        missing = [k for k, said in words.items() if not said]
        if missing:
            yield f"the quote says nothing of {', '.join(missing)}: [quote] in {shop.file if shop else 'shop.toml'} is for that"

    def change(self, found: str) -> Iterator[str]:
        """The change order for a finding, against the last quote in the folder."""
        from transom.errors import JobError
        from transom.estimate.numbered import hand_out, number_of, quoted
        from transom.report.money.papers import change_files

        self._folder()
        number = number_of(self.e.judgement.job, self.job)
        before = quoted(self.folder, f"quote-{number}")
        if before is not None and before.currency != self.e.book.currency:
            raise JobError(
                f"quote {before.name} is in {before.currency}, the price book in {self.e.book.currency}: they cannot be compared"
            )
        stem = f"change-{before.name if before else number}"
        made = hand_out(self.folder, stem, lambda n: change_files(self.e, found, stem, n, before))
        if before is None:
            yield f"no quote of {number} in {self.folder}: compared with today's price of the board alone"
        yield from self._told(
            f"estimate --found {found}", made.files, f"{self.folder / made.name}: stands, nothing has changed"
        )

    def buy(self) -> Iterator[str]:
        """The buy list."""
        from transom.cli.mounted import free_names
        from transom.estimate.numbered import number_of
        from transom.report.money.papers import buy_files

        name = f"buy-{number_of(self.e.judgement.job, self.job)}"
        files = buy_files(self.e, self.ways)
        places = free_names(self.folder, [f"{name}{end}" for end in files], self.force)
        yield from self._put("estimate --buy", dict(zip(places, files.values(), strict=True)))

    def csv(self, target: Path) -> Iterator[str]:
        """Every line as CSV."""
        from transom.report.money.books import to_csv

        yield from self._put("estimate --csv", {target: to_csv(self.e)})

    def book(self, target: Path) -> Iterator[str]:
        """A price book to fill in."""
        from transom.estimate.blank import blank_book
        from transom.job.files import write_atomic

        write_atomic(target, blank_book(self.e), self.force)
        yield f'{target}: written; type over each "?", then `transom estimate {self.job} --prices {target}`'

    def _put(self, command: str, files: dict[Path, str | bytes]) -> Iterator[str]:
        """Several files, none of them where one is there already and not forced."""
        from transom.errors import JobError
        from transom.job.files import write_atomic

        there = [p for p in files if p.exists() or p.is_symlink()]
        if there and not self.force:
            raise JobError(
                *(f"{p}: is there already and is left as it is. Choose another folder, or add --force." for p in there)
            )
        for path, content in files.items():
            write_atomic(path, content, self.force)
        yield from self._told(command, tuple(files), "")

    def _told(self, command: str, files: Sequence[Path], otherwise: str) -> Iterator[str]:
        """Log what was written and say it; else say why nothing was."""
        from transom.cli.log import log

        if not files:
            yield otherwise
            return
        log(self.e.judgement, self.job, command, files)
        yield from (f"{path}: written{BOOKS.get(path.suffix, '')}" for path in files)
