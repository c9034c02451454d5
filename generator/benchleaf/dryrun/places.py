"""Where parts are: with what they left the device, and with what they come back."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World


def entered(world: World, state: State, part: str, back: Iterable[str]) -> Mapping[str, str]:
    """Return what is away when *part* comes back with all of *back*: they are where that is which it is part of."""
    where = _place_above(world, state, part)
    family = frozenset(back)
    away = {name: place for name, place in state.away.items() if name not in family}
    return away if where is None else {**away, **dict.fromkeys(sorted(family), where)}


def _place_above(world: World, state: State, part: str) -> str | None:
    """Return where the nearest part that is away and carries *part* lies, or None where all of them are in."""
    seen = {part}
    known = world.parts.get(part)
    while known is not None and known.part_of is not None and known.part_of.text not in seen:
        above = known.part_of.text
        if above in state.away:
            return state.away[above]
        seen.add(above)
        known = world.parts.get(above)
    return None


def left_with(world: World, state: State, part: str) -> str:
    """Return what *part* left the device with, itself perhaps; "" where it is in."""
    seen: set[str] = set()
    while part in world.parts and part not in seen:
        if part in state.alone:
            return part
        seen.add(part)
        above = world.parts[part].part_of
        if above is None:
            break
        part = above.text
    return ""
