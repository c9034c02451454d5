"""
What the rules catch of the faults that a tired author commits.

    python -m tests.mutants [--operator NAME ...] [--share N] [--processes N]

Each mutant is one change to one file of the demonstration, written out as text and taken the whole way: read, fit,
build, perform, check. The table says how many of the dangerous ones a right rule sees in a right place.
"""

from __future__ import annotations

import argparse
import sys
import time

from tests.mutants import report
from tests.mutants.known import survivors
from tests.mutants.operators import OPERATORS
from tests.mutants.run import everything, judged, sample

WANTED = 0.98


def main() -> int:
    """Make and judge the mutants and print the report: 0 where enough are caught and all survivors are known."""
    ask = argparse.ArgumentParser(prog="python -m tests.mutants", description=__doc__.strip().splitlines()[0])
    ask.add_argument("--operator", action="append", default=[], help="this kind of slip alone; may be repeated")
    ask.add_argument("--share", type=int, default=1, help="about one mutant in so many")
    ask.add_argument("--processes", type=int, default=None, help="as many as there are cores where it is not said")
    asked = ask.parse_args()
    begun = time.monotonic()
    chosen = asked.operator or [operator.name for operator in OPERATORS]
    wanted = [number for number in sample(asked.share) if everything()[number][0].name in chosen]
    verdicts = judged(wanted, asked.processes)
    print(report.text(OPERATORS, verdicts, survivors()))  # noqa: T201 - the report is what one asked for
    print(f"{len(verdicts)} mutants in {time.monotonic() - begun:.0f} s", file=sys.stderr)  # noqa: T201 - how long it took
    new = [verdict for verdict in verdicts if verdict.survives and verdict.key not in survivors()]
    gone = report.outlived(verdicts, survivors()) if len(verdicts) == len(everything()) else []
    for key in gone:
        print(f"No survivor any more, take it out of survivors.yml: {key}")  # noqa: T201 - as above
    return 1 if new or gone or report.share(verdicts) < WANTED else 0


if __name__ == "__main__":
    sys.exit(main())
