"""A command writes only under the paths it was given and the log beside the job; it starts, loads and asks nothing else."""

import ast
import csv
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any, get_args, get_type_hints

import pytest
from typer.models import OptionInfo

from tests.cli.watched import HOOKED, MARKER, NOTES, noted
from tests.fuzz.laws import jobs, saved
from tests.test_harmless import JOB, PLACES, SHOP, filled
from transom.catalogue.tables import folder as tables
from transom.cli.main import app
from transom.drawing import no_fonts

ROOT = Path(__file__).parents[2]
EVIL = f"__import__('{MARKER}').x({MARKER!r}) {{{{ {MARKER} }}}} ${{{MARKER}}} !!python/object:{MARKER}"
SYMBOL = f"sqrt({MARKER}) * lambda"


def text_of(history: str) -> str:
    said = dict.fromkeys(PLACES, json.dumps(EVIL))
    text = jobs()["pontoon-40hp"].split("[sign]")[0].split("[quote]")[0]
    return text.replace("[job]", f"[job]\nhistory = {json.dumps(history)}", 1) + filled(JOB, said)


DONE, REFUSED = (0, 1), (2,)
BATCH = ("--pencil", "--workers", "1", "--out")
# Words, the paths it may touch and does, and how it may end. JOB is the job, TRIED another, JOBS a folder of jobs, TABLE a table of them,
# SAVED a judgement, LOG the log beside the job, OUT a folder that is there.
COMMANDS: tuple[tuple[tuple[str, ...], tuple[str, ...], tuple[int, ...]], ...] = (
    (("size", "JOB", "--json", "--write", "OUT/sized.toml", "--maps", "OUT/sizedmaps", "--rank", "cost", "--prices", "PRICES"),
     ("OUT/sized.toml", "OUT/sizedmaps", "LOG"), DONE),
    (("review", "JOB", "--html", "OUT/review.html", "--maps", "OUT/maps"), ("OUT/review.html", "OUT/maps", "LOG"), DONE),
    (("draw", "JOB", "--out", "OUT/drawn", "--despite-failure"), ("OUT/drawn", "LOG"), DONE),
    (("estimate", "JOB", "--quote", "--found", "wet", "--buy", "--out", "OUT/papers", "--csv", "OUT/lines.csv", "--write-prices", "OUT/prices.toml",
      "--prices", "PRICES", "--despite-failure"), ("OUT/papers", "OUT/lines.csv", "OUT/prices.toml", "LOG"), DONE),
    (("steps", "JOB", "--pdf", "OUT/steps.pdf", "--despite-failure"), ("OUT/steps.pdf", "LOG"), DONE),
    (("record", "JOB", "--pdf", "OUT/record.pdf", "--despite-failure"), ("OUT/record.pdf", "LOG"), DONE),
    (("new", "OUT/new.toml", "--blank"), ("OUT/new.toml",), DONE),
    (("new", "OUT/field.pdf", "--field-sheet", "--filled-from", "JOB"), ("OUT/field.pdf",), DONE),
    (("new", "OUT/asked.toml", "--quick"), ("OUT/asked.toml",), DONE),
    (("trial", "JOB", "--speed", "20 mph"), (), DONE),
    (("trial", "TRIED", "--speed", "20 mph", "--record"), ("TRIED", "TRIED.bak"), DONE),
    (("batch", "JOBS", "--vary", "engine.power=30,40 hp", *BATCH, "OUT/rows.csv"),
     ("OUT/rows.csv", "OUT/rows.csv.txt", "OUT/rows.csv.unfinished"), DONE),
    (("batch", "TABLE", "--base", "JOB", *BATCH, "OUT/rows.jsonl", "--go-on"),
     ("OUT/rows.jsonl", "OUT/rows.jsonl.txt", "OUT/rows.jsonl.unfinished"), REFUSED),  # of its rows the worst
    (("compare", "SAVED", "JOB", "--json"), (), DONE),
    (("chart", "JOB", "--power", "40 hp", "--panels", "douglas-fir-marine", "--out", "OUT/chart.svg", "--csv", "OUT/chart.csv"),
     ("OUT/chart.svg", "OUT/chart.csv", "LOG"), DONE),
    (("explain", "JOB"), (), DONE),
    (("materials", "panels"), (), DONE),
    (("verify", "--html", "OUT/verify.html"), ("OUT/verify.html",), DONE),
    (("pack", "JOB", "--out", "OUT/pack", "--despite-failure"), ("OUT/pack", "LOG"), DONE),
    # Tricks: a folder, a device, the job or the table itself, up and out of a folder that is not there.
    (("review", "JOB", "--html", "OUT"), (), REFUSED),
    (("steps", "JOB", "--pdf", "OUT/none/../../out/up.pdf", "--despite-failure"), ("OUT/up.pdf", "LOG"), DONE),
    (("draw", "JOB", "--out", "/dev/null", "--despite-failure"), (), REFUSED),
    (("estimate", "JOB", "--csv", "/dev/full", "--despite-failure"), (), REFUSED),
    (("batch", "TABLE", "--base", "JOB", *BATCH, "TABLE", "--force"), (), REFUSED),
)  # fmt: skip


