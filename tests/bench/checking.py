"""
How long a check takes beside the bare reading of the same files.

    python -m tests.bench.checking FOLDER [ROUNDS]

Both run in turns, the check as the command line runs it, with its helpers; what counts is the least disturbed of each.
The first check remembers nothing of the physics and is told by itself. Seconds are those of the clock, and those that
the processors worked for it, the helpers' counted in.
"""

from __future__ import annotations

import gc
import json
import os
import sys
import time
from dataclasses import astuple, dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from benchleaf import build
from benchleaf.source.folder import scan
from benchleaf.source.read import read

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence


@dataclass(frozen=True, slots=True)
class Took:
    """Seconds on the clock, and of all processors together."""

    clock: float
    cpu: float


@dataclass(frozen=True, slots=True)
class Check:
    """What bare reading and checking took; the first check, which remembers nothing, and the best of the later ones."""

    parse: Took
    first: Took
    later: Took

    @classmethod
    def told(cls, said: str) -> Check:
        """Return what this module printed."""
        return cls(*(Took(*seen) for seen in json.loads(said)))


def measure(folder: Path, rounds: int) -> Check:
    """Read and check the knowledge base in *folder* in turns, at least twice."""
    files = scan(folder, "procedures")
    own = [file for file in files.files if file.kind]
    parse, check = [], []
    gc.disable()  # As the command line does.
    for _ in range(max(rounds, 2)):
        parse.append(_took(lambda: [read(file.data, file.path) for file in own]))
        check.append(_took(lambda: build.check(files, pages=False)))
        gc.collect()
    return Check(_least(parse), check[0], _least(check[1:]))


def _least(seen: Sequence[Took]) -> Took:
    return Took(min(one.clock for one in seen), min(one.cpu for one in seen))


def _took(act: Callable[[], object]) -> Took:
    clock, cpu = time.perf_counter(), _cpu()
    act()
    return Took(time.perf_counter() - clock, _cpu() - cpu)


def _cpu() -> float:
    used = os.times()
    return used.user + used.system + used.children_user + used.children_system


if __name__ == "__main__":
    seen = measure(Path(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 3)
    print(json.dumps([astuple(one) for one in (seen.parse, seen.first, seen.later)]))  # noqa: T201 - it is what was asked for
