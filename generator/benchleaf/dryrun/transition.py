"""One pure transition for each action: the state before and a step in, the state after out."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from benchleaf.dryrun import charge
from benchleaf.dryrun.beside import without
from benchleaf.dryrun.hot import in_warm_air
from benchleaf.dryrun.joining import brought_in, has_power, lifted, soldered_in
from benchleaf.dryrun.places import entered
from benchleaf.dryrun.state import DISCARDED, FREE, OUT, STORED, TORN, State
from benchleaf.dryrun.wetting import applied, wetted
from benchleaf.model import action as act
from benchleaf.model.times import span

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.world import World
    from benchleaf.model.step import Step

T = TypeVar("T")


def perform(world: World, nature: Nature, before: State, step: Step, *, passed: bool = True) -> State:
    """
    Return the state after *step*, whose check has *passed* or not: only then it shows what it is to show.

    What a broken precondition should have kept from happening happens all the same, so that one fault is one finding.
    """
    after = _act(world, nature, before, step) if step.action else before
    after = applied(world, nature, after, step)
    after = _pass_time(world, nature, before, after, step)
    if world.stores and after.live:
        after = charge.filled(world, after)
    return _see(after, step, passed=passed)


def _act(  # noqa: C901, PLR0911, PLR0912  (one line for each action: a table would hide the types)
    world: World, nature: Nature, state: State, step: Step
) -> State:
    match step.action:
        case act.Power(on=on):
            return state._replace(power=on)
        case act.Supply() as supply:
            return state._replace(supplied=supply if supply.source else None)
        case act.Unplug(connector=name) | act.Plug(connector=name) as action:
            return _connect(world, state, name.text, joined=isinstance(action, act.Plug))
        case act.Unscrew() | act.Screw() as action:
            return _screws(state, action)
        case act.Remove(part=part):
            return _leave(world, state, part.text)
        case act.Fit(part=part):
            return _enter(world, state, part.text)
        case act.Replace(part=part):
            return _renew(world, state, part.text)
        case act.Release(bond=bond):
            return state._replace(freed={**state.freed, bond.text: FREE}, setting=_without(state.setting, bond.text))
        case act.Renew(bond=bond, material=material):
            return _bond(nature, state, bond.text, material.text if material else "")
        case act.Heat() as heat:
            return _heat(world, nature, state, heat)
        case act.Solvent() | act.Bath() as action:
            return wetted(world, nature, state, action, step.id)
        case act.Discharge(part=part):
            return charge.discharged(world, state, part.text)
        case act.Store(part=part, use_again=use_again):
            return _store(world, state, part.text, use_again=use_again)
        case act.Wait() as wait:
            return in_warm_air(world, nature, state, wait)
        case _:
            return state


def _connect(world: World, state: State, name: str, *, joined: bool) -> State:
    battery = world.plugs.get(name)
    isolated, power = state.isolated, state.power
    if battery is not None:
        isolated = isolated - {battery} if joined else isolated | {battery}
        power = power and (joined or has_power(world, state, isolated))
    unplugged = state.unplugged - {name} if joined else state.unplugged | {name}
    return state._replace(isolated=isolated, unplugged=unplugged, power=power)


def _screws(state: State, action: act.Unscrew | act.Screw) -> State:
    sign = 1 if isinstance(action, act.Unscrew) else -1
    tray = dict(state.tray)
    for screws in action.screws:
        count = tray.get(screws.fastener.text, 0) + sign * screws.count
        tray[screws.fastener.text] = count
        if count == 0:
            del tray[screws.fastener.text]
    return state._replace(tray=tray)


def _leave(world: World, state: State, part: str) -> State:
    family = world.family.get(part, frozenset({part}))
    away = {**state.away, **{member: OUT for member in family if member not in state.away}}
    spent = state.spent | {seal for member in family for seal in world.spends.get(member, ())}
    spent |= {bond for member in family for bond in world.glued.get(member, ()) if world.bonds[bond].single_use}
    left = _torn(world, _isolate(world, state, part), part)
    return left._replace(away=away, alone=state.alone | {part}, spent=spent)


def _torn(world: World, state: State, part: str) -> State:
    """Return *state* with those bonds of *part* open that held when it was taken off."""
    held = [bond for bond in world.glued.get(part, ()) if state.freed.get(bond) != FREE] if state.is_in(part) else []
    if not held:
        return state
    return state._replace(freed={**state.freed, **dict.fromkeys(held, TORN)}, setting=_without(state.setting, *held))


def _isolate(world: World, state: State, part: str) -> State:
    """Return *state* without the batteries that part from the device when *part* leaves."""
    isolated = state.isolated | lifted(world, state, part)
    return state._replace(isolated=isolated, power=state.power and has_power(world, state, isolated))


def _enter(world: World, state: State, part: str) -> State:
    back = state.moving(part, world.family)
    away = entered(world, state, part, back)
    here = frozenset(member for member in back if member not in away)
    return state._replace(
        away=away, alone=state.alone - {part}, isolated=state.isolated - brought_in(world, state, here)
    )


def _heat(world: World, nature: Nature, state: State, action: act.Heat) -> State:
    """Return the state after a heating; a soldered battery is isolated when it is lifted off, and joined by solder."""
    part, heated = action.on.text, nature.heated(world, state, action)
    if action.kind == "desolder":
        return _isolate(world, heated, part) if state.is_in(part) else heated
    if action.kind == "solder":
        back = brought_in(world, state, state.away.keys() - heated.away.keys())
        return heated._replace(isolated=heated.isolated - back - soldered_in(world, part))
    return heated


def _renew(world: World, state: State, part: str) -> State:
    family = state.moving(part, world.family)
    # The old one goes first, where nobody has taken it out before.
    entered = _enter(world, _isolate(world, state, part) if state.is_in(part) else state, part)
    battery = world.packs.get(part)
    return charge.new(entered, family)._replace(
        wet=_without(entered.wet, *family),
        fumes={key: fume for key, fume in entered.fumes.items() if key[0] not in family},
        hot=_without(entered.hot, *family),
        spent=entered.spent - family,
        renewed=entered.renewed | {part},
        old=state.old | {part} if battery and state.away.get(part, OUT) == OUT else state.old,
        damaged=_without(entered.damaged, *([battery] if battery else [])),
        battery_seen=frozenset() if battery else entered.battery_seen,
        touches=tuple(without(touch, family) for touch in entered.touches),
    )


def _bond(nature: Nature, state: State, bond: str, material: str) -> State:
    lasts = nature.fixture(material)
    setting = {**state.setting, bond: lasts} if lasts else _without(state.setting, bond)
    freed = {**state.freed, bond: "setting"} if lasts else _without(state.freed, bond)
    return state._replace(freed=freed, setting=setting, spent=state.spent - {bond})


def _store(world: World, state: State, part: str, *, use_again: bool) -> State:
    family = state.moving(part, world.family)
    place = STORED if use_again else DISCARDED
    away = {**state.away, **dict.fromkeys(family, place)}
    damaged = {world.packs[member]: "set aside" for member in family if member in world.packs and not use_again}
    left = _isolate(world, state, part) if state.is_in(part) else state
    return left._replace(away=away, alone=state.alone | {part}, damaged={**state.damaged, **damaged})


def _pass_time(world: World, nature: Nature, before: State, after: State, step: Step) -> State:
    lasts = span(step)
    low, high = after.low + lasts.low, after.high + lasts.high
    if not (after.wet or after.hot or after.setting or after.fumes):
        return after._replace(low=low, high=high)
    # What this very step wetted, heated or bonded begins to change at its end.
    wet = nature.dried(world, before, after, step, lasts.low)
    fumes = nature.cleared(world, before, after, step, lasts.low)
    hot = nature.cooled(before, after, lasts.low)
    setting = {
        bond: left - lasts.low if before.setting.get(bond) == left and bond in before.setting else left
        for bond, left in after.setting.items()
    }
    done = {bond for bond, left in setting.items() if left <= 0}
    return after._replace(
        low=low, high=high, wet=wet, fumes=fumes, hot=hot,
        setting=_without(setting, *done), freed=_without(after.freed, *done),
    )  # fmt: skip


def _see(state: State, step: Step, *, passed: bool) -> State:
    check = step.check
    seen = state
    if step.record:
        seen = seen._replace(recorded=True)
    if check is None:
        return seen
    if check.kind == "look":
        seen = seen._replace(looked=True)
    if check.kind == "battery":
        seen = seen._replace(battery_seen=seen.battery_seen | {check.what.text})
    if not passed:
        return seen
    if seen.unread and charge.shows_empty(check):
        seen = charge.read(seen)
    if check.shows == "dry":
        # On a part that traps liquid nobody can see whether it is dry.
        fumes = {key: fume if fume.wet.trapped else replace(fume, seen=True) for key, fume in seen.fumes.items()}
        seen = seen._replace(wet={name: wet for name, wet in seen.wet.items() if wet.trapped}, fumes=fumes)
    if check.shows == "cool":
        seen = seen._replace(hot={})
    return seen


def _without(mapping: Mapping[str, T], *names: str) -> dict[str, T]:
    return {name: value for name, value in mapping.items() if name not in names}
