"""From saving a file to the page that shows it: what an author waits for in `benchleaf serve`."""

from __future__ import annotations

import re
import socket
import subprocess
import time
import urllib.error
import urllib.request
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

_EDITS = 3
_START = 600.0  # s
_SETTLE = 3.0  # s: as an author who thinks before the next word; what is drawn after the page is then done


def edit_to_screen(command: Path, folder: Path) -> float:
    """Return how many seconds the quickest of a few edits of one procedure in *folder* took to its page."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    file = min((folder / "procedures" / "repairs").glob("*/*.yml"))
    page = f"repairs/{file.parent.name}/{file.stem}.html"
    was = file.read_text(encoding="utf-8")
    said = (folder / "said.txt").open("w", encoding="utf-8")
    with said, subprocess.Popen([command, "serve", "--address", address], cwd=folder, stdout=said, stderr=said) as run:
        try:
            _ready(f"http://{address}/{page}", run)
            return min(_edit(f"http://{address}", page, file, was, number) for number in range(_EDITS))
        finally:
            run.terminate()
            file.write_text(was, encoding="utf-8")


def _edit(address: str, page: str, file: Path, was: str, number: int) -> float:
    time.sleep(_SETTLE)
    (seen,) = re.findall(r'data-seen="([^"]*)"', _get(f"{address}/{page}"))
    word = f"number {number}."
    text = re.sub(r"(do: [^\n,}]*)\.", rf"\1 {word}", was, count=1)
    begun = time.perf_counter()
    file.write_text(text, encoding="utf-8")
    _get(f"{address}/-preview/news?page={page}&seen={seen}")
    shown = _get(f"{address}/{page}")
    took = time.perf_counter() - begun
    if word not in shown:
        raise RuntimeError(f"{page} does not show the edit")
    return took


def _get(url: str) -> str:
    with urllib.request.urlopen(url, timeout=60) as answer:  # noqa: S310  (our own server)
        text: str = answer.read().decode()
    return text


def _ready(url: str, run: subprocess.Popen[bytes]) -> None:
    end = time.monotonic() + _START
    while time.monotonic() < end and run.poll() is None:
        try:
            _get(url)
        except (urllib.error.URLError, TimeoutError, ConnectionError):
            time.sleep(0.5)
        else:
            return
    raise RuntimeError("The preview did not begin")
