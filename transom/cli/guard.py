"""What every way into a command shares: exit codes of the contract, one thread, what goes wrong as lines."""

import os
import sys
from collections.abc import Callable

from transom.cli.stream import hush, tell
from transom.errors import JobError, TransomError
from transom.running import quick

PASSES, FAILS = 0, 1
INTERNAL, INTERRUPTED, UNJUDGED = 70, 130, 2


def guarded(run: Callable[[], int], *given_up: type[BaseException]) -> int:
    """What runs a command, run: its exit code, 0, 1, 2, 70 or 130; `given_up` are raised where somebody would not go on."""
    ended: tuple[type[BaseException], ...] = (KeyboardInterrupt, EOFError, *given_up)
    # One thread: small solves wait for threads beside a busy process. Only before numpy loads does it count.
    for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
        os.environ.setdefault(name, "1")
    quick()
    try:
        return run()
    except BrokenPipeError:
        hush(sys.stdout)
        return 0
    except ended:
        tell("interrupted")
        return INTERRUPTED
    except TransomError as error:
        tell(*(error.faults if isinstance(error, JobError) else str(error).splitlines()))
        return UNJUDGED
    except Exception as error:
        tell(
            f"internal error: {type(error).__name__}: {' '.join(str(error).split())}. Nothing was judged; please report it."
        )
        return INTERNAL
