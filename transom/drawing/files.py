"""Everything `draw` writes, by the ending of its name: text or bytes, nothing on disk yet."""

from transom.drawing import dimensioned as dim
from transom.drawing.dxf import dxf
from transom.drawing.pdf import template
from transom.drawing.records import AFT, FORWARD, Drawing
from transom.drawing.section import READ, section
from transom.drawing.sheet import sheet
from transom.drawing.svg import svg
from transom.drawing.words import legend_words


def drawn(d: Drawing, paper: str, holes_only: bool = False) -> dict[str, str | bytes]:
    """The files of a drawing; `holes_only` gives the hole template alone."""
    if holes_only:
        return {"holes.pdf": template(d, paper, holes_only=True)}
    return {
        "template.pdf": template(d, paper),
        "board.dxf": dxf(d),
        "section.svg": svg(sheet(section(d), d, READ)),
        "aft.svg": face_svg(d, AFT),
        "forward.svg": face_svg(d, FORWARD),
    }


def face_svg(d: Drawing, face: str) -> str:
    """A face with its dimensions, to scale."""
    ratio = float(dim.scale_for(d))
    return svg(sheet(dim.dimensioned(d, face), d, dim.READ / ratio, (legend_words(d, face),)), ratio)
