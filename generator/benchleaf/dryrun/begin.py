"""How the device comes to the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.state import State, Wet

if TYPE_CHECKING:
    from benchleaf.dryrun.world import World
    from benchleaf.model.procedure import Arrives

# Where liquid that got in is looked for: boards, and what is on them (common practice, no source).
WETTED = frozenset({"board", "socket", "shield", "array-package", "package", "button"})
ARRIVED = "water"


def begin(world: World, arrives: Arrives) -> State:
    """Return the device closed and complete, joined, dry and at room temperature, but for what *arrives* says."""
    wet: dict[str, Wet] = {}
    damaged: dict[str, str] = {}
    if arrives.liquid != "none":
        boards = [name for name, part in world.parts.items() if part.kind == "board"]
        inside = {member for board in boards for member in world.family[board]}
        wet = {
            name: Wet(ARRIVED, None, None, world.parts[name].traps_liquid, flooded=True)
            for name in sorted(inside)
            if world.parts[name].kind in WETTED
        }
        damaged = dict.fromkeys(world.batteries, "wet")
    if arrives.battery in {"swollen", "unknown"}:
        # A pack that nobody has looked at is treated as swollen until its shape has been checked.
        reason = "swollen" if arrives.battery == "swollen" else "not looked at"
        damaged = dict.fromkeys(world.batteries, reason)
    return State(
        power=arrives.power in {"on", "unknown"},
        wet=wet,
        charged=world.stores,
        damaged=damaged,
    )
