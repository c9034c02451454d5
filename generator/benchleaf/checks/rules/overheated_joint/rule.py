"""An iron that is too hot or stays too long lifts the pad, and the board is scrap."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Heat
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each touch of an iron above the limit of the joint, in temperature or in time."""
    for moment, heat in trace.acts(Heat):
        part = trace.world.parts.get(heat.on.text)
        limit = part.joint_limit if part else None
        if limit is None or trace.nature.kind(heat.tool.text) != "iron":
            continue
        if heat.at.high > limit.at.low:
            yield Hit(
                heat.place,
                f"The iron is at {heat.at.text} and the joints of `{heat.on}` bear {limit.at.text}: the pad lifts",
                f"Write at most {math.floor(limit.at.low)} °C.",
                step=moment.step,
                about="temperature",
            )
        if limit.lasts is not None and heat.lasts.high > limit.lasts.low:
            yield Hit(
                heat.place,
                f"A touch lasts {heat.lasts.text} and the joints of `{heat.on}` bear {limit.lasts.text}: the pad lifts",
                f"Write at most {digits(limit.lasts.low, 2, math.floor)} s, and more touches with a pause between.",
                step=moment.step,
                about="time",
            )


RULE = Rule("overheated-joint", Level.ERROR, watch=watch)
