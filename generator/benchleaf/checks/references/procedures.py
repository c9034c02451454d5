"""Names that a procedure gives beside those in its steps."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import nearest
from benchleaf.checks.references import shop
from benchleaf.checks.references.steps import for_no_device
from benchleaf.checks.references.things import PROCEDURE, known_for, shared
from benchleaf.checks.rule import Hit
from benchleaf.checks.walk import in_use
from benchleaf.model.device import CLOSED
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.findings import Place
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure


def in_procedures(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield what is wrong with the names at the head of every procedure of *base*."""
    for procedure in in_use(base):
        for name in procedure.fixes:
            yield from shop.symptom(base, name)
        for name in procedure.tools:
            yield from shop.tool(base, name)
        for amount in procedure.materials:
            yield from shop.material(base, amount.material, "put on")
        if procedure.device == ANY_DEVICE:
            yield from _of_any(procedure)
        else:
            yield from _of_device(base, procedure)


def no_device(base: KnowledgeBase, device: str, folder: str, place: Place) -> Iterator[Hit]:
    """Yield what is said of a file in the folder of a *device* that is not described."""
    if device in base.devices or base.is_broken("device", device, device):
        return
    near = nearest(device, base.devices)
    meant = f"Did you mean {folder}/{near}/? " if near else ""
    yield Hit(
        place,
        f"There is no devices/{device}.yml: nobody knows what this device is made of, and nothing here can be checked",
        f"{meant}{'Or describe' if near else 'Describe'} the device in devices/{device}.yml.",
    )


def _of_any(procedure: Procedure) -> Iterator[Hit]:
    if procedure.access.text != CLOSED:
        yield for_no_device(procedure.access, "level")
    for name in procedure.hands_back.without if procedure.hands_back else ():
        yield for_no_device(name, "part")


def _of_device(base: KnowledgeBase, procedure: Procedure) -> Iterator[Hit]:
    device = base.devices.get(procedure.device)
    if device is None:
        yield from no_device(base, procedure.device, "repairs", procedure.title.place)
        return
    variants = base.variants_of(procedure)
    yield from known_for(device, "level", procedure.access, variants, PROCEDURE)
    for name in procedure.hands_back.without if procedure.hands_back else ():
        yield from shared(device, "part", name, variants, PROCEDURE)
