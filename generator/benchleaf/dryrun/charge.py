"""What parts keep when the supply is gone: emptied by hand, read with a meter, filled again when the device is on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.physics.stored import DANGEROUS_VOLTAGE
from benchleaf.units.quantity import Voltage

if TYPE_CHECKING:
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World
    from benchleaf.model.step import Check


def discharged(world: World, state: State, part: str) -> State:
    """Return the state in which *part*, with what is part of it, was emptied, as far as anyone knows."""
    emptied = world.family.get(part, frozenset({part})) & world.stores
    unread = [name for name in state.unread if name not in emptied]
    return state._replace(charged=state.charged - emptied, unread=(*unread, *sorted(emptied)))


def filled(world: World, state: State) -> State:
    """Return the state in which a device that is on has filled again what is in it and keeps charge."""
    inside = frozenset(name for name in world.stores if state.is_in(name))
    if inside <= state.charged:
        return state
    unread = tuple(name for name in state.unread if name not in inside)
    return state._replace(charged=state.charged | inside, unread=unread)


def new(state: State, family: frozenset[str]) -> State:
    """Return the state in which *family* is new: what was never charged is empty."""
    unread = tuple(name for name in state.unread if name not in family)
    return state._replace(charged=state.charged - family, unread=unread)


def shows_empty(check: Check) -> bool:
    """Whether a reading that is as *check* expects shows that a part is empty."""
    wanted = check.expect
    return (
        check.kind == "measure"
        and check.what.text == "voltage"
        and isinstance(wanted, Voltage)
        and wanted.low <= 0 <= wanted.high <= DANGEROUS_VOLTAGE
    )


def read(state: State) -> State:
    """Return the state in which one part was read and found empty: the one that was emptied last."""
    return state._replace(unread=state.unread[:-1])
