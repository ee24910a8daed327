"""Pages as pixels, and what is measured on them. Places in mm from the page's lower left corner."""

from dataclasses import dataclass

import numpy as np
import pypdfium2
from numpy.typing import NDArray

MM = 25.4


@dataclass(frozen=True)
class Page:
    """A page rendered at `dpi`: darkness 0 (paper) to 1, row 0 at the foot."""

    dark: NDArray[np.float64]
    dpi: float

    def pixels(self, mm: float) -> float:
        """mm as pixels."""
        return mm / MM * self.dpi

    def box(self, x_lo: float, y_lo: float, x_hi: float, y_hi: float) -> NDArray[np.float64]:
        """The pixels of a rectangle in mm."""
        i, k = (max(0, round(self.pixels(v))) for v in (y_lo, x_lo))
        return self.dark[i : round(self.pixels(y_hi)), k : round(self.pixels(x_hi))]

    def line_at(self, near: float, across: tuple[float, float], upright: bool, reach: float = 1.5) -> float:
        """Where a long straight line lies near a place, mm: the middle of its ink, seen over `across` mm."""
        lo, hi = across
        part = self.box(near - reach, lo, near + reach, hi) if upright else self.box(lo, near - reach, hi, near + reach)
        ink = part.mean(axis=0 if upright else 1)
        start = round(self.pixels(near - reach))
        assert ink.max() > 0.3, f"no line near {near}"
        ink = np.where(ink > 0.2 * ink.max(), ink, 0.0)
        return float((ink * (np.arange(len(ink)) + 0.5 + start)).sum() / ink.sum()) / self.dpi * MM

    def ring(self, x: float, y: float, diameter: float) -> tuple[float, float, float]:
        """Middle and diameter of a circle drawn near there, mm, from its ink along many rays."""
        middle = np.array([x, y])
        found = []
        for angle in np.radians(np.arange(7.0, 367.0, 10.0)):
            ray = np.array([np.cos(angle), np.sin(angle)])
            r = diameter / 2 + np.arange(-1.2, 1.2, 0.01)
            at = middle + r[:, None] * ray
            pixel = (at / MM * self.dpi).astype(int)
            ink = self.dark[pixel[:, 1], pixel[:, 0]]
            if ink.max() > 0.5:
                found.append(middle + (ink * r).sum() / ink.sum() * ray)
        points = np.array(found)
        assert len(points) > 18, "too little of the circle is drawn"
        # Least squares: x^2 + y^2 = 2 a x + 2 b y + c.
        a, b, c = np.linalg.lstsq(
            np.column_stack([2 * points, np.ones(len(points))]), (points**2).sum(axis=1), rcond=None
        )[0]
        return float(a), float(b), 2 * float(np.sqrt(c + a * a + b * b))


def page(document: pypdfium2.PdfDocument, number: int, dpi: float = 300.0) -> Page:
    """Page `number`, counted from 0."""
    pixels = document[number].render(scale=dpi / 72, grayscale=True).to_numpy()
    return Page(1.0 - np.flipud(pixels.squeeze()).astype(float) / 255.0, dpi)
