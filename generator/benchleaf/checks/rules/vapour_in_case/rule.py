"""A trace that does nothing at the bench fills a closed case, and the first spark inside bursts it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.checks.amounts import percent
from benchleaf.checks.handed import shut_in
from benchleaf.checks.ignition import drying_left
from benchleaf.checks.ignition_words import waiting, where
from benchleaf.checks.names import listed
from benchleaf.checks.put_on import put_on
from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.case import Shut
    from benchleaf.dryrun.trace import Trace
    from benchleaf.findings import Place
    from benchleaf.model.step import Step


_UNKNOWN = "Nobody can say how long this takes to dry. Put less on, and say on what part and on what `area`."


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each case that is shut with too much inside, at the last step that put some of it there."""
    for case in shut_in(trace):
        step = _last(trace, case)
        liquids = {liquid for (_, liquid), _ in case.fumes}
        trapped = any(fume.wet.trapped for _, fume in case.fumes)
        left = drying_left(trace, case.fumes)
        # What an eye sees is no help here.
        advice = _UNKNOWN if math.isinf(left) else waiting(left, "at the end of `steps`", trapped=trapped)
        if case.volume is None:
            advice += f" Give the level `{case.level.id}` its `volume`, the free air inside."
        yield Hit(_place(step, liquids), _message(case), advice, step=step, about="case")


def _message(case: Shut) -> str:
    liquids = listed(dict.fromkeys(f"`{liquid}`" for (_, liquid), _ in case.fumes))
    shut_in_here = f"What is left of {liquids} on {where(case.fumes)} is shut into the case"
    if case.share is None or case.volume is None:
        return f"{shut_in_here}, and nobody can say how much air that holds: a trace is enough for a spark to burst it"
    return (
        f"{shut_in_here}: up to {percent(case.share)} of the lower explosive limit in {case.volume * 1e6:g} cm³, and "
        f"{percent(case.allowed)} is the most; a spark inside can burst it"
    )


def _last(trace: Trace, case: Shut) -> Step:
    """Return the last step, in the order performed, that put on something of what is shut in."""
    steps = {fume.step for _, fume in case.fumes}
    return [moment.step for moment in trace.every() if moment.step.id in steps][-1]


def _place(step: Step, liquids: set[str]) -> Place:
    return next((liquid.place for liquid in put_on(step) if liquid.material in liquids), step.place)


RULE = Rule("vapour-in-case", Level.ERROR, watch=watch)
