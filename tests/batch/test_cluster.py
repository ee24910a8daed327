"""The same rows on a real local Dask scheduler with two worker processes, one of them killed; and Dask out of `size`'s way."""

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.batch.jobs import EXAMPLE, table
from tests.cli.watched import HOOKED, NOTES, noted
from transom import __version__
from transom.cli.main import main
from transom.errors import JobError

ROOT = Path(__file__).parents[2]
OPTIONAL = ("dask", "distributed", "pyarrow", "pandas")
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT), "DASK_DISTRIBUTED__SCHEDULER__ALLOWED_FAILURES": "3"}


def test_size_imports_neither_dask_nor_pint_nor_pyarrow_wherever_they_are_installed() -> None:
    code = (
        "import sys; from transom.cli.main import main; main(['size', sys.argv[1]]);"
        f"print([m for m in {(*OPTIONAL, 'pint')!r} if m in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(EXAMPLE)], env=ENVIRONMENT, capture_output=True, text=True, check=True
    )
    assert done.stderr.strip() == "[]"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("cluster")


class Cluster:
    """A scheduler and its workers, each a process of its own; a worker has no keeper that would start it again."""

    def __init__(self, folder: Path) -> None:
        self._file, self._log = folder / "scheduler.json", (folder / "cluster.log").open("w")
        self.scheduler = self._start("dask_scheduler", "--host", "127.0.0.1", "--port", "0")
        self._processes = [self.scheduler]
        until = time.monotonic() + 60
        while not (self._file.exists() and self._file.read_text().strip()):
            assert time.monotonic() < until, "no scheduler"
            time.sleep(0.05)
        import json

        self.address: str = json.loads(self._file.read_text())["address"]
        self.workers = [self.worker(), self.worker()]

    def worker(self) -> "subprocess.Popen[bytes]":
        process = self._start("dask_worker", "--nthreads", "1", "--no-nanny", "--host", "127.0.0.1")
        self._processes.append(process)
        return process

    def _start(self, program: str, *more: str) -> "subprocess.Popen[bytes]":
        command = [
            sys.executable,
            "-m",
            f"distributed.cli.{program}",
            "--scheduler-file",
            str(self._file),
            "--no-dashboard",
        ]
        return subprocess.Popen([*command, *more], env=ENVIRONMENT, stdout=self._log, stderr=self._log)

    def close(self) -> None:
        for process in reversed(self._processes):
            process.kill()
            process.wait()
        self._log.close()


@pytest.fixture(scope="module")
def cluster(folder: Path) -> Iterator[Cluster]:
    pytest.importorskip("distributed")
    made = Cluster(folder)
    yield made
    made.close()


def given(folder: Path, out: str) -> list[str]:
    jobs = folder / "jobs.csv"
    if not jobs.exists():
        table(folder, good=6, bad=30)
    return ["batch", str(jobs), "--base", str(folder / "base.toml"), "--pencil", "--out", str(folder / out)]


pytestmark = pytest.mark.filterwarnings("default")  # Dask's own


def test_a_worker_killed_in_the_middle_loses_and_doubles_no_row(
    folder: Path, cluster: Cluster, capsys: pytest.CaptureFixture[str]
) -> None:
    unfinished = folder / "cluster.csv.unfinished"

    def kill_one() -> None:
        until = time.monotonic() + 60
        while time.monotonic() < until:
            if unfinished.exists() and unfinished.read_bytes().count(b"\n") > 3:
                cluster.workers[0].send_signal(signal.SIGKILL)
                return
            time.sleep(0.002)

    killer = threading.Thread(target=kill_one)
    killer.start()
    assert main([*given(folder, "cluster.csv"), "--cluster", cluster.address]) == 2
    killer.join()
    assert cluster.workers[0].wait(10) == -signal.SIGKILL, "killed before the run was over"
    assert cluster.workers[1].poll() is None
    assert main([*given(folder, "local.csv"), "--workers", "2"]) == 2
    assert (folder / "cluster.csv").read_bytes() == (folder / "local.csv").read_bytes()
    assert not unfinished.exists()


