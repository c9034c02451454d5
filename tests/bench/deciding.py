"""
How many states a plan takes, how far its answer reaches, and how long it took, for invented diagnoses of three sizes.

    python -m tests.bench.deciding [--seeds 6]

States are counted, and the same on every machine; the time is told, and nothing depends on it.
"""

from __future__ import annotations

import argparse
import sys
import time

from benchleaf.decisions.plan import plan
from tests.decisions.instances import invented

SIZES = ((5, 4, 6), (6, 5, 8), (10, 8, 12))


def main() -> int:
    """Print one line for each invented diagnosis."""
    ask = argparse.ArgumentParser(prog="python -m tests.bench.deciding", description=__doc__.strip().splitlines()[0])
    ask.add_argument("--seeds", type=int, default=6, help="diagnoses of each size")
    seeds = ask.parse_args().seeds
    print(f"{'causes x tests x cures':24}{'seed':>5}{'states':>8}{'low':>9}{'high':>9}{'gap':>8}{'cpu s':>8}")  # noqa: T201 - this table is what was asked for
    for size in SIZES:
        for seed in range(seeds):
            print(_row(size, seed))  # noqa: T201 - see above
    return 0


def _row(size: tuple[int, int, int], seed: int) -> str:
    problem = invented(seed, *size)
    before = time.process_time()
    found = plan(problem)
    took = time.process_time() - before
    gap = "exact" if found.exact else f"{100 * (found.high - found.low) / found.high:.1f} %"
    name = " x ".join(map(str, size))
    return f"{name:24}{seed:>5}{found.expanded:>8,}{found.low:>9.2f}{found.high:>9.2f}{gap:>8}{took:>8.2f}"


if __name__ == "__main__":
    sys.exit(main())
