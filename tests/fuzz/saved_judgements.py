"""Saved judgements spoilt one value at a time: `compare` answers or refuses in a line, and never falls over.

python tests/fuzz/saved_judgements.py [HOW_MANY [SEED]]
"""

import contextlib
import copy
import io
import json
import os
import random
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).parents[2]))

STEPS = tuple[Any, ...]
GONE = object()
SPOILT = (GONE, None, "zz", 7, [1], {"a": 1}, True, -1e300)


def places(value: Any, path: STEPS = ()) -> Iterator[STEPS]:
    """The path of everything in a value."""
    if path:
        yield path
    if isinstance(value, dict):
        for key in value:
            yield from places(value[key], (*path, key))
    elif isinstance(value, list):
        for i, item in enumerate(value):
            yield from places(item, (*path, i))


def spoilt(value: Any, path: STEPS, by: Any) -> Any:
    """A copy with one value taken out or replaced."""
    out = copy.deepcopy(value)
    at = out
    for step in path[:-1]:
        at = at[step]
    if by is GONE:
        del at[path[-1]]
    else:
        at[path[-1]] = by
    return out


def main() -> int:
    """1 where any run came to something else than an answer or a refusal."""
    from tests.report.jobs import drawn
    from transom.cli import main as command
    from transom.report.judgement import to_json

    count, seed = int(sys.argv[1]) if len(sys.argv) > 1 else 500, int(sys.argv[2]) if len(sys.argv) > 2 else 1
    whole = json.loads(to_json(drawn("example")))
    whole |= {"cases": whole["cases"][:3], "checks": whole["checks"][::40], "assumptions": whole["assumptions"][:2]}
    chance, all_places, codes = random.Random(seed), list(places(whole)), Counter[int]()
    with tempfile.TemporaryDirectory() as folder:
        good, bad = Path(folder, "good.json"), Path(folder, "bad.json")
        good.write_text(json.dumps(whole), encoding="utf-8")
        for n in range(count):
            path, by = chance.choice(all_places), chance.choice(SPOILT)
            bad.write_text(json.dumps(spoilt(whole, path, by)), encoding="utf-8")
            for pair in ((good, bad), (bad, good)):
                err = io.StringIO()
                with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(err):
                    code = command.main(["compare", *map(str, pair), *(["--json"] if n % 2 else [])])
                codes[code] += 1
                if code not in (0, 2):
                    print(path, by, code, err.getvalue().strip())
    print(dict(codes))
    return 0 if set(codes) <= {0, 2} else 1


if __name__ == "__main__":
    sys.exit(main())
