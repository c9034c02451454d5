"""
How long a check takes beside the bare reading of the same files.

    python -m tests.bench.checking FOLDER [ROUNDS]

Both run in this one process, in turns, as the command line runs them; what counts is the least disturbed of each, in
seconds of the processor. The first round fills what is remembered of the physics; it counts like the others.
"""

from __future__ import annotations

import gc
import json
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from benchleaf import build
from benchleaf.source.folder import scan
from benchleaf.source.read import read

if TYPE_CHECKING:
    from collections.abc import Callable


@dataclass(frozen=True, slots=True)
class Check:
    """Seconds of the processor that reading and checking took; the first check, which remembers nothing, by itself."""

    parse: float
    check: float
    first: float

    @property
    def ratio(self) -> float:
        """The first check beside the bare reading: a run of CI remembers nothing."""
        return self.first / self.parse


def measure(folder: Path, rounds: int) -> Check:
    """Read and check the knowledge base in *folder* in turns."""
    files = scan(folder, "procedures")
    own = [file for file in files.files if file.kind]
    parse, check = [], []
    gc.disable()  # As the command line does.
    for _ in range(rounds):
        parse.append(_cpu(lambda: [read(file.data, file.path) for file in own]))
        check.append(_cpu(lambda: build.check(files, pages=False)))
        gc.collect()
    return Check(min(parse), min(check), check[0])


def _cpu(act: Callable[[], object]) -> float:
    start = time.process_time()
    act()
    return time.process_time() - start


if __name__ == "__main__":
    seen = measure(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 3)
    print(json.dumps({"parse": seen.parse, "check": seen.check, "first": seen.first}))  # noqa: T201
