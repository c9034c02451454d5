"""Without a number every hand has its own: one screw works loose, the next one breaks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.model.knowledge import KnowledgeBase


def check(base: KnowledgeBase) -> Iterator[Hit]:
    """Yield each fastener with neither a torque nor a reason to set it by hand."""
    for device in base.devices.values():
        for screw in device.fasteners.values():
            if screw.torque is None and not screw.torque_by_hand:
                yield Hit(
                    screw.place,
                    f"`{screw.id}` has no torque: one hand leaves it loose, the next one breaks it",
                    "Write `torque: 7 cN·m` with the right number, or `torque: hand` with `because`.",
                )
            elif screw.torque_by_hand and not (screw.because or "").strip():
                yield Hit(
                    screw.torque_place,
                    f"`{screw.id}` is set by hand, and nobody says why",
                    "Write the reason beside it: `because: No driver reaches it.`",
                )


RULE = Rule("missing-torque", Level.WARNING, check)
