"""Why a plan begins as it does, in one sentence: what it comes to, beside what the next best beginning comes to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.decisions.plan import Ask, Cure

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.decisions.plan import Node, Plan


def reason(plan: Plan, titles: Mapping[tuple[str, str], str], currency: str) -> str:
    """Return the sentence; *titles* are those of tests and cures, by kind and id."""
    first = plan.first
    if len(plan.starts) == 1:
        return "Nothing else is left to do."
    other = plan.starts[1]
    # What was not searched to its end is an upper bound, and says so.
    bound = "" if plan.exact and other.low == other.high else "at most "
    title = titles.get((other.kind, other.id), other.id)
    own, beside = (f"{cost:.2f} {currency}" for cost in (first.cost, other.high))
    return f"{_because(first)}: {_begun(first)} {own}, with “{title}” first {bound}{beside}."


def _because(first: Node) -> str:
    if isinstance(first, Ask):
        return "What it shows decides what is worth doing next"
    if isinstance(first, Cure):
        return f"It ends the fault in {percent(first.success)}"
    return "No test and no cure pays for itself any more"


def _begun(first: Node) -> str:
    return "with it first, the way to the end costs" if isinstance(first, Ask | Cure) else "ending here costs"


def percent(share: float) -> str:
    """Return a share in whole percent; what is neither nothing nor all is never called so."""
    rounded = int(100 * share + 0.5)
    if rounded in {0, 100} and 0 < share < 1:
        return "< 1 %" if rounded == 0 else "> 99 %"
    return f"{rounded} %"
