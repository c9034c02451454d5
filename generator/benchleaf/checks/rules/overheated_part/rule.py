"""A part that gets hotter than it bears is dead or a fire, and looks as it did before."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Heat

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace

# What lies on these is at their temperature with all that is part of it; a stream of hot air is aimed.
_ALL_OVER = frozenset({"heat-mat", "oven", "plate"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each part whose body its tool brings above its limit; an iron is judged at the joint."""
    for moment, heat in trace.acts(Heat):
        kind = trace.nature.kind(heat.tool.text)
        if kind == "iron":
            continue
        reached = trace.nature.source(heat)
        for name in sorted(trace.world.family.get(heat.on.text, ())) if kind in _ALL_OVER else [heat.on.text]:
            part = trace.world.parts.get(name)
            if part is None or part.heat_limit is None:
                continue
            if name != heat.on.text and not moment.before.is_in(name):
                continue
            limit = part.heat_limit.at.low
            if reached > limit:
                yield Hit(
                    heat.place,
                    f"`{name}` is brought to {reached:g} °C and bears {part.heat_limit.at.text}",
                    f"Write at most {math.floor(limit)} °C, or take the part out before.",
                    step=moment.step,
                    about=name,
                )


RULE = Rule("overheated-part", Level.ERROR, watch=watch)
