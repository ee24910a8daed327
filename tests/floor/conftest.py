"""One example sized, as a job file and as a judgement, for every test of the room."""

from pathlib import Path

import pytest

from transom.catalogue import SHIPPED
from transom.cli import main as command
from transom.floor.building import build_of
from transom.floor.steps import Build
from transom.job.read import load
from transom.judge.judging import judge
from transom.judge.records import Judgement

EXAMPLE = Path(__file__).parents[2] / "examples" / "pontoon-40hp.toml"


@pytest.fixture(scope="package")
def sized(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example with its mount, in a folder of its own."""
    path = tmp_path_factory.mktemp("floor") / "job.toml"
    assert command.main(["size", str(EXAMPLE), "--write", str(path)]) == 0
    return path


@pytest.fixture(scope="package")
def judged(sized: Path) -> Judgement:
    job = load(sized)
    assert job.mount is not None
    return judge(job, SHIPPED, job.mount)


@pytest.fixture(scope="package")
def build(judged: Judgement) -> Build:
    return build_of(judged, SHIPPED)
