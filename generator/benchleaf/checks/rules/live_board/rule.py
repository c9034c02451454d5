"""A tool, a liquid or a moved plug bridges what must not meet, and a board that is fed does not survive it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.sources import isolation, sources
from benchleaf.dryrun.inside import is_inside, is_open
from benchleaf.dryrun.joining import lifted
from benchleaf.findings import Level
from benchleaf.model.action import Bath, Heat, Plug, Remove, Replace, Solvent, Store, Unplug

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

_DOING = {"heat": "heated", "desolder": "desoldered", "solder": "soldered"}


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each heating, wetting and moved connector in an open device that is fed, and each pack that is torn out."""
    for moment in trace.every():
        action = moment.step.action
        if isinstance(action, Remove | Replace | Store):
            yield from _torn_out(trace.world, moment, action)
        elif isinstance(action, Heat | Solvent | Bath | Unplug | Plug):
            yield from _worked_on(trace.world, moment, action)


def _worked_on(world: World, moment: Moment, action: Heat | Solvent | Bath | Unplug | Plug) -> Iterator[Hit]:
    joined = sources(world, moment.before)
    moves = isinstance(action, Unplug | Plug)
    name = action.connector.text if isinstance(action, Unplug | Plug) else action.on.text
    if not joined or not (_moves_inside(world, moment, name) if moves else _works_inside(world, moment, name)):
        return
    doing = _DOING[action.kind] if isinstance(action, Heat) else "moved" if moves else "wetted"
    excused = moves and world.connectors[name].before_isolation and not moment.before.live
    yield Hit(
        action.place,
        f"`{name}` is {doing} inside the open device while {listed(joined)} {'are' if joined[1:] else 'is'} "
        "joined: a slip, a drop or a spark there shorts a live board",
        f"Do it last before the battery is isolated, with the device off: `{name}` has its reason."
        if excused
        else f"{isolation(world, moment.before)} before this step.",
        level=Level.NOTE if excused else None,
        step=moment.step,
        about=name,
    )


def _torn_out(world: World, moment: Moment, action: Remove | Replace | Store) -> Iterator[Hit]:
    """Yield each battery that is lifted out while it still hangs on its plug or its solder."""
    state, part = moment.before, action.part.text
    for name in sorted(lifted(world, state, part) - state.isolated) if state.is_in(part) else ():
        battery = world.batteries[name]
        plug = battery.plug.text if battery.plug else None
        plugged = plug in world.connectors and plug not in state.unplugged
        if not plugged and (plug is not None or not battery.soldered):
            continue
        yield Hit(
            action.place,
            f"`{battery.part}` is lifted out while {f'`{plug}` is plugged' if plugged else 'it is soldered'} in: "
            "the lead tears off, and its live end shorts what it meets",
            f"Unplug `{plug}` before this step." if plugged else f"Desolder `{battery.part}` instead.",
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
