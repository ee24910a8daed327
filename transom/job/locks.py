"""A lock on an open file that dies with its process."""

import os
import sys

_LOCKED_AT = 2**30  # a byte far behind the text: Windows locks forbid reading what they cover

if sys.platform == "win32":
    import msvcrt

    def try_lock(file: int) -> bool:
        """Lock one byte behind the text; False while another has it."""
        os.lseek(file, _LOCKED_AT, os.SEEK_SET)
        try:
            msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
        except PermissionError:
            return False
        return True

    def unlock(file: int) -> None:
        """Give it back."""
        os.lseek(file, _LOCKED_AT, os.SEEK_SET)
        msvcrt.locking(file, msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def try_lock(file: int) -> bool:
        """Lock the file; False while another has it."""
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True

    def unlock(file: int) -> None:
        """Give it back."""
        fcntl.flock(file, fcntl.LOCK_UN)
