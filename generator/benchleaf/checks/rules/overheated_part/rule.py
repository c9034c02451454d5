"""A part that gets hotter than it bears is dead or a fire, and looks as it did before."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.bodies import bodies
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each part whose body its tool brings above its limit; an iron is judged at the joint."""
    for body in bodies(trace.world, trace.nature, trace.every()):
        if body.too_hot:
            yield Hit(
                body.action.place,
                f"`{body.part}` is brought to {body.reached:g} °C and bears {body.limit.at.text}",
                f"Write at most {math.floor(body.limit.at.low)} °C, or take the part out before.",
                step=body.moment.step,
                about=body.part,
            )


RULE = Rule("overheated-part", Level.ERROR, watch=watch)
