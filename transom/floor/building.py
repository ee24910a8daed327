"""From a judgement to what the steps are told from."""

from transom.catalogue import Catalogue
from transom.drawing.layout import drawing_of
from transom.errors import JobError
from transom.estimate.hours import hours_of
from transom.estimate.reading import shipped
from transom.estimate.work import work_of
from transom.floor.cure import GLUE, curing
from transom.floor.steps import Build
from transom.judge.records import Judgement


def build_of(j: Judgement, tables: Catalogue, glue: str = GLUE) -> Build:
    """The build of a judged mount.

    Raises:
        JobError: there is no mount, or the glue does not cure in this shop.
    """
    if j.mount is None:
        raise JobError(
            "there is no mount that works, so there is nothing to build; `transom size` says what is nearest"
        )
    work = work_of(j, j.mount, j.fasteners)
    hours = {h.operation.name: float(h.likely) for h in hours_of(work, tables, shipped())}
    return Build(j, drawing_of(j), work, curing(tables, glue, j.job.shop_temperature), hours)
