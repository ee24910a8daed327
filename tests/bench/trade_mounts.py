"""What the trade builds at 40, 90 and 150 hp, through every check: worst utilisation of each, as a table.

    python tests/bench/trade_mounts.py [--method hand]

Invented jobs on the usual pod and uprights; layers and plates as common practice has them.
"""

from dataclasses import replace

from transom.catalogue import SHIPPED
from transom.checks import all_checks
from transom.job.records import Backing, Board, Boat, Engine, EngineBolts, Frame, Head, Job, Layer, Mount
from transom.judge.evaluate import trial_of
from transom.loads.cases import build_cases
from transom.setup.build import build, values_of
from transom.setup.facts import collect

HP = 745.69987158
SHEET = "douglas-fir-marine 3/4 in"
INCH = 25.4
WIDE = {"pair": 15.0 * INCH, "bolt": 3.0 * INCH}


def job(hp: float, kind: str = "pod") -> Job:
    """An invented job, 20 in shaft, nothing measured that a default stands for."""
    return Job(
        Head(),
        Boat("pontoon", "stated", 2 * hp * HP),
        Engine(hp * HP, hp * HP, shaft=508.0),
        Board(610.0, 450.0),
        Frame(kind, at=(-225.0, 225.0) if kind == "uprights" else ()),
    )


def mount(sheets: int, plate_in: float, per: str = "pair", height_in: float = 3.0, length_in: float = 6.0) -> Mount:
    """Sheets all across and one 6061-T6 plate per bolt or pair."""
    forward = Backing("", "6061-T6", plate_in * INCH, WIDE[per], height_in * INCH, per)
    bolts = EngineBolts("1/2-13", "F593C", length_in * INCH, Backing(washer="1/2 regular"), forward)
    return Mount(tuple(Layer(SHEET, "across") for _ in range(sheets)), bolts)


BUILT = (
    (40, "pod", 2, 0.25), (40, "uprights", 2, 0.25), (90, "pod", 2, 0.25), (90, "pod", 3, 0.25), (90, "uprights", 3, 0.25),
    (150, "pod", 3, 0.375), (150, "pod", 4, 0.375), (150, "uprights", 3, 0.375), (150, "uprights", 4, 0.375),
)  # fmt: skip


def table() -> dict[str, list[tuple[float, str]]]:
    """Worst utilisation and its case of each check, one entry for each mount of `BUILT`."""
    out: dict[str, list[tuple[float, str]]] = {}
    for hp, kind, sheets, plate in BUILT:
        j = job(hp, kind)
        setup = build(j, SHIPPED, values_of(collect(j, SHIPPED)))
        m = mount(sheets, plate)
        trial = trial_of(setup, build_cases(setup.loads), [m])
        assert m.engine_bolts is not None
        m = replace(m, engine_bolts=m.engine_bolts)
        for c in all_checks(trial):
            worst = max(c.rows(), key=lambda r: r.utilisation)
            out.setdefault(c.name, []).append((worst.utilisation, worst.case))
    return out


def main() -> None:
    """Print the table."""
    print(" " * 48 + "".join(f"{hp:>4} {kind[:3]} {n}x" for hp, kind, n, _ in BUILT))
    for name, row in table().items():
        worst = max(row)[1]
        print(f"{name:48}" + "".join(f"{u:11.2f}" for u, _ in row) + f"  {worst}")


if __name__ == "__main__":
    main()
