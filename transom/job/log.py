"""The log beside a job: one line of JSON for each time a command made paper.

`boat.toml` has `boat.log.jsonl`. A line is ASCII, ends in a line feed and is written in one go under a lock
that dies with its process; a line torn by a kill stays as it is, and the next one starts on a line of its
own. The only clock of the tool reads here. What cannot be logged is a warning: paper is never held up by it.
"""

import contextlib
import datetime as dt
import json
import os
import time
from collections.abc import Iterator, Sequence
from pathlib import Path

from transom import __version__
from transom.job.locks import try_lock, unlock
from transom.job.records import Job

PATIENCE = 10.0  # s to wait for another process that is writing


def log_of(job: Path) -> Path:
    """The log beside a job's file."""
    return job.with_name(f"{job.stem}.log.jsonl")


def log_paper(path: Path, job: Job, command: str, result: str, made: Sequence[Path | str] = ()) -> tuple[str, ...]:
    """Append one line to the log of the job in `path`: time, version, input hash, command, result, files made.

    Returns:
        Warnings for stderr, one line each; none where the line was written.
    """
    entry = {
        "time": dt.datetime.now().astimezone().isoformat(timespec="seconds"),
        "version": __version__,
        "job": path.name,
        **_inputs(job),
        "command": command,
        "result": result,
        "made": [str(each) for each in made],
    }
    return append(log_of(path), json.dumps(entry))


def _inputs(job: Job) -> dict[str, str]:
    """The hashes of what was read: the job's bytes, and the shop's file where there is one."""
    return {"sha256": job.sha256} | ({"shop_sha256": job.shop.sha256} if job.shop is not None else {})


def append(log: Path, line: str) -> tuple[str, ...]:
    """Write one line behind the others; warnings where that fails, and then nothing of it stays."""
    try:
        with _opened(log) as file, _locked(file):
            _put(file, line.encode("ascii", "backslashreplace"))
    except OSError as error:
        why = " ".join(str(error.strerror or error).split()).lower()
        return (f"warning: {log}: not logged ({why}). What was made is whole; note it by hand.",)
    return ()


@contextlib.contextmanager
def _opened(log: Path) -> Iterator[int]:
    """The file for reading and appending, made where there is none."""
    flags = os.O_RDWR | os.O_APPEND | os.O_CREAT
    # Not through a link: what that points at lies elsewhere, and nobody gave its name.
    for name in ("O_BINARY", "O_NONBLOCK", "O_NOINHERIT", "O_NOFOLLOW"):
        flags |= getattr(os, name, 0)
    file = os.open(log, flags, 0o666)
    try:
        yield file
    finally:
        os.close(file)


def _put(file: int, line: bytes) -> None:
    """One write of a whole line, on a line of its own even where the last one was torn."""
    end = os.lseek(file, 0, os.SEEK_END)
    torn = False
    if end:
        os.lseek(file, end - 1, os.SEEK_SET)
        torn = os.read(file, 1) != b"\n"
    data = b"\n" * torn + line + b"\n"
    written = os.write(file, data)
    if written != len(data):
        os.ftruncate(file, end)
        raise OSError(0, "the disk took half a line")
    os.fsync(file)


@contextlib.contextmanager
def _locked(file: int) -> Iterator[None]:
    """The file to ourselves, among processes that ask in the same way; gone with the process.

    Raises:
        OSError: others held it for all of `PATIENCE`.
    """
    until = time.monotonic() + PATIENCE
    while not try_lock(file):
        if time.monotonic() > until:
            raise OSError(0, "another process keeps it locked")
        time.sleep(0.005)
    try:
        yield
    finally:
        unlock(file)
