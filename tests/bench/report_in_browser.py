"""The HTML report in a real browser: nothing clipped, no error, no network, on paper in Letter and A4.

    python tests/bench/report_in_browser.py [FOLDER [REPORT ...]]

Needs a chromium on the path (Debian: apt-get install chromium) and pypdfium2. Screenshots, PDFs and
pictures of their pages are left in FOLDER to be looked at. Exits 1 with a line for each fault; 0 and "skipped" where there is no browser.
"""

import base64
import fcntl
import json
import os
import shutil
import sys
import tempfile
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))

PHONE, DESK = 360, 1280
DERIVED = ("failing",)  # the reports that carry their derivations
PAPERS = {"letter": (8.5, 11.0), "a4": (8.27, 11.69)}  # in
ALONE = (
    "Weakest link",
    "Pencil line",
    "Not looked at",
    "Stops passed over",
    "Sign-off",
    "accepted by",
    "SHA-256",
    "page 1 of",
)
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage", "--remote-debugging-pipe",
)  # fmt: skip
# In a window `wide`, which a phone would zoom out of where the page is wider, so that it is told and not asked for:
# every box of the page, those made invisible for sighted readers apart, and words of a drawing within the drawing.
FAULTS = """(wide => {
  const out = [];
  const name = e => e.tagName + '.' + (e.getAttribute('class') || '') + ' ' + (e.textContent || '').trim().slice(0, 50);
  if (document.scrollingElement.scrollWidth > wide) out.push('page is ' + document.scrollingElement.scrollWidth + ' wide');
  for (const e of document.body.querySelectorAll('*')) {
    if (e.closest('.unseen, .rows thead')) continue;
    const r = e.getBoundingClientRect();
    if (r.width && (r.right > wide + 1 || r.left < -1)) out.push('over the edge: ' + name(e));
    if (!(e instanceof SVGElement) && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX !== 'visible' && e.clientWidth > 1)
      out.push('clipped: ' + name(e));
    const svg = e.ownerSVGElement;
    if (svg && e.tagName === 'text') {
      const s = svg.getBoundingClientRect();
      if (r.left < s.left - 1 || r.right > s.right + 1 || r.top < s.top - 1 || r.bottom > s.bottom + 1) out.push('off its drawing: ' + name(e));
      if (r.height < 7) out.push('too small to read: ' + name(e));
    }
  }
  if (document.scripts.length) out.push('there is a script');
  return out;
})"""


class Browser:
    """A chromium at the end of two pipes, driven by its own protocol."""

    def __init__(self, program: str, home: str) -> None:
        to_child, self._out = os.pipe()
        self._in, from_child = os.pipe()
        # Out of the way of 3 and 4, which is where the browser looks.
        high = [fcntl.fcntl(end, fcntl.F_DUPFD_CLOEXEC, 30) for end in (to_child, from_child)]
        quiet = [(os.POSIX_SPAWN_OPEN, n, os.devnull, os.O_WRONLY, 0) for n in (1, 2)]
        wired = [(os.POSIX_SPAWN_DUP2, end, n) for end, n in zip(high, (3, 4), strict=True)]
        arguments = [program, *FLAGS, f"--user-data-dir={home}", "about:blank"]
        self._process = os.posix_spawn(program, arguments, os.environ, file_actions=[*quiet, *wired])
        for end in (to_child, from_child, *high):
            os.close(end)
        self._kept, self._number = b"", 0
        self.events: list[dict[str, Any]] = []
        target = self("Target.createTarget", url="about:blank", tab="")["targetId"]
        self.tab = self("Target.attachToTarget", targetId=target, flatten=True, tab="")["sessionId"]
        for room in ("Page", "Runtime", "Log", "Network"):
            self(f"{room}.enable")

    def __call__(self, method: str, tab: str | None = None, **parameters: Any) -> Any:
        """Ask and wait for the answer; what happens meanwhile is kept in `events`."""
        self._number += 1
        asked: dict[str, Any] = {"id": self._number, "method": method, "params": parameters}
        tab = getattr(self, "tab", "") if tab is None else tab
        os.write(self._out, json.dumps(asked | ({"sessionId": tab} if tab else {})).encode() + b"\0")
        while True:
            said = self._next()
            if said.get("id") == self._number:
                if "error" in said:
                    raise RuntimeError(f"{method}: {said['error']}")
                return said["result"]
            self.events.append(said)

    def _next(self) -> dict[str, Any]:
        while b"\0" not in self._kept:
            data = os.read(self._in, 1 << 16)
            if not data:
                raise RuntimeError("the browser is gone")
            self._kept += data
        line, _, self._kept = self._kept.partition(b"\0")
        found: dict[str, Any] = json.loads(line)
        return found

    def open(self, page: Path, width: int) -> None:
        """Load a file in a window so wide."""
        self("Emulation.setDeviceMetricsOverride", width=width, height=800, deviceScaleFactor=1, mobile=width < 600)
        self.events.clear()
        self("Page.navigate", url=page.as_uri())
        while not any(e.get("method") == "Page.loadEventFired" for e in self.events):
            self.events.append(self._next())

    def run(self, expression: str) -> Any:
        """The value of an expression on the page."""
        return self("Runtime.evaluate", expression=expression, returnByValue=True)["result"].get("value")

    def close(self) -> None:
        """End the browser that this object started."""
        self("Browser.close", tab="")
        os.waitpid(self._process, 0)


