"""A command writes only under the paths it was given and the log beside the job; it starts, loads and asks nothing else."""

import ast
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.cli.watched import MARKER
from tests.fuzz.laws import jobs
from tests.test_harmless import JOB, PLACES, SHOP, filled
from transom.catalogue.tables import folder as tables
from transom.cli.main import main
from transom.drawing import no_fonts

ROOT = Path(__file__).parents[2]
EVIL = f"__import__('{MARKER}').x({MARKER!r}) {{{{ {MARKER} }}}} ${{{MARKER}}} !!python/object:{MARKER}"
SYMBOL = f"sqrt({MARKER}) * lambda"


def text_of(history: str) -> str:
    said = dict.fromkeys(PLACES, json.dumps(EVIL))
    text = jobs()["pontoon-40hp"].split("[sign]")[0].split("[quote]")[0]
    return text.replace("[job]", f"[job]\nhistory = {json.dumps(history)}", 1) + filled(JOB, said)


# Words, and the paths it may touch; JOB is the job, OUT a folder that is there.
COMMANDS: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...] = (
    (("size", "JOB", "--json", "--write", "OUT/sized.toml"), ("OUT/sized.toml",)),
    (("review", "JOB", "--html", "OUT/review.html", "--maps", "OUT/maps"), ("OUT/review.html", "OUT/maps", "LOG")),
    (("draw", "JOB", "--out", "OUT/drawn", "--despite-failure"), ("OUT/drawn", "LOG")),
    (("estimate", "JOB", "--quote", "--found", "wet", "--buy", "--out", "OUT/papers", "--csv", "OUT/lines.csv", "--write-prices", "OUT/prices.toml",
      "--despite-failure"), ("OUT/papers", "OUT/lines.csv", "OUT/prices.toml", "LOG")),
    (("steps", "JOB", "--pdf", "OUT/steps.pdf", "--despite-failure"), ("OUT/steps.pdf", "LOG")),
    (("record", "JOB", "--pdf", "OUT/record.pdf", "--despite-failure"), ("OUT/record.pdf", "LOG")),
    (("new", "OUT/new.toml", "--blank"), ("OUT/new.toml",)),
    (("new", "OUT/field.pdf", "--field-sheet", "--filled-from", "JOB"), ("OUT/field.pdf",)),
    (("explain", "JOB"), ()),
    (("materials", "panels"), ()),
    (("verify", "--html", "OUT/verify.html"), ("OUT/verify.html",)),
    (("pack", "JOB", "--out", "OUT/pack", "--despite-failure"), ("OUT/pack", "LOG")),
    # Tricks: a folder, a device, the job itself, up and out of a folder that is not there.
    (("review", "JOB", "--html", "OUT"), ()),
    (("steps", "JOB", "--pdf", "OUT/none/../../out/up.pdf", "--despite-failure"), ("OUT/up.pdf", "LOG")),
    (("draw", "JOB", "--out", "/dev/null", "--despite-failure"), ()),
    (("estimate", "JOB", "--csv", "/dev/full", "--despite-failure"), ()),
)  # fmt: skip


