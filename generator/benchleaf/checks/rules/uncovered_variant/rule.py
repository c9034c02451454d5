"""A customer with the other variant has the same complaint, and nothing is written for it."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.checks.references.steps import procedure_named
from benchleaf.checks.references.things import ON_A_DEVICE, things
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import mentions
from benchleaf.findings import Level
from benchleaf.model.diagnosis import Cure, Referral
from benchleaf.model.procedure import ANY_DEVICE
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.model.device import Device
    from benchleaf.model.diagnosis import Diagnosis
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Procedure


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each symptom that has an approved procedure for some variants of a device and none for others, alike."""
    answers = _answers(base)
    for symptom in base.symptoms.values():
        every = ((device, _left_out(base, device, symptom.id, answers)) for device in base.devices.values())
        left = [(device, variants) for device, variants in every if variants]
        if left:
            where = listed([f"{listed(variants)} of the {device.title}" for device, variants in left])
            yield Hit(
                symptom.title.place,
                f"`{symptom.id}` has an approved procedure for some variants, and none for {where}: they have the same "
                "parts, and whoever holds one finds nothing to do",
                "Write or approve a procedure for these, add them to the `variants` of the one that fits, or refer the "
                "cause in a diagnosis.",
                tuple(sorted({variant for _, variants in left for variant in variants})),
            )


def _answers(base: KnowledgeBase) -> Mapping[tuple[str, str], list[Procedure]]:
    """Return the approved procedures that fix each symptom of each device, or that its diagnosis leads to."""
    found: dict[tuple[str, str], list[Procedure]] = defaultdict(list)
    for procedure in base.procedures.values():
        for symptom in procedure.fixes if procedure.approved else ():
            found[procedure.device, symptom.text].append(procedure)
    for diagnosis in base.diagnoses.values():
        names = (cure.procedure.text for cause in diagnosis.causes for cure in cause.cures if isinstance(cure, Cure))
        targets = (procedure_named(base, diagnosis.device, name) for name in names)
        found[diagnosis.device, diagnosis.symptom] += [target for target in targets if target and target.approved]
    return dict(found)


def _left_out(
    base: KnowledgeBase, device: Device, symptom: str, answers: Mapping[tuple[str, str], list[Procedure]]
) -> tuple[str, ...]:
    """Return the variants of *device* that have what a procedure for *symptom* works on, and no procedure."""
    own = answers.get((device.id, symptom), [])
    covered = {variant for procedure in own for variant in base.variants_of(procedure)}
    for_all = (ANY_DEVICE, symptom) in answers or any(procedure.device == ANY_DEVICE for procedure in own)
    if not covered or for_all or _refers(base.diagnoses.get((device.id, symptom))) or _may_be(base, device, symptom):
        return ()
    return tuple(
        variant
        for variant in device.variant_ids
        if variant not in covered and any(_would_fit(device, procedure, variant) for procedure in own)
    )


def _refers(diagnosis: Diagnosis | None) -> bool:
    return diagnosis is not None and any(
        isinstance(cure, Referral) for cause in diagnosis.causes for cure in cause.cures
    )


def _would_fit(device: Device, procedure: Procedure, variant: str) -> bool:
    """Whether all that the steps of *procedure* work on is there on *variant* too."""
    named = (mention for step in procedure.steps for mention in mentions(step) if mention.kind in ON_A_DEVICE)
    found = (things(device, mention.kind).get(mention.name.text) for mention in named)
    return all(thing is None or applies(thing.only, variant) for thing in found)


def _may_be(base: KnowledgeBase, device: Device, symptom: str) -> bool:
    """Whether a file that cannot be read may hold the answer."""
    return base.is_broken("diagnosis", device.id, symptom) or any(
        kind == "procedure" and folder in {device.id, ANY_DEVICE} for kind, folder, _ in base.broken
    )


RULE = Rule("uncovered-variant", Level.WARNING, check)
