"""A tool, a liquid or a moved plug bridges what must not meet, and a board that is fed does not survive it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.inside import is_inside, is_open
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.sources import isolation, sources
from benchleaf.findings import Level
from benchleaf.model.action import Bath, Heat, Plug, Solvent, Unplug

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

_DOING = {"heat": "heated", "desolder": "desoldered", "solder": "soldered"}


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each heating, wetting and moved connector inside an opened device to which something is joined."""
    for moment in trace.every():
        action = moment.step.action
        if not isinstance(action, Heat | Solvent | Bath | Unplug | Plug):
            continue
        joined = sources(trace.world, moment.before)
        if not joined:
            continue
        moves = isinstance(action, Unplug | Plug)
        name = action.connector.text if isinstance(action, Unplug | Plug) else action.on.text
        if not (_moves_inside(trace.world, moment, name) if moves else _works_inside(trace.world, moment, name)):
            continue
        doing = _DOING[action.kind] if isinstance(action, Heat) else "moved" if moves else "wetted"
        excused = moves and trace.world.connectors[name].before_isolation and not moment.before.live
        yield Hit(
            action.place,
            f"`{name}` is {doing} inside the open device while {listed(joined)} {'are' if joined[1:] else 'is'} "
            "joined: a slip, a drop or a spark there shorts a live board",
            f"Do it last before the battery is isolated, with the device off: `{name}` has its reason."
            if excused
            else f"{isolation(trace.world, moment.before)} before this step.",
            level=Level.NOTE if excused else None,
            step=moment.step,
            about=name,
        )


def _moves_inside(world: World, moment: Moment, connector: str) -> bool:
    # A battery's own plug is what isolates it.
    return connector in world.connectors and connector not in world.plugs and is_open(world, moment.before)


def _works_inside(world: World, moment: Moment, part: str) -> bool:
    pack = world.packs.get(part)
    if pack is not None and world.batteries[pack].soldered and isinstance(moment.step.action, Heat):
        return False  # The only way to isolate a soldered battery.
    # A part that is soldered in is worked on where it goes, and one that is lifted off where it was.
    return is_inside(world, moment.before, part) or (
        isinstance(moment.step.action, Heat) and is_open(world, moment.before) and is_inside(world, moment.after, part)
    )


RULE = Rule("live-board", Level.ERROR, watch=watch)
