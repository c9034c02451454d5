"""The complaints for which nothing is written: neither a procedure nor a diagnosis."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.derive.usage import answers
from benchleaf.model.procedure import ANY_DEVICE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.derive.usage import Usage
    from benchleaf.model.device import Device
    from benchleaf.model.knowledge import KnowledgeBase


def unanswered(base: KnowledgeBase, use: Usage, device: Device) -> Iterator[tuple[str, tuple[str, ...]]]:
    """
    Yield each symptom, with the variants of *device* on which nothing is written for it.

    A diagnosis answers for all variants, and so does a procedure for any device.
    """
    for symptom in base.symptoms:
        if (device.id, symptom) in base.diagnoses:
            continue
        found = answers(use, symptom, device.id)
        if any(procedure.device == ANY_DEVICE for procedure in found):
            continue
        covered = {variant for procedure in found for variant in base.variants_of(procedure)}
        left = tuple(variant for variant in device.variant_ids if variant not in covered)
        if left:
            yield symptom, left
