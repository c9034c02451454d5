"""Which batteries feed the device: what isolates one and joins it besides its plug."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World


def has_power(world: World, state: State, isolated: frozenset[str]) -> bool:
    """Whether anything feeds the device: with its last battery gone it is off, whatever it was before."""
    return state.supplied is not None or not world.batteries or any(name not in isolated for name in world.batteries)


def lifted(world: World, state: State, part: str) -> frozenset[str]:
    """
    Return the batteries that part from what they feed when *part* leaves.

    One that is soldered to what leaves, or leaves together with a board, goes on feeding that.
    """
    family = state.moving(part, world.family)
    boards = any(world.parts[member].kind == "board" for member in family if member in world.parts)
    return frozenset(
        battery
        for member in family
        if (battery := world.packs.get(member)) is not None
        and (member == part or not (boards or world.batteries[battery].soldered))
    )


def brought_in(world: World, state: State, back: Iterable[str]) -> frozenset[str]:
    """Return the batteries that join when parts are put *back*: by their contacts, or by a plug never opened."""
    return frozenset(
        battery
        for member in back
        if (battery := world.packs.get(member)) is not None
        and not world.batteries[battery].soldered
        and ((plug := world.batteries[battery].plug) is None or plug.text not in state.unplugged)
    )


def soldered_in(world: World, part: str) -> frozenset[str]:
    """Return the battery that joins when *part* is soldered."""
    battery = world.packs.get(part)
    return frozenset({battery} if battery is not None and world.batteries[battery].soldered else ())
