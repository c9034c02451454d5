"""What was unplugged may not be home: it works when somebody has seen it work."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Unplug

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.model.device import Connector


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each function of a connector that was unplugged and that no check names when it is plugged in again."""
    proofs = tuple(_proofs(trace))
    for moment, connector in _unplugged(trace):
        # Where the level unplugs it, the proof is missing in the procedure all the same.
        action = moment.step.action if moment.kind == "work" else None
        for function in connector.serves:
            if not any(_names(function, text) for text in proofs):
                yield Hit(
                    action.place if action else trace.procedure.title.place,
                    f"`{connector.id}` is unplugged, and nobody tests `{function}` afterwards: the customer finds "
                    "a plug that is not home",
                    f"Write a check under `prove` whose text names it, as in `Check the {_plain(function)} ...`.",
                    step=moment.step if action else None,
                    about=function,
                )


def _unplugged(trace: Trace) -> Iterator[tuple[Moment, Connector]]:
    """Yield the connectors that the straight pass unplugs and plugs in again, those of the work last."""
    for moment in sorted(trace.straight, key=lambda moment: moment.kind == "work"):
        action = moment.step.action
        if isinstance(action, Unplug) and action.connector.text not in trace.end.unplugged:
            connector = trace.world.connectors.get(action.connector.text)
            if connector is not None:
                yield moment, connector


def _proofs(trace: Trace) -> Iterator[str]:
    """Yield what the checks of `prove` say, and those made on a device that is on."""
    for moment in trace.straight:
        check = moment.step.check
        if check and (moment.kind == "prove" or (moment.kind == "work" and moment.after.live)):
            yield f"{moment.step.do} {check.what}".replace("-", " ")


def _names(function: str, text: str) -> bool:
    """Whether *text* has every word of *function*, in any form that only adds to it."""
    return all(re.search(rf"\b{re.escape(word)}", text, re.IGNORECASE) for word in _plain(function).split())


def _plain(function: str) -> str:
    return function.replace("-", " ")


RULE = Rule("untested-function", Level.WARNING, watch=watch)
