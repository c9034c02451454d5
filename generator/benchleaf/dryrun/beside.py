"""What is beside a part while it is heated: what was named as near, and is in the same place."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from benchleaf.dryrun.places import left_with
from benchleaf.dryrun.state import Beside, State, Touch

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.world import Neighbour, World
    from benchleaf.model.action import Heat

LAID_ON = frozenset({"heat-mat", "plate", "oven"})
"""What lies on these is at their temperature with all that is part of it; what is hot of the others is aimed."""
_THROUGH = frozenset({"touching", "other-side"})


def beside(world: World, before: State, after: State, action: Heat, kind: str) -> tuple[Beside, ...]:
    """
    Return what is beside the part of *action*, which a tool of *kind* heats, in the order of the device's file.

    A part that is lifted counts where it was, one that is soldered in where it goes. What the heated part is part of is
    heated with it and no neighbour, and so is what lies with it on a mat; a shell takes what is part of it along.
    """
    part = action.on.text
    near = {one.part: one for one in world.near.get(part, ()) if part not in world.family.get(one.part, ())}
    if not near:
        return ()
    state = after if action.kind == "solder" else before
    here = left_with(world, state, part)
    taken = state.moving(part, world.family) if kind in LAID_ON else frozenset()
    names = {name: one for name, one in _all(world, state, near) if name not in taken and name != part}
    return tuple(
        _beside(name, one, action) for name, one in names.items() if left_with(world, state, name) == here
    )  # fmt: skip


def by_itself(world: World, state: State, part: str) -> bool:
    """Whether *part* lies by itself on the bench: nothing is beside it there."""
    return left_with(world, state, part) == part and state.moving(part, world.family) <= {part}


def without(touch: Touch, renewed: frozenset[str]) -> Touch:
    """Return *touch* as what was *renewed* since knows of it: it was not there."""
    if not any(one.part in renewed for one in touch.beside):
        return touch
    return replace(touch, beside=tuple(one for one in touch.beside if one.part not in renewed))


def _all(world: World, state: State, near: dict[str, Neighbour]) -> Iterator[tuple[str, Neighbour]]:
    """Yield what was named as near, and what is part of it and was not named itself."""
    yield from near.items()
    for name, one in near.items():
        for member in sorted(state.moving(name, world.family) - near.keys()):
            yield member, one


def _beside(name: str, near: Neighbour, action: Heat) -> Beside:
    kept = action.hold.below.high if action.hold and action.hold.part.text == name else None
    distance = near.distance.low if near.distance and near.via not in _THROUGH else 0.0
    # What is no distance away touches, whatever else was said.
    via = near.via if distance > 0 or near.via in _THROUGH else "touching"
    return Beside(name, max(0.0, distance), via, kept)
