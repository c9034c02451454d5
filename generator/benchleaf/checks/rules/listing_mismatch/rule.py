"""What is not on the list is not at hand, and the device lies open while someone looks for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.listing import of_levels, of_materials, of_tools
from benchleaf.checks.rule import Hit, Rule
from benchleaf.checks.walk import in_use
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield what is used and not listed, listed and not used, or used beyond the amount that is listed."""
    for device in base.devices.values():
        yield from of_levels(base, device)
    for procedure in in_use(base):
        yield from of_tools(base, procedure)
        yield from of_materials(base, procedure)


RULE = Rule("listing-mismatch", Level.WARNING, check)
