"""Names that a diagnosis gives: its symptom and device, its tests' tools and levels, its causes and their cures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import did_you_mean
from benchleaf.checks.references import shop
from benchleaf.checks.references.procedures import no_device
from benchleaf.checks.references.steps import no_procedure, not_approved, procedure_named
from benchleaf.checks.references.things import THING, shared
from benchleaf.checks.rule import Hit
from benchleaf.model.diagnosis import Cure
from benchleaf.model.words import Said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.diagnosis import Diagnosis, Test
    from benchleaf.model.knowledge import KnowledgeBase


def in_diagnoses(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield what is wrong with the names that every diagnosis of *base* gives, its own file name among them."""
    for diagnosis in base.diagnoses.values():
        yield from no_device(base, diagnosis.device, "diagnosis", diagnosis.place)
        yield from shop.symptom(base, Said(diagnosis.symptom, diagnosis.place))
        for cause in diagnosis.causes:
            for cure in cause.cures:
                if isinstance(cure, Cure):
                    yield from _cure(base, diagnosis, cure.procedure)
        for test in diagnosis.tests:
            yield from _test(base, diagnosis, test)


def _cure(base: KnowledgeBase, diagnosis: Diagnosis, name: Said) -> Iterator[Hit]:
    # A cure may be for some of the variants alone: the others have one of their own, or `uncovered-variant` says so.
    target = procedure_named(base, diagnosis.device, name.text)
    if target is None:
        yield from no_procedure(base, diagnosis.device, name, "this cause would have no cure")
    elif not target.approved:
        yield not_approved(target, name, "whoever finds this cause")


def _test(base: KnowledgeBase, diagnosis: Diagnosis, test: Test) -> Iterator[Hit]:
    device = base.devices.get(diagnosis.device)
    if test.instrument:
        yield from shop.tool(base, test.instrument)
    if device:
        yield from shared(device, "level", test.access, device.variant_ids, THING)
    causes = [cause.id for cause in diagnosis.causes]
    for outcome in test.outcomes:
        for name in outcome.given_at:
            if name.text not in causes:
                yield Hit(
                    name.place,
                    f"There is no cause `{name}` in this diagnosis: its share would count for nothing",
                    did_you_mean(name.text, causes, f"give `{name}` an entry under `causes`."),
                )
