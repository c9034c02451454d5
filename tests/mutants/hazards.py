"""
What in a performance can hurt: a second opinion on the simulated states, which asks no rule.

It is coarser than the rules and knows nothing of messages or places. Two performances are compared by it: a change that
brings no new hazard and leaves nothing worse at the end has hurt nobody.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, TypeAlias

from benchleaf.dryrun.state import OUT
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

Hazard: TypeAlias = "tuple[str, str]"
"""What can hurt, and in which step: its instruction, with a number where it stands several times."""

_HANDS = (act.Remove, act.Fit, act.Replace, act.Store, act.Unscrew, act.Screw, act.Work)
_LIQUIDS = (act.Solvent, act.Bath)
_TOLERATED = 0.3e-6  # m³ of a flux's carrier that may burn off under an iron.


def hazards(trace: Trace) -> frozenset[Hazard]:
    """Return what can hurt while *trace* is performed, and what is wrong when it has ended."""
    found: set[Hazard] = set()
    seen: Counter[str] = Counter()
    for number, moment in enumerate(trace.straight):
        text = moment.step.do.text
        seen[text] += 1
        step = f"{text} {seen[text]}" if seen[text] > 1 else text
        found.update((what, step) for what in _at(trace, number, moment))
    found.update((what, "the end") for what in (*_left(trace), *_loose(trace)))
    return frozenset(found)


def facts(state: State) -> tuple[object, ...]:
    """Return what *state* says but for its clock: two that say the same are one to every later step."""
    places = ("isolated", "unplugged", "charged", "spent", "renewed", "battery_seen", "looked", "recorded", "power")
    kept = tuple(getattr(state, name) for name in places)
    maps = tuple(tuple(sorted(each.items())) for each in (state.tray, state.away, state.freed, state.damaged))
    names = tuple(tuple(sorted(each)) for each in (state.wet, state.fumes, state.hot, state.setting))
    return (*kept, *maps, *names, state.supplied is None)


def _at(trace: Trace, number: int, moment: Moment) -> Iterator[str]:
    action, before = moment.step.action, moment.before
    if action is not None:
        yield from _electric(trace.world, before, action)
        yield from _burning(trace, before, action)
        yield from _battery(trace.world, before, action)
        yield from _hands_on(trace, moment, action)
    yield from _evidence(trace, number, moment)
    if moment.kind == "closing" and trace.straight[number - 1].kind != "closing":
        yield from _shut_in(before)
    if moment.kind == "closing" and isinstance(action, act.Fit | act.Replace):
        yield from (f"shut in with {key} that can burn" for key in before.fumes)


def _electric(world: World, before: State, action: act.Action) -> Iterator[str]:
    """Yield what is touched while it is fed, and what is fed while it is not ready."""
    plug = action.connector.text if isinstance(action, act.Unplug | act.Plug) else ""
    moves = bool(plug) and plug not in world.plugs
    inside = moves or isinstance(action, (act.Heat, *_LIQUIDS))
    if before.live and (inside or isinstance(action, act.Remove | act.Unscrew | act.Replace)):
        yield "handled while it is on"
    if inside and _open(before) and before.joined(world.batteries):
        yield "worked on inside with a battery joined"
    joins = plug in world.plugs and isinstance(action, act.Plug)
    if joins or _feeds(action):
        yield from (f"fed with {part} wet" for part in before.wet)
        yield from (f"fed with {part} hot" for part in before.hot)
        yield from (f"fed with {name} unplugged" for name in before.unplugged if name not in world.plugs)
    if isinstance(action, act.Power) and action.on and before.away:
        yield "switched on while a part is out"
    kept = before.charged and (moves or isinstance(action, (act.Heat, *_LIQUIDS)))
    if kept and world.device and not _closed_round(world, before):
        yield "worked on beside a charged part"


def _feeds(action: act.Action) -> bool:
    return (isinstance(action, act.Power) and action.on) or (
        isinstance(action, act.Supply) and action.source is not None
    )


def _open(before: State) -> bool:
    return bool(before.tray or before.away or before.unplugged)


def _closed_round(world: World, before: State) -> bool:
    """Whether the charged parts still lie behind a shell: only what stands free of it can be touched."""
    shells = {name for name, part in world.parts.items() if part.kind == "shell"}
    return not any(name in before.away for name in shells)


def _burning(trace: Trace, before: State, action: act.Action) -> Iterator[str]:
    joins = isinstance(action, act.Plug) and action.connector.text in trace.world.plugs
    if not (isinstance(action, act.Heat) or joins or _feeds(action)):
        return
    for (part, liquid), fume in before.fumes.items():
        little = fume.carrier and (fume.wet.volume or 0.0) <= _TOLERATED
        if not little and not fume.seen:
            yield f"ignition beside {liquid} on {part}"


def _battery(world: World, before: State, action: act.Action) -> Iterator[str]:
    if isinstance(action, act.Heat) and any(before.away.get(part) == OUT for part in world.packs):
        yield "heat beside a battery on the bench"
    moved = action.part.text if isinstance(action, act.Remove) else ""
    if isinstance(action, act.Release) and action.bond.text in world.bonds:
        moved = world.bonds[action.bond.text].part.text
    for part, name in world.packs.items():
        if part in before.renewed:
            continue
        near = isinstance(action, act.Heat) and before.is_in(part)
        if moved == part or near:
            if "shape" not in before.battery_seen and before.damaged.get(name) != "swollen":
                yield "a battery that nobody has looked at"
            if "charge" not in before.battery_seen and before.damaged.get(name) != "swollen":
                yield "a battery whose charge nobody knows"
        if isinstance(action, act.Fit) and action.part.text == part and name in before.damaged:
            yield "a damaged battery goes in again"


def _hands_on(trace: Trace, moment: Moment, action: act.Action) -> Iterator[str]:
    world, before = trace.world, moment.before
    touched = ""
    if isinstance(action, act.Remove | act.Fit | act.Replace | act.Store):
        touched = action.part.text
    elif isinstance(action, act.Solvent | act.Bath | act.Work) and action.on:
        touched = action.on.text
    hot = before.hot.get(touched)
    gripped = any(trace.nature.kind(tool.text) == "grip" for tool in moment.step.use)
    if hot is not None and hot.elapsed < hot.hand and not gripped:
        yield f"a hand on {touched} while it is hot"
    bond_of = world.bonds.get(action.bond.text) if isinstance(action, act.Release) and "heat" in action.by else None
    if bond_of is not None and bond_of.part.text not in before.hot:
        yield f"{bond_of.id} levered cold"
    if isinstance(action, act.Remove):
        for bond in world.glued.get(action.part.text, ()):
            if before.freed.get(bond) is None and bond not in before.spent:
                yield f"{action.part.text} pulled off {bond}"


def _evidence(trace: Trace, number: int, moment: Moment) -> Iterator[str]:
    """Yield what should have been looked at or read before, or is never looked at after."""
    action, check, before = moment.step.action, moment.step.check, moment.before
    liquids = isinstance(action, _LIQUIDS) and moment.kind == "work"
    if liquids and not (before.looked and before.recorded):
        yield "washed before anybody saw and noted what it looked like"
    if isinstance(action, act.Heat) and action.kind == "solder":
        later = [each for each in trace.straight[number + 1 :] if each.kind == "work"]
        if not any(each.step.check and each.step.check.kind in {"look", "measure"} for each in later):
            yield f"joints of {action.on.text} covered unseen"
    fed = before.live or (_open(before) and before.joined(trace.world.batteries))
    if fed and check and check.kind == "measure" and check.what.text in {"resistance", "continuity", "diode"}:
        yield "resistance measured with a source joined"
    if isinstance(action, act.Unplug) and _emptied(trace, number) and not _read(trace, number):
        yield "worked on beside a part that was emptied and not read"


def _emptied(trace: Trace, number: int) -> bool:
    return any(isinstance(each.step.action, act.Discharge) for each in trace.straight[:number])


def _read(trace: Trace, number: int) -> bool:
    return any(
        each.step.check is not None and each.step.check.what.text == "voltage" for each in trace.straight[:number]
    )


def _shut_in(before: State) -> Iterator[str]:
    yield from (f"closed with {part} wet" for part in before.wet)
    yield from (f"closed with {part} hot" for part in before.hot)
    yield from (f"closed with {bond} not cured" for bond in before.setting)
    if before.live:
        yield "closed while it is on"


def _left(trace: Trace) -> Iterator[str]:
    """Yield what is wrong with the device that goes back; that it is on or off hurts nobody."""
    end = trace.end
    yield from (f"{count} of {name} over" for name, count in end.tray.items())
    yield from (f"{name} unplugged" for name in end.unplugged)
    yield from (f"{name} left out" for name, place in end.away.items() if place)
    yield from (f"{name} not holding" for name in end.freed)
    yield from (f"{name} spent" for name in end.spent)
    yield from (f"{name} wet" for name in end.wet)
    yield from (f"{name} hot" for name in end.hot)
    yield from (f"{name} charged" for name in end.damaged if name not in end.isolated)
    yield from (f"{name} not joined" for name in end.isolated)
    if end.supplied:
        yield "fed from outside"


def _loose(trace: Trace) -> Iterator[str]:
    """Yield the parts that were lifted off their joints, are in again, and were not soldered after that."""
    loose: set[str] = set()
    for moment in trace.straight:
        action = moment.step.action
        if isinstance(action, act.Heat) and action.kind in {"desolder", "solder"}:
            loose -= {action.on.text}
        if isinstance(action, act.Replace | act.Fit) and action.part.text in {
            touch.part for touch in moment.before.touches
        }:
            loose.add(action.part.text)
    yield from (f"{name} not soldered" for name in loose if trace.end.is_in(name))
