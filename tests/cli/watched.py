"""Commands run in one process that notes every file it opens to write, makes, moves or removes, and everything else that leaves it.

    python tests/cli/watched.py COMMANDS.json

COMMANDS.json is a list of argument lists. Prints, for each, its exit code, the paths touched, what was started or connected to, and
whether the marker was ever compiled, run or imported. In a process of its own: a hook of this kind cannot be taken off again.
Processes that a command starts are watched too, from their first moment, by `hooked/sitecustomize.py`.
"""

import contextlib
import io
import json
import os
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

MARKER = "zq9".ljust(9, "m")  # never in a source as it stands, since this one is compiled under watch too
NOTES = "TRANSOM_WATCHED"  # folder of the notes of processes started
HOOKED = Path(__file__).with_name("hooked")
WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
TOUCHES = {
    "os.mkdir": 1, "os.rename": 2, "os.remove": 1, "os.rmdir": 1, "os.link": 2, "os.symlink": 2, "os.chmod": 1, "os.chown": 1, "os.truncate": 1,
    "os.utime": 1, "os.setxattr": 1, "os.mkfifo": 1, "os.mknod": 1, "shutil.rmtree": 1, "tempfile.mkstemp": 1, "tempfile.mkdtemp": 1,
}  # fmt: skip
LEAVES = (
    "subprocess.Popen", "os.system", "os.exec", "os.posix_spawn", "os.spawn", "os.fork", "os.forkpty", "socket.", "urllib.", "ftplib.", "smtplib.",
    "http.client.", "webbrowser.open", "pty.spawn", "pickle.find_class", "os.startfile", "ctypes.dlopen/marker",
)  # fmt: skip


class Watch:
    """What has happened since the last look."""

    def __init__(self) -> None:
        self.on = False
        self.touched: list[str] = []
        self.left: list[str] = []

    def touch(self, path: str) -> None:
        """A path was written, made, moved or removed."""
        self.touched.append(path)

    def leave(self, what: str) -> None:
        """Something was started, asked for or run."""
        self.left.append(what)

    def __call__(self, event: str, details: tuple[Any, ...]) -> None:
        """The hook: called for everything that Python reports."""
        if not self.on:
            return
        if event == "open":
            path, mode, flags = details
            if isinstance(path, str | bytes) and (flags & WRITES or (mode and set(mode) & set("wax+"))):
                self.touch(os.fsdecode(path))
        elif event in TOUCHES:
            for p in details[: TOUCHES[event]]:
                if isinstance(p, str | bytes | os.PathLike):
                    self.touch(os.fsdecode(p))
        elif event.startswith(LEAVES):
            self.leave(f"{event} {details!r}"[:200])
        elif event in ("compile", "exec", "import") and self._marked(event, details):
            self.leave(f"{event} of the marker")

    @staticmethod
    def _marked(event: str, details: tuple[Any, ...]) -> bool:
        """Whether code was made of a user's words, or they were imported."""
        if event == "compile":
            source = details[0]
            return MARKER in (
                source.decode("utf-8", "replace")
                if isinstance(source, bytes)
                else source
                if isinstance(source, str)
                else ""
            )
        if event == "exec":
            code = details[0]
            return MARKER in repr((code.co_names, code.co_consts, code.co_filename))
        return MARKER in str(details[0])


class Noted(Watch):
    """A watch in a process that a command started: what it sees stands on disk, since its process may end at any moment."""

    def __init__(self, folder: str) -> None:
        super().__init__()
        # Opened before it looks, and never again: writing to what is open is no event.
        self._at = os.open(Path(folder, f"{os.getpid()}.jsonl"), os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
        self.on = True

    def touch(self, path: str) -> None:
        """Onto the disk."""
        os.write(self._at, json.dumps(["touched", path]).encode() + b"\n")

    def leave(self, what: str) -> None:
        """Onto the disk."""
        os.write(self._at, json.dumps(["left", what]).encode() + b"\n")


def noted(folder: Path) -> Iterator[tuple[str, list[tuple[str, str]]]]:
    """What each process that was started saw, process by process; its notes are gone afterwards."""
    for path in sorted(folder.glob("*.jsonl")):
        yield path.stem, [tuple(json.loads(line)) for line in path.read_bytes().splitlines()]
        path.unlink()


def main() -> int:
    """Always 0: what was seen is judged by whoever reads it."""
    from transom.cli.main import main as transom
    from transom.floor import pack
    from transom.report.html import page

    # Seconds of arithmetic each; `explain` and `verify` go through the same.
    page.grounds = pack.grounds = lambda j: page.Grounds()  # type: ignore[assignment]
    watch, out, notes = Watch(), [], Path(tempfile.mkdtemp())
    os.environ |= {NOTES: str(notes), "PYTHONPATH": f"{HOOKED}{os.pathsep}{os.environ['PYTHONPATH']}"}
    sys.addaudithook(watch)
    for words in json.loads(Path(sys.argv[1]).read_text(encoding="utf-8")):
        said = io.StringIO()
        watch.touched, watch.left, watch.on = [], [], True
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            code = transom(words)
        watch.on = False
        started = [sorted(set(seen)) for _, seen in noted(notes)]
        out.append(
            {
                "words": words,
                "code": code,
                "touched": sorted({*watch.touched, *(x for seen in started for kind, x in seen if kind == "touched")}),
                "left": watch.left + [x for seen in started for kind, x in seen if kind == "left"],
                "started": len(started),
                "said": said.getvalue()[-600:],
            }
        )
    notes.rmdir()
    print(json.dumps(out))
    return 0


if __name__ == "__main__":
    sys.exit(main())
