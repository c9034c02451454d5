"""A cause that is found and cannot be ended leaves the customer with a bill and the fault."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each cause with neither cure nor referral."""
    for diagnosis in base.diagnoses.values():
        for cause in diagnosis.causes:
            if not cause.cures:
                yield Hit(
                    cause.place,
                    f"The cause `{cause.id}` has neither cure nor referral: whoever finds it cannot go on",
                    "Write under `cures` the procedure that ends it, or who else does: "
                    "`{refer: {title: Board-level rework, price: 60 EUR}}`.",
                )


RULE = Rule("unsupported-cause", Level.WARNING, check)
