"""Commands run in one process that notes every file it opens to write, makes, moves or removes, and everything else that leaves it.

    python tests/cli/watched.py COMMANDS.json

COMMANDS.json is a list of argument lists. Prints, for each, its exit code, the paths touched, what was started or connected to, and
whether the marker was ever compiled, run or imported. In a process of its own: a hook of this kind cannot be taken off again.
"""

import contextlib
import io
import json
import os
import sys
from pathlib import Path
from typing import Any

MARKER = "zq9marker"
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

    def __call__(self, event: str, details: tuple[Any, ...]) -> None:
        """The hook: called for everything that Python reports."""
        if not self.on:
            return
        if event == "open":
            path, mode, flags = details
            if isinstance(path, str | bytes) and (flags & WRITES or (mode and set(mode) & set("wax+"))):
                self.touched.append(os.fsdecode(path))
        elif event in TOUCHES:
            self.touched += [
                os.fsdecode(p) for p in details[: TOUCHES[event]] if isinstance(p, str | bytes | os.PathLike)
            ]
        elif event.startswith(LEAVES):
            self.left.append(f"{event} {details!r}"[:200])
        elif event in ("compile", "exec", "import") and self._marked(event, details):
            self.left.append(f"{event} of the marker")

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


def main() -> int:
    """Always 0: what was seen is judged by whoever reads it."""
    from transom.cli.main import main as transom
    from transom.floor import pack
    from transom.report.html import page

    # Seconds of arithmetic each; `explain` and `verify` go through the same.
    page.grounds = pack.grounds = lambda j: page.Grounds()  # type: ignore[assignment]
    watch, out = Watch(), []
    sys.addaudithook(watch)
    for words in json.loads(Path(sys.argv[1]).read_text(encoding="utf-8")):
        said = io.StringIO()
        watch.touched, watch.left, watch.on = [], [], True
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            code = transom(words)
        watch.on = False
        out.append(
            {
                "words": words,
                "code": code,
                "touched": sorted(set(watch.touched)),
                "left": watch.left,
                "said": said.getvalue()[-600:],
            }
        )
    print(json.dumps(out))
    return 0


if __name__ == "__main__":
    sys.exit(main())
