"""A name that means nothing leaves the technician with an open device and no way on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.references.counts import in_counts
from benchleaf.checks.references.devices import in_devices, in_materials
from benchleaf.checks.references.diagnoses import in_diagnoses
from benchleaf.checks.references.files import misplaced
from benchleaf.checks.references.procedures import in_procedures
from benchleaf.checks.references.steps import in_steps
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each name that means nothing here, or nothing on a variant for which it is used."""
    yield from misplaced(base)
    yield from in_materials(base)
    yield from in_devices(base)
    yield from in_procedures(base)
    yield from in_steps(base)
    yield from in_diagnoses(base)
    yield from in_counts(base)


RULE = Rule("unknown-reference", Level.ERROR, check, never_allowed=True)
