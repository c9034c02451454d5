"""A flammable liquid that is still wet waits for a spark."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.case import without_small_carriers
from benchleaf.dryrun.hazards.kind import Hazard, Severity, liquid_called, opened, stretches
from benchleaf.model.action import Wait

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.state import Fumes
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.physics.types import Estimate


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where a flammable liquid lies open, from the step that puts it on until it has dried."""
    for first, last in stretches(bool(open_fumes(trace, moment)) for moment in trace.straight):
        moments = trace.straight[first : last + 1]
        liquids = sorted({liquid for moment in moments for (_, liquid), _ in open_fumes(trace, moment)})
        names = " and ".join(liquid_called(trace, liquid) for liquid in liquids)
        drying = _longest(trace, moments)
        yield Hazard(
            "ignition", first, last, Severity.GRAVE,
            f"{opened(names)} {'burns' if len(liquids) == 1 else 'burn'}, and the vapour creeps.",
            "Heat, a spark or power lights it: hands and face burn.",
            "Keep heat and power away until it has dried: {drying}." if drying
            else "Keep heat and power away until the step that shows that it has dried.",
            numbers={"drying": drying} if drying else {}, method="drying",
        )  # fmt: skip


def open_fumes(trace: Trace, moment: Moment) -> Fumes:
    """Return what can burn while *moment* lasts, without the drops that carry a flux."""
    fumes = {**moment.before.fumes, **moment.after.fumes}
    return without_small_carriers(trace.world, trace.nature, tuple(fumes.items()))


def _longest(trace: Trace, moments: Sequence[Moment]) -> Estimate | None:
    """Return the longest drying of this stretch, each in the air of the first wait after it; None: nobody can say."""
    found = []
    for number, moment in enumerate(moments):
        later = (at.step for at in moments[number + 1 :] if isinstance(at.step.action, Wait))
        wait = next(later, None)
        for (part, _), fume in moment.after.fumes.items():
            if fume.step == moment.step.id:
                time = trace.nature.drying_estimate(trace.world, part, fume.wet, wait)
                if time is None:
                    return None
                found.append(time)
    return max(found, key=lambda one: one.high, default=None)
