"""How a procedure goes as a picture: what is joined, live, wet, hot and in the air, step by step."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.dryrun.vapour import at_the_bench

if TYPE_CHECKING:
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.vapour import Air


@dataclass(frozen=True, slots=True)
class Stage:
    """
    What is true when a step is done, and what was so in the middle of it.

    `joined` is None where the device has no battery. `wet` and `hot` count what lies wet or hot, in the device or
    beside it, at any moment of the step. `air` is the worst of the air after a release, as a share of its limit.
    """

    step: str
    joined: bool | None
    live: bool
    wet: int
    hot: int
    air: float | None


def timeline(trace: Trace) -> tuple[Stage, ...]:
    """Return the stages of the straight pass of *trace*, one for each step."""
    shares = {id(air.moment): _share(air) for air in at_the_bench(trace.nature, trace.straight)}
    return tuple(_stage(trace, moment, shares.get(id(moment))) for moment in trace.straight)


def _stage(trace: Trace, moment: Moment, air: float | None) -> Stage:
    batteries, before, after = trace.world.batteries, moment.before, moment.after
    return Stage(
        step=moment.step.id,
        joined=bool(after.joined(batteries)) if batteries else None,
        live=after.live,
        wet=len(before.wet.keys() | after.wet.keys()),
        hot=len(before.hot.keys() | after.hot.keys()),
        air=air,
    )


def _share(air: Air) -> float:
    """Return how near the air comes to the limit that it is nearest to."""
    means = [gas.mean.worst / gas.short.value for gas in air.gases if gas.short]
    days = [gas.day.worst / gas.eight.value for gas in air.gases if gas.eight]
    return max([air.share / air.allowed, *means, *days])
