"""A charged capacitor looks like an empty one, and throws the hand that touches it into whatever is near."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.acted import parts_of
from benchleaf.checks.ignition import near
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Discharge
from benchleaf.physics.stored import DANGEROUS_VOLTAGE, energy, is_dangerous
from benchleaf.physics.types import Farads, Volts
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World
    from benchleaf.model.device import Part
    from benchleaf.model.words import Said


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield the first step of each way that handles a part before it is known to be empty."""
    risky = {name: part for name in sorted(trace.world.stores) if _is_risky(part := trace.world.parts[name])}
    for path in trace.paths() if risky else ():
        said: set[str] = set()
        for moment in path:
            for name, part in risky.items():
                unsure = name in moment.before.charged or name in moment.before.unread
                hand = _hand_on(trace.world, moment, name) if unsure and name not in said else None
                if hand is not None:
                    said.add(name)
                    yield _hit(moment, part, hand)
            said &= moment.after.charged | {*moment.after.unread}


def _is_risky(part: Part) -> bool:
    kept = part.stores
    return kept is not None and is_dangerous(Farads(kept.capacitance.high), Volts(kept.voltage.high))


def _hand_on(world: World, moment: Moment, name: str) -> Said | None:
    """Return the part in which *moment* handles *name*: itself, or what is on one board with it."""
    if isinstance(moment.step.action, Discharge):
        return None
    hands = parts_of(world, moment.step.action)
    return next((hand for hand in hands if hand.text == name or _on_one_board(world, moment, hand.text, name)), None)


def _on_one_board(world: World, moment: Moment, one: str, other: str) -> bool:
    together = near(world, moment.before, one, other) or near(world, moment.after, one, other)
    return together and _root(world, one) == _root(world, other)


def _root(world: World, name: str) -> str:
    """Return what *name* is part of at last, itself where it is part of nothing."""
    seen = {name}
    while name in world.parts and (above := world.parts[name].part_of) is not None and above.text not in seen:
        name = above.text
        seen.add(name)
    return name


def _hit(moment: Moment, part: Part, hand: Said) -> Hit:
    kept = part.stores
    joules = energy(Farads(kept.capacitance.high), Volts(kept.voltage.high)) if kept else 0.0
    volts = kept.voltage.high if kept else 0.0
    much = f"{digits(joules, 2, math.ceil)} J at {digits(volts, 3, math.ceil)} V"
    reading = f"`check: {{measure: voltage, expect: < {DANGEROUS_VOLTAGE:.0f} V, with: ..., if_not: ...}}`"
    beside = "" if hand.text == part.id else f" with `{part.id}` on the same board"
    if part.id in moment.before.unread:
        known = f"nobody has read that it is empty: a bleed lead that makes no contact leaves {much} in it"
        cure = f"Write a step with {reading} after the one that discharges it and before this one."
    else:
        known = f"it may still hold {much}: enough to burn a hand and to throw it into the next sharp edge"
        off = (
            "Switch the device off: while it is on it fills the part again. Then write"
            if moment.before.live
            else "Write"
        )
        cure = f"{off} `discharge: {part.id}` and, after it, {reading} before this step."
    return Hit(hand.place, f"`{hand}` is handled{beside}, and {known}", cure, step=moment.step, about=part.id)


RULE = Rule("charged-capacitor", Level.ERROR, never_allowed=True, watch=watch)
