"""How thick a board each power takes in the same pontoon pod, all else assumed. Invented, no boat of yours."""

from transom.catalogue import SHIPPED
from transom.job.read import loads
from transom.sizing.sizing import size

POWERS = (40, 60, 90)
JOB = """
[boat]
kind = "pontoon"
plate_power = "{power} hp"

[engine]
power = "{power} hp"
shaft = "20 in"

[board]
width = "610 mm"
height = "450 mm"

[frame]
kind = "pod"

[stock]
panels = ["douglas-fir-marine"]
"""


def main() -> None:
    print(f"{'power':>7}{'wood':>10}{'bending wants':>16}   weakest link")
    for power in POWERS:
        judged = size(loads(JOB.format(power=power)), SHIPPED)
        if judged.mount is None:
            print(f"{power:>4} hp{'none':>10}")
            continue
        wanted = {r.check: r.thickness for r in judged.sizing.required} if judged.sizing else {}
        bending = next(t for check, t in wanted.items() if check.startswith("board.bending"))
        weakest = judged.governing
        print(f"{power:>4} hp{judged.wood:>7.1f} mm{bending:>13.1f} mm   {weakest.what}, {weakest.utilisation:.0%}")


if __name__ == "__main__":
    main()
