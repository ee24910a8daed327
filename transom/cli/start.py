"""Where `transom` begins: the lines a shop types all day run straight, every other through Typer."""

import sys
from collections.abc import Sequence

from transom.cli.guard import guarded
from transom.cli.plainly import plain


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code: 0, 1, 2, 70 or 130."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    straight = plain(given)
    if straight is not None:
        return guarded(straight)
    from transom.cli.main import main as every

    return every(given)
