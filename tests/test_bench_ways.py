"""Each way of each bench page, walked by the page's own scripts: checks pass, fail once, or fail each time."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from tests.conftest import ROOT, run, tool

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture(scope="module")
def walks(demo_site: Path) -> list[dict[str, Any]]:
    """Return how each walk through the demonstration ended."""
    said = run(tool("node", "nodejs"), ROOT / "tests" / "js" / "walk-ways.mjs", demo_site, cwd=ROOT)
    assert said.returncode == 0, said.stderr
    return [json.loads(line) for line in said.stdout.splitlines()]


def test_each_walk_ends(walks: list[dict[str, Any]]) -> None:
    """Whatever fails, the work comes to its end or is stopped, and never runs in a circle or into closing by half."""
    lost = [walk for walk in walks if walk["state"] not in {"ended", "stopped"}]

    assert [] == lost


def test_tray_is_empty_at_each_end(walks: list[dict[str, Any]]) -> None:
    """Along the way that was really taken, nothing lies out at the end but what is meant to."""
    left = [walk for walk in walks if walk["state"] == "ended" and walk["left"]]

    assert [] == left


def test_every_check_fails(walks: list[dict[str, Any]]) -> None:
    """A check that is met fails when it is told to, so that a walk which ended means something."""
    straight = [walk for walk in walks if walk["failing"] is None]
    failed = [walk for walk in walks if walk["failed"]]
    again = [walk for walk in failed if walk["failed"] > 1]

    assert {"ended"} == {walk["state"] for walk in straight}
    assert len(failed) > len(walks) / 2
    assert {"ended", "stopped"} == {walk["state"] for walk in failed}
    assert {"stopped"} <= {walk["state"] for walk in again}
