"""How a device is not as the level at which it is stands, where a failed check leads to another procedure."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.amounts import time_at_least
from benchleaf.checks.endings import burns, on_the_bench, unsound
from benchleaf.checks.ignition import drying_left
from benchleaf.checks.ledger import BOND, CONNECTOR, PART, SCREW, misspelt, named, owed, too_much, way_back
from benchleaf.dryrun.inside import is_open
from benchleaf.dryrun.state import TORN
from benchleaf.model.action import Renew, Replace
from benchleaf.model.knowledge import phases

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Route, Trace
    from benchleaf.model.procedure import Procedure

_OFF = frozenset({"off", "dead"})
_LEFT = {PART: "out", SCREW: "in the tray", CONNECTOR: "unplugged", BOND: "open"}
_PUT_IN = {PART: "in", SCREW: "driven in", CONNECTOR: "plugged in", BOND: "made"}


@dataclass(frozen=True, slots=True)
class Astray:
    """One thing that is not as the next procedure expects it, as part of a sentence, and what to write."""

    what: str
    cure: str


def astray(trace: Trace, route: Route) -> Iterator[Astray]:
    """Yield how the device is not as the next procedure was performed on; nothing where that is performed from here."""
    target = route.target
    if target is None or route.extra or trace.world.device is None:
        return
    base, moved = min((_moved(trace, base, route.state) for base in _levels(trace, route)), key=lambda one: len(one[1]))
    yield from moved
    yield from _fed(trace, base, route.state, target)
    yield from _unready(trace, route.state, target)
    yield from _hurt(trace, base, route, target)


def _levels(trace: Trace, route: Route) -> tuple[State, ...]:
    """Return the states in which the current level is handed over: at both ends of an opening or a closing."""
    kind, level = route.check.kind, route.check.level
    if kind in {"opening", "closing"}:
        own = [moment for moment in trace.straight if moment.kind == kind and moment.level is level]
        return own[0].before, own[-1].after
    if kind == "prove":
        return (next(moment.before for moment in trace.straight if moment.kind == "prove"),)
    opened = [moment.after for moment in trace.straight if moment.kind == "opening"]
    return (opened[-1] if opened else trace.start,)


def _moved(trace: Trace, base: State, state: State) -> tuple[State, list[Astray]]:
    back, world = trace.procedure.hands_back, trace.world
    without = {name for part in back.without for name in world.family.get(part.text, ())} if back else set()
    unclear = misspelt(world, trace.straight)
    found = []
    for thing in owed(world, base, state):
        on = world.bonds[thing.name].part.text if thing.kind == BOND else thing.name
        if thing.kind not in unclear and on not in without:
            found.append(Astray(f"{named(thing)} {_LEFT[thing.kind]}", f"Write {way_back(thing)}."))
    found += [
        Astray(f"{named(thing)} {_PUT_IN[thing.kind]}", f"Take {named(thing)} out again.")
        for thing in too_much(world, base, state)
        if thing.kind not in unclear and thing.name not in world.plugs
    ]
    for name in sorted(base.isolated - state.isolated):
        plug = world.batteries[name].plug
        found.append(Astray(f"`{name}` joined", f"Write `unplug: {plug}`." if plug else f"Isolate `{name}`."))
    return base, found


def _fed(trace: Trace, base: State, state: State, target: Procedure) -> Iterator[Astray]:
    """Yield what feeds the device: one that is closed may be on, where the next procedure does not take it for off."""
    if state.supplied and not base.supplied:
        yield Astray("the feed from outside on", "Write `supply: off`.")
    may_be_on = base.power or (not is_open(trace.world, base) and target.arrives.power not in _OFF)
    if state.power and not may_be_on:
        yield Astray("the device on", "Write `power: off`.")


def _unready(trace: Trace, state: State, target: Procedure) -> Iterator[Astray]:
    """Yield what is wet, hot or has not cured; a device that came wet may go on to a procedure for wet ones."""
    world, nature = trace.world, trace.nature
    came = trace.start.wet if target.arrives.liquid != "none" else {}
    wet = [
        name
        for name, liquid in sorted(state.wet.items())
        if on_the_bench(state, name) and nature.knows(liquid.liquid)
        if name not in came or came[name].liquid != liquid.liquid
    ]
    if wet:
        seconds = max(nature.drying(world, name, state.wet[name]) * state.wet[name].left for name in wet)
        yield Astray(f"{_some(wet)} wet", _wait(seconds, "dry"))
    burning = tuple(entry for entry in burns(trace, state) if entry[0][0] not in wet)
    if burning:
        liquids = sorted({liquid for (_, liquid), _ in burning})
        yield Astray(f"{_some(liquids)} that can still burn", _wait(drying_left(trace, burning), "dry"))
    hot = sorted(name for name in state.hot if name in world.parts and on_the_bench(state, name))
    if hot:
        seconds = max(state.hot[name].cool - state.hot[name].elapsed for name in hot)
        yield Astray(f"{_some(hot)} hot", _wait(seconds, "cool"))
    if state.setting:
        yield Astray(f"{_some(sorted(state.setting))} not cured", _wait(max(state.setting.values()), "cured"))


def _hurt(trace: Trace, base: State, route: Route, target: Procedure) -> Iterator[Astray]:
    """Yield packs that are not sound and parts that are spent, where the next procedure knows nothing of it."""
    if target.arrives.battery == "sound" and target.arrives.liquid == "none":
        for name in sorted(unsound(trace, route)):
            part = trace.world.batteries[name].part
            yield Astray(
                f"`{name}` not sound", f"Write `store: {{part: {part}, as: do-not-use}}` and `replace: {part}`."
            )
    for name in sorted(route.state.spent - base.spent - _renewed(trace, target)):
        if route.state.is_in(name) and route.state.freed.get(name, TORN) == TORN:
            yield Astray(f"`{name}` spent", f"Renew `{name}`.")


def _renewed(trace: Trace, target: Procedure) -> frozenset[str]:
    """Return the parts and bonds that *target*, with its opening and closing, makes new."""
    actions = [step.action for phase in phases(trace.world.device, target, trace.world.variant) for step in phase.steps]
    parts = {action.part.text for action in actions if isinstance(action, Replace)}
    return frozenset(parts | {action.bond.text for action in actions if isinstance(action, Renew)})


def _some(names: Iterable[str]) -> str:
    ticked = [f"`{name}`" for name in names]
    return " and ".join([", ".join(ticked[:-1]), ticked[-1]]) if ticked[1:] else ticked[0]


def _wait(seconds: float, until: str) -> str:
    if math.isinf(seconds):
        return f"Write a check with `shows: {until}`." if until != "cured" else "Give the adhesive its `fixture`."
    return f"Write `wait: {{for: {time_at_least(seconds)}, until: {until}}}`."
