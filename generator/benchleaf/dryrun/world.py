"""The simulated device: what exists for one variant, and what hangs together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.dryrun.depth import depths
from benchleaf.model.action import Remove, Unplug, Unscrew
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.dryrun.reach import Under
    from benchleaf.model.action import Action
    from benchleaf.model.device import Battery, Bond, Connector, Device, Fastener, Part
    from benchleaf.units.quantity import Length


@dataclass(frozen=True, slots=True)
class Neighbour:
    """A part beside another: edge to edge, the smaller of what the two say, and the way heat takes."""

    part: str
    distance: Length | None
    via: str


@dataclass(frozen=True, slots=True)
class Lids:
    """What the openings of a device take out: while any of it is out, the device is open."""

    parts: frozenset[str] = frozenset()
    plugs: frozenset[str] = frozenset()
    screws: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class World:
    """
    One variant of a device, or nothing for procedures of any device.

    `family` gives each part with all that is part of it; `near` is read both ways; `plugs` gives the battery that a
    connector isolates, `packs` the battery that a part is; `glued` the bonds that hold a part; `stores` are the parts
    that keep charge; `under` says beneath which cover a thing lies, by its kind and name.
    """

    device: Device | None
    variant: str
    parts: Mapping[str, Part]
    fasteners: Mapping[str, Fastener]
    connectors: Mapping[str, Connector]
    bonds: Mapping[str, Bond]
    batteries: Mapping[str, Battery]
    family: Mapping[str, frozenset[str]]
    near: Mapping[str, tuple[Neighbour, ...]]
    plugs: Mapping[str, str]
    packs: Mapping[str, str]
    glued: Mapping[str, tuple[str, ...]]
    spends: Mapping[str, frozenset[str]]
    lids: Lids
    stores: frozenset[str]
    under: Mapping[tuple[str, str], tuple[Under, ...]]
    make_up: tuple[object, ...]


def world(device: Device | None, variant: str) -> World:
    """Return *device* as *variant* has it."""
    if device is None:
        return World(None, variant, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, {}, Lids(), frozenset(), {}, ())
    parts = {name: part for name, part in device.parts.items() if applies(part.only, variant)}
    batteries = {name: battery for name, battery in device.batteries.items() if applies(battery.only, variant)}
    bonds = {name: bond for name, bond in device.bonds.items() if applies(bond.only, variant)}
    glued: dict[str, list[str]] = {}
    for bond in bonds.values():
        glued.setdefault(bond.part.text, []).append(bond.id)
    return World(
        device=device,
        variant=variant,
        parts=parts,
        fasteners={name: item for name, item in device.fasteners.items() if applies(item.only, variant)},
        connectors={name: item for name, item in device.connectors.items() if applies(item.only, variant)},
        bonds=bonds,
        batteries=batteries,
        family=_families(parts),
        near=_near(parts),
        plugs={battery.plug.text: name for name, battery in batteries.items() if battery.plug},
        packs={battery.part.text: name for name, battery in batteries.items()},
        glued={part: tuple(names) for part, names in glued.items()},
        spends=_spends(device, parts, variant),
        lids=_lids(device, variant),
        stores=frozenset(name for name, part in parts.items() if part.stores),
        under=depths(device, parts, variant),
        make_up=_make_up(device, variant),
    )


def _make_up(device: Device, variant: str) -> tuple[object, ...]:
    """Return which things and steps of *device* exist for *variant*, and what ties its paired parts to it."""
    things = (device.parts, device.fasteners, device.connectors, device.bonds, device.batteries, device.access)
    steps = [(*level.opening, *level.closing) for level in device.access.values()]
    return (
        tuple(applies(thing.only, variant) for kind in things for thing in kind.values()),
        tuple(applies(step.only, variant) for own in steps for step in own),
        tuple(part.paired.get(variant) for part in device.parts.values()),
    )


def _opening(device: Device, variant: str) -> Iterator[Action | None]:
    """Yield what is done in all openings of *device* as *variant* has them."""
    return (
        step.action
        for level in device.access.values()
        if applies(level.only, variant)
        for step in level.opening
        if applies(step.only, variant)
    )


def _lids(device: Device, variant: str) -> Lids:
    actions = tuple(_opening(device, variant))
    return Lids(
        frozenset(action.part.text for action in actions if isinstance(action, Remove)),
        frozenset(action.connector.text for action in actions if isinstance(action, Unplug)),
        frozenset(one.fastener.text for action in actions if isinstance(action, Unscrew) for one in action.screws),
    )


def _families(parts: Mapping[str, Part]) -> dict[str, frozenset[str]]:
    children: dict[str, set[str]] = {name: {name} for name in parts}
    for name, part in parts.items():
        above, seen = part, {name}
        while above.part_of and above.part_of.text in parts and above.part_of.text not in seen:
            seen.add(above.part_of.text)
            children[above.part_of.text].add(name)
            above = parts[above.part_of.text]
    return {name: frozenset(members) for name, members in children.items()}


def _near(parts: Mapping[str, Part]) -> dict[str, tuple[Neighbour, ...]]:
    found: dict[str, dict[str, Neighbour]] = {name: {} for name in parts}
    for name, part in parts.items():
        for near in part.near or ():
            other = near.part.text
            if other not in parts:
                continue
            for here, there in ((name, other), (other, name)):
                known = found[here].get(there)
                if known is None or _far(near.distance) < _far(known.distance):
                    found[here][there] = Neighbour(there, near.distance, near.via)
    return {name: tuple(neighbours.values()) for name, neighbours in found.items()}


def _far(distance: Length | None) -> float:
    return distance.low if distance else 0.0


def _spends(device: Device, parts: Mapping[str, Part], variant: str) -> dict[str, frozenset[str]]:
    """Return, by part, the single-use parts that are spent when it is removed."""
    opened = _lids(device, variant).parts
    found: dict[str, set[str]] = {}
    for name, part in parts.items():
        if not part.single_use:
            continue
        sealed = {seal.text for seal in part.seals} or (opened if part.keeps_out else set())
        for other in {name, *sealed}:
            found.setdefault(other, set()).add(name)
    return {name: frozenset(seals) for name, seals in found.items()}
