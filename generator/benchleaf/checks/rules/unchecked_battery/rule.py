"""A swollen or full pack is found by looking before the hand or the heat comes to it, not after."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.warmth import warmed_in
from benchleaf.findings import Level
from benchleaf.model.action import Heat, Release, Remove
from benchleaf.physics.battery import OPENING_CHARGE, WARM

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.warmth import Warmed
    from benchleaf.model.device import Battery

_JUST_BELOW = math.nextafter(WARM, 0.0)
_CANNOT_BE_READ = frozenset({"lithium-primary", "alkaline"})


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield the first step of each way that comes to a battery which nobody has checked."""
    for path in trace.paths():
        said: set[str] = set()
        for moment in path:
            for name, battery in trace.world.batteries.items():
                if name in said or battery.part.text in moment.before.renewed or not moment.step.action:
                    continue
                lacking = _lacking(trace, moment, battery)
                how = _comes_to(trace, moment, battery) if lacking else None
                if how:
                    said.add(name)
                    share = _at_most(trace) if lacking == "charge" else ""
                    yield Hit(
                        moment.step.action.place,
                        f"`{battery.part}` is {how} and nobody has checked its {lacking}: a swollen pack tears, and a "
                        "full one burns hardest",
                        f"Write a step with `check: {{battery: {lacking}{share}, if_not: ...}}` before this one.",
                        step=moment.step,
                        about=name,
                    )


def _charge_testers(trace: Trace) -> list[str]:
    return [tool.id for tool in trace.nature.tools.values() if "ratio" in tool.measures]


def _at_most(trace: Trace) -> str:
    share = f"{OPENING_CHARGE[1]:.0%}".replace("%", " %")
    return f", with: {_charge_testers(trace)[0]}, expect: ≤ {share}"


def _lacking(trace: Trace, moment: Moment, battery: Battery) -> str | None:
    """Return what should have been checked and was not: the shape first; the charge, where it can be read."""
    seen, hurt = moment.before.battery_seen, moment.before.damaged.get(battery.id)
    if "shape" not in seen and hurt != "swollen":
        return "shape"
    if "charge" in seen:
        return None
    readable = (
        hurt in {None, "not looked at"}
        and battery.plug is not None
        and battery.chemistry not in _CANNOT_BE_READ
        and bool(_charge_testers(trace))
    )
    # A pack whose check of the shape has just failed is made safe as it is.
    failed = any(
        moment is at
        for route in trace.routes
        if route.check.step.check and route.check.step.check.kind == "battery"
        for at in route.extra
    )
    return "charge" if readable and not failed else None


def _comes_to(trace: Trace, moment: Moment, battery: Battery) -> str | None:
    """Return what *moment* does to the battery, or None."""
    world, part = trace.world, battery.part.text
    if not moment.before.is_in(part):
        return None
    match moment.step.action:
        case Release(bond=bond) if bond.text in world.bonds and world.bonds[bond.text].part.text == part:
            return "freed"
        case Remove(part=lifted) if part in world.family.get(lifted.text, ()):
            return "removed"
        case Heat():
            beside = (one for one in warmed_in(trace, moment) if one.part == part)
            return "brought to 45 °C or more beside the heat" if any(map(_warm, beside)) else None
        case _:
            return None


def _warm(one: Warmed) -> bool:
    """Whether the pack may come to that: it may not where it is kept below by measuring."""
    return (one.kept is None or one.kept > WARM) and not one.stays_below(_JUST_BELOW)


RULE = Rule("unchecked-battery", Level.WARNING, watch=watch)
