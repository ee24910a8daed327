"""The columns of the table of results: name, kind, and what stands there."""

from collections.abc import Sequence
from typing import Literal

from transom.frozen import dataclass

Kind = Literal["text", "whole", "number", "flag"]
Cell = str | int | float | bool | None


@dataclass(frozen=True)
class Column:
    """One column; a cell without a value is empty, in JSON null."""

    name: str
    kind: Kind
    says: str


FIRST = (
    Column("row", "whole", "number of the row in JOBS, from 1"),
    Column("id", "text", "stands for what was judged: job, shop's file, changed values; another job, another id"),
    Column("job", "text", "file of the job; of a table, with the line"),
)
LAST = (
    Column("name", "text", "[job] name"),
    Column("method", "text", "careful method, as `transom size`; or pencil method, SCREENING ONLY"),
    Column("exit", "whole", "as `transom size` ends: 0 passes, 1 does not, 2 cannot be judged; 70 internal error"),
    Column("verdict", "text", "WORKS, DOES NOT WORK, STOP or CANNOT BE JUDGED"),
    Column("passes", "flag", "true where every check passes and no stop stands; empty where it cannot be judged"),
    Column("paper", "text", "QUOTE: something that decides is assumed, no paper to cut from; CUT: it is measured"),
    Column("sheets", "text", "layers of the pick, aft face first, each with the way of its face grain"),
    Column("wood_mm", "number", "thickness of the wood"),
    Column("board_mm", "number", "thickness with coats"),
    Column("total_mm", "number", "under the bracket, plates included"),
    Column("mass_kg", "number", "board, plates and washers"),
    Column("bolts", "text", "engine bolts: thread, length, grade"),
    Column("aft", "text", "what lies under their heads, aft"),
    Column("forward", "text", "what lies under their nuts, inside"),
    Column("frame_bolts", "text", "board to frame: enough, what to ADD, or which new ones"),
    Column("pod_bolts", "text", "pod to crossmembers, likewise"),
    Column("torque_Nm", "number", "the one torque: the job's, else the most that bolt and wood stand"),
    Column("weakest_link", "text", "in words; where nothing works, of the nearest miss"),
    Column("check", "text", "its id"),
    Column("percent_of_limit", "number", "what it carries over what it may carry, safety factors in; empty: no number"),
    Column(
        "needs_mm", "number", "wood at which the board's hungriest check comes to exactly its limit; empty: none does"
    ),
    Column(
        "needs",
        "text",
        "the same of each check, mm; inf: at no thickness, or a thicker board is worse; those not named pass at 5 mm",
    ),
    Column("nearest_miss", "text", "where nothing works, the layers that come nearest"),
    Column("candidates", "whole", "mounts that were looked through"),
    Column("to_measure", "text", "assumed keys close to where the answer flips, most urgent first"),
    Column("stops", "text", "reasons not to build however strong the board, that nobody has taken on"),
    Column("faults", "text", "why it cannot be judged"),
    Column(
        "cautions", "text", "what the numbers do not cover, of this job; what holds for all stands beside the table"
    ),
)


def columns(said: Sequence[str]) -> tuple[Column, ...]:
    """All columns, those of what is stated row by row after the job."""
    stated = tuple(Column(name, "text", "as stated in JOBS or by --vary") for name in said)
    return (*FIRST, *stated, *LAST)
