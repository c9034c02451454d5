"""From documents that fit to the knowledge base. Cannot fail: what does not fit never comes here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from benchleaf.model import build_device, build_procedure, build_shop, counts
from benchleaf.model.device import Device
from benchleaf.model.diagnosis import Diagnosis
from benchleaf.model.knowledge import KnowledgeBase
from benchleaf.model.procedure import Procedure

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from benchleaf.findings import Place
    from benchleaf.source.nodes import Table


@dataclass(frozen=True, slots=True)
class Document:
    """One file as the rest of the way sees it: what it became, or None where it does not fit."""

    kind: str
    device: str
    id: str
    path: str
    root: Table | None


@dataclass(frozen=True, slots=True)
class Part:
    """
    What one file brings to the model, which asks no other file: a device, the tools ...; None where it does not fit.

    As long as a part is kept, what it made is the very same thing.
    """

    kind: str
    device: str
    id: str
    made: object


_SINGLE: dict[str, Callable[[Table], object]] = {
    "shop": build_shop.shop,
    "symptoms": build_shop.symptoms,
    "tools": build_shop.tools,
    "materials": build_shop.materials,
    "counts": counts.counts,
}


def part(document: Document) -> Part:
    """Return what *document* brings to the model."""
    kind, device, name, root = document.kind, document.device, document.id, document.root
    match kind:
        case "device" if root:
            return Part(kind, device, name, build_device.device(root, name, document.path))
        case "procedure" if root:
            return Part(kind, device, name, build_procedure.procedure(root, device, name, document.path))
        case "diagnosis" if root:
            return Part(kind, device, name, build_procedure.diagnosis(root, device, name, document.path))
        case _:
            # A file of another kind, such as a record, brings nothing to the model.
            return Part(kind, device, name, _SINGLE[kind](root) if root and kind in _SINGLE else root)


def build(
    documents: Iterable[Document | Part], misplaced: Iterable[tuple[str, Place]], media: frozenset[str]
) -> KnowledgeBase:
    """Return the knowledge base that *documents* make up."""
    single: dict[str, Any] = {}  # what each of these is, its builder says
    devices: dict[str, Device] = {}
    procedures: dict[tuple[str, str], Procedure] = {}
    diagnoses: dict[tuple[str, str], Diagnosis] = {}
    broken = set()
    for document in documents:
        own = part(document) if isinstance(document, Document) else document
        match own.made:
            case None:
                broken.add((own.kind, own.device, own.id))
            case Device() as device:
                devices[own.id] = device
            case Procedure() as procedure:
                procedures[own.device, own.id] = procedure
            case Diagnosis() as diagnosis:
                diagnoses[own.device, own.id] = diagnosis
            case made:
                single[own.kind] = made
    return KnowledgeBase(
        shop=single.get("shop"),
        symptoms=single.get("symptoms", {}),
        tools=single.get("tools", {}),
        materials=single.get("materials", {}),
        devices=devices,
        procedures=procedures,
        diagnoses=diagnoses,
        counts=single.get("counts", {}),
        broken=frozenset(broken),
        misplaced=tuple(misplaced),
        media=media,
    )
