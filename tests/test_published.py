"""Every published case of materials/published, computed by our functions. The source stands in each file."""

from pathlib import Path

import pytest

from transom.published import Published, published_cases

FOLDER = Path(__file__).parents[1] / "materials" / "published"
CASES = list(published_cases(FOLDER))


@pytest.mark.parametrize("case", CASES, ids=[f"{c.id}" for c in CASES])
def test_ours_is_what_was_printed(case: Published) -> None:
    ours = case.ours
    assert abs(ours - case.printed) <= case.allowed, f"{case.source}, {case.citation}: {ours} {case.unit}"


def test_ids_are_unique_and_each_names_where_it_was_printed() -> None:
    assert len({c.id for c in CASES}) == len(CASES)
    assert all(c.citation for c in CASES)
