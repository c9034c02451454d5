"""A customer with the other variant has the same complaint, and nothing is written for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.references.things import ON_A_DEVICE, things
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import in_use, mentions
from benchleaf.findings import Level
from benchleaf.model.diagnosis import Cure, Referral
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each symptom that has an approved procedure for some variants of a device and none for others, alike."""
    for symptom in base.symptoms.values():
        every = ((device.title, _left_out(base, device, symptom.id)) for device in base.devices.values())
        left = [(title, variants) for title, variants in every if variants]
        if left:
            where = listed([f"{listed(variants)} of the {title}" for title, variants in left])
            yield Hit(
                symptom.title.place,
                f"`{symptom.id}` has an approved procedure for some variants, and none for {where}: they have the same "
                "parts, and whoever holds one finds nothing to do",
                "Write or approve a procedure for these, add them to the `variants` of the one that fits, or refer the "
                "cause in a diagnosis.",
                tuple(sorted({variant for _, variants in left for variant in variants})),
            )


def _left_out(base: KnowledgeBase, device: Device, symptom: str) -> tuple[str, ...]:
    """Return the variants of *device* that have what a procedure for *symptom* works on, and no procedure."""
    diagnosis = base.diagnoses.get((device.id, symptom))
    cures = [cure for cause in diagnosis.causes for cure in cause.cures] if diagnosis else []
    cured_by = {cure.procedure.text for cure in cures if isinstance(cure, Cure)}
    answers = [
        procedure
        for procedure in in_use(base)
        if procedure.approved
        and procedure.device in {device.id, ANY_DEVICE}
        and (procedure.id in cured_by or symptom in {name.text for name in procedure.fixes})
    ]
    for_all = any(isinstance(cure, Referral) for cure in cures) or any(each.device == ANY_DEVICE for each in answers)
    if for_all or _may_be_answered(base, device, symptom):
        return ()
    covered = {variant for procedure in answers for variant in base.variants_of(procedure)}
    return tuple(
        variant
        for variant in device.variant_ids
        if variant not in covered and any(_would_fit(device, procedure, variant) for procedure in answers)
    )


def _would_fit(device: Device, procedure: Procedure, variant: str) -> bool:
    """Whether all that the steps of *procedure* work on is there on *variant* too."""
    named = (mention for step in procedure.steps for mention in mentions(step) if mention.kind in ON_A_DEVICE)
    return all(
        thing is None or applies(thing.only, variant)
        for thing in (things(device, mention.kind).get(mention.name.text) for mention in named)
    )


def _may_be_answered(base: KnowledgeBase, device: Device, symptom: str) -> bool:
    """Whether a file that cannot be read may hold the answer."""
    return base.is_broken("diagnosis", device.id, symptom) or any(
        kind == "procedure" and folder in {device.id, ANY_DEVICE} for kind, folder, _ in base.broken
    )


RULE = Rule("uncovered-variant", Level.WARNING, check)
