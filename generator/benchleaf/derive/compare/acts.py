"""What a step does now, beside what it did: longer or hotter touches, shorter waits, more liquid, another part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.compare.change import Spot, Way
from benchleaf.derive.compare.match import target
from benchleaf.model.action import Bath, Discharge, Heat, Power, Screw, Solvent, Store, Supply, Unplug, Wait
from benchleaf.units.show import tidy

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.derive.compare.change import Change
    from benchleaf.model.action import Action
    from benchleaf.model.step import Step

LOOSER, STRICTER, OTHER = Way.LOOSER, Way.STRICTER, Way.OTHER
_CALM = (Wait, Unplug, Discharge, Store)
_RISKY = (Heat, Solvent, Bath, Supply, Power)


def without(action: Action) -> Way:
    """Return which way it goes when *action* is done no longer."""
    if isinstance(action, _CALM) or (isinstance(action, Power) and not action.on):
        return LOOSER
    # A supply that is taken away has no source.
    if isinstance(action, Supply) and action.source is None:
        return LOOSER
    return STRICTER if isinstance(action, _RISKY) else OTHER


def matters_before(guard: Step, danger: Step) -> bool:
    """Whether *guard* waits, isolates, rests the device or looks, and *danger* heats, wets or feeds something."""
    keeps_safe = guard.check is not None or (guard.action is not None and without(guard.action) is LOOSER)
    return keeps_safe and danger.action is not None and without(danger.action) is STRICTER


def added(action: Action) -> Way:
    """Return which way it goes when *action* is done now: what is dangerous in it, its safety messages tell."""
    way = without(action).back
    return way if way is STRICTER else OTHER


def named(action: Action) -> str:
    """Return what *action* is, in a few words."""
    match action:
        case Wait(lasts=lasts, until=until):
            return f"the wait of {tidy(lasts.text)}" + (f" until {until}" if until else "")
        case Power(on=on):
            return "switching the device " + ("on" if on else "off")
        case Heat(at=at, on=on):
            return f"the heating of {on} at {tidy(at.text)}"
        case Solvent(material=material, volume=volume, on=on):
            return f"{tidy(volume.text)} of {material} on {on}"
    word = {"Renew": "bond", "Screw": "screwing", "Unscrew": "unscrewing"}.get(type(action).__name__)
    return " ".join((f"the {(word or type(action).__name__).lower()} of", ", ".join(target(action)) or "it"))


def action(old: Step, new: Step) -> Iterator[Change]:
    """Yield how what *new* does differs from what *old* did."""
    before, after = old.action, new.action
    if before is None or after is None or type(before) is not type(after):
        yield from changed_for(before, after, new)
    elif isinstance(before, Wait) and isinstance(after, Wait):
        yield from _wait(before, after, Spot("wait", after.place, new.id))
    elif target(before) != target(after):
        text, was = named(after), named(before)
        yield Spot(_kind(after), after.place, new.id).say(OTHER, f"{text}; it was {was}", was, text)
    else:
        yield from _same(before, after, new)


def _same(before: Action, after: Action, new: Step) -> Iterator[Change]:
    """Yield how an action differs that is of the same kind and done to the same thing."""
    spot = Spot(_kind(after), after.place, new.id)
    match before, after:
        case Heat(), Heat():
            yield from _heat(before, after, new.id)
        case Solvent(), Solvent():
            yield from spot.quantity(f"the {after.material}", before.volume, after.volume, LOOSER)
            yield from spot.words("the liquid", before.material, after.material)
        case Bath(), Bath():
            yield from spot.quantity("the time of the bath", before.lasts, after.lasts, OTHER)
            yield from spot.quantity("the warmth of the bath", before.at, after.at, LOOSER)
            yield from spot.words("the liquid", before.material, after.material)
        case Supply(), Supply():
            yield from spot.quantity("the voltage", before.at, after.at, LOOSER)
            yield from spot.quantity("the limit of the current", before.limit, after.limit, LOOSER)
        case Screw(), Screw():
            yield from _screws(before, after, new.id)
        case Store(), Store() if before.use_again != after.use_again:
            way, word = (LOOSER, "reuse") if after.use_again else (STRICTER, "do-not-use")
            yield spot.say(way, f"{after.part} is kept as {word}; it was the other way", "", word)
        case Power(), Power() if before.on != after.on:
            yield from changed_for(before, after, new)


def _screws(old: Screw, new: Screw, step: str) -> Iterator[Change]:
    for one, other in zip(old.screws, new.screws, strict=True):
        spot = Spot("torque", other.place, step)
        # A step that says no torque is driven with that of the screw: no limit is lost.
        if one.torque and other.torque:
            yield from spot.quantity(f"the torque of {other.fastener}", one.torque, other.torque, LOOSER)
        else:
            before, after = (tidy(screw.torque.text) if screw.torque else "" for screw in (one, other))
            yield from spot.words(f"the torque of {other.fastener}", before, after)
        yield from Spot("screws", other.place, step).words(f"the number of {other.fastener}", one.count, other.count)


def changed_for(before: Action | None, after: Action | None, new: Step) -> Iterator[Change]:
    """Yield that *before* is done no longer, and *after* is done now, in the step *new*."""
    if before is not None:
        text = named(before)
        yield Spot(_kind(before), new.place, new.id).say(without(before), f"{text} is gone", text)
    if after is not None:
        text = named(after)
        yield Spot(_kind(after), after.place, new.id).say(added(after), f"{text} is new", "", text)


def _kind(one: Action) -> str:
    match one:
        case Wait():
            return "wait"
        case Heat():
            return "heat"
        case Solvent() | Bath():
            return "liquid"
    return "step"


def _wait(old: Wait, new: Wait, spot: Spot) -> Iterator[Change]:
    until = f" until {new.until}" if new.until else ""
    yield from spot.quantity(f"the wait{until}", old.lasts, new.lasts, STRICTER)
    yield from spot.words("what is waited for", old.until, new.until, limit=True)
    # Warmer air dries faster, and heats what lies in it: which of the two counts, the messages tell.
    yield from spot.quantity("the warmth of the air", old.at, new.at, OTHER)
    yield from spot.quantity("the speed of the air", old.air_speed, new.air_speed, STRICTER)


def _heat(old: Heat, new: Heat, step: str) -> Iterator[Change]:
    spot, on = Spot("heat", new.place, step), new.on
    yield from spot.quantity(f"the heat on {on}", old.at, new.at, LOOSER)
    yield from spot.quantity(f"the time of a touch on {on}", old.lasts, new.lasts, LOOSER)
    if old.times != new.times:
        way = LOOSER if new.times > old.times else STRICTER
        yield spot.say(way, f"{on} is touched {new.times} times; it was {old.times}", str(old.times), str(new.times))
    yield from Spot("wait", new.place, step).quantity("the pause between touches", old.pause, new.pause, STRICTER)
    yield from spot.quantity(f"what {on} reaches", old.reaches, new.reaches, LOOSER)
    yield from spot.quantity(f"the ramp on {on}", old.ramp, new.ramp, LOOSER)
    yield from spot.words("the tool", old.tool, new.tool)
    yield from spot.words("the shield", old.shield, new.shield, limit=True)
    if old.hold and new.hold and str(old.hold.part) == str(new.hold.part):
        what = f"what {new.hold.part} is held below"
        yield from Spot("limit", new.place, step).quantity(what, old.hold.below, new.hold.below, LOOSER)
    else:
        before, after = (f"{one.hold.part} below {tidy(one.hold.below.text)}" if one.hold else None
                         for one in (old, new))  # fmt: skip
        yield from Spot("limit", new.place, step).words("the neighbour that is held", before, after, limit=True)
