"""The whole knowledge base, and what may be asked of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.findings import Place
    from benchleaf.model.counts import Counted
    from benchleaf.model.device import Access, Device
    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.shop import Material, Shop, Symptom, Tool
    from benchleaf.model.step import Step


@dataclass(frozen=True, slots=True, eq=False)
class KnowledgeBase:
    """
    All documents that fit. Two of them are never equal: what is worked out of one can be remembered by it.

    `broken` names those that do not, as (kind, device, id): they exist, no more is known.

    `counts` are by device, symptom and cause.

    `misplaced` are files that stand where none is read; `media` the paths, below the docs folder, of all other files.
    """

    shop: Shop | None
    symptoms: Mapping[str, Symptom]
    tools: Mapping[str, Tool]
    materials: Mapping[str, Material]
    devices: Mapping[str, Device]
    procedures: Mapping[tuple[str, str], Procedure]
    diagnoses: Mapping[tuple[str, str], Diagnosis]
    counts: Mapping[tuple[str, str, str], Counted]
    broken: frozenset[tuple[str, str, str]]
    misplaced: tuple[tuple[str, Place], ...]
    media: frozenset[str]

    def is_broken(self, kind: str, device: str, name: str) -> bool:
        """Whether a document of *kind* is there but does not fit."""
        return (kind, device, name) in self.broken

    @property
    def broken_kinds(self) -> frozenset[str]:
        """The kinds of document of which one cannot be read: whole-base rules stay silent about what they may hold."""
        return frozenset(kind for kind, _, _ in self.broken)

    def variants_of(self, procedure: Procedure) -> tuple[str, ...]:
        """Return the variants that *procedure* is written for, in the device's order; none for `any`."""
        device = self.devices.get(procedure.device)
        if device is None:
            return ()
        return tuple(name for name in device.variant_ids if applies(procedure.variants, name))

    def target(self, procedure: Procedure, name: str) -> Procedure | None:
        """Return the procedure that *name* means in a `go_to` of *procedure*: of the same device, or of any."""
        return self.procedures.get((procedure.device, name)) or self.procedures.get((ANY_DEVICE, name))


@dataclass(frozen=True, slots=True)
class Phase:
    """A run of steps that are performed together: `kind` is opening, work, closing or prove."""

    kind: str
    access: Access | None
    steps: tuple[Step, ...]


def phases(device: Device | None, procedure: Procedure, variant: str | None = None) -> Iterator[Phase]:
    """
    Yield what is performed, in order: the openings, parent first; the steps; the closings, deepest first; the proofs.

    With *variant*, only what exists for it.
    """
    way = device.way_to(procedure.access.text) if device else ()
    way = tuple(level for level in way if variant is None or applies(level.only, variant))
    for level in way:
        yield Phase("opening", level, _those(level.opening, variant))
    yield Phase("work", None, _those(procedure.steps, variant))
    for level in reversed(way):
        yield Phase("closing", level, _those(level.closing, variant))
    if procedure.prove:
        yield Phase("prove", None, _those(procedure.prove, variant))


def _those(steps: tuple[Step, ...], variant: str | None) -> tuple[Step, ...]:
    return steps if variant is None else tuple(step for step in steps if applies(step.only, variant))
