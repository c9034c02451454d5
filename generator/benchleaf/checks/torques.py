"""Every torque that a knowledge base asks for, with the screw that it is for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.walk import every_step
from benchleaf.model.action import Screw
from benchleaf.units.dimensions import spellings
from benchleaf.units.show import digits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.findings import Place
    from benchleaf.model.device import Device, Fastener
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.step import Step
    from benchleaf.units.quantity import Torque


@dataclass(frozen=True, slots=True)
class Asked:
    """A torque where it is written: on the fastener, or in the step that drives it."""

    device: Device
    fastener: Fastener
    torque: Torque
    place: Place
    step: Step | None


def every_torque(base: KnowledgeBase) -> Iterator[Asked]:
    """Yield each torque of the devices' fasteners, then those that steps give."""
    for device in base.devices.values():
        for fastener in device.fasteners.values():
            if fastener.torque is not None:
                yield Asked(device, fastener, fastener.torque, fastener.torque_place, None)
    for spot in every_step(base):
        if spot.device is None or not isinstance(spot.step.action, Screw):
            continue
        for screws in spot.step.action.screws:
            known = spot.device.fasteners.get(screws.fastener.text)
            if known is not None and screws.torque is not None:
                yield Asked(spot.device, known, screws.torque, screws.place, spot.step)


def in_unit_of(newton_metres: float, like: Torque) -> str:
    """Return a torque in the unit that *like* is written in, rounded down: what is named must be safe."""
    unit = spellings("torque")[like.unit]
    return f"{digits(unit.from_base(newton_metres), 2, math.floor)} {unit.symbol}"
