"""A view as SVG in millimeters: its size on paper is its size in the file."""

from collections.abc import Iterator
from xml.sax.saxutils import escape

from transom.drawing.pens import PENS, Pen
from transom.drawing.shapes import Arrow, Box, Label, Path, Point, Ring, Scene, Shape
from transom.report.text import clean

DIGITS = 3


def svg(scene: Scene, scale: float = 1.0) -> str:
    """The whole file. At `scale` 1 it prints full size; pens keep their width on paper at any scale."""
    b = scene.box
    size = f'width="{b.width * scale:.2f}mm" height="{b.height * scale:.2f}mm"'
    view = f'viewBox="{_n(b.x_lo)} {_n(-b.y_hi)} {_n(b.width)} {_n(b.height)}"'
    head = (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view} font-family="Helvetica, Arial, sans-serif">\n'
        f"<title>{_words(scene.title)}</title>\n{_paper(b)}"
    )
    # Words last, so that no line runs over them.
    ordered = sorted(scene.shapes, key=lambda shape: isinstance(shape, Label))
    return "\n".join((head, *(line for shape in ordered for line in _shape(shape, 1.0 / scale)), "</svg>", ""))


def _paper(b: Box) -> str:
    return f'<rect x="{_n(b.x_lo)}" y="{_n(-b.y_hi)}" width="{_n(b.width)}" height="{_n(b.height)}" fill="#fff"/>'


def _shape(shape: Shape, thick: float) -> Iterator[str]:
    if isinstance(shape, Label):
        yield _label(shape)
    elif isinstance(shape, Ring):
        center = f'cx="{_n(shape.x)}" cy="{_n(-shape.y)}" r="{_n(shape.diameter / 2)}"'
        yield f'<circle class="{shape.purpose}" {center} {_style(PENS[shape.purpose], thick)}/>'
    elif isinstance(shape, Path):
        yield f'<path class="{shape.purpose}" d="{outline(shape)}" {_style(PENS[shape.purpose], thick)}/>'
    else:
        yield from _arrow(shape, thick)


def outline(path: Path) -> str:
    """A path's commands; rounded corners as arcs."""
    if not path.radius:
        return "M" + " L".join(f"{_n(x)} {_n(-y)}" for x, y in path.points) + (" Z" if path.closed else "")
    parts = []
    for i, (before, after) in enumerate(rounded(path)):
        parts.append(f"{'L' if i else 'M'}{_n(before[0])} {_n(-before[1])}")
        parts.append(f"A{_n(path.radius)} {_n(path.radius)} 0 0 1 {_n(after[0])} {_n(-after[1])}")
    return " ".join(parts) + " Z"


def rounded(path: Path) -> list[tuple[Point, Point]]:
    """Where the arc of each corner begins and ends, going round as the points do (with the clock)."""
    points, r = path.points, path.radius
    out = []
    for i, (x, y) in enumerate(points):
        (x_0, y_0), (x_1, y_1) = points[i - 1], points[(i + 1) % len(points)]
        out.append((_towards((x, y), (x_0, y_0), r), _towards((x, y), (x_1, y_1), r)))
    return out


def _towards(a: Point, b: Point, r: float) -> Point:
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = (dx * dx + dy * dy) ** 0.5
    return a[0] + dx / length * r, a[1] + dy / length * r


def _arrow(a: Arrow, thick: float) -> Iterator[str]:
    pen = PENS[a.purpose]
    yield (
        f'<path class="{a.purpose}" d="M{_n(a.start[0])} {_n(-a.start[1])} L{_n(a.end[0])} {_n(-a.end[1])}"'
        f" {_style(pen, thick)}/>"
    )
    for tip, tail in ((a.end, a.start), (a.start, a.end))[: 2 if a.both else 1]:
        corners = " ".join(f"{_n(x)},{_n(-y)}" for x, y in arrow_head(tip, tail, a.head))
        yield f'<polygon class="{a.purpose}" points="{corners}" fill="{_gray(pen.gray)}"/>'


def arrow_head(tip: Point, tail: Point, length: float) -> tuple[Point, Point, Point]:
    """Corners of an arrow's head, half as wide as long."""
    dx, dy = tail[0] - tip[0], tail[1] - tip[1]
    far = (dx * dx + dy * dy) ** 0.5 or 1.0
    ux, uy = dx / far * length, dy / far * length
    base = tip[0] + ux, tip[1] + uy
    return tip, (base[0] - uy / 4, base[1] + ux / 4), (base[0] + uy / 4, base[1] - ux / 4)


def _label(t: Label) -> str:
    turn = f' transform="rotate(-90 {_n(t.x)} {_n(-t.y)})"' if t.upright else ""
    # Half of a capital's height below the middle; fonts differ little in it.
    x, y = _n(t.x), _n(-t.y + 0.35 * t.size)
    weight = ' font-weight="bold"' if t.bold else ""
    return (
        f'<text class="{t.purpose}" x="{x}" y="{y}" text-anchor="{t.anchor}" font-size="{_n(t.size)}"{weight}{turn}'
        f' stroke="#fff" stroke-width="{_n(t.size * 0.2)}" paint-order="stroke" fill="#000">{_words(t.words)}</text>'
    )


def _style(pen: Pen, thick: float) -> str:
    fill = "none" if pen.fill is None else _gray(pen.fill)
    if not pen.width:
        return f'fill="{fill}" stroke="none"'
    dash = f' stroke-dasharray="{" ".join(_n(v * thick) for v in pen.dash)}"' if pen.dash else ""
    return f'fill="{fill}" stroke="{_gray(pen.gray)}" stroke-width="{_n(pen.width * thick)}"{dash}'


def _gray(level: float) -> str:
    return "#" + f"{round(level * 255):02x}" * 3


def _n(value: float) -> str:
    """A number without needless digits; no negative zero."""
    text = f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _words(text: str) -> str:
    """On one line, without what XML does not allow, and with nothing that it would read as a mark."""
    return escape("".join(c for c in clean(text) if c.isprintable()))
