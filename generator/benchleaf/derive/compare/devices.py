"""What is said of a device now, beside what was said: limits of parts, neighbours, screws, what a part is."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.derive.compare.change import Change, Spot, Way
from benchleaf.derive.compare.parts import part

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.device import Battery, Bond, Connector, Device, Fastener

LOOSER, STRICTER, OTHER = Way.LOOSER, Way.STRICTER, Way.OTHER


def changes(old: Device, new: Device) -> Iterator[tuple[str, Change]]:
    """
    Yield how the facts of a device differ, each with the name of what it is about.

    A thing that is new or gone is told by the steps that name it; a battery alone is known by being there.
    """
    for name, found in chain(
        ((name, part(name, old.parts[name], one)) for name, one in new.parts.items() if name in old.parts),
        ((name, _fastener(name, old.fasteners[name], one)) for name, one in new.fasteners.items()
         if name in old.fasteners),
        ((name, _battery(name, old.batteries[name], one)) for name, one in new.batteries.items()
         if name in old.batteries),
        ((name, _connector(name, old.connectors[name], one)) for name, one in new.connectors.items()
         if name in old.connectors),
        ((name, _bond(name, old.bonds[name], one)) for name, one in new.bonds.items() if name in old.bonds),
    ):  # fmt: skip
        yield from ((name, change) for change in found)
    yield from _other(old, new)


def _other(old: Device, new: Device) -> Iterator[tuple[str, Change]]:
    for name, level in new.access.items():
        if name in old.access:
            spot = Spot("level", level.place)
            was = old.access[name].volume
            yield from ((name, one) for one in spot.quantity(f"the free air in {name}", was, level.volume, LOOSER))
    solder = [one.board.solder if one.board else None for one in (old, new)]
    board = new.parts.get(str(new.board.part)) if new.board else None
    if board:
        spot = Spot("board", board.place)
        yield from ((board.id, one) for one in spot.words("the solder of the board", *solder))
    here = [*(one.place for one in new.batteries.values()), *(one.place for one in new.parts.values())]
    for name in sorted(old.batteries.keys() - new.batteries.keys() if here else ()):
        # What has no battery is never isolated, and nothing beside it is ever warm.
        yield "", Spot("battery", here[0]).say(LOOSER, f"the battery {name} is no longer in the device", name)
    for name in sorted(new.batteries.keys() - old.batteries.keys()):
        spot = Spot("battery", new.batteries[name].place)
        yield "", spot.say(STRICTER, f"the battery {name} is in the device now", "", name)


def _fastener(name: str, old: Fastener, new: Fastener) -> Iterator[Change]:
    torque, spot = Spot("torque", new.torque_place), Spot("fastener", new.place)
    if new.torque_by_hand and not old.torque_by_hand:
        was = old.torque.text if old.torque else ""
        yield torque.say(LOOSER, f"{name} is driven by hand; it had a torque", was, "hand")
    elif not old.torque_by_hand:
        yield from torque.quantity(f"the torque of {name}", old.torque, new.torque, LOOSER)
    # What its thread bears is computed from these.
    yield from spot.quantity(f"the engagement of {name}", old.engagement, new.engagement, LOOSER)
    yield from spot.quantity(f"the length of {name}", old.length, new.length, OTHER)
    for what in ("thread", "grade", "into", "count", "drive"):
        yield from spot.words(f"the {what} of {name}", getattr(old, what), getattr(new, what))
    yield from spot.words(f"what lies under {name}", old.under, new.under, limit=True)


def _battery(name: str, old: Battery, new: Battery) -> Iterator[Change]:
    spot = Spot("battery", new.place)
    for what in ("chemistry", "cells", "soldered", "plug", "part"):
        yield from spot.words(f"the {what} of {name}", getattr(old, what), getattr(new, what))
    yield from spot.quantity(f"the voltage of {name}", old.voltage, new.voltage, OTHER)
    yield from spot.quantity(f"the capacity of {name}", old.capacity, new.capacity, OTHER)


def _bond(name: str, old: Bond, new: Bond) -> Iterator[Change]:
    spot = Spot("bond", new.place)
    yield from spot.quantity(f"what softens {name}", old.softens, new.softens, OTHER)
    if old.single_use != new.single_use:
        way = STRICTER if new.single_use else LOOSER
        yield spot.say(way, f"{name} is {'for one use alone' if new.single_use else 'no longer for one use alone'}")


def _connector(name: str, old: Connector, new: Connector) -> Iterator[Change]:
    spot = Spot("connector", new.place)
    if bool(old.before_isolation) != bool(new.before_isolation):
        way, word = (LOOSER, "now") if new.before_isolation else (STRICTER, "no longer")
        yield spot.say(way, f"{name} is {word} moved before the battery is isolated",
                       old.before_isolation or "", new.before_isolation or "")  # fmt: skip
    for lost in sorted(set(old.serves) - set(new.serves)):
        yield spot.say(LOOSER, f"{name} serves {lost} no longer: nothing asks for its proof", lost)
