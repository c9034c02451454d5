"""A pack that was hurt looks sound for a while, and burns at the customer's."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Replace

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

_UNSEEN = "not looked at"
_HOW = {
    "swollen": "came swollen",
    "not looked at": "came in a shape that nobody knows",
    "wet": "got wet",
    "too hot": "was brought above its heat limit",
    "set aside": "was stored as `do-not-use`",
}


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each battery that is fitted or joined again after it was hurt, came swollen or was set aside."""
    for path in trace.paths():
        said: set[str] = set()
        for moment in path:
            for battery in _put_back(trace.world, moment):
                how = moment.after.damaged.get(battery)
                looked_at = how == _UNSEEN and "shape" in moment.before.battery_seen
                if how is not None and not looked_at and battery not in said:
                    said.add(battery)
                    yield from _hit(trace, moment, battery, _HOW[how])
            said &= set(moment.after.damaged)
    yield from _found_swollen(trace)


def _found_swollen(trace: Trace) -> Iterator[Hit]:
    """Yield what is joined again after its shape was found wrong."""
    for route in trace.routes:
        check = route.check.step.check
        if check is None or check.kind != "battery" or check.what.text != "shape":
            continue
        swollen = set(trace.world.batteries)
        for moment in route.extra:
            action = moment.step.action
            if isinstance(action, Replace):
                swollen.discard(trace.world.packs.get(action.part.text, ""))
            for battery in _put_back(trace.world, moment):
                if battery in swollen and battery not in moment.after.damaged:
                    swollen.discard(battery)
                    yield from _hit(trace, moment, battery, "was found to be swollen")


def _put_back(world: World, moment: Moment) -> Iterator[str]:
    before, after = moment.before, moment.after
    for name, battery in world.batteries.items():
        part = battery.part.text
        fitted = part in before.away and part not in after.away
        if fitted or (name in before.isolated and name not in after.isolated):
            yield name


def _hit(trace: Trace, moment: Moment, battery: str, how: str) -> Iterator[Hit]:
    part = trace.world.batteries[battery].part
    if moment.step.action is not None:
        yield Hit(
            moment.step.action.place,
            f"`{battery}` {how} and goes in again here: inside it may short "
            "at any time, and it burns at the customer's",
            f"Put it away with `store: {{part: {part}, as: do-not-use}}` and fit a new one with `replace: {part}`.",
            step=moment.step,
            about=battery,
        )


RULE = Rule("reused-damaged-battery", Level.ERROR, never_allowed=True, watch=watch)
