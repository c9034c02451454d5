"""Whose joints a part's are, and what solder they were made with."""

from __future__ import annotations

import pytest

from benchleaf.checks.joints import carrier, made_with
from tests import make
from tests.dryrun.made import trace

WADER = make.WADER.replace(
    "  buzzer:      {title: Buzzer, kind: speaker, only: [w2]}\n",
    "  grip-board:  {title: Grip board, kind: board}\n"
    "  grip-socket: {title: Grip socket, kind: socket, part_of: grip-board}\n"
    "  loose-chip:  {title: Chip, kind: package}\n"
    "  one:         {title: One, kind: other, part_of: other}\n"
    "  other:       {title: Other, kind: other, part_of: one}\n",
)


@pytest.mark.parametrize(
    ("part", "alloy"),
    [("lamp-socket", "sac305"), ("main-board", "sac305"), ("loose-chip", "sac305"), ("grip-socket", None), ("x", None)],
)
def test_solder_of_joints(part: str, alloy: str | None) -> None:
    """The board's solder is that of every part but those which belong to another board, or which nobody knows."""
    world = trace("- {do: Wait a little., wait: {for: 1 min}}", wader=WADER).world

    assert alloy == made_with(world, part)


def test_solder_that_is_not_said() -> None:
    """Where the board does not say its solder nothing is known of the joints."""
    world = trace("- {do: Wait a little., wait: {for: 1 min}}", wader=WADER.replace(", solder: sac305", "")).world

    assert made_with(world, "lamp-socket") is None


@pytest.mark.parametrize(("part", "outer"), [("lamp-socket", "main-board"), ("lens", "lens"), ("one", "other")])
def test_carrier(part: str, outer: str) -> None:
    """A part is soldered to the outermost that it is part of; a circle ends where it closes."""
    world = trace("- {do: Wait a little., wait: {for: 1 min}}", wader=WADER).world

    assert outer == carrier(world, part)
