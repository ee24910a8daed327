"""A fault put into a forked process, tests run there, and what became of it."""

import ast
import gc
import importlib.abc
import importlib.machinery
import importlib.util
import os
import resource
import signal
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import CodeType, FunctionType, ModuleType
from typing import Any

from mutants import Mutant, mutated, span

MEMORY = 4 * 2**30
WALL = 1200  # s; for a child that waits for ever


def judge_in_child(work: Callable[[], None], tests: tuple[str, ...]) -> dict[str, Any]:
    """Fork, do the work there, and tell by how it ended: SystemExit with a test's name kills."""
    read, write = os.pipe()
    pid = os.fork()
    if pid == 0:
        child(work, write)
    os.close(write)
    with os.fdopen(read) as pipe:
        said = pipe.read().strip()
    _, status, used = os.wait4(pid, 0)
    return {"by": said, "cpu": round(used.ru_utime + used.ru_stime, 3), "tests": len(tests)} | outcome(status, said)


def outcome(status: int, said: str) -> dict[str, str]:
    if os.WIFSIGNALED(status):
        if os.WTERMSIG(status) in (signal.SIGPROF, signal.SIGALRM):
            return {"outcome": "timeout"}
        return {"outcome": "crashed", "by": f"signal {os.WTERMSIG(status)} {said}"}
    return {"outcome": {0: "survived", 1: "killed"}.get(os.WEXITSTATUS(status), "error")}


def child(work: Callable[[], None], write: int) -> None:
    """Never returns."""
    code = 3
    try:
        nowhere = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(nowhere, stream)
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        signal.alarm(WALL)
        work()
        code = 0
    except SystemExit as end:
        os.write(write, str(end.code).encode())
        code = 1
    except BaseException as error:
        os.write(write, f"{type(error).__name__}: {error}".encode()[:300])
        code = 2
    finally:
        os._exit(code)


def watch(seconds: float) -> None:
    """End this process when it has computed so long; computing, not waiting, so that a busy machine kills nothing."""
    signal.setitimer(signal.ITIMER_PROF, seconds)


class Failed:
    """A pytest plugin: the first test that fails ends the process."""

    def pytest_runtest_logreport(self, report: Any) -> None:
        if report.failed:
            raise SystemExit(report.nodeid)


def run_items(items: list[Any], limits: dict[str, float]) -> None:
    """Run collected tests in this order; SystemExit names the first that fails."""
    if not items:
        raise RuntimeError("none of the tests was collected")
    items[0].config.pluginmanager.register(Failed())
    for item, following in zip(items, [*items[1:], None], strict=True):
        watch(limits[item.nodeid])
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)


def codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for c in code.co_consts:
        if isinstance(c, CodeType):
            yield from codes(c)


def living_functions(root: Path) -> dict[tuple[str, str], list[FunctionType]]:
    """Every function of transom that lives, by file and qualified name; looked for once, before forking."""
    out: dict[tuple[str, str], list[FunctionType]] = {}
    prefix = f"{root}/transom/"
    for f in gc.get_objects():
        if type(f) is FunctionType and f.__code__.co_filename.startswith(prefix):
            out.setdefault((f.__code__.co_filename, f.__code__.co_qualname), []).append(f)
    return out


def put_into_functions(
    root: Path, living: dict[tuple[str, str], list[FunctionType]], mutant: Mutant, identity: bool = False
) -> None:
    """Give the living function its mutated code or default; the one object serves everybody who imported it.

    Raises:
        RuntimeError: no such function lives, or more code than one bears its name.
    """
    path = str(root / mutant.path)
    source = Path(path).read_text(encoding="utf-8")
    tree = ast.parse(source) if identity else mutated(source, mutant)
    whole = compile(tree, path, "exec", dont_inherit=True)
    functions = living.get((path, mutant.function), [])
    lines = [f.__code__.co_firstlineno for f in functions if f.__code__.co_firstlineno <= mutant.first_line]
    if not lines:
        raise RuntimeError(f"{mutant.function} does not live")
    for f in (f for f in functions if f.__code__.co_firstlineno == max(lines)):
        same = [c for c in codes(whole) if (c.co_qualname, c.co_firstlineno) == (mutant.function, max(lines))]
        if len(same) != 1:
            raise RuntimeError(f"{mutant.function}: {len(same)} of that name and line")
        f.__code__ = same[0]
        if mutant.kind == "default":
            put_default(f, tree, mutant)


def put_into_constant(root: Path, mutant: Mutant, identity: bool = False) -> None:
    """Give a module's name its mutated value, there and wherever it has been imported to."""
    source = (root / mutant.path).read_text(encoding="utf-8")
    tree = ast.parse(source) if identity else mutated(source, mutant)
    home = sys.modules[mutant.path.removesuffix(".py").replace("/", ".").removesuffix(".__init__")]
    (name,) = mutant.names
    statement: Any = next(n for n in tree.body if n.lineno <= mutant.line <= (n.end_lineno or n.lineno))
    value = eval(compile(ast.Expression(statement.value), mutant.path, "eval"), vars(home))
    old = vars(home)[name]
    for module in list(sys.modules.values()):
        if getattr(module, "__dict__", {}).get(name) is old:
            setattr(module, name, value)


def put_default(f: FunctionType, tree: Any, mutant: Mutant) -> None:
    node = next(n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef) and n.body[0].lineno == mutant.first_line)

    def value(e: ast.expr) -> Any:
        return eval(compile(ast.Expression(e), mutant.path, "eval"), f.__globals__)

    inside = [e for e in node.args.defaults if within(mutant, e)]
    if inside:
        place = node.args.defaults.index(inside[0])
        f.__defaults__ = tuple(value(inside[0]) if i == place else d for i, d in enumerate(f.__defaults__ or ()))
        return
    for a, e in zip(node.args.kwonlyargs, node.args.kw_defaults, strict=True):
        if e is not None and within(mutant, e):
            f.__kwdefaults__ = (f.__kwdefaults__ or {}) | {a.arg: value(e)}


def within(mutant: Mutant, e: Any) -> bool:
    first, last = span(e)[:2], span(e)[2:]
    return first <= tuple(mutant.span[:2]) and tuple(mutant.span[2:]) <= last


class MutantImport(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """An import hook for the one mutated module."""

    def __init__(self, root: Path, mutant: Mutant, identity: bool) -> None:
        self.path, self.mutant, self.identity = root / mutant.path, mutant, identity
        self.module = mutant.path.removesuffix(".py").replace("/", ".").removesuffix(".__init__")

    def find_spec(self, name: str, path: Any = None, target: Any = None) -> Any:
        if name != self.module:
            return None
        package = self.path.name == "__init__.py"
        return importlib.util.spec_from_file_location(
            name, self.path, loader=self, submodule_search_locations=[str(self.path.parent)] if package else None
        )

    def exec_module(self, module: ModuleType) -> None:
        source = self.path.read_text(encoding="utf-8")
        exec(
            compile(source if self.identity else mutated(source, self.mutant), str(self.path), "exec"), module.__dict__
        )


def put_into_import(root: Path, mutant: Mutant, identity: bool = False) -> None:
    """Have the module imported with the fault.

    Raises:
        RuntimeError: transom has been imported already.
    """
    if any(m.split(".")[0] == "transom" for m in sys.modules):
        raise RuntimeError("transom is imported already")
    sys.meta_path.insert(0, MutantImport(root, mutant, identity))
