"""Every small fault we know how to put into a file: a number, an operator, a comparison, a sign, a smaller for a larger.

Nothing on disk changes: a mutant is a place in the syntax tree and what to put there. Texts, type hints, messages of
exceptions and what a decorator says of a formula (symbol, source, typical values for a generated test, also where a
name stands for them) are left alone.
"""

import ast
from collections.abc import Container, Iterator, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

ARITHMETIC = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult,
    ast.FloorDiv: ast.Div, ast.Mod: ast.Mult,
}  # fmt: skip
LOGIC = {ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd, ast.And: ast.Or, ast.Or: ast.And}
COMPARISON: dict[type, tuple[type, ...]] = {
    ast.Lt: (ast.LtE, ast.GtE), ast.LtE: (ast.Lt, ast.Gt), ast.Gt: (ast.GtE, ast.LtE), ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,), ast.NotEq: (ast.Eq,), ast.Is: (ast.IsNot,), ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,), ast.NotIn: (ast.In,),
}  # fmt: skip
OTHER = {"min": "max", "max": "min", "minimum": "maximum", "maximum": "minimum"}
TEXTS = {"note", "source", "evidence", "known_by", "unit", "symbol", "why", "title", "dtype"}


@dataclass(frozen=True)
class Mutant:
    """One fault: where it is, what it does, and how it gets into a running module.

    `kind` is `body` (of the outermost function around it), `default` (of one of its arguments), `constant` (a name that
    only functions read), `module` (anything else a module does while it is imported), or `typical` (values that only
    the decorator of a formula names: no fault, never judged).
    """

    path: str
    line: int
    end_line: int
    span: tuple[int, int, int, int]
    node: str
    operator: str
    item: int
    after: Any
    says: str
    kind: str
    function: str
    first_line: int
    last_line: int
    decorated: bool
    names: tuple[str, ...]

    @property
    def id(self) -> str:
        return f"{self.path}:{self.line}:{self.span[1]}-{self.span[3]} {self.says}"

    @property
    def room(self) -> str:
        return self.path.split("/")[1]

    def as_dict(self) -> dict[str, Any]:
        return asdict(self) | {"id": self.id}


@dataclass(frozen=True)
class Place:
    """Where the walk through a file is: the outermost function or the names a module's statement binds."""

    kind: str = "module"
    function: str = ""
    lines: tuple[int, int] = (0, 0)
    statement: tuple[int, int] = (0, 0)
    decorated: bool = False
    names: tuple[str, ...] = ()
    of: str = ""


def is_formula(node: ast.FunctionDef) -> bool:
    return any(isinstance(d, ast.Call) and getattr(d.func, "id", "") == "formula" for d in node.decorator_list)


def textual(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr | ast.Tuple | ast.List) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str)
    )


def span(node: Any) -> tuple[int, int, int, int]:
    return node.lineno, node.col_offset, node.end_lineno, node.end_col_offset


def numbers(value: float) -> tuple[float, ...]:
    if isinstance(value, int):
        return (2, 0) if value == 1 else (value + 1,)
    return {0.0: (1.0,), 1.0: (1.1, 0.0)}.get(value, (value * 1.1, value * 0.9))


def faults(node: ast.AST) -> Iterator[tuple[str, int, Any, str]]:
    """Operator's family, which item of the node, what to put there, and that in words."""
    match node:
        case ast.Constant(value=int() | float() as v) if not isinstance(v, bool):
            yield from (("number", 0, n, f"{v!r} -> {n!r}") for n in numbers(v))
        case ast.BinOp() | ast.AugAssign() if type(node.op) in ARITHMETIC:
            new = ARITHMETIC[type(node.op)]
            if isinstance(node, ast.AugAssign) or not (textual(node.left) or textual(node.right)):
                yield "arithmetic", 0, new.__name__, f"{type(node.op).__name__} -> {new.__name__}"
        case ast.BinOp() | ast.BoolOp() if type(node.op) in LOGIC:
            new = LOGIC[type(node.op)]
            yield "logic", 0, new.__name__, f"{type(node.op).__name__} -> {new.__name__}"
        case ast.UnaryOp(op=ast.USub()):
            yield "minus", 0, "UAdd", "-x -> x"
        case ast.UnaryOp(op=ast.Not()):
            yield "logic", 0, "Not", "not x -> not not x"
        case ast.Compare():
            for i, op in enumerate(node.ops):
                for new in COMPARISON[type(op)]:
                    yield "comparison", i, new.__name__, f"{type(op).__name__} -> {new.__name__}"
        case ast.Call(func=ast.Name(id=name) | ast.Attribute(attr=name)) if name in OTHER:
            yield "min/max", 0, OTHER[name], f"{name} -> {OTHER[name]}"


def mutants_of(root: Path, path: Path, read_early: Container[str] = ()) -> list[Mutant]:
    """All mutants of a file, in its order; `read_early` has the names that some module reads while it is imported."""
    relative = path.relative_to(root).as_posix()
    tree = ast.parse(path.read_text(encoding="utf-8"))
    of_file = reads_of(tree)
    out = []
    for node, at in walk(tree, Place()):
        for family, item, after, says in faults(node):
            if at.kind == "module" and family == "logic" and isinstance(node, ast.BinOp):
                continue  # a union of types
            out.append(
                Mutant(relative, node.lineno, node.end_lineno or node.lineno, span(node), type(node).__name__, family, item, after,
                       says, kind_of(at, of_file, read_early), at.function, *at.lines, at.decorated, at.names)
            )  # fmt: skip
    return sorted(out, key=lambda m: (m.span, m.says))


