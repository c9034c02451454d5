"""Every procedure of a knowledge base, performed on every variant that it is written for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.nature import Nature
from benchleaf.dryrun.walk import walk
from benchleaf.dryrun.world import World, world
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace
    from benchleaf.model.knowledge import KnowledgeBase

_ANY = "any"


def nature(base: KnowledgeBase) -> Nature:
    """Return the bench of the shop of *base*; what the shop does not say is as most benches are."""
    usual = Nature()
    room, bench = (base.shop.room, base.shop.bench) if base.shop else (None, None)
    return Nature(
        temperature=room.temperature.middle if room and room.temperature else usual.temperature,
        humidity=room.humidity.high if room and room.humidity else usual.humidity,
        air_speed=bench.air_speed.low if bench and bench.air_speed else usual.air_speed,
        room_volume=room.volume.low if room and room.volume else usual.room_volume,
        air_changes=room.air_changes.low if room and room.air_changes else usual.air_changes,
        exposure_policy=base.shop.exposure_limit if base.shop else usual.exposure_policy,
        tools=base.tools,
        materials=base.materials,
    )


def performed(base: KnowledgeBase) -> Iterator[Trace]:
    """Yield each procedure but withdrawn ones, performed on each variant; those of an unread device are left out."""
    here = nature(base)
    worlds: dict[tuple[str, str], World] = {}
    for procedure in base.procedures.values():
        device = base.devices.get(procedure.device)
        if procedure.status == "withdrawn" or (device is None and procedure.device != ANY_DEVICE):
            continue
        for variant in base.variants_of(procedure) if device else (_ANY,):
            key = (procedure.device, variant)
            if key not in worlds:
                worlds[key] = world(device, variant)
            yield walk(base, procedure, worlds[key], here)
