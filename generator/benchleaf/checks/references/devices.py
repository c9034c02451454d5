"""Names that the files of devices and materials give: what things are part of, made of, near to, reached from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.references import shop
from benchleaf.checks.references.things import THING, known_for, shared
from benchleaf.checks.rule import Hit
from benchleaf.checks.walk import having
from benchleaf.model.device import CLOSED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.device import Access, Device, Part
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.words import Said


def in_materials(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield what is wrong with what the shop's materials are said to consist of."""
    for material in base.materials.values():
        for name in material.contains_at:
            yield from shop.material(base, name, "put on")
        if material.alloy:
            yield from shop.material(base, material.alloy, "alloy")


def in_devices(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield what is wrong with the names that describe every device of *base*."""
    for device in base.devices.values():
        for part in device.parts.values():
            yield from _part(base, device, part)
        yield from _joints(device)
        for fastener in device.fasteners.values():
            if fastener.into:
                yield from shop.material(base, fastener.into, "made of")
        if device.board:
            yield from shared(device, "part", device.board.part, device.variant_ids, THING)
            if device.board.solder:
                yield from shop.material(base, device.board.solder, "alloy")
        for name in device.plan.named if device.plan else ():
            yield from shared(device, "fastener", name, device.variant_ids, THING)
        yield from _levels(base, device)


def _part(base: KnowledgeBase, device: Device, part: Part) -> Iterator[Hit]:
    variants = having(part.only, device.variant_ids)
    if part.made_of:
        yield from shop.material(base, part.made_of, "made of")
    if part.part_of:
        yield from known_for(device, "part", part.part_of, variants, THING)
    # Neighbours count only where both are in, and a seal only where what it seals is: one variant will do.
    for name in (*(near.part for near in part.near or ()), *part.seals):
        yield from shared(device, "part", name, variants, THING)


def _joints(device: Device) -> Iterator[Hit]:
    for bond in device.bonds.values():
        yield from known_for(device, "part", bond.part, having(bond.only, device.variant_ids), THING)
    for battery in device.batteries.values():
        variants = having(battery.only, device.variant_ids)
        yield from known_for(device, "part", battery.part, variants, THING)
        if battery.plug:
            yield from known_for(device, "connector", battery.plug, variants, THING)


def _levels(base: KnowledgeBase, device: Device) -> Iterator[Hit]:
    told: set[str] = set()
    for level in device.access.values():
        for name in level.tools:
            yield from shop.tool(base, name)
        circle = _circle(device, level)
        if circle and level.id not in told:
            told.update(circle)
            yield _never_closed(level.parent, circle)
        elif not circle:
            yield from known_for(device, "level", level.parent, having(level.only, device.variant_ids), THING)


def _circle(device: Device, level: Access) -> tuple[str, ...]:
    """Return the levels that lead from *level* back to it, or nothing where its way ends elsewhere."""
    way, at = [level.id], level.parent.text
    while at != level.id:
        if at == CLOSED or at not in device.access or at in way:
            return ()
        way.append(at)
        at = device.access[at].parent.text
    return tuple(way)


def _never_closed(name: Said, circle: tuple[str, ...]) -> Hit:
    way = ", and that from ".join(f"`{level}`" for level in (*circle[1:], circle[0]))
    return Hit(
        name.place,
        f"The level `{circle[0]}` is opened from {way}: nobody who holds the closed device could ever reach it",
        "Write `from: closed` on the level that is opened first.",
    )
