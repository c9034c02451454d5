"""What feeds a device, and how it is taken away."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World


def sources(world: World, state: State) -> tuple[str, ...]:
    """Return what is joined, as a sentence names it: batteries, then the feed from outside."""
    joined = [f"`{name}`" for name in state.joined(world.batteries)]
    return (*joined, *(["the feed from outside"] if state.supplied else []))


def isolation(world: World, state: State) -> str:
    """Return what to write so that nothing is joined any more."""
    ways = []
    for name in state.joined(world.batteries):
        battery = world.batteries[name]
        out = "desolder" if battery.soldered else "lift out"
        ways.append(f"unplug `{battery.plug}`" if battery.plug else f"{out} `{battery.part}`")
    if state.supplied:
        ways.append("write `supply: off`")
    text = " and ".join(ways)
    return text[:1].upper() + text[1:]
