"""What a step lays hands on: the part, connector, fastener or bond that its action names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.model import action as act

if TYPE_CHECKING:
    from benchleaf.model.action import Action
    from benchleaf.model.words import Said


def part_of(action: Action | None) -> Said | None:
    """Return the part that *action* handles, or None where it handles none."""
    match action:
        case act.Remove(part=part) | act.Fit(part=part) | act.Replace(part=part):
            return part
        case act.Discharge(part=part) | act.Store(part=part):
            return part
        case act.Heat(on=part) | act.Solvent(on=part) | act.Bath(on=part) | act.Work(on=part):
            return part
        case _:
            return None
