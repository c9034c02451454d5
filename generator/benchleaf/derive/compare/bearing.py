"""Which procedures a fact bears on: those that touch, warm or use what it is about."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING

from benchleaf.derive.compare.match import target
from benchleaf.model.action import Bath, Heat, Renew, Solvent, Wait
from benchleaf.model.knowledge import phases

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.action import Action
    from benchleaf.model.device import Device
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.shop import Tool
    from benchleaf.model.step import Step


VAPOUR = "vapour of anything"
"""The word for what bears on all procedures that use a material or a solvent."""


def warmed(name: str) -> str:
    """Return the word for the warmth of the part *name*: what bears on it bears on those alone that warm the part."""
    return f"warmth of {name}"


def touched(device: Device | None, procedure: Procedure, tools: Mapping[str, Tool]) -> frozenset[str]:
    """Return the names of all that *procedure* does something to or uses, and the words for what it warms."""
    whole = list(phases(device, procedure))
    names = {phase.access.id for phase in whole if phase.access}
    steps = list(chain.from_iterable(phase.steps for phase in whole))
    names |= {name for step in steps for name in _named(step)}
    names |= {str(tool) for tool in procedure.tools} | {str(one.material) for one in procedure.materials}
    names |= {str(tool) for phase in whole if phase.access for tool in phase.access.tools}
    if procedure.materials or any(step.apply or isinstance(step.action, Solvent | Bath) for step in steps):
        names.add(VAPOUR)
    if device:
        names |= {name for name, part in device.parts.items() if part.part_of and str(part.part_of) in names}
        names |= {name for name, one in device.batteries.items() if {str(one.part), str(one.plug)} & names}
        names |= {warmed(name) for step in steps for name in _warm(device, step.action, tools)}
    return frozenset(names)


def _warm(device: Device, action: Action | None, tools: Mapping[str, Tool]) -> Iterator[str]:
    """Yield the parts that *action* warms: rather one too many than one too few."""
    match action:
        case Wait(at=at) | Bath(at=at) if at is not None:
            yield from device.parts
        case Heat(on=on, tool=tool):
            own = str(on)
            yield own
            known = tools.get(str(tool))
            # Only an iron warms one place; air, mats and ovens warm the board and all that is on it.
            wide = known is None or known.kind != "iron"
            part = device.parts.get(own)
            carrier = str(part.part_of) if part and part.part_of else own
            for name, other in device.parts.items():
                carried = {name, str(other.part_of)}
                if own in carried or (wide and carrier in carried) or _near(device, name, own):
                    yield name


def _near(device: Device, one: str, other: str) -> bool:
    return any(
        str(near.part) == there
        for here, there in ((one, other), (other, one))
        for near in (device.parts[here].near or () if here in device.parts else ())
    )


def _named(step: Step) -> Iterator[str]:
    action = step.action
    yield from target(action)
    yield from (str(tool) for tool in step.use)
    yield from (str(one.material) for one in step.apply)
    match action:
        case Heat(hold=hold) if hold:
            yield str(hold.part)
        case Solvent(material=material) | Bath(material=material):
            yield str(material)
        case Renew(material=material) if material:
            yield str(material)
    if (used := getattr(action, "tool", None)) is not None:
        yield str(used)
    if step.check and step.check.instrument:
        yield str(step.check.instrument)
