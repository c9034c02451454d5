"""What is inside an opened device: where a person's tools, and a live board, can meet."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World


def is_open(world: World, state: State) -> bool:
    """Whether a part, screw or connector of an opening is out."""
    lids = world.lids
    return not (
        lids.parts.isdisjoint(state.away)
        and lids.plugs.isdisjoint(state.unplugged)
        and not any(state.tray[name] > 0 for name in lids.screws.intersection(state.tray))
    )


def in_place(world: World, state: State, part: str) -> bool:
    """Whether *part* is in, and so is all that it is part of."""
    return part in world.parts and not any(part in world.family[name] for name in state.away if name in world.parts)


def is_inside(world: World, state: State, part: str) -> bool:
    """Whether work on *part* is work inside an opened device."""
    return in_place(world, state, part) and is_open(world, state)
