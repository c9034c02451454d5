"""What is said of a part now, beside what was said: what it bears, what is near, what it keeps out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.compare.change import Change, Spot, Way

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.findings import Place
    from benchleaf.model.device import Limit, Part

LOOSER, STRICTER, OTHER = Way.LOOSER, Way.STRICTER, Way.OTHER

# What a part is, by the field that says so: the value that asks for more care, and both in words.
_FLAGS = (
    ("single_use", True, "is for one use alone", "is no longer for one use alone"),
    ("no_bath", True, "bears no bath", "is no longer said to bear no bath"),
    ("traps_liquid", True, "traps liquid", "is no longer said to trap liquid"),
    ("keyed", False, "can be fitted the wrong way round", "is said to fit one way round alone"),
)


def part(name: str, old: Part, new: Part) -> Iterator[Change]:
    """Yield how the part *name* differs."""
    yield from _limit(f"what the body of {name} bears", old.heat_limit, new.heat_limit, new.place)
    yield from _limit(f"what the joints of {name} bear", old.joint_limit, new.joint_limit, new.place)
    yield from _neighbours(name, old, new)
    spot = Spot("part", new.place)
    for field, careful, yes, no in _FLAGS:
        before, after = getattr(old, field), getattr(new, field)
        if before != after:
            strict = after == careful
            yield spot.say(STRICTER if strict else LOOSER, f"{name} {yes if strict else no}", str(before), str(after))
    yield from Spot("seal", new.place).words(f"what {name} keeps out", old.keeps_out, new.keeps_out, limit=True)
    yield from _listed("seal", f"{name} seals", {str(one) for one in old.seals}, {str(one) for one in new.seals}, new)
    yield from _listed("pairing", f"{name} is paired on", set(old.paired), set(new.paired), new)
    stored = Spot("stored", new.place)
    voltage = [one.stores.voltage if one.stores else None for one in (old, new)]
    capacitance = [one.stores.capacitance if one.stores else None for one in (old, new)]
    # Less that is stored, as it is written now, is handled with less care.
    yield from stored.quantity(f"the voltage that {name} keeps", voltage[0], voltage[1], STRICTER)
    yield from stored.quantity(f"the capacitance of {name}", capacitance[0], capacitance[1], STRICTER)
    yield from spot.words(f"what {name} is made of", old.made_of, new.made_of)
    yield from spot.words(f"what {name} is part of", old.part_of, new.part_of)


def _limit(what: str, old: Limit | None, new: Limit | None, start: Place) -> Iterator[Change]:
    spot = Spot("limit", new.place if new else start)
    yield from spot.quantity(what, old.at if old else None, new.at if new else None, LOOSER)
    if old and new:
        yield from spot.quantity(what.replace("what", "how long", 1) + " it", old.lasts, new.lasts, LOOSER)


def _neighbours(name: str, old: Part, new: Part) -> Iterator[Change]:
    before, after = ({str(near.part): near for near in one.near or ()} for one in (old, new))
    for other in sorted(before.keys() - after.keys()):
        yield Spot("neighbour", new.place).say(LOOSER, f"{other} is no longer named as near {name}", other)
    for other, near in after.items():
        spot = Spot("neighbour", near.part.place)
        if other not in before:
            yield spot.say(STRICTER, f"{other} is named as near {name}", "", other)
            continue
        if near.distance and before[other].distance:
            yield from spot.quantity(f"the way from {name} to {other}", before[other].distance, near.distance, LOOSER)
        yield from spot.words(f"how heat goes from {name} to {other}", before[other].via, near.via)


def _listed(kind: str, what: str, old: set[str], new: set[str], one: Part) -> Iterator[Change]:
    spot = Spot(kind, one.place)
    for lost in sorted(old - new):
        yield spot.say(LOOSER, f"{what} {lost} no longer", lost)
    for won in sorted(new - old):
        yield spot.say(STRICTER, f"{what} {won} now", "", won)