def reports(folder: Path, names: Sequence[str]) -> dict[str, tuple[Path, bool]]:
    """Reports to look at: file and whether its mount passes."""
    from tests.report.jobs import drawn, job
    from transom.catalogue import SHIPPED
    from transom.job.read import load
    from transom.judge.judging import judge
    from transom.report.cures_by_mount import cures_of_failing_mount
    from transom.report.html.page import grounds, to_html

    runabout = load(ROOT / "examples" / "runabout-60hp.toml")
    good = drawn("example")
    assert runabout.mount is not None
    assert good.mount is not None
    weak = replace(good.mount, layers=good.mount.layers[:1])
    words = "<script>alert(1)</script> \"q\" 'q' \u05e9\u05dc\u05d5\u05dd \u202eabc " + "long " * 200 + "x" * 9000
    odd = replace(good.job, head=replace(good.job.head, name=words, number=words[:300]),
                  sign=replace(good.job.sign, made_by=words[:200], checked_by=words[:200]))  # fmt: skip
    found = {
        "runabout": judge(runabout, SHIPPED, runabout.mount),
        "failing": judge(job("example"), SHIPPED, weak),
        "accepted": drawn("accepted"),
        "clamps": drawn("clamps"),
        "odd": replace(good, job=odd),
    }
    out = {}
    for name, j in found.items():
        if names and name not in names:
            continue
        path = folder / f"{name}.html"
        below = grounds(j) if name in DERIVED else None
        path.write_text(
            to_html(j, cures_of_failing_mount(j.job, SHIPPED) if j.failing else (), below), encoding="utf-8"
        )
        out[name] = (path, j.passes)
    only = os.environ.get("ONLY")
    return {k: v for k, v in out.items() if not only or k in only.split(",")}


def screens(browser: Browser, name: str, page: Path, folder: Path) -> Iterator[str]:
    """Faults of a page on a phone and on a desk; its screenshots."""
    for width in (PHONE, DESK):
        browser.open(page, width)
        yield from (f"{name} at {width}: {fault}" for fault in browser.run(f"{FAULTS}({width})"))
        yield from (f"{name} at {width}: {fault}" for fault in said(browser, page))
        high = min(16000, browser.run("Math.ceil(document.documentElement.scrollHeight)"))
        clip = {"x": 0, "y": 0, "width": width, "height": high, "scale": 1}
        shot = browser("Page.captureScreenshot", clip=clip, captureBeyondViewport=True)
        (folder / f"{name}-{width}.png").write_bytes(base64.b64decode(shot["data"]))


def said(browser: Browser, page: Path) -> Iterator[str]:
    """What the browser complained of, and whatever it asked for besides the file."""
    for event in browser.events:
        method, p = event.get("method"), event.get("params", {})
        if method in ("Runtime.exceptionThrown", "Runtime.consoleAPICalled"):
            yield f"console: {json.dumps(p)[:200]}"
        if method == "Log.entryAdded":
            yield f"log: {p['entry']['text'][:200]}"
        if method == "Network.requestWillBeSent" and p["request"]["url"] != page.as_uri():
            yield f"asked the network for {p['request']['url'][:100]}"


def prints(browser: Browser, name: str, page: Path, passes: bool, folder: Path, pictures: bool) -> Iterator[str]:
    """Faults of a page on paper; its PDFs and their pages as pictures."""
    import pypdfium2

    browser.open(page, DESK)
    for paper, (wide, high) in PAPERS.items():
        made = browser(
            "Page.printToPDF", paperWidth=wide, paperHeight=high, printBackground=False, preferCSSPageSize=False
        )
        pdf = folder / f"{name}-{paper}.pdf"
        pdf.write_bytes(base64.b64decode(made["data"]))
        pages = list(pypdfium2.PdfDocument(pdf))
        texts = [unicodedata.normalize("NFKC", page.get_textpage().get_text_range()) for page in pages]
        for n, text in enumerate(texts, 1):
            start = " ".join(text.split())
            if not any(word in start for word in ("QUOTE", "CUT", "RECORD")):
                yield f"{name} {paper}: page {n} does not say which paper it is"
            if ("DOES NOT PASS" in start) == passes:
                yield f"{name} {paper}: page {n} says DOES NOT PASS where it passes, or does not where it fails"
            if "Not a survey" not in start:
                yield f"{name} {paper}: page {n} carries no caution"
        first = " ".join(texts[0].split())
        missing = [words for words in ALONE if words.lower() not in first.lower()]
        if name != "odd" and missing:
            yield f"{name} {paper}: page one does not stand alone, it lacks {', '.join(missing)}"
        for n, sheet in enumerate(pages if pictures else (), 1):
            sheet.render(scale=1.2).to_pil().save(folder / f"{name}-{paper}-{n:02d}.png")
        print(f"{name:9} {paper:6} {len(texts)} pages")


def main() -> int:
    """Look at every report; a line for each fault."""
    program = shutil.which("chromium") or shutil.which("chromium-browser")
    if program is None:
        print("skipped: no chromium here")
        return 0
    faults = []
    with tempfile.TemporaryDirectory() as home:
        folder = Path(sys.argv[1] if len(sys.argv) > 1 else home).resolve()
        folder.mkdir(exist_ok=True)
        browser = Browser(program, home)
        for name, (page, passes) in reports(folder, sys.argv[2:]).items():
            faults += screens(browser, name, page, folder)
            faults += prints(browser, name, page, passes, folder, len(sys.argv) > 1)
        browser.close()
    print("\n".join(faults) or "nothing clipped, no error, no network, every printed page says what it is")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
