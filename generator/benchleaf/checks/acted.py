"""What a step lays hands on: the part, connector, fastener or bond that its action names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.reach import CONNECTOR, FASTENER, PART
from benchleaf.model import action as act
from benchleaf.model.words import Said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.world import World
    from benchleaf.model.action import Action


def part_of(action: Action | None) -> Said | None:
    """Return the part that *action* handles, or None where it handles none."""
    match action:
        case act.Remove(part=part) | act.Fit(part=part) | act.Replace(part=part):
            return part
        case act.Discharge(part=part) | act.Store(part=part):
            return part
        case act.Heat(on=part) | act.Solvent(on=part) | act.Bath(on=part) | act.Work(on=part):
            return part
        case _:
            return None


def parts_of(world: World, action: Action | None) -> Iterator[Said]:
    """Yield every part on which *action* lays a hand or a tool: at a bond it is the part that the bond holds."""
    part = part_of(action)
    if part is not None:
        yield part
    if isinstance(action, act.Heat) and action.hold is not None:
        yield action.hold.part
    if isinstance(action, act.Release | act.Renew) and action.bond.text in world.bonds:
        yield Said(world.bonds[action.bond.text].part.text, action.bond.place)


def handled(world: World, action: Action | None) -> Iterator[tuple[str, Said]]:
    """Yield everything on which *action* lays a hand or a tool, each with its kind."""
    yield from ((PART, part) for part in parts_of(world, action))
    match action:
        case act.Unplug(connector=connector) | act.Plug(connector=connector):
            yield CONNECTOR, connector
        case act.Unscrew(screws=screws) | act.Screw(screws=screws):
            yield from ((FASTENER, one.fastener) for one in screws)
