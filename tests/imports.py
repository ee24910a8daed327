"""The rooms of `transom/` and what imports what, read from the code. Run it to draw the rooms for DEVELOPERS.md.

python tests/imports.py
"""

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "transom"
DEVELOPERS = PACKAGE.parent / "DEVELOPERS.md"
Rooms = Mapping[str, frozenset[str]]


def modules() -> list[Path]:
    """Every module of the package."""
    return sorted(PACKAGE.rglob("*.py"))


def room(path: Path) -> str:
    """The room a module lies in: its folder's name, or its own."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported_rooms(tree: ast.AST) -> Iterator[str]:
    """The rooms that a module imports, also inside functions; `frozen` stands for the standard library's dataclasses."""
    for node in ast.walk(tree):
        names = []
        if isinstance(node, ast.ImportFrom) and node.module and node.level == 0:
            names = [node.module] if node.module != "transom" else [f"transom.{a.name}" for a in node.names]
        elif isinstance(node, ast.Import):
            names = [a.name for a in node.names]
        yield from (n.split(".")[1] for n in names if n.startswith("transom.") and n != "transom.frozen")


def rooms() -> Rooms:
    """Each room with those it imports, itself left out."""
    found: dict[str, set[str]] = {}
    for path in modules():
        here = found.setdefault(room(path), set())
        here |= set(imported_rooms(ast.parse(path.read_text(encoding="utf-8")))) - {room(path), "__version__"}
    return {name: frozenset(others) for name, others in found.items()}


def reached(graph: Rooms, start: str) -> frozenset[str]:
    """Every room that one comes to from another, over however many others."""
    found: set[str] = set()
    todo = [start]
    while todo:
        new = graph.get(todo.pop(), frozenset()) - found
        found |= new
        todo += new
    return frozenset(found)


def direct(graph: Rooms) -> dict[str, list[str]]:
    """Each room with what it imports and none of its imports imports in turn: the arrows worth drawing."""
    return {
        name: sorted(others - frozenset().union(*(reached(graph, o) for o in others)))
        for name, others in graph.items()
    }  # fmt: skip


def levels(graph: Rooms) -> dict[str, int]:
    """How many arrows lie below a room at the most. Raises ValueError where rooms import each other in a circle."""
    found: dict[str, int] = {}

    def level(name: str, on_the_way: tuple[str, ...] = ()) -> int:
        if name in on_the_way:
            raise ValueError(f"a circle of imports: {' > '.join((*on_the_way, name))}")
        if name not in found:
            found[name] = 1 + max((level(o, (*on_the_way, name)) for o in graph.get(name, ())), default=-1)
        return found[name]

    for name in graph:
        level(name)
    return found


def drawing() -> str:
    """The rooms as a Mermaid flow chart, highest first; an arrow points at what is imported."""
    graph = {name: others for name, others in rooms().items() if not name.startswith("__")}
    high, arrows = levels(graph), direct(graph)
    order = sorted(graph, key=lambda name: (-high[name], name))
    return "\n".join(
        ["flowchart TD", *(f"    {name} --> {' & '.join(arrows[name])}" for name in order if arrows[name])]
    )


def drawn(text: str) -> str:
    """The drawing as a document has it."""
    return text.split("```mermaid\n")[1].split("\n```", maxsplit=1)[0]


if __name__ == "__main__":
    document = DEVELOPERS.read_text(encoding="utf-8")
    DEVELOPERS.write_text(document.replace(drawn(document), drawing()), encoding="utf-8")
    print(drawing())
