"""From documents that fit to the knowledge base. Cannot fail: what does not fit never comes here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model import build_device, build_procedure, build_shop, counts
from benchleaf.model.knowledge import KnowledgeBase

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.findings import Place
    from benchleaf.model.device import Device
    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.model.procedure import Procedure
    from benchleaf.source.nodes import Table


@dataclass(frozen=True, slots=True)
class Document:
    """One file as the rest of the way sees it: what it became, or None where it does not fit."""

    kind: str
    device: str
    id: str
    path: str
    root: Table | None


def build(
    documents: Iterable[Document], misplaced: Iterable[tuple[str, Place]], media: frozenset[str]
) -> KnowledgeBase:
    """Return the knowledge base that *documents* make up."""
    single: dict[str, Table] = {}
    devices: dict[str, Device] = {}
    procedures: dict[tuple[str, str], Procedure] = {}
    diagnoses: dict[tuple[str, str], Diagnosis] = {}
    broken = set()
    for document in documents:
        root, name, device = document.root, document.id, document.device
        if root is None:
            broken.add((document.kind, device, name))
            continue
        match document.kind:
            case "device":
                devices[name] = build_device.device(root, name, document.path)
            case "procedure":
                procedures[device, name] = build_procedure.procedure(root, device, name, document.path)
            case "diagnosis":
                diagnoses[device, name] = build_procedure.diagnosis(root, device, name, document.path)
            case kind:
                single[kind] = root
    return KnowledgeBase(
        shop=build_shop.shop(single["shop"]) if "shop" in single else None,
        symptoms=build_shop.symptoms(single.get("symptoms")),
        tools=build_shop.tools(single.get("tools")),
        materials=build_shop.materials(single.get("materials")),
        devices=devices,
        procedures=procedures,
        diagnoses=diagnoses,
        counts=counts.counts(single.get("counts")),
        broken=frozenset(broken),
        misplaced=tuple(misplaced),
        media=media,
    )
