"""Tells when files change, by looking: it works on every disk, and needs nothing of the system."""

from __future__ import annotations

import os
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_EVERY = 0.15  # s between two looks
_Seen = dict[str, tuple[int, int, int]]


def changes(*places: Path) -> Iterator[frozenset[str]]:
    """Yield the paths that are new, gone or others, once they have stayed the same from one look to the next."""
    known = _look(places)
    while True:
        time.sleep(_EVERY)
        now = _look(places)
        if now != known:
            # An editor saves in more than one stroke: what moves still is waited for.
            while now != (now := _look(places)):
                time.sleep(_EVERY / 3)
            yield frozenset(path for path in known.keys() | now.keys() if known.get(path) != now.get(path))
            known = now


def _look(places: tuple[Path, ...]) -> _Seen:
    seen: _Seen = {}
    for place in places:
        _add(str(place), seen)
    return seen


def _add(path: str, seen: _Seen) -> None:
    try:
        if not os.path.isdir(path):  # noqa: PTH112  (a thousand times a look: paths of text are quicker)
            found = os.stat(path)  # noqa: PTH116 (as above)
            seen[path] = (found.st_mtime_ns, found.st_size, found.st_ino)
            return
        with os.scandir(path) as inside:
            for entry in inside:
                if entry.name.startswith("."):
                    continue
                if entry.is_dir():
                    _add(entry.path, seen)
                else:
                    found = entry.stat()
                    seen[entry.path] = (found.st_mtime_ns, found.st_size, found.st_ino)
    except OSError:
        seen[path] = (0, 0, 0)  # A link that leads nowhere, a file that was there a moment ago.
