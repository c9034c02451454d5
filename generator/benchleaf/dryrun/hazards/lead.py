"""Lead does not smell and does not hurt: it goes from the fingers into the mouth and stays in the body."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.dryrun.hazards.fumes import melts_solder
from benchleaf.dryrun.hazards.kind import Hazard, Severity, stretches
from benchleaf.library.alloys import ALLOYS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def hazards(trace: Trace) -> Iterator[Hazard]:
    """Yield where a solder with lead in it is melted."""
    for first, last in stretches(with_lead(trace, moment) for moment in trace.straight):
        yield Hazard(
            "lead", first, last, Severity.GRAVE,
            "The solder holds lead.",
            "Lead from the fingers gets into the mouth. It harms the nerves and unborn children.",
            "Do not eat or drink here. Wash the hands afterwards. Keep the scraps in the marked box.",
        )  # fmt: skip


def with_lead(trace: Trace, moment: Moment) -> bool:
    """Whether *moment* melts a solder that holds lead."""
    if not melts_solder(moment):
        return False
    board = trace.world.device.board if trace.world.device else None
    own = board.solder.text if board and board.solder else ""
    put_on = [trace.nature.materials.get(one.material.text) for one in moment.step.apply]
    names = [own, *(known.alloy.text for known in put_on if known and known.alloy)]
    return any(name in ALLOYS and not ALLOYS[name].lead_free for name in names)
