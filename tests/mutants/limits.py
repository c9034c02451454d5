"""
What is passed by a number: limits of tools, parts, joints, neighbours, the air and the screws, asked of no rule.

The physics is that of the package, which is tested against what is not ours; how a procedure is held against it is
worked out here a second time.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.vapour import at_the_bench
from benchleaf.dryrun.warmth import warmed_in
from benchleaf.library.alloys import ALLOYS
from benchleaf.model import action as act
from benchleaf.physics import profile, torque
from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.types import Celsius, Metres, NewtonMetres, OutOfRange, Seconds

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World
    from benchleaf.model.device import Fastener, Part
    from benchleaf.units.quantity import Temperature


def passed(trace: Trace) -> frozenset[str]:
    """Return the limits that *trace* passes, each in words that hold the thing and the step but no number."""
    found: set[str] = set()
    for moment in trace.straight:
        found.update(f"{what}: {moment.step.do.text}" for what in _at(trace, moment))
        for one in warmed_in(trace, moment):
            if one.limit is not None and not one.stays_below(one.limit):
                found.add(f"{one.part} gets too warm beside {one.heated}: {moment.step.do.text}")
    foul = (air.moment.step.do.text for air in at_the_bench(trace.nature, trace.straight) if air.too_much)
    found.update(f"too much vapour: {text}" for text in foul)
    found.update(f"{name}: {what}" for name, each in trace.world.fasteners.items() for what in _screw(each))
    return frozenset(found)


def _at(trace: Trace, moment: Moment) -> Iterator[str]:
    nature, world = trace.nature, trace.world
    match moment.step.action:
        case act.Heat() as action:
            yield from _tool(nature, action.tool.text, action.at)
            yield from _heated(nature, world, action)
            yield from _melted(trace, action, moment)
        case act.Bath(at=at, tool=tool) | act.Wait(at=at, tool=tool) as action:
            if at is not None and tool is not None:
                yield from _tool(nature, tool.text, at)
            if at is not None and isinstance(action, act.Wait):
                inside = [part for name, part in world.parts.items() if moment.before.is_in(name)]
                yield from (f"{part.id} in the cabinet above its limit" for part in inside if _over(part, at.high))
        case _:
            return


def _tool(nature: Nature, tool: str, at: Temperature) -> Iterator[str]:
    known = nature.tools.get(tool)
    reach = known.range if known and known.range and known.range.dimension == "temperature" else None
    if reach and (at.high > reach.high or at.low < reach.low):
        yield f"{tool} does not reach what it is set to"


def _heated(nature: Nature, world: World, action: act.Heat) -> Iterator[str]:
    part = world.parts.get(action.on.text)
    if nature.kind(action.tool.text) != "iron":
        if _over(part, nature.source(action)):
            yield f"{action.on.text} above its limit"
    elif part and part.joint_limit:
        limit = part.joint_limit
        if action.at.high > limit.at.low or (limit.lasts and action.lasts.high > limit.lasts.low):
            yield f"joints of {action.on.text} above their limit"
    hold = action.hold
    if hold and _over(world.parts.get(hold.part.text), hold.below.high):
        yield f"{hold.part.text} is held below what it does not bear"


def _over(part: Part | None, reached: float) -> bool:
    return part is not None and part.heat_limit is not None and reached > part.heat_limit.at.low


def _melted(trace: Trace, action: act.Heat, moment: Moment) -> Iterator[str]:
    if action.kind == "heat" and trace.nature.kind(action.tool.text) != "iron":
        return
    board = trace.world.device.board if trace.world.device else None
    names = {board.solder.text} if board and board.solder else set()
    for amount in moment.step.apply:
        known = trace.nature.materials.get(amount.material.text)
        if known and known.alloy:
            names.add(known.alloy.text)
    iron = trace.nature.kind(action.tool.text) == "iron"
    reached = Celsius(action.at.low if action.reaches is None else action.reaches.low)
    for name in sorted(names & set(ALLOYS)):
        alloy = ALLOYS[name]
        if not profile.melts(alloy, reached) or (iron and reached < profile.least_iron(alloy)):
            yield f"{name} does not melt"
        elif not iron and alloy.reflow:
            held = profile.Profile(above_liquidus=Seconds(action.lasts.high))
            yield from (f"{each.what} too long for {name}" for each in profile.excesses(held, alloy.reflow, None))
    if len(names) > 1:
        yield f"{' and '.join(sorted(names))} in one joint"


def _screw(screw: Fastener) -> Iterator[str]:
    if screw.torque is None or not screw.thread or not screw.grade:
        return
    depth = Metres(screw.engagement.low) if screw.engagement else None
    try:
        bears = torque.limits(screw.thread, screw.grade, screw.into.text if screw.into else None, depth, DEFAULT.torque)
    except OutOfRange:
        yield "nobody knows what it bears"
        return
    if torque.is_over(NewtonMetres(screw.torque.high), bears):
        yield "breaks or strips"