def kind_of(at: Place, of_file: Mapping[str, set[str]], read_early: Container[str]) -> str:
    if at.kind != "module" or len(at.names) != 1 or at.of:
        return at.kind
    (name,) = at.names
    if name in of_file["typical"] and name not in of_file["body"] | of_file["import"]:
        return "typical"
    return "module" if name in read_early else "constant"


def reads(node: ast.AST, where: str = "import") -> dict[str, set[str]]:
    """The names read in a file: in bodies of functions, in typical values of a decorator, and else while it is imported."""
    out: dict[str, set[str]] = {"body": set(), "typical": set(), "import": set()}
    for child in ast.iter_child_nodes(node):
        there = where
        if isinstance(child, ast.keyword) and child.arg == "typical":
            there = "typical"
        elif isinstance(node, ast.FunctionDef) and child in node.body:
            there = "body"
        if isinstance(child, ast.Name) and isinstance(child.ctx, ast.Load):
            out[there].add(child.id)
        for key, names in reads(child, there).items():
            out[key] |= names
    return out


def reads_of(tree: ast.Module) -> dict[str, set[str]]:
    """The names read in a file; what makes up nothing but typical values is read as one too."""
    of_file, body = reads(tree), list(tree.body)
    while True:
        only = of_file["typical"] - of_file["body"] - of_file["import"]
        of_typical = [n for n in body if isinstance(n, ast.Assign) and getattr(n.targets[0], "id", "") in only]
        if not of_typical:
            return of_file
        body = [n for n in body if n not in of_typical]
        parts = {n.id for s in of_typical for n in ast.walk(s) if isinstance(n, ast.Name)}
        rest = reads(ast.Module(body, []))
        of_file = rest | {"typical": rest["typical"] | of_file["typical"] | parts}


def children(node: ast.AST) -> Iterator[ast.AST]:
    """What a mutant may lie in: no annotation, text, decorator, message or docstring."""
    for name, value in ast.iter_fields(node):
        if name in ("annotation", "returns", "decorator_list", "type_params"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST):
                yield child


def skipped(node: ast.AST) -> bool:
    match node:
        case ast.JoinedStr() | ast.Raise() | ast.Import() | ast.ImportFrom():
            return True
        case ast.keyword(arg=name):
            return name in TEXTS
        case ast.Call(func=ast.Name(id="isinstance" | "cast" | "TypeVar")):
            return True
        case ast.If(test=ast.Name(id="TYPE_CHECKING")):
            return True
    return False


def walk(node: ast.AST, at: Place) -> Iterator[tuple[ast.AST, Place]]:
    if skipped(node):
        return
    if isinstance(node, ast.FunctionDef) and at.kind == "module":
        yield from walk_function(node, at)
        return
    if isinstance(node, ast.ClassDef) and at.kind == "module":
        at = Place(of=f"{at.of}{node.name}.")
    elif at.kind == "module" and isinstance(node, ast.Assign | ast.AnnAssign):
        targets = node.targets if isinstance(node, ast.Assign) else [node.target]
        names = tuple(n.id for t in targets for n in ast.walk(t) if isinstance(n, ast.Name))
        at = Place(names=names, of=at.of)
    if hasattr(node, "lineno"):
        yield node, at
    for child in children(node):
        yield from walk(child, at)


def walk_function(node: ast.FunctionDef, at: Place) -> Iterator[tuple[ast.AST, Place]]:
    lines = (node.body[0].lineno, node.end_lineno or node.lineno)
    decorated, qualified = is_formula(node), at.of + node.name
    for child in (*node.args.defaults, *(d for d in node.args.kw_defaults if d)):
        yield from walk(child, Place("default", qualified, lines, decorated=decorated))
    for child in node.body:
        yield from walk(child, Place("body", qualified, lines, decorated=decorated))


def mutated(source: str, mutant: Mutant) -> ast.Module:
    """The file's tree with the one fault in it; lines stay where they are."""
    tree = ast.parse(source)
    node = next(n for n in ast.walk(tree)
                if type(n).__name__ == mutant.node and span(n) == tuple(mutant.span))  # fmt: skip
    put(node, mutant)
    return ast.fix_missing_locations(tree)


def put(node: Any, mutant: Mutant) -> None:
    match mutant.operator:
        case "number":
            node.value = mutant.after
        case "comparison":
            node.ops[mutant.item] = getattr(ast, mutant.after)()
        case "min/max":
            node.func = other_way(node.func, mutant.after)
        case "logic" if mutant.after == "Not":
            node.operand = ast.UnaryOp(ast.Not(), node.operand)
        case _:
            node.op = getattr(ast, mutant.after)()


def other_way(func: Any, name: str) -> ast.expr:
    """A name that the module need not have imported."""
    if isinstance(func, ast.Attribute):
        func.attr = name
        return func
    of = "builtins" if name in ("min", "max") else "transom.maths"
    return ast.copy_location(ast.parse(f"__import__({of!r}, fromlist=['x']).{name}", mode="eval").body, func)
