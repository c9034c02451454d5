"""Heat that can harm: what is hotter than anything at a bench minds, and the parts that it comes to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.model.action import Heat

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.device import Part

HARMLESS = 45.0
"""°C: nothing that is repaired suffers below, a battery too (common practice, no source)."""


def hot_work(trace: Trace) -> Iterator[tuple[Moment, Heat, Part]]:
    """Yield each step that makes a part hot enough to harm it or what is beside it, with the part."""
    for moment, action in trace.acts(Heat):
        part = trace.world.parts.get(action.on.text)
        if part is not None and trace.nature.source(action) > HARMLESS:
            yield moment, action, part
