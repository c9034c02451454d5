"""Where a file names variants: names that are none, and an `only` that leaves nothing over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import did_you_mean, listed
from benchleaf.checks.rule import Hit
from benchleaf.checks.walk import every_step, having, in_use
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.checks.walk import Spot
    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.words import OnlyFor, Said


def misnamed_variants(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each variant that its device does not have, and each `only` that holds for none."""
    for device in base.devices.values():
        for only in _onlys(device):
            yield from _unknown(device, only.names if only else ())
        for part in device.parts.values():
            yield from _unknown(device, part.paired_for)
            yield from _paired_for_others(part.paired_for, part.only, device)
    for procedure in in_use(base):
        names = procedure.variants.names if procedure.variants else ()
        if procedure.device == ANY_DEVICE:
            yield from _of_any(names)
        elif procedure.device in base.devices:
            yield from _unknown(base.devices[procedure.device], names)
    for spot in every_step(base):
        yield from _step(spot)


def _onlys(device: Device) -> Iterator[OnlyFor | None]:
    yield from (part.only for part in device.parts.values())
    yield from (battery.only for battery in device.batteries.values())
    yield from (bond.only for bond in device.bonds.values())
    yield from (connector.only for connector in device.connectors.values())
    yield from (fastener.only for fastener in device.fasteners.values())
    yield from (level.only for level in device.access.values())


def _step(spot: Spot) -> Iterator[Hit]:
    names = spot.step.only.names if spot.step.only else ()
    if spot.procedure and spot.procedure.device == ANY_DEVICE:
        yield from _of_any(names)
    elif names and spot.device:
        unknown = tuple(_unknown(spot.device, names))
        yield from unknown
        if not unknown and not spot.variants:
            whole = "this level" if spot.level else "this procedure"
            yield Hit(
                names[0].place,
                f"`only` keeps this step for {listed(str(name) for name in names)}, and {whole} is not for "
                f"{'them' if names[1:] else 'it'}: nobody would ever do it",
                "Name a variant for which the step is done, or take the step out.",
            )


def _unknown(device: Device, names: Iterable[Said]) -> Iterator[Hit]:
    for name in names:
        if name.text not in device.variant_ids:
            yield Hit(
                name.place,
                f"{device.title} has no variant `{name}`: what stands here would be for a device that nobody has",
                did_you_mean(name.text, device.variant_ids, f"describe `{name}` under `variants` in {device.path}."),
            )


def _paired_for_others(names: Iterable[Said], only: OnlyFor | None, device: Device) -> Iterator[Hit]:
    there = having(only, device.variant_ids)
    for name in names:
        if name.text in device.variant_ids and name.text not in there:
            yield Hit(
                name.place,
                f"`{name}` does not have this part, which is for {listed(there)} alone: nobody would ever read this",
                "Name a variant that has the part, or take this out.",
            )


def _of_any(names: Iterable[Said]) -> Iterator[Hit]:
    for name in names:
        yield Hit(
            name.place,
            f"The variant `{name}` is named, and a procedure for any device has none: nobody knows which is meant",
            "Move the file to the folder of its device, or take this out.",
        )
