"""Files: the only job in a folder, text as it stands, and writing that never leaves half a file."""

import contextlib
import os
import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from transom.errors import JobError

MOST_BYTES = 1_000_000
NOT_JOBS = frozenset({"shop.toml", "pyproject.toml"})
_WIDE = {b"\xff\xfe": "UTF-16", b"\xfe\xff": "UTF-16"}
_SECTION = r"^[ \t]*\[[ \t]*{}[ \t]*(?:\.|\])"


def text_of(path: Path) -> str:
    """The file's text as it stands: line ends kept, and the byte order mark if there is one.

    Raises:
        JobError: it is not there, not a file, too large, or not UTF-8.
    """
    try:
        large = path.is_file() and path.stat().st_size > MOST_BYTES
        data = b"" if large else path.read_bytes()
    except FileNotFoundError:
        raise JobError(f"{path}: no such file. Check its name, or leave JOB out for the only one here.") from None
    except (OSError, ValueError) as error:
        raise JobError(f"{path}: cannot be read ({why(error)}). Name a job file.") from None
    if large:
        raise JobError(f"{path}: larger than 1 MB, no job file. Name the job's own file.")
    return _decoded(path, data)


def why(error: OSError | ValueError) -> str:
    """The reason in a few words, on one line."""
    return " ".join(str(getattr(error, "strerror", None) or error).split()).lower()


def _decoded(path: Path, data: bytes) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        form = _WIDE.get(data[:2], f"not UTF-8 from line {line} on")
        raise JobError(f"{path}: the text is {form}. Save it as UTF-8 in the editor.") from None


def the_only_job(folder: Path | str) -> Path:
    """The one file in the folder that is a job: TOML with [boat] and [engine].

    Raises:
        JobError: there is none, or there are several.
    """
    folder = Path(folder)
    found = [p for p in sorted(folder.glob("*.toml")) if looks_like_job(p)]
    if not found:
        raise JobError(f"no job file in {folder.resolve()}. Name one, or write one with `transom new`.")
    if len(found) > 1:
        names = ", ".join(p.name for p in found)
        raise JobError(f"{len(found)} job files in {folder.resolve()}: {names}. Say which.")
    return found[0]


def looks_like_job(path: Path) -> bool:
    """By its sections alone, so that a job with a fault in it is found and the fault told."""
    if path.name.lower() in NOT_JOBS or path.name.startswith(".") or not path.is_file():
        return False
    try:
        text = text_of(path)
    except JobError:
        return False
    return all(re.search(_SECTION.format(name), text, re.MULTILINE) for name in ("boat", "engine"))


def write_atomic(path: Path | str, text: str | bytes, force: bool = False) -> None:
    """Write the whole file or nothing; line ends as they stand in the text.

    Raises:
        JobError: something is there already and `force` was not given, or it cannot be written.
    """
    data = text.encode("utf-8") if isinstance(text, str) else text
    with _draft(Path(path), force) as draft:
        _put(draft, data, like=Path(path).resolve())


@contextlib.contextmanager
def written_whole(path: Path, force: bool = False) -> Iterator[BinaryIO]:
    """A file to write into piece by piece, that stands under its name once all of it does.

    Raises:
        JobError: as `write_atomic`.
    """
    with _draft(path, force) as draft, draft.open("xb") as out:
        yield out
        out.flush()
        os.fsync(out.fileno())


@contextlib.contextmanager
def _draft(path: Path, force: bool) -> Iterator[Path]:
    """A name beside the file to write under, which takes the file's own once what is done with it went well."""
    import secrets

    free(path, force)
    target = path.resolve()
    draft = target.with_name(f".{target.name[:100]}.{secrets.token_hex(4)}.part")
    try:
        yield draft
        free(path, force)
        draft.replace(target)
    except OSError as error:
        raise JobError(f"{path}: cannot be written ({why(error)}). Choose another place.") from None
    finally:
        with contextlib.suppress(OSError):
            draft.unlink()


def free(path: Path, force: bool) -> None:
    """See that a file may be written there, before work is put into it.

    Raises:
        JobError: something is there already and `force` was not given, or there is no such folder.
    """
    if path.is_dir():
        raise JobError(f"{path}: is a folder. Name a file in it.")
    if not force and (path.exists() or path.is_symlink()):
        raise JobError(f"{path}: is there already and is left as it is. Choose another name, or add --force.")
    if not path.resolve().parent.is_dir():
        raise JobError(f"{path}: the folder is not there. Make it first.")


def no_link(path: Path) -> None:
    """See that a name which nobody typed, since it is made of another, is no link: what it points at lies elsewhere.

    Raises:
        JobError: it is one.
    """
    if path.is_symlink():
        raise JobError(f"{path}: is a link and may lead elsewhere. Remove it, or choose another place.")


def _put(draft: Path, data: bytes, like: Path) -> None:
    """The draft on disk, with the permissions of the file that it replaces."""
    with draft.open("xb") as out:
        out.write(data)
        out.flush()
        os.fsync(out.fileno())
    if like.exists():
        shutil.copymode(like, draft)
