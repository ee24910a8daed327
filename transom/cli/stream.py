"""Writing to the terminal: what its encoding holds, and quiet where the reader has gone."""

import contextlib
import os
import sys
from collections.abc import Iterable
from typing import TextIO

from transom.errors import JobError


def say(lines: Iterable[str]) -> None:
    """The answer, on stdout."""
    _put(sys.stdout, "\n".join(lines) + "\n")


def tell(*lines: str) -> None:
    """Everything else, on stderr; one line each."""
    _put(sys.stderr, "".join(f"{line}\n" for line in lines))


def as_json(data: object) -> list[str]:
    """Data to say as JSON. Raises ValueError where a number is NaN or infinite."""
    import json

    return [json.dumps(data, indent=1, ensure_ascii=False, allow_nan=False)]


def _put(stream: TextIO, text: str) -> None:
    from transom.report.text import printable

    try:
        stream.write(printable(text, stream.encoding))
        stream.flush()
    except BrokenPipeError:
        hush(stream)
    except OSError as error:
        # A pipe closed by its reader is EINVAL on Windows.
        hush(stream)
        if os.name != "nt" or error.errno != 22:
            from transom.job.files import why

            raise JobError(f"the answer cannot be written ({why(error)}). Send it elsewhere, or free room.") from None


def hush(stream: TextIO) -> None:
    """Let the stream's reader be gone, so that Python does not complain when it flushes at the end."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
