"""A part that was wetted and laid aside goes on giving off vapour on the bench where the tool that ignites it works."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.ignition import drying_left, near
from benchleaf.checks.ignition_words import waiting, where
from benchleaf.checks.names import listed
from benchleaf.checks.rule import Hit, Rule
from benchleaf.dryrun.case import without_small_carriers
from benchleaf.dryrun.state import OUT
from benchleaf.findings import Level
from benchleaf.model.action import Heat

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each heating beside a flammable solvent that lies open elsewhere on the bench."""
    for moment, heat in trace.acts(Heat):
        beside = without_small_carriers(
            trace.world,
            trace.nature,
            tuple(entry for entry in moment.before.fumes.items() if _beside(trace, moment, heat, entry[0][0])),
        )
        if beside:
            liquids = listed(dict.fromkeys(f"`{liquid}`" for (_, liquid), _ in beside))
            trapped = any(fume.wet.trapped for _, fume in beside)
            yield Hit(
                heat.place,
                f"{liquids}, which burns, is still open on {where(beside)}, on the bench where the `{heat.tool.text}` "
                "works: the vapour creeps along the bench to the heat and carries the flame back",
                f"{waiting(drying_left(trace, beside), 'before this step', trapped=trapped)} "
                "Or `store` the part away from the bench first.",
                step=moment.step,
                about="solvent",
            )


def _beside(trace: Trace, moment: Moment, heat: Heat, part: str) -> bool:
    """Whether *part* lies on the bench apart from what is heated; what is together with it is `wet-ignition`."""
    state = moment.before
    return state.away.get(part, OUT) == OUT and not near(trace.world, state, part, heat.on.text)


RULE = Rule("solvent-beside-heat", Level.ERROR, watch=watch, never_allowed=True)
