"""One build, watched: seconds on the clock and of the processor, the most memory it held, and what it wrote."""

from __future__ import annotations

import os
import subprocess
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Build:
    """What one build took, and what it made."""

    wall: float  # s
    cpu: float  # s
    memory: float  # MB, the most that was held at one time
    site: float  # MB of all files
    page: float  # bytes of a procedure's page, on average


def build(command: Sequence[str | Path], folder: Path) -> Build:
    """Run *command* in *folder*, where it builds `site`."""
    start = time.perf_counter()
    with (folder / "said.txt").open("w", encoding="utf-8") as said:
        process = subprocess.Popen(
            command, cwd=folder, stdout=said, stderr=said, env={**os.environ, "NO_MKDOCS_2_WARNING": "1"}
        )
        # Not process.wait(): only this tells what the one process used, and nothing that ran before it.
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
        memory=used.ru_maxrss / 1024,  # Linux counts it in KB
        site=sum(sizes.values()) / 1e6,
        page=sum(pages) / len(pages),
    )


def best(builds: Sequence[Build]) -> Build:
    """Return the build that was least disturbed by whatever else the machine did."""
    return min(builds, key=lambda one: one.cpu)
