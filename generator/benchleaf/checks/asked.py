"""What a caller asks for by its name: found, or refused with the nearest name that there is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import FEW, listed, nearest
from benchleaf.findings import Refused
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.findings import Finding
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure


def procedure_named(base: KnowledgeBase, written: str) -> Procedure | None:
    """Return the procedure that DEVICE/PROCEDURE names; None where it is there and its file or device does not fit."""
    device, stroke, name = written.partition("/")
    if not (device and stroke and name):
        example = next((f", for example {there}/{own}" for there, own in base.procedures), "")
        raise Refused(f"Write DEVICE/PROCEDURE{example}")
    unread = base.is_broken("device", device, device)
    if device not in {ANY_DEVICE, *base.devices} and not unread:
        raise _unknown(f"There is no device {device}", device, base.devices)
    if base.is_broken("procedure", device, name):
        return None
    found = base.procedures.get((device, name))
    if found is None:
        raise _unknown(
            f"There is no procedure {written}", written, [f"{there}/{own}" for there, own in base.procedures]
        )
    return None if unread else found


def must_have_variant(base: KnowledgeBase, procedure: Procedure, variant: str) -> None:
    """Refuse a *variant* for which *procedure* is not written."""
    names = base.variants_of(procedure) or ("any",)
    if variant not in names:
        raise _unknown(f"{procedure.device}/{procedure.id} has no variant {variant}", variant, names)


def stopping(findings: Iterable[Finding], base: KnowledgeBase, procedure: Procedure) -> int:
    """Return how many of *findings*, in the files of *procedure* and its device, keep it from being published."""
    device = base.devices.get(procedure.device)
    paths = {procedure.path, device.path if device else procedure.path}
    return sum(1 for finding in findings if finding.stops and finding.place.path in paths)


def _unknown(what: str, name: str, names: Iterable[str]) -> Refused:
    known = list(names)
    near = nearest(name, known)
    if near:
        return Refused(f"{what}; did you mean {near}?")
    return Refused(f"{what}: there is {listed(known)}" if 0 < len(known) <= FEW else what)
