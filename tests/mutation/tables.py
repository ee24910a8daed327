"""The tables of a run: by room, by operator, decorated or not, with Wilson's 95 % interval; and who survived."""

import json
from collections.abc import Callable
from math import sqrt
from pathlib import Path
from typing import Any

from mutants import Mutant

KILLED = ("killed", "timeout", "crashed")
Z = 1.959964


def wilson(k: int, n: int) -> tuple[float, float]:
    """Wilson's interval of a share k of n, 95 %."""
    p, z2 = k / n, Z * Z
    middle, half = (p + z2 / (2 * n)) / (1 + z2 / n), Z / (1 + z2 / n) * sqrt(p * (1 - p) / n + z2 / (4 * n * n))
    return middle - half, middle + half


def line(name: str, rows: list[dict[str, Any]], population: int) -> str:
    k, n = sum(r["outcome"] in KILLED for r in rows), len(rows)
    low, high = wilson(k, n) if n else (0.0, 1.0)
    late = sum(r["outcome"] in ("timeout", "crashed") for r in rows)
    share = f"{100 * k / n:.1f}" if n else "-"
    return f"| {name} | {population} | {n} | {k} | {late} | {share} % | {100 * low:.1f} to {100 * high:.1f} % |"


def table(title: str, rows: list[dict[str, Any]], everyone: list[Mutant], key: Callable[[Any], str]) -> None:
    print(
        f"\n| {title} | mutants | judged | killed | of these by time or memory | share | 95 % interval |\n|---|---|---|---|---|---|---|"
    )
    of_row = [(key(type("R", (), {"room": r["path"].split("/")[1], **r})), r) for r in rows]
    of_all = [key(m) for m in everyone]
    for name in sorted(set(of_all)):
        print(line(name, [r for k, r in of_row if k == name], of_all.count(name)))
    print(line("all", rows, len(everyone)))


def report(path: Path, everyone: list[Mutant]) -> None:
    rows = [json.loads(text) for text in path.read_text().splitlines()] if path.exists() else []
    known = {m.id for m in everyone}
    rows = [r for r in rows if r["id"] in known]
    errors = [r for r in rows if r["outcome"] == "error"]
    rows = [r for r in rows if r["outcome"] != "error"]
    table("room", rows, everyone, lambda m: m.room)
    table("operator", rows, everyone, lambda m: m.operator)
    table("where", rows, everyone, lambda m: "in a function under @formula" if m.decorated else "elsewhere")
    print(f"\n{sum(r['cpu'] for r in rows) / 60:.1f} core-minutes; {len(errors)} could not be judged")
    for r in errors:
        print("  ", r["id"], r["by"])
    for r in sorted((r for r in rows if r["outcome"] not in KILLED), key=lambda r: r["path"]):
        print(f"- {r['id']} ({r['function'] or ', '.join(r['names'])}): {r['outcome']}")
