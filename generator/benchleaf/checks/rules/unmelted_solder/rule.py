"""Solder that is not molten tears its pad off the board."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import every_step
from benchleaf.findings import Level
from benchleaf.library.alloys import ALLOYS
from benchleaf.model.action import Heat
from benchleaf.physics.profile import least_iron, melts
from benchleaf.physics.types import Celsius

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.checks.walk import Spot
    from benchleaf.library.alloys import Alloy
    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each rework that does not melt the solder of its joint, and each iron that barely does."""
    for spot in every_step(base):
        action = spot.step.action
        if not isinstance(action, Heat) or (action.kind == "heat" and not _wicks(base, spot)):
            continue
        reached = Celsius((action.reaches or action.at).low)
        tool = base.tools.get(action.tool.text)
        for alloy in _alloys(base, spot):
            least = math.ceil(alloy.liquidus.cautious.value)
            if not melts(alloy, reached):
                yield Hit(
                    action.place,
                    f"{reached:g} °C does not melt {alloy.id}, liquid at {least} °C: the pad comes off with the part",
                    f"Write at least {least} °C for the joint itself"
                    + (f", or {math.ceil(least_iron(alloy))} °C for an iron." if tool and tool.kind == "iron" else "."),
                    step=spot.step,
                    about=alloy.id,
                )
            elif tool and tool.kind == "iron" and reached < least_iron(alloy):
                yield Hit(
                    action.place,
                    f"{reached:g} °C at the iron barely melts {alloy.id}: it stays on the joint until the pad lifts",
                    f"Write at least {math.ceil(least_iron(alloy))} °C (common practice), or heat the board as well.",
                    level=Level.WARNING,
                    step=spot.step,
                    about=alloy.id,
                )


def _wicks(base: KnowledgeBase, spot: Spot) -> bool:
    """Whether the step takes up old solder: heat alone melts nothing that must be molten, a wick drinks what is."""
    known = (base.materials.get(amount.material.text) for amount in spot.step.apply)
    return any(material is not None and material.kind == "wick" for material in known)


def _alloys(base: KnowledgeBase, spot: Spot) -> tuple[Alloy, ...]:
    """Return the solders that must melt: the board's own, and what the step puts on."""
    board = spot.device.board if spot.device else None
    names = [board.solder.text] if board and board.solder else []
    for amount in spot.step.apply:
        material = base.materials.get(amount.material.text)
        names.append(material.alloy.text if material and material.alloy else amount.material.text)
    return tuple(ALLOYS[name] for name in dict.fromkeys(names) if name in ALLOYS)


RULE = Rule("unmelted-solder", Level.ERROR, check)
