"""The demonstration as its readers meet it: what its drawings say and what its schedules say is one thing."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.derive.numbering import items
from benchleaf.model.action import Screw, Unscrew
from benchleaf.source.folder import scan

if TYPE_CHECKING:
    from benchleaf.model.device import Device
    from benchleaf.model.step import Step

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
def test_screws_in_drawing(device: Device, step: Step) -> None:
    """A drawing of screws calls each kind by the item letter that the fastener schedule gives it."""
    assert step.picture is not None
    assert isinstance(step.action, Screw | Unscrew)
    drawing = (ROOT / "procedures" / step.picture.text).read_text(encoding="utf-8")
    drawn = dict(re.findall(r"Item ([A-Z]): [a-z]+ (short|long) screws", drawing))
    lengths = {
        letter: re.findall("[Ss]hort|[Ll]ong", device.fasteners[name].title.text)
        for name, letter in items(device).items()
    }

    assert {letter: [length] for letter, length in drawn.items()} == {
        letter: [word.lower() for word in lengths[letter]] for letter in drawn
    }
    assert {items(device)[screws.fastener.text] for screws in step.action.screws} <= set(drawn)
