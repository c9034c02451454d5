"""Facts of a device that cannot both be true: one of the two is a slip, and safety may hang on it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit
from benchleaf.checks.walk import every_step
from benchleaf.model.action import Screw, Unscrew

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.device import Device, Fastener
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.units.quantity import Length

_ROUNDING = 1e-9  # The error of converting: 0.3 cm is 3 mm.


def facts_at_odds(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield counts, depths and distances that another fact of the same device rules out."""
    for device in base.devices.values():
        for fastener in device.fasteners.values():
            yield from _depth(fastener)
        yield from _planned(device)
        yield from _too_far(device)
    yield from _more_than_there_are(base)


def _depth(fastener: Fastener) -> Iterator[Hit]:
    length, depth = fastener.length, fastener.engagement
    if length and depth and depth.low > length.high * (1 + _ROUNDING):
        yield Hit(
            fastener.place,
            f"`{fastener.id}` engages {depth.text} and is {length.text} long: no thread holds more than the whole "
            "screw, and what it bears would be reckoned by it",
            f"Write an `engagement` of at most {length.text}, or the length that the screw has.",
        )


def _planned(device: Device) -> Iterator[Hit]:
    for name in device.plan.named if device.plan else ():
        fastener, drawn = device.fasteners.get(name.text), len(device.plan.at.get(name.text, ())) if device.plan else 0
        if fastener is not None and drawn != fastener.count:
            yield Hit(
                name.place,
                f"The plan shows {drawn} of `{name}`, and its `count` is {fastener.count}: one of them is left out, or "
                "sought where none is",
                f"Write {drawn} as `count`, or draw {fastener.count}.",
            )
    for fastener in device.fasteners.values():
        held = sum(fastener.holes.values())
        if fastener.holes and held != fastener.count:
            yield Hit(
                fastener.place,
                f"The `holes` of `{fastener.id}` take {held}, and its `count` is {fastener.count}: one of them is left "
                "out, or sought where none is",
                f"Write {held} as `count`, or holes for {fastener.count}.",
            )


def _too_far(device: Device) -> Iterator[Hit]:
    """Yield neighbours that are farther apart than the board that carries both, or than the device, is across."""
    on_board = _on_board(device)
    for part in device.parts.values():
        for near in part.near or ():
            both = part.id in on_board and near.part.text in on_board
            room = device.board.size if both and device.board else device.plan.size if device.plan else None
            most = math.hypot(room[0].high, room[1].high) if room else math.inf
            if near.distance is not None and near.distance.low > most * (1 + _ROUNDING):
                what = "board that carries both" if both else "whole device"
                yield Hit(
                    near.part.place,
                    f"`{near.part}` is {near.distance.text} from `{part.id}`, and the {what} is {_shown(room)}: what "
                    "is near the heat would seem out of its reach",
                    "Write the distance from edge to edge as it is measured.",
                )


def _on_board(device: Device) -> frozenset[str]:
    if device.board is None:
        return frozenset()
    found = {device.board.part.text}
    while more := {
        name for name, part in device.parts.items() if part.part_of and part.part_of.text in found and name not in found
    }:
        found |= more
    return frozenset(found)


def _shown(room: tuple[Length, Length] | None) -> str:
    return f"{room[0].text} by {room[1].text}" if room else ""


def _more_than_there_are(base: KnowledgeBase) -> Iterator[Hit]:
    for spot in every_step(base):
        action = spot.step.action
        if spot.device is None or not isinstance(action, Screw | Unscrew):
            continue
        for screws in action.screws:
            known = spot.device.fasteners.get(screws.fastener.text)
            if known is not None and screws.count > known.count:
                yield Hit(
                    screws.place,
                    f"{screws.count} of `{known.id}` are turned here, and the device has {known.count}: somebody would "
                    "look for one that never was, or leave one out",
                    f"Write {known.count}, or correct the `count` of `{known.id}` in the file of the device.",
                )
