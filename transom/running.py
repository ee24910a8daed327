"""How a process that computes is kept quick; no answer hangs on it."""

import gc
import sys
from contextlib import suppress

_TRIM, _MMAP = -1, -3  # M_TRIM_THRESHOLD, M_MMAP_THRESHOLD of <malloc.h>
KEPT, LARGE = 1 << 28, 1 << 25  # bytes


def quick() -> None:
    """Look for rings of dead objects seldom (a command is over in seconds, the looking took a tenth), and keep memory."""
    gc.set_threshold(100_000, 50, 100)
    if sys.platform == "linux":
        _keep_what_is_freed()


def _keep_what_is_freed() -> None:
    """For the next array: glibc would hand it back to the system, and asking again page by page was half of a search."""
    import ctypes

    try:
        mallopt = ctypes.CDLL(None).mallopt
    except (AttributeError, OSError):  # another C library
        return
    mallopt(_TRIM, KEPT)
    mallopt(_MMAP, LARGE)


def hand_back() -> None:
    """Let the system have what is freed, between two parts of a command that each want much."""
    gc.collect()
    if sys.platform == "linux":
        import ctypes

        with suppress(AttributeError, OSError):  # another C library
            ctypes.CDLL(None).malloc_trim(0)
