"""Hot air that stays on joints for longer than any board is known to bear it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.joints import carrier
from benchleaf.checks.reflow import passes
from benchleaf.checks.rule import Hit
from benchleaf.model.action import Heat
from benchleaf.physics.profile import LONGEST_AIR
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def hot_air(trace: Trace) -> Iterator[Hit]:
    """Yield each rework by hot air that lasts too long, where no package and no time of a limit says so already."""
    judged = {id(one.moment) for one in passes(trace)}
    for moment, action in trace.acts(Heat):
        part = trace.world.parts.get(action.on.text)
        limit = part.heat_limit.lasts if part and part.heat_limit else None
        if part is None or limit is not None or action.kind == "heat" or id(moment) in judged:
            continue
        on_board = trace.world.parts[carrier(trace.world, part.id)].kind == "board"
        if on_board and trace.nature.kind(action.tool.text) == "hot-air" and action.lasts.high > LONGEST_AIR:
            yield Hit(
                action.place,
                f"Hot air is on the joints of `{part.id}` for {digits(action.lasts.high, 3, math.ceil)} s, and "
                f"{LONGEST_AIR:g} s is the most that is usual (common practice): the board browns and its pads let go",
                f"Write at most {LONGEST_AIR:g} s; where that melts nothing, warm the board from below. Or give the "
                "part the time that it bears in its `heat_limit`.",
                step=moment.step,
                about="hot air",
            )
