"""An ultrasonic tank warms, mists and sparks: what burns in it is a fire with a lid off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.checks.rule import Hit, Rule
from benchleaf.findings import Level
from benchleaf.model.action import Bath, Solvent

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Trace


def watch(trace: Trace) -> Iterator[Hit]:
    """Yield each flammable liquid that a step puts into an ultrasonic tank."""
    for moment, action in trace.acts(Bath, Solvent):
        own = [action.tool] if isinstance(action, Bath) and action.tool else []
        tank = next((tool for tool in (*own, *moment.step.use) if trace.nature.kind(tool.text) == "tank"), None)
        if tank is not None and trace.nature.flammable(action.material.text):
            yield Hit(
                action.place,
                f"`{action.material}` burns, and `{tank}` is an ultrasonic tank: it warms and mists the liquid, and "
                "one spark sets the whole bath alight",
                "Use a liquid that does not burn in the tank, as `deionised-water`, or brush this one on by hand.",
                step=moment.step,
            )


RULE = Rule("flammable-bath", Level.ERROR, watch=watch, never_allowed=True)
