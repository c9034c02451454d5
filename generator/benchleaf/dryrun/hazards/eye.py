"""What flies or splashes finds the eye that looks closely."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.glass import bends
from benchleaf.dryrun.hazards.kind import Hazard, Severity, stretches
from benchleaf.model import action as act

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where air blows on what is wet, where something is trimmed, and where glass is bent."""
    for first, last in stretches(flies(trace, moment) for moment in trace.straight):
        yield Hazard(
            "eye", first, last, Severity.LIGHT,
            "Drops, chips or splinters fly here.",
            "One of them in the eye can cost its sight.",
            "Wear eye protection.",
        )  # fmt: skip


def flies(trace: Trace, moment: Moment) -> bool:
    """Whether something flies off in *moment*."""
    match moment.step.action:
        case act.Wait(tool=tool):
            blown = [name.text for name in (*moment.step.use, *([tool] if tool else []))]
            return bool(moment.before.wet) and any(trace.nature.kind(name) == "air" for name in blown)
        case act.Work(kind="trim"):
            return True
        case act.Release(bond=bond) if bond.text in trace.world.bonds:
            part = trace.world.parts.get(trace.world.bonds[bond.text].part.text)
            glass = part is not None and part.made_of is not None and part.made_of.text == "glass"
            return glass and bends(trace, moment, trace.world.bonds[bond.text].part.text)
        case _:
            return False
