"""The vapour of a procedure, at the bench and in the case, as numbers beside their limits."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.derive.number import Number, estimated, percent, published, share
from benchleaf.dryrun.case import shut_cases
from benchleaf.dryrun.vapour import at_the_bench

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchleaf.dryrun.case import Shut
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.vapour import Air
    from benchleaf.physics.constants import Constant

BENCH = "bench"
NOTHING = Number(0.0, "%", 0.0, 0.0, "nothing that burns is released", "by definition")
_SHARE = "as a share of the lower explosive limit"
_CASE = "all that is left of what burns, at the bad end, in the air of the case"


@dataclass(frozen=True, slots=True)
class Vapours:
    """The air of the bench and of the cases, by the step that changes it."""

    airs: Mapping[int, Air]
    cases: Mapping[int, Shut]
    bench_share: Constant
    case_share: Constant

    def numbers(self, moment: Moment) -> Iterator[tuple[str, Number]]:
        """Yield what is in the air after *moment*: the means, the highest within seconds, the share that burns."""
        air, case = self.airs.get(id(moment)), self.cases.get(id(moment))
        for gas in air.gases if air else ():
            yield f"mean:{gas.substance}", estimated(gas.mean)
            yield f"day:{gas.substance}", estimated(gas.day)
            yield f"peak:{gas.substance}", estimated(gas.peak)
        if air and (burns := _burning(air)):
            yield "explosive-share", burns
        if case and case.share is not None:
            yield f"case-share:{case.level.id}", percent(case.share, _CASE, "case volume of the device")

    def limits(self, moment: Moment) -> Iterator[tuple[str, str, Number, Number | None]]:
        """Yield the kind of each limit, on what it is, the limit, and what is reached after *moment*."""
        air, case = self.airs.get(id(moment)), self.cases.get(id(moment))
        for gas in air.gases if air else ():
            if gas.short:
                yield "vapour-15-min", gas.substance, published(gas.short), estimated(gas.mean)
            if gas.eight:
                yield "vapour-8-h", gas.substance, published(gas.eight), estimated(gas.day)
        if air and (burns := _burning(air)):
            yield "vapour-explosive", BENCH, _kept(self.bench_share), burns
        if case and case.fumes:
            reached = None if case.share is None else percent(case.share, _CASE, "case volume of the device")
            yield "vapour-case", case.level.id, _kept(self.case_share), reached

    def highest(self) -> Number:
        """Return the highest share of the lower explosive limit at the bench."""
        return max(filter(None, map(_burning, self.airs.values())), key=lambda number: number.high, default=NOTHING)


def on(trace: Trace) -> Vapours:
    """Return the vapours of the straight pass of *trace*."""
    own = trace.nature.constants.vapour
    return Vapours(
        {id(air.moment): air for air in at_the_bench(trace.nature, trace.straight)},
        {id(case.moment): case for case in shut_cases(trace.world, trace.nature, trace.straight)},
        own.share_bench,
        own.share_case,
    )


def _burning(air: Air) -> Number | None:
    """Return the peak of all that burns; several vapours add up (Le Chatelier)."""
    shares = [share(gas.peak, gas.explosive, _SHARE) for gas in air.gases if gas.explosive]
    if not shares:
        return None
    value, low, high = (sum(ends) for ends in zip(*((one.value, one.low, one.high) for one in shares), strict=True))
    return Number(value, "%", low, high, shares[0].method, shares[0].source)


def _kept(constant: Constant) -> Number:
    return percent(constant.central, "share of the lower explosive limit that is kept", constant.source)
