"""Everything `draw` writes, by the ending of its name: text or bytes, nothing on disk yet."""

from transom.drawing import dimensioned as dim
from transom.drawing.bench import bench_card
from transom.drawing.benchpdf import bench_pdf
from transom.drawing.cutlist import CutList, cut_list
from transom.drawing.dxf import dxf
from transom.drawing.nestpdf import cut_pdf
from transom.drawing.pdf import template
from transom.drawing.records import AFT, FORWARD, Drawing
from transom.drawing.section import READ, section
from transom.drawing.sheet import sheet
from transom.drawing.supplies import to_buy
from transom.drawing.svg import svg
from transom.drawing.words import legend_words
from transom.judge.records import Judgement


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


def bench_files(j: Judgement, d: Drawing) -> dict[str, str | bytes]:
    """What goes to the bench as words and numbers: the bench card and the cut list, a PDF each."""
    return {"bench.pdf": bench_pdf(bench_card(j, d)), "cuts.pdf": cut_pdf(cuts_of(j, d), d.identity, to_buy(j, d))}


def cuts_of(j: Judgement, d: Drawing) -> CutList:
    """The cut list of a drawing's layers, the offcuts on the shelf used up first."""
    return cut_list(d.layers, j.setup.tables, j.job.stock.offcuts)


def face_svg(d: Drawing, face: str) -> str:
    """A face with its dimensions, to scale."""
    ratio = float(dim.scale_for(d))
    below = (
        legend_words(d, face),
        *(["Rows that stand alike across are dimensioned once."] if dim.alike(d, face) else []),
    )
    return svg(sheet(dim.dimensioned(d, face), d, dim.READ / ratio, below), ratio)
