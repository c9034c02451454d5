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
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
COMMAND = Path(sys.executable).parent / "benchleaf"
PATIENCE = 60.0
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
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    said = tmp_path / "said.txt"
    with (
        said.open("wb") as out,
        subprocess.Popen(
            [COMMAND, "serve", "--address", address], cwd=tmp_path, stdout=out, stderr=out, env=os.environ
        ) as running,
    ):
        try:
            yield f"http://{address}", tmp_path / "procedures", said
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
    assert is_said(said, "unknown-field")
    assert "Turn the lanyard post." in wait_for(page, "Turn the lanyard post.")

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


def test_preview_of_what_is_broken(tmp_path: Path) -> None:
    """A preview does not begin on a broken knowledge base: the findings are said, and it ends with 1."""
    subprocess.run([COMMAND, "init", tmp_path / "kb"], check=True, capture_output=True)
    (tmp_path / "kb" / "procedures" / "symptoms.yml").write_text("no-light: {tilte: Dark}\n", encoding="utf-8")

    done = subprocess.run([COMMAND, "serve"], cwd=tmp_path / "kb", capture_output=True, text=True, check=False)

    assert 1 == done.returncode
    assert "procedures/symptoms.yml:1:12: error unknown-field" in done.stdout
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize("address", ["127.0.0.1:99999", "somewhere"])
def test_address_that_is_none(tmp_path: Path, address: str) -> None:
    """An address that nothing can listen at is refused, without a traceback."""
    subprocess.run([COMMAND, "init", tmp_path / "kb"], check=True, capture_output=True)

    done = subprocess.run(
        [COMMAND, "serve", "--address", address], cwd=tmp_path / "kb", capture_output=True, text=True, check=False
    )

    assert 2 == done.returncode
    assert "Traceback" not in done.stderr
