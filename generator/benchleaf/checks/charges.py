"""Which parts keep enough charge to hurt a hand, and how much."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.acted import handled, parts_of
from benchleaf.checks.ignition import near
from benchleaf.dryrun.inside import in_place
from benchleaf.dryrun.reach import PART, hidden
from benchleaf.model.action import Discharge
from benchleaf.physics.stored import DANGEROUS_VOLTAGE, energy, is_dangerous
from benchleaf.physics.types import Farads, Volts
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment
    from benchleaf.dryrun.world import World
    from benchleaf.model.device import Stores
    from benchleaf.model.words import Said

READING = f"`check: {{measure: voltage, expect: < {DANGEROUS_VOLTAGE:.0f} V, with: ..., if_not: ...}}`"
"""The check that shows a part empty, as it is written."""


def risky(world: World) -> Mapping[str, Stores]:
    """Return what the parts keep that hurt a hand while they are charged, by their names, sorted."""
    kept = {name: world.parts[name].stores for name in sorted(world.stores)}
    return {name: stores for name, stores in kept.items() if stores is not None and _hurts(stores)}


def is_unsure(state: State, part: str) -> bool:
    """Whether *part* may hold charge: it was not emptied, or nobody has read that it is empty."""
    return part in state.charged or part in state.unread


def much(stores: Stores) -> str:
    """Return how much a part may hold, rounded up: "1.2 J at 330 V"."""
    joules = energy(Farads(stores.capacitance.high), Volts(stores.voltage.high))
    return f"{digits(joules, 2, math.ceil)} J at {digits(stores.voltage.high, 3, math.ceil)} V"


def lies_open(world: World, state: State, name: str) -> bool:
    """Whether *name* is in its place and no cover is known to keep a hand from it."""
    return in_place(world, state, name) and hidden(world, state, PART, name) is None


def hand_on(world: World, moment: Moment, name: str) -> Said | None:
    """
    Return the thing in which *moment* handles *name*: itself, or what is on one board with it.

    While nobody has read that it is empty, any hand in the device is a hand beside it.
    """
    action = moment.step.action
    if action is None or isinstance(action, Discharge):
        return None
    for hand in parts_of(world, action):
        if hand.text == name or is_on_its_board(world, moment, hand.text, name):
            return hand
    if name in moment.before.unread and lies_open(world, moment.before, name):
        return next((hand for kind, hand in handled(world, action) if _in_the_device(world, moment, kind, hand)), None)
    return None


def _in_the_device(world: World, moment: Moment, kind: str, hand: Said) -> bool:
    return kind != PART or in_place(world, moment.before, hand.text) or in_place(world, moment.after, hand.text)


def is_on_its_board(world: World, moment: Moment, one: str, other: str) -> bool:
    """Whether two parts lie together, and are part of one and the same."""
    together = near(world, moment.before, one, other) or near(world, moment.after, one, other)
    return together and _root(world, one) == _root(world, other)


def _root(world: World, name: str) -> str:
    """Return what *name* is part of at last, itself where it is part of nothing."""
    seen = {name}
    while name in world.parts and (above := world.parts[name].part_of) is not None and above.text not in seen:
        name = above.text
        seen.add(name)
    return name


def _hurts(stores: Stores) -> bool:
    return is_dangerous(Farads(stores.capacitance.high), Volts(stores.voltage.high))
