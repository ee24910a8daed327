"""What the docstrings and README's Python say is so: each example runs and prints what stands below it."""

import ast
import doctest
import importlib
import re
import subprocess
import sys
from pathlib import Path

import pytest

import transom
from tests.imports import modules

ROOT = Path(__file__).parents[1]
FLAGS = doctest.ELLIPSIS
WITH_EXAMPLES = [p for p in modules() if ">>> " in p.read_text(encoding="utf-8")]


def failed(runner: doctest.DocTestRunner, tests: list[doctest.DocTest]) -> int:
    assert any(t.examples for t in tests)
    return sum(runner.run(t).failed for t in tests)


@pytest.mark.parametrize("path", WITH_EXAMPLES, ids=lambda p: p.relative_to(ROOT).as_posix())
def test_examples_in_docstrings_print_what_they_say(path: Path) -> None:
    module = importlib.import_module(".".join(path.relative_to(ROOT).with_suffix("").parts))
    assert not failed(doctest.DocTestRunner(optionflags=FLAGS), doctest.DocTestFinder().find(module))


def test_the_readmes_python_prints_what_it_says() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    (text,) = re.findall(r"^```python\n(.*?)^```", readme, re.MULTILINE | re.DOTALL)
    test = doctest.DocTestParser().get_doctest(text, {}, "README", "README.md", 0)
    assert not failed(doctest.DocTestRunner(optionflags=FLAGS), [test])


def test_what_is_public_is_there_and_listed_once() -> None:
    from transom import api

    assert transom.__all__ == api.__all__ == sorted(api.__all__, key=lambda name: (name.islower(), name))
    assert all(getattr(transom, name) is getattr(api, name) for name in transom.__all__)
    with pytest.raises(AttributeError, match="nothing_of_the_kind"):
        _ = transom.nothing_of_the_kind


def test_every_public_function_says_what_it_raises_and_shows_itself() -> None:
    tree = ast.parse((ROOT / "transom" / "api.py").read_text(encoding="utf-8"))
    for function in (n for n in tree.body if isinstance(n, ast.FunctionDef)):
        said = ast.get_docstring(function) or ""
        assert "Raises:" in said, function.name
        assert ">>> " in said, function.name


def test_importing_the_package_imports_nothing_heavy() -> None:
    code = "import sys, transom; print(sorted({'numpy', 'pint', 'sympy', 'pydantic', 'scipy'} & set(sys.modules)))"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert found.stdout.strip() == "[]"
