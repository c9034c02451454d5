"""The demonstration as its readers meet it: what its drawings say and what its schedules say is one thing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from benchleaf import build
from benchleaf.derive.numbering import items
from benchleaf.model.action import Screw, Unscrew
from benchleaf.source.folder import scan

ROOT = Path(__file__).resolve().parent.parent
BASE = build.check(scan(ROOT, "procedures")).base
DRAWN = [
    pytest.param(device, step, id=f"{device.id}-{step.id}")
    for device in BASE.devices.values()
    for level in device.access.values()
    for step in (*level.opening, *level.closing)
    if step.picture and isinstance(step.action, Screw | Unscrew)
]


@pytest.mark.parametrize(("device", "step"), DRAWN)
def test_screws_in_drawing(device, step):  # type: ignore[no-untyped-def]  # values of the model, by the list above
    """A drawing of screws calls each kind by the item letter that the fastener schedule gives it."""
    drawing = (ROOT / "procedures" / step.picture.text).read_text(encoding="utf-8")
    letters = items(device)
    used = {letters[screws.fastener.text] for screws in step.action.screws}

    assert used == set(re.findall(r"Item ([A-Z]):[^.]*screws", drawing))