def test_a_run_interrupted_on_the_cluster_is_taken_up_here(folder: Path, cluster: Cluster) -> None:
    unfinished = folder / "ended.csv.unfinished"
    process = subprocess.Popen([sys.executable, "-m", "transom", *given(folder, "ended.csv"), "--cluster", cluster.address],
                               env=ENVIRONMENT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)  # fmt: skip
    until = time.monotonic() + 60
    while time.monotonic() < until and not (unfinished.exists() and unfinished.read_bytes().count(b"\n") > 5):
        time.sleep(0.002)
    process.send_signal(signal.SIGINT)
    _, err = process.communicate(timeout=60)
    assert process.returncode == 130, err
    assert "Traceback" not in err
    assert main([*given(folder, "ended.csv"), "--go-on", "--workers", "1"]) == 2
    if (folder / "local.csv").exists():
        assert (folder / "ended.csv").read_bytes() == (folder / "local.csv").read_bytes()


def test_a_scheduler_that_dies_leaves_what_was_judged(tmp_path: Path) -> None:
    pytest.importorskip("distributed")
    cluster, unfinished = Cluster(tmp_path), tmp_path / "left.csv.unfinished"
    try:
        process = subprocess.Popen([sys.executable, "-m", "transom", *given(tmp_path, "left.csv"), "--cluster", cluster.address],
                                   env=ENVIRONMENT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)  # fmt: skip
        until = time.monotonic() + 60
        while time.monotonic() < until and not (unfinished.exists() and unfinished.read_bytes().count(b"\n") > 2):
            time.sleep(0.002)
        cluster.scheduler.kill()
        out, err = process.communicate(timeout=60)
    finally:
        cluster.close()
    assert (process.returncode, out) == (2, ""), err
    assert err.strip().endswith("--go-on takes it up.")
    assert len(err.strip().splitlines()) == 1
    assert unfinished.read_bytes().count(b"\n") > 2


def test_workers_without_this_version_are_refused() -> None:
    from transom.batch.cluster import check

    class Client:
        def wait_for_workers(self, count: int, timeout: float) -> None: ...

        def run(self, *_: object, **__: object) -> dict[str, object]:
            return {"tcp://b": "0.0.0", "tcp://a": ModuleNotFoundError("transom"), "tcp://c": __version__}

    with pytest.raises(JobError) as error:
        check(Client(), "tcp://s")
    first, second = error.value.faults
    assert "tcp://a has no transom" in first
    assert "tcp://b has transom 0.0.0" in second


def test_a_cluster_that_is_not_there_is_a_fault(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pytest.importorskip("distributed")
    from transom.batch import cluster as module

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "PATIENCE", 1.0)
        assert main([*given(folder, "none.csv"), "--cluster", "tcp://127.0.0.1:9"]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "no scheduler answers" in err
    assert len(err.strip().splitlines()) == 1


def test_without_dask_the_cluster_is_refused_in_one_line(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(sys.modules, "distributed", None)
        assert main([*given(folder, "none.csv"), "--cluster", "tcp://127.0.0.1:9"]) == 2
    assert "transom[cluster]" in capsys.readouterr().err


def test_it_writes_its_results_alone_and_speaks_to_the_scheduler_alone(
    folder: Path, cluster: Cluster, tmp_path: Path
) -> None:
    """Under the watch of tests/cli/watched.py, from the process's first moment."""
    notes, home, out = tmp_path / "notes", tmp_path / "home", tmp_path / "out.csv"
    notes.mkdir()
    home.mkdir()
    environment = ENVIRONMENT | {"PYTHONPATH": f"{HOOKED}{os.pathsep}{ROOT}", NOTES: str(notes), "HOME": str(home),
                                 "PYTHONDONTWRITEBYTECODE": "1"}  # fmt: skip
    jobs = table(tmp_path, good=1, bad=3)
    done = subprocess.run(
        [sys.executable, "-m", "transom", "batch", str(jobs), "--base", str(tmp_path / "base.toml"), "--pencil",
         "--out", str(out), "--cluster", cluster.address],
        cwd=home, env=environment, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 2, done.stderr
    seen = [line for _, lines in noted(notes) for line in lines]
    touched = {path for kind, path in seen if kind == "touched" and path != os.devnull}
    its = [path for path in touched if not Path(path).name.lstrip(".").startswith("out.csv")]
    assert its == []
    assert list(home.iterdir()) == []
    port = cluster.address.rpartition(":")[2]
    left = [said for kind, said in seen if kind == "left"]
    spoken = [said for said in left if said.startswith("socket.connect")]
    assert spoken
    assert all(port in said for said in spoken), spoken
    own = ("socket.", "pickle.find_class", "subprocess.Popen ('uname'")  # the last is Dask asking for the processor
    assert [said for said in left if not said.startswith(own)] == []
