"""What is beside the heat gets hot as well, after the tool has left too, and nobody looks at it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.cooler import cure
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.warmth import warmed_by, warmed_in
from benchleaf.findings import Level
from benchleaf.model.action import Heat
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.warmth import Warmed

_WHY = {
    "battery": "a pack that got too hot burns, now or at the customer's",
    "window": "it crazes, or its bond lets go",
    "display": "it goes dark in spots",
}
_USUAL = "it fails later, and looks as it did before"


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each neighbour that a step, with those before it, takes above its limit: where it first happens."""
    for moment, action in trace.acts(Heat):
        for one in warmed_in(trace, moment):
            limit, level = one.limit, _level(one)
            if limit is None or level is None or _known_before(trace, moment, one, limit, level):
                continue
            yield Hit(
                action.place,
                _message(trace, moment, one, limit, level),
                cure(trace, moment, action, one, limit),
                level=level,
                step=moment.step,
                about=f"{one.part} {level}",
            )


def _level(one: Warmed) -> Level | None:
    """Return how bad it is: the estimate over the limit an error, its bad end alone a warning."""
    if one.limit is None or one.stays_below(one.limit):
        return None
    return Level.ERROR if one.reached.central > one.limit else Level.WARNING


def _known_before(trace: Trace, moment: Moment, one: Warmed, limit: float, level: Level) -> bool:
    """Whether an earlier step took it there already, and this one by itself does not."""
    alone = one.by_itself.central if level is Level.ERROR else one.by_itself.high
    if alone > limit:
        return False
    touches = moment.after.touches
    for count in range(1, len(touches)):
        beside = next((entry for entry in touches[count - 1].beside if entry.part == one.part), None)
        if beside is not None:
            found = _level(warmed_by(trace.world, trace.nature, touches[:count], beside))
            if found is Level.ERROR or found is level:
                return True
    return False


def _message(trace: Trace, moment: Moment, one: Warmed, limit: float, level: Level) -> str:
    reached = one.reached
    low, central, high = math.floor(reached.low), math.ceil(reached.central), math.ceil(reached.high)
    if level is Level.ERROR:
        how = f"comes to about {central} °C (an estimate: {low}–{high} °C)"
        alone = one.by_itself.central
    else:
        how = f"may come to {high} °C (an estimate: {central} °C, {low}–{high} °C)"
        alone = one.by_itself.high
    again = not any(moment is at for at in trace.straight) and any(moment.step is at.step for at in trace.straight)
    with_others = " with what was heated before" if alone <= limit and not again else ""
    with_others = " when this is done again" if again else with_others
    part = trace.world.parts.get(one.part)
    return f"`{one.part}`, {_where(one)}, {how}{with_others} and bears {digits(limit, 3, math.floor)} °C: " + _WHY.get(
        part.kind if part else "", _USUAL
    )


def _where(one: Warmed) -> str:
    if one.distance:
        return f"{digits(one.distance * 1e3, 3, math.floor)} mm from `{one.heated}`"
    return f"behind `{one.heated}`" if one.via == "other-side" else f"which touches `{one.heated}`"


RULE = Rule("overheated-neighbour", Level.ERROR, watch=watch)
