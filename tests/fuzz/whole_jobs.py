"""Laws of whole jobs on as many random jobs as asked for: units, mirror, order, review, stock, what the search lost, worse.

    python tests/fuzz/whole_jobs.py [COUNT] [SEED] [LAW ...]

Prints each law broken with the seed that breaks it again, and how often each was asked. Not collected by pytest.
"""

import os
import sys
import time
from collections import Counter
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.laws import growing, laws

EVERY = (*laws.EVERY, growing.worse)


def main() -> int:
    given = sys.argv[1:]
    count, seed = (int(given[n]) if len(given) > n else usual for n, usual in ((0, 100), (1, 1)))
    asked = [law for law in EVERY if not given[2:] or law.__name__ in given[2:]]
    broken, spent = Counter[str](), Counter[str]()
    for law in asked:
        start = time.process_time()
        for at in range(seed, seed + count):
            for fault in law(at):
                broken[law.__name__] += 1
                print(f"{law.__name__} seed {at}: {fault}", flush=True)
        spent[law.__name__] = round(time.process_time() - start)
    for law in asked:
        print(f"{law.__name__}: {count} jobs, {broken[law.__name__]} faults, {spent[law.__name__]} s")
    return int(bool(broken))


if __name__ == "__main__":
    sys.exit(main())
