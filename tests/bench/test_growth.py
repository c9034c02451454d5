"""The invented knowledge base is a sound one, and no page of its site grows with the number of the others."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

import pytest

from tests.bench import as_yaml
from tests.bench.measure import build
from tests.conftest import COMMAND, ROOT, run

if TYPE_CHECKING:
    from pathlib import Path

MOST = 25_000  # bytes


@pytest.fixture
def base(tmp_path: Path) -> Path:
    """Return a knowledge base of 30 procedures on two devices."""
    as_yaml.write(30, tmp_path / "small", ROOT / "procedures")
    return tmp_path / "small"


def test_invented_base_is_sound(base: Path) -> None:
    """Nothing in it stops publication, so what is measured is a whole build."""
    said = run(COMMAND, "check", "--format", "json", cwd=base)

    assert [] == [found for found in json.loads(said.stdout)["findings"] if found["level"] == "error"]


def test_page_does_not_grow_with_the_base(base: Path, tmp_path: Path) -> None:
    """A procedure's page has the same size beside 30 others and beside 120: no list of all of them is in it."""
    as_yaml.write(120, tmp_path / "large", ROOT / "procedures")

    small, large = (build((COMMAND, "build"), folder) for folder in (base, tmp_path / "large"))

    assert 1 == pytest.approx(large.page / small.page, rel=0.02)


def test_page_is_small(base: Path) -> None:
    """A procedure's page has at most 25,000 bytes on average, its pictures not counted: old tablets read it too."""
    run(COMMAND, "build", cwd=base)

    sizes = [
        len(re.sub(r"<figure.*?</figure>", "", page.read_text("utf-8"), flags=re.DOTALL).encode())
        for page in (base / "site").glob("repairs/*/*.html")
    ]
    assert 30 == len(sizes)
    assert MOST >= sum(sizes) / len(sizes)
