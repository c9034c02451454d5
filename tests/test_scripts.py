"""The pure parts of the site's scripts, tested by Node's own test runner."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.conftest import ROOT, run, tool

if TYPE_CHECKING:
    from pathlib import Path

FILES = sorted((ROOT / "tests" / "js").glob("*.test.mjs"))


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.name)
def test_script(file: Path) -> None:
    """Each file of script tests passes."""
    said = run(tool("node", "nodejs"), "--test", file, cwd=ROOT)

    assert said.returncode == 0, said.stdout + said.stderr
