"""What is inside an opened device: where a person's tools, and a live board, can meet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.model.action import Remove, Unplug, Unscrew
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World
    from benchleaf.model.action import Action


def is_open(world: World, state: State) -> bool:
    """Whether a part, screw or connector of an opening is out."""
    return any(_is_out(state, action) for action in _openings(world))


def in_place(world: World, state: State, part: str) -> bool:
    """Whether *part* is in, and so is all that it is part of."""
    return part in world.parts and not any(part in world.family[name] for name in state.away if name in world.parts)


def is_inside(world: World, state: State, part: str) -> bool:
    """Whether work on *part* is work inside an opened device."""
    return in_place(world, state, part) and is_open(world, state)


def _openings(world: World) -> Iterator[Action]:
    for level in world.device.access.values() if world.device else ():
        if applies(level.only, world.variant):
            for step in level.opening:
                if step.action and applies(step.only, world.variant):
                    yield step.action


def _is_out(state: State, action: Action) -> bool:
    match action:
        case Remove(part=part):
            return part.text in state.away
        case Unplug(connector=connector):
            return connector.text in state.unplugged
        case Unscrew(screws=screws):
            return any(state.tray.get(one.fastener.text, 0) > 0 for one in screws)
        case _:
            return False
