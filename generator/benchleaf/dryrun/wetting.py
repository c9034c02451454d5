"""What a liquid does when it is put on: it wets a part, lies there until it has dried, and enters the air."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from benchleaf.dryrun.state import Fume, Release, State, Wet
from benchleaf.model import action as act
from benchleaf.units.quantity import Volume

if TYPE_CHECKING:
    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.world import World
    from benchleaf.model.step import Step
    from benchleaf.units.quantity import Quantity


def wetted(world: World, nature: Nature, state: State, action: act.Solvent | act.Bath, step: str) -> State:
    """Return the state in which the part of *action* is wet, and in a bath all that is part of it."""
    part, bathed = action.on.text, isinstance(action, act.Bath)
    touched = state.moving(part, world.family) if bathed else frozenset({part})
    volume = None if isinstance(action, act.Bath) else action.volume.high
    area = None if isinstance(action, act.Bath) or action.area is None else action.area.low
    liquid = action.material.text
    wet, fumes = dict(state.wet), dict(state.fumes)
    for member in sorted(touched):
        known = world.parts.get(member)
        new = Wet(liquid, volume, area, known.traps_liquid if known else False, flooded=bathed)
        wet[member] = _over(world, nature, member, state.wet.get(member), new)
        if nature.flammable(liquid):
            _lay(nature, fumes, (member, liquid), Fume(new, step, carrier=False))
    soaked = {world.packs[member]: "wet" for member in touched if member in world.packs}
    gone = () if isinstance(action, act.Bath) else _evaporated(nature, state, liquid, action.volume, step)
    return state._replace(wet=wet, fumes=fumes, releases=(*state.releases, *gone), damaged={**state.damaged, **soaked})


def applied(world: World, nature: Nature, state: State, step: Step) -> State:
    """Let what a step puts on besides its action evaporate into the room, and lie where it was put until then."""
    releases, fumes = list(state.releases), dict(state.fumes)
    for amount in step.apply:
        material = amount.material.text
        releases += _evaporated(nature, state, material, amount.amount, step.id)
        if isinstance(amount.amount, Volume) and nature.flammable(material):
            key = (laid_on(world, step), material)
            wet = Wet(material, amount.amount.high, None, trapped=False, flooded=False)
            _lay(nature, fumes, key, Fume(wet, step.id, carrier=False))
    return state._replace(releases=tuple(releases), fumes=fumes) if step.apply else state


def _over(world: World, nature: Nature, part: str, old: Wet | None, new: Wet) -> Wet:
    """
    Return what *part* is wet with when *new* comes on top of *old*.

    Of two liquids that mix with water the new one takes the place of the old one; else the slower one stays wet.
    """
    if old is None:
        return new
    if old.liquid == new.liquid:
        return _together(old, new)
    if _mixes(nature, old.liquid) and _mixes(nature, new.liquid):
        return new
    longer = nature.drying(world, part, old) * old.left > nature.drying(world, part, new)
    return old if longer else new


def _together(old: Wet, new: Wet) -> Wet:
    """Return *new* with what is left of *old*, of the same liquid; what was flooded is flooded again."""
    if new.volume is not None and old.volume is not None:
        return replace(new, volume=new.volume + old.volume * old.left)
    return new if new.volume is None else replace(old, left=1.0)


def _mixes(nature: Nature, liquid: str) -> bool:
    parts = [part for part, _ in nature.components(liquid)]
    return bool(parts) and all(part.is_water or part.water_miscible for part in parts)


def _lay(nature: Nature, fumes: dict[tuple[str, str], Fume], key: tuple[str, str], fume: Fume) -> None:
    """Put *fume* on top of what is left of the same liquid in the same place."""
    before = fumes.get(key)
    wet = fume.wet if before is None else _together(before.wet, fume.wet)
    fumes[key] = replace(fume, wet=wet, carrier=nature.is_flux(key[1]))


def _evaporated(nature: Nature, state: State, material: str, amount: Quantity, step: str) -> tuple[Release, ...]:
    # The low end of the clock: releases that follow one another closely add up to more.
    return tuple(
        Release(material, name, volume, state.low, step) for name, volume in nature.vapour_of(material, amount)
    )


def laid_on(world: World, step: Step) -> str:
    """Return the part that carries what *step* puts on: at a joint that is what the part is soldered to."""
    match step.action:
        case act.Heat(on=part):
            known = world.parts.get(part.text)
            return known.part_of.text if known and known.part_of else part.text
        case act.Solvent(on=part) | act.Bath(on=part) | act.Replace(part=part) | act.Fit(part=part):
            return part.text
        case act.Work(on=part) if part is not None:
            return part.text
        case act.Renew(bond=bond) | act.Release(bond=bond) if bond.text in world.bonds:
            return world.bonds[bond.text].part.text
        case _:
            return ""
