"""One build, watched: seconds on the clock and of the processor, the most memory it held, and what it wrote."""

from __future__ import annotations

import os
import subprocess
import time
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Event, Thread
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_OFTEN = 0.05  # s


@dataclass(frozen=True, slots=True)
class Build:
    """What one build took, and what it made."""

    wall: float  # s
    cpu: float  # s
    memory: float  # MB, the most that all its processes held at one time
    site: float  # MB of all files
    page: float  # bytes of a procedure's page, on average


def build(command: Sequence[str | Path], folder: Path) -> Build:
    """Run *command* in *folder*, where it builds `site`."""
    start = time.perf_counter()
    with (folder / "said.txt").open("w", encoding="utf-8") as said:
        process = subprocess.Popen(
            command, cwd=folder, stdout=said, stderr=said, env={**os.environ, "NO_MKDOCS_2_WARNING": "1"}
        )
        with _watched(process.pid) as memory:
            # Not process.wait(): only this tells what it and its helpers used, and nothing that ran before.
            _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
    wall = time.perf_counter() - start
    if process.returncode:
        raise RuntimeError(f"{command[0]} failed\n{(folder / 'said.txt').read_text(encoding='utf-8')}")
    sizes = {path: path.stat().st_size for path in (folder / "site").rglob("*") if path.is_file()}
    pages = [size for path, size in sizes.items() if path.match("repairs/*/*.html")]
    return Build(
        wall=wall,
        cpu=used.ru_utime + used.ru_stime,
        # What the system counts is the largest process alone; what was seen may have missed the moment of the most.
        memory=max(used.ru_maxrss, *memory) / 1024,  # Linux counts in KB
        site=sum(sizes.values()) / 1e6,
        page=sum(pages) / len(pages),
    )


@contextmanager
def _watched(process: int) -> Iterator[list[int]]:
    """Fill a list with the KB that *process* and its helpers hold together, shared pages once, time and again."""
    seen, over = [0], Event()

    def look() -> None:
        while not over.wait(_OFTEN):
            seen.append(_held(process))

    watcher = Thread(target=look)
    watcher.start()
    try:
        yield seen
    finally:
        over.set()
        watcher.join()


def _held(process: int) -> int:
    """Return the KB that *process* and those it started hold, of a page that several share to each its share."""
    own = Path(f"/proc/{process}")
    try:
        lines = (own / "smaps_rollup").read_text("ascii").splitlines()
        started = (own / f"task/{process}/children").read_text("ascii").split()
    except OSError:
        return 0  # It has just ended, or this system has no such files.
    share = sum(int(line.split()[1]) for line in lines if line.startswith("Pss:"))
    return share + sum(_held(int(one)) for one in started)


def best(builds: Sequence[Build]) -> Build:
    """Return the build that was least disturbed by whatever else the machine did."""
    return min(builds, key=lambda one: one.cpu)
