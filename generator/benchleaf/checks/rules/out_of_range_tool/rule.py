"""A setting that the tool does not have is not what happens at the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level
from benchleaf.model.action import Bath, Heat, Wait
from benchleaf.units.quantity import Temperature

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each temperature that the tool of its step cannot be set to."""
    for spot in every_step(base):
        action = spot.step.action
        if not isinstance(action, Heat | Wait | Bath) or action.tool is None or action.at is None:
            continue
        tool = base.tools.get(action.tool.text)
        reach = tool.range if tool else None
        if isinstance(reach, Temperature) and not (reach.low <= action.at.low and action.at.high <= reach.high):
            yield Hit(
                action.place,
                f"`{action.tool}` cannot be set to {action.at.text}: it goes {reach.text}",
                "Write a temperature in that range, or take a tool that has this one.",
                step=spot.step,
            )


RULE = Rule("out-of-range-tool", Level.ERROR, check)
