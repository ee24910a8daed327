"""A ramp of colors from light yellow to dark blue that falls evenly in lightness.

Yellow to blue is told apart by every common kind of color blindness, and even steps of lightness read in grey.
"""

from collections.abc import Sequence

# CIE L*a*b* (CIE 15:2004) of the lightest and the darkest step, and what the middle bends to.
LIGHT, MIDDLE, DARK = (94.0, -4.0, 42.0), (58.0, -2.0, 2.0), (20.0, 8.0, -38.0)
WHITE = (0.95047, 1.0, 1.08883)  # D65
TO_RGB = ((3.2406, -1.5372, -0.4986), (-0.9689, 1.8758, 0.0415), (0.0557, -0.2040, 1.0570))  # IEC 61966-2-1


def colors(count: int) -> tuple[str, ...]:
    """`count` steps as #rrggbb, light to dark."""
    return tuple(_hex(_lab(i / max(1, count - 1))) for i in range(count))


def _lab(share: float) -> tuple[float, ...]:
    a, b, at = (LIGHT, MIDDLE, 2 * share) if share < 0.5 else (MIDDLE, DARK, 2 * share - 1)
    return tuple(x + at * (y - x) for x, y in zip(a, b, strict=True))


def _hex(lab: Sequence[float]) -> str:
    lightness, a, b = lab
    f = (lightness + 16) / 116
    xyz = [w * _cube(v) for w, v in zip(WHITE, (f + a / 500, f, f - b / 200), strict=True)]
    linear = [sum(m * v for m, v in zip(row, xyz, strict=True)) for row in TO_RGB]
    return "#" + "".join(f"{round(255 * _gamma(v)):02x}" for v in linear)


def _cube(t: float) -> float:
    """Inverse of the cube root of CIE L*a*b*."""
    return t**3 if t > 6 / 29 else 3 * (6 / 29) ** 2 * (t - 4 / 29)


def _gamma(v: float) -> float:
    """sRGB's encoding of a linear value, clipped to what a screen shows."""
    v = min(1.0, max(0.0, v))
    return 12.92 * v if v <= 0.0031308 else 1.055 * v ** (1 / 2.4) - 0.055


def luminance(color: str) -> float:
    """Relative luminance of #rrggbb, what a grey print keeps of it."""
    parts = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