class Ran:
    """A folder in which everything ran, and what was seen."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.job, self.out = folder, folder / "jobs" / "job.toml", folder / "out"
        self.places = {"JOB": str(self.job), "OUT": str(self.out), "LOG": str(self.job.with_name("job.log.jsonl"))}
        for name in ("jobs", "out", "home", "tmp", "elsewhere"):
            (folder / name).mkdir()
        said = dict.fromkeys(PLACES, json.dumps(EVIL))
        self.job.write_text(text_of(SYMBOL), encoding="utf-8")
        self.job.with_name("shop.toml").write_text(filled(SHOP, said), encoding="utf-8")
        # The shop's own prices: the shipped ones, and one of them another.
        book = (tables() / "price_book" / "invented.toml").read_text(encoding="utf-8")
        own = re.sub(r"(?m)^(invented|says) = .*\n", "", book).replace(
            "[book]", f"[book]\nsays = {json.dumps(EVIL)}", 1
        )
        own = re.sub(r"(?m)^price = .*$", "price = 39.0", own, count=1).replace("half = 38.0", "half = 25.0")
        self.job.with_name("prices.toml").write_text(own, encoding="utf-8")
        (folder / "commands.json").write_text(
            json.dumps([[self.place(w) for w in words] for words, _ in COMMANDS]), encoding="utf-8"
        )
        self.before = self.tree()
        env = {"PATH": os.environ["PATH"], "HOME": str(folder / "home"), "TMPDIR": str(folder / "tmp"), "PYTHONPATH": str(ROOT),
               "PYTHONDONTWRITEBYTECODE": "1", "OPENBLAS_NUM_THREADS": "1", "XDG_CACHE_HOME": str(folder / "home" / "cache")}  # fmt: skip
        done = subprocess.run([sys.executable, ROOT / "tests" / "cli" / "watched.py", folder / "commands.json"], cwd=folder / "elsewhere",
                              env=env, capture_output=True, text=True, check=True)  # fmt: skip
        self.seen: list[dict[str, Any]] = json.loads(done.stdout.splitlines()[-1])

    def place(self, word: str) -> str:
        for name, path in self.places.items():
            word = path + word[len(name) :] if word == name or word.startswith(f"{name}/") else word
        return word

    def tree(self) -> dict[str, bytes]:
        return {str(p.relative_to(self.folder)): p.read_bytes() for p in self.folder.rglob("*") if p.is_file()}


@pytest.fixture(scope="module")
def ran(tmp_path_factory: pytest.TempPathFactory) -> Ran:
    return Ran(tmp_path_factory.mktemp("watched"))


@pytest.mark.parametrize("at", range(len(COMMANDS)), ids=lambda i: "-".join(COMMANDS[i][0][:3:2]).replace("/", "_"))
def test_every_path_it_touches_is_one_it_was_given(ran: Ran, at: int) -> None:
    seen, (words, given) = ran.seen[at], COMMANDS[at]
    assert (
        seen["code"] in (0, 1)
        if given or len(words) < 4 or "--json" in words or "--speed" in words
        else seen["code"] == 2
    ), seen["said"]
    allowed = [Path(ran.place(g)) for g in given]
    for touched in seen["touched"]:
        path = Path(touched)
        # A draft lies beside the file that it becomes.
        drafts = [
            a
            for a in allowed
            if path.parent == a.parent and path.name.startswith(f".{a.name[:100]}.") and path.name.endswith(".part")
        ]
        assert any(path == a or a in path.parents for a in allowed) or drafts or touched == os.devnull, touched
    assert bool(seen["touched"]) >= bool(given)


def test_nothing_is_started_asked_for_or_run_and_words_of_a_user_are_no_code(ran: Ran) -> None:
    assert [line for seen in ran.seen for line in seen["left"]] == []


def test_nothing_lies_anywhere_else_afterwards(ran: Ran) -> None:
    after = ran.tree()
    new = {name for name in after if after[name] != ran.before.get(name)}
    assert not set(ran.before) - set(after)
    assert {name.split("/")[0] for name in new} <= {"out", "jobs"}
    assert {name for name in new if name.startswith("jobs/")} == {"jobs/job.log.jsonl"}
    assert not any(name.endswith(".part") for name in after)


RUNS_TEXT = {"eval", "exec", "compile", "__import__", "parse_expr", "lambdify", "literal_eval", "system", "popen"}
UNPACKS = {
    "pickle",
    "cPickle",
    "dill",
    "marshal",
    "shelve",
    "yaml",
    "subprocess",
    "code",
    "codeop",
    "runpy",
    "pty",
    "ctypes",
    "socket",
    "urllib",
    "http",
}
SOURCES = sorted((ROOT / "transom").rglob("*.py"))


def test_no_line_of_the_tool_runs_text_unpacks_objects_or_opens_a_connection() -> None:
    """`re.compile` is no such thing; numpy's loaders and sympy's reader of text are."""
    found = []
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names: list[str] = []
            if isinstance(node, ast.Import | ast.ImportFrom):
                names = [a.name.split(".")[0] for a in node.names] + [
                    (getattr(node, "module", None) or "").split(".")[0]
                ]
                found += [f"{path.name}:{node.lineno} {n}" for n in names if n in UNPACKS]
            elif isinstance(node, ast.Call):
                called = ast.unparse(node.func)
                last = called.rpartition(".")[2]
                if (last in RUNS_TEXT and called != "re.compile") or called in ("np.load", "np.loadtxt", "np.fromfile"):
                    found.append(f"{path.name}:{node.lineno} {called}")
                if last == "sympify" and not any(k.arg == "strict" for k in node.keywords):
                    found.append(f"{path.name}:{node.lineno} sympify reads text unless strict")
                if last == "Environment" and not any(k.arg == "autoescape" for k in node.keywords):
                    found.append(f"{path.name}:{node.lineno} templates that escape nothing")
    assert found == []


def test_the_watch_sees_what_it_is_for(tmp_path: Path) -> None:
    """A write, a removal, a process and code of the marker."""
    script = (
        "import sys; sys.path[:0] = sys.argv[1:2]\n"
        "from tests.cli.watched import Watch, MARKER\nw = Watch(); sys.addaudithook(w); w.on = True\n"
        "import os, subprocess\nopen(sys.argv[2], 'w').close(); os.remove(sys.argv[2])\n"
        "subprocess.run(['true']); eval(f'[{MARKER!r}]')\nw.on = False\n"
        "assert w.touched == [sys.argv[2]] * 2, w.touched\n"
        "assert any('Popen' in x for x in w.left) and any('marker' in x for x in w.left), w.left\n"
    )
    subprocess.run([sys.executable, "-c", script, ROOT, tmp_path / "x"], check=True)


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_a_link_in_the_logs_place_is_not_followed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job, other = tmp_path / "job.toml", tmp_path / "other"
    job.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    other.write_text("mine", encoding="utf-8")
    job.with_name("job.log.jsonl").symlink_to(other)
    assert main(["steps", str(job), "--pdf", str(tmp_path / "steps.pdf")]) == 0
    assert other.read_text(encoding="utf-8") == "mine"
    assert "not logged" in capsys.readouterr().err


@pytest.mark.parametrize("form", [0, 2, 99])
def test_the_drawing_library_writes_no_list_of_fonts_whatever_its_form(form: int, tmp_path: Path) -> None:
    """In a process of its own, since it looks once, when it is imported."""
    script = (
        "import sys; sys.path[:0] = sys.argv[1:2]\nfrom transom.drawing import no_fonts\n"
        "no_fonts._form = lambda: int(sys.argv[2])\nwith no_fonts.without_fonts():\n    import ezdxf\nassert ezdxf.new('R2010')\n"
    )
    listed = no_fonts.LIST.read_bytes()
    env = {**os.environ, "HOME": str(tmp_path), "PYTHONDONTWRITEBYTECODE": "1"} | {
        no_fonts.CACHE: str(tmp_path / "cache")
    }
    done = subprocess.run(
        [sys.executable, "-c", script, ROOT, str(form)], env=env, check=True, capture_output=True, text=True
    )
    assert (done.stdout, done.stderr) == ("", "")
    assert list(tmp_path.iterdir()) == []
    assert no_fonts.LIST.read_bytes() == listed


def test_the_list_of_no_fonts_has_the_form_that_the_library_reads() -> None:
    assert no_fonts._place() == no_fonts.LIST.parents[1]


WRITERS = (
    ("steps", "JOB", "--pdf", "TARGET", "--despite-failure", "--force"),
    ("record", "JOB", "--pdf", "TARGET", "--despite-failure", "--force"),
    ("estimate", "JOB", "--csv", "TARGET", "--despite-failure", "--force"),
    ("estimate", "JOB", "--write-prices", "TARGET", "--force"),
    ("review", "JOB", "--html", "TARGET", "--force"),
)


@pytest.mark.parametrize("words", WRITERS, ids=lambda w: w[0] + w[2])
@pytest.mark.parametrize("trick", ["itself", "dots", "link"])
def test_paper_is_never_written_over_the_job_it_is_made_of(
    words: tuple[str, ...], trick: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    link = tmp_path / "link"
    link.symlink_to(job)
    target = {"itself": job, "dots": tmp_path / "." / ".." / tmp_path.name / "job.toml", "link": link}[trick]
    assert main([str(job) if w == "JOB" else str(target) if w == "TARGET" else w for w in words]) == 2
    assert job.read_text(encoding="utf-8") == jobs()["pontoon-40hp"]
    assert "is the job itself" in capsys.readouterr().err


@pytest.mark.parametrize(
    "words",
    [
        ("estimate", "JOB", "--buy", "--out", "OUT", "--despite-failure", "--force"),
        ("review", "JOB", "--maps", "OUT", "--force"),
    ],
    ids=["buy", "maps"],
)
def test_a_link_in_a_folder_of_papers_is_not_followed(
    words: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, out, other = tmp_path / "job.toml", tmp_path / "out", tmp_path / "other"
    job.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    out.mkdir()
    asked = [str(job) if w == "JOB" else str(out) if w == "OUT" else w for w in words]
    assert main(asked) == 0
    made = sorted(out.iterdir())
    assert made
    made[0].unlink()
    other.write_text("mine", encoding="utf-8")
    made[0].symlink_to(other)
    capsys.readouterr()
    assert main(asked) == 2
    assert "is a link" in capsys.readouterr().err
    assert other.read_text(encoding="utf-8") == "mine"


def test_a_chart_is_not_drawn_over_its_job(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job, link = tmp_path / "job.toml", tmp_path / "chart.svg"
    job.write_text(jobs()["pontoon-40hp"], encoding="utf-8")
    link.symlink_to(job)
    assert main(["chart", str(job), "--out", str(link), "--force"]) == 2
    assert "is the job itself" in capsys.readouterr().err
