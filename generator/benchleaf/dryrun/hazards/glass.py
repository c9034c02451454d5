"""Glass that is broken, or that is bent until it breaks, cuts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.kind import Hazard, Severity, called, opened, stretches
from benchleaf.dryrun.state import DISCARDED
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where broken glass is on the bench, and where a pane is freed or lifted."""
    broken = trace.procedure.arrives.glass == "broken"
    panes = [name for name, part in trace.world.parts.items() if part.made_of and part.made_of.text == "glass"]
    if broken:
        for first, last in stretches(not _is_gone(moment, panes) for moment in trace.straight):
            yield Hazard(
                "glass", first, last, Severity.LIGHT,
                "The glass of this device is broken.",
                "Its edges cut, and splinters stay on the bench and in the cloth.",
                "Tape the pane over before you touch it. Wear cut-proof gloves. Wipe the bench down afterwards.",
            )  # fmt: skip
    for pane in panes:
        for first, last in stretches(bends(trace, moment, pane) for moment in trace.straight):
            yield Hazard(
                "glass", first, last, Severity.LIGHT,
                f"{opened(called(trace, pane))} is made of glass and bends here.",
                "It breaks without a warning, and the edges cut.",
                "Lift evenly and slowly. Stop where it does not come.",
            )  # fmt: skip


def bends(trace: Trace, moment: Moment, pane: str) -> bool:
    """Whether *moment* frees the glass part *pane* from a bond."""
    action, bonds = moment.step.action, trace.world.bonds
    return isinstance(action, act.Release) and action.bond.text in bonds and bonds[action.bond.text].part.text == pane


def _is_gone(moment: Moment, panes: list[str]) -> bool:
    """Whether no old pane is left on the bench: each was renewed, or put in the waste, before this step."""
    before = moment.before
    return bool(panes) and all(pane in before.renewed or before.away.get(pane) == DISCARDED for pane in panes)