def own_prices() -> str:
    """The shop's own prices: the shipped ones, and some of them others."""
    book = (tables() / "price_book" / "invented.toml").read_text(encoding="utf-8")
    own = re.sub(r"(?m)^(invented|says) = .*\n", "", book).replace("[book]", f"[book]\nsays = {json.dumps(EVIL)}", 1)
    return re.sub(r"(?m)^price = .*$", "price = 39.0", own, count=1).replace("half = 38.0", "half = 25.0")


def table_of() -> str:
    """A table of jobs: one that is sized, and evil ones, which are refused."""
    rows = [
        ("40 hp", EVIL, "2026-05-04", "3/4 in"),
        (EVIL, SYMBOL, EVIL, EVIL),
        ("41 hp", SYMBOL, "2026-05-05", f'["{MARKER}"]'),
    ]
    out = io.StringIO()
    csv.writer(out).writerows([("engine.power", "job.name", "job.date", "stock.sheets"), *rows])
    return out.getvalue()


def evil() -> dict[str, Any]:
    """A saved judgement whose words are evil."""
    return saved() | {"job": saved()["job"] | {"name": EVIL, "revision": SYMBOL}, "governing": EVIL}


class Ran:
    """A folder in which everything ran, and what was seen."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.job, self.out = folder, folder / "jobs" / "job.toml", folder / "out"
        beside = {"LOG": "job.log.jsonl", "TRIED": "tried.toml", "TRIED.bak": "tried.toml.bak", "TABLE": "jobs.csv", "SAVED": "saved.json",
                  "PRICES": "prices.toml"}  # fmt: skip
        self.places = {"JOB": str(self.job), "OUT": str(self.out), "JOBS": str(folder / "many")}
        self.places |= {place: str(self.job.with_name(name)) for place, name in beside.items()}
        for name in ("jobs", "many", "out", "home", "tmp", "elsewhere"):
            (folder / name).mkdir()
        self.fill()
        (folder / "commands.json").write_text(
            json.dumps([[self.place(w) for w in words] for words, *_ in COMMANDS]), encoding="utf-8"
        )
        self.before = self.tree()
        env = {"PATH": os.environ["PATH"], "HOME": str(folder / "home"), "TMPDIR": str(folder / "tmp"), "PYTHONPATH": str(ROOT),
               "PYTHONDONTWRITEBYTECODE": "1", "OPENBLAS_NUM_THREADS": "1", "XDG_CACHE_HOME": str(folder / "home" / "cache")}  # fmt: skip
        done = subprocess.run([sys.executable, ROOT / "tests" / "cli" / "watched.py", folder / "commands.json"], cwd=folder / "elsewhere",
                              env=env, input=f"{EVIL}\npontoon\n40 hp\nq\n", capture_output=True, text=True, check=True)  # fmt: skip
        self.seen: list[dict[str, Any]] = json.loads(done.stdout.splitlines()[-1])

    def fill(self) -> None:
        """Evil words in every file that a command reads, and in their names."""
        said = dict.fromkeys(PLACES, json.dumps(EVIL))
        tried = text_of(SYMBOL)
        files = {"job.toml": text_of(SYMBOL), "tried.toml": tried, "shop.toml": filled(SHOP, said), "prices.toml": own_prices(),
                 "jobs.csv": table_of(), "saved.json": json.dumps(evil())}  # fmt: skip
        for name, text in files.items():
            self.job.with_name(name).write_text(text, encoding="utf-8")
        for name in (f"=1+1 {MARKER} <b>.toml", "$(touch x); '\"&.toml"):
            (self.folder / "many" / name).write_text(text_of(SYMBOL), encoding="utf-8")
        # Of a run that was not finished: its head is torn, so that it begins anew.
        (self.out / "rows.jsonl.unfinished").write_text(f'{{"schema": {EVIL}', encoding="utf-8")

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
    seen, (_, given, codes) = ran.seen[at], COMMANDS[at]
    assert seen["code"] in codes, seen["said"]
    missed = {Path(ran.place(g)) for g in given}
    allowed = frozenset(missed)
    for path in (Path(p) for p in seen["touched"] if p != os.devnull):
        its = [a for a in allowed if path == a or a in path.parents or draft_of(path, a)]
        assert its, path
        missed -= set(its)
    assert not missed


def draft_of(path: Path, whole: Path) -> bool:
    """A draft lies beside the file that it becomes."""
    return path.parent == whole.parent and path.name.startswith(f".{whole.name[:100]}.") and path.suffix == ".part"


def test_nothing_is_started_asked_for_or_run_and_words_of_a_user_are_no_code(ran: Ran) -> None:
    assert [line for seen in ran.seen for line in seen["left"] if not between_own(seen, line)] == []


OWN = re.compile(
    r"pickle\.find_class \('(?:transom\.(?:batch|errors)[\w.]*|functools|datetime|pathlib|concurrent\.futures\.process|multiprocessing[\w.]*)', '\w+'\)"
)


def between_own(seen: dict[str, Any], line: str) -> bool:
    """What `batch` and the processes it starts hand each other: records of its own, by the standard library's pools."""
    return seen["words"][0] == "batch" and OWN.fullmatch(line) is not None


