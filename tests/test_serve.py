"""The live preview: drafts are shown, an edit appears, and what its author breaks does not end it."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
COMMAND = Path(sys.executable).parent / "benchleaf"
PATIENCE = 120.0  # s; it takes three on a machine that does nothing else
DRAFT = "title: Look at the lanyard post\nsteps:\n  - {do: Look at the lanyard post.}\n"


def wait_for(url: str, text: str) -> str:
    """Return the page at *url* as soon as it holds *text*; what it held last where it never does."""
    end, page = time.monotonic() + PATIENCE, ""
    while time.monotonic() < end:
        try:
            with urllib.request.urlopen(url, timeout=5) as answer:  # noqa: S310  (our own server)
                page = answer.read().decode()
        except (urllib.error.URLError, ConnectionError, TimeoutError):
            page = ""
        if text in page:
            return page
        time.sleep(0.3)
    return page


def is_said(file: Path, text: str) -> bool:
    """Whether the preview says *text* before long."""
    end = time.monotonic() + PATIENCE
    while text not in file.read_text(encoding="utf-8") and time.monotonic() < end:
        time.sleep(0.3)
    return text in file.read_text(encoding="utf-8")


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[tuple[str, Path, Path]]:
    """Serve a copy of the demonstration; yield its address, its procedures, and the file of what it says."""
    shutil.copytree(ROOT / "procedures", tmp_path / "procedures")
    shutil.copy(ROOT / "mkdocs.yml", tmp_path)
    (tmp_path / "procedures" / "repairs" / "godwit" / "look-at-post.yml").write_text(DRAFT, encoding="utf-8")
    with serving(tmp_path) as (address, said):
        yield address, tmp_path / "procedures", said


@contextmanager
def serving(folder: Path) -> Iterator[tuple[str, Path]]:
    """Serve the knowledge base in *folder*; yield the address, and the file of what is said."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    said = folder / "said.txt"
    with (
        said.open("wb") as out,
        subprocess.Popen(
            [COMMAND, "serve", "--address", address], cwd=folder, stdout=out, stderr=out, env=os.environ
        ) as running,
    ):
        try:
            yield f"http://{address}", said
        finally:
            running.terminate()


@pytest.mark.slow
def test_preview(preview: tuple[str, Path, Path]) -> None:
    """A draft has its page and its banner; an edit shows; a broken file is named and the last good pages stay."""
    address, procedures, said = preview
    page = f"{address}/repairs/godwit/look-at-post.html"
    file = procedures / "repairs" / "godwit" / "look-at-post.yml"

    assert 'data-status="draft"' in wait_for(page, "lanyard post")

    file.write_text(DRAFT.replace("Look at the lanyard post.", "Turn the lanyard post."), encoding="utf-8")
    assert "Turn the lanyard post." in wait_for(page, "Turn the lanyard post.")

    file.write_text(DRAFT.replace("steps:", "stepps:"), encoding="utf-8")
    assert is_said(said, "look-at-post.yml:2:1: error unknown-field")
    broken = wait_for(page, "unknown-field")
    assert "Turn the lanyard post." in broken
    assert "<code>procedures/repairs/godwit/look-at-post.yml:2:1</code> error" in broken

    # What an editor leaves in the middle of saving: nothing can be read, and the pages stay all the same.
    (procedures / "saving.yml").symlink_to("gone.yml")
    (procedures / "shop.yml").touch()
    assert is_said(said, "saving.yml is neither a file nor a folder")
    assert "Turn the lanyard post." in wait_for(page, "Turn the lanyard post.")
    (procedures / "saving.yml").unlink()

    file.write_text(DRAFT.replace("Look at the lanyard post.", "Pull the lanyard post."), encoding="utf-8")
    assert "Pull the lanyard post." in wait_for(page, "Pull the lanyard post.")
    assert "Traceback" not in said.read_text(encoding="utf-8")
    assert f"Serving on {address}" in said.read_text(encoding="utf-8")


@pytest.mark.slow
def test_preview_of_what_is_broken(tmp_path: Path) -> None:
    """A preview that begins on a broken file says so in the terminal and on the page, and shows what it can."""
    subprocess.run([COMMAND, "init", tmp_path / "kb"], check=True, capture_output=True)
    (tmp_path / "kb" / "procedures" / "symptoms.yml").write_text("no-light: {tilte: Dark}\n", encoding="utf-8")

    with serving(tmp_path / "kb") as (address, said):
        first = wait_for(f"{address}/index.html", "unknown-field")
        page = wait_for(f"{address}/repairs/knot/replace-battery.html", "Replace the battery")
        news = wait_for(f"{address}/-preview/news?page=index.html&seen=0", "-")

    assert "<code>procedures/symptoms.yml:1:12</code> error" in first
    assert "Replace the battery" in page
    assert f'data-seen="{news}"' in first
    assert "procedures/symptoms.yml:1:12: error unknown-field" in said.read_text(encoding="utf-8")


@pytest.mark.parametrize("address", ["127.0.0.1:99999", "somewhere"])
def test_address_that_is_none(tmp_path: Path, address: str) -> None:
    """An address that nothing can listen at is refused, without a traceback."""
    subprocess.run([COMMAND, "init", tmp_path / "kb"], check=True, capture_output=True)

    done = subprocess.run(
        [COMMAND, "serve", "--address", address], cwd=tmp_path / "kb", capture_output=True, text=True, check=False
    )

    assert 2 == done.returncode
    assert "Traceback" not in done.stderr
