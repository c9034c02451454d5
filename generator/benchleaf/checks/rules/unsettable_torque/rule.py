"""A torque that no driver can be set to is guessed at the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.torques import every_torque
from benchleaf.findings import Level
from benchleaf.units.quantity import Torque

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.shop import Tool

_CLOSE = 1e-6  # A step of a driver is met to a millionth: units are converted.


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each torque that no driver of the shop with the screw's drive can be set to."""
    if not base.tools:  # A shop whose list of tools is missing, or cannot be read, has not said what it can set.
        return
    for asked in every_torque(base):
        drive = asked.fastener.drive
        if drive is None:
            continue
        fitting = [tool for tool in base.tools.values() if drive in tool.drives and isinstance(tool.range, Torque)]
        if not any(_sets(tool, asked.torque) for tool in fitting):
            there = listed([f"`{tool.id}` ({_reach(tool)})" for tool in fitting]) if fitting else "none"
            yield Hit(
                asked.place,
                f"No driver for {drive} can be set to {asked.torque.text}, so it would be guessed; there is: {there}",
                "Write a torque that one of them sets, or give the driver that does an entry in tools.yml.",
                step=asked.step,
            )


def _sets(tool: Tool, torque: Torque) -> bool:
    reach, step = tool.range, tool.resolution
    if reach is None or not (reach.low <= torque.low * (1 + _CLOSE) and torque.high <= reach.high * (1 + _CLOSE)):
        return False
    # A range of torques is met by any mark inside it.
    if step is None or torque.high - torque.low >= step.low:
        return True
    marks = torque.high / step.low
    return abs(marks - round(marks)) < _CLOSE * max(1.0, marks)


def _reach(tool: Tool) -> str:
    steps = f" in steps of {tool.resolution.text}" if tool.resolution else ""
    return f"{tool.range.text}{steps}" if tool.range else "no range given"


RULE = Rule("unsettable-torque", Level.WARNING, check)