def test_only_batch_starts_processes_and_they_are_watched(ran: Ran) -> None:
    assert {seen["words"][0] for seen in ran.seen if seen["started"]} == {"batch"}
    # A worker each; with the first, what the standard library watches over shared memory with.
    worked = [
        seen["started"]
        for seen, (words, given, _) in zip(ran.seen, COMMANDS, strict=True)
        if words[0] == "batch" and given
    ]
    assert len(worked) == 2
    assert min(worked) >= 1


def test_every_command_and_every_path_that_it_takes_is_under_watch() -> None:
    """Whoever adds a command, or an option that is a path, adds a line to COMMANDS."""
    for command in app.registered_commands:
        assert command.callback is not None
        watched = [words for words, *_ in COMMANDS if words[0] == command.name]
        assert watched, command.name
        said = {word for words in watched for word in words}
        hints = get_type_hints(command.callback, include_extras=True)
        for name, (of, *notes) in ((n, get_args(kind) or (kind,)) for n, kind in hints.items()):
            for option in (n for n in notes if isinstance(n, OptionInfo) and of in (Path, Path | None)):
                decls = [d for d in (option.default, *(option.param_decls or ())) if isinstance(d, str)]
                assert {*decls, f"--{name.replace('_', '-')}"} & said, (command.name, name)


def test_nothing_lies_anywhere_else_afterwards(ran: Ran) -> None:
    after = ran.tree()
    new = {name for name in after if after[name] != ran.before.get(name)}
    assert set(ran.before) - set(after) == {"out/rows.jsonl.unfinished"}
    assert {name.split("/")[0] for name in new} <= {"out", "jobs"}
    assert {name for name in new if name.startswith("jobs/")} == {
        "jobs/job.log.jsonl",
        "jobs/tried.toml",
        "jobs/tried.toml.bak",
    }
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


# Handed no word of a user: the first asks the C library to keep freed memory, the second writes `__init__` of the names of a
# record's fields, as the standard library does for its own.
ALLOWED = {("running.py", "ctypes"), ("frozen.py", "exec")}


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
                found += [
                    f"{path.name}:{node.lineno} {n}" for n in names if n in UNPACKS and (path.name, n) not in ALLOWED
                ]
            elif isinstance(node, ast.Call):
                called = ast.unparse(node.func)
                last = called.rpartition(".")[2]
                runs = last in RUNS_TEXT and called != "re.compile" and (path.name, last) not in ALLOWED
                if runs or called in ("np.load", "np.loadtxt", "np.fromfile"):
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


def test_the_watch_in_a_process_started_sees_it_too(tmp_path: Path) -> None:
    notes, written = tmp_path / "notes", tmp_path / "x"
    notes.mkdir()
    env = {
        "PATH": os.environ["PATH"],
        "PYTHONPATH": f"{HOOKED}{os.pathsep}{ROOT}",
        NOTES: str(notes),
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    script = f"import subprocess, sys; open(sys.argv[1], 'w').close(); subprocess.run(['true']); eval('[\"{MARKER}\"]')"
    subprocess.run([sys.executable, "-c", script, written], env=env, check=True)
    ((_, seen),) = noted(notes)
    assert ("touched", str(written)) in seen
    left = [said for kind, said in seen if kind == "left"]
    assert any("Popen" in said for said in left)
    assert any("marker" in said for said in left)
