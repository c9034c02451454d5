"""The answer to a complaint as a person reads it on a terminal: causes, the plan step by step, repair or replace."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.decisions.plan import Ask, Cure
from benchleaf.decisions.reason import percent, reason

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.decisions.diagnose import Answer, Ranked
    from benchleaf.decisions.plan import Node, Plan
    from benchleaf.decisions.pose import Way
    from benchleaf.decisions.replace import Verdict

_DEEP = 6  # Levels of the tree that a terminal shows; JSON has all of it.


def render(answer: Answer) -> str:
    """Return *answer*."""
    return "".join(line.rstrip() + "\n" for line in _lines(answer))


def _lines(answer: Answer) -> Iterator[str]:
    diagnosis = answer.diagnosis
    yield f"{diagnosis.device}, {diagnosis.symptom}, on {answer.variant}"
    yield from (f"  {test} shows {outcome}" for test, outcome in answer.given.items())
    yield from ("", "Causes")
    yield from map(_cause, answer.causes)
    yield ""
    if answer.plan is None:
        yield f"No plan: {answer.because}."
    else:
        yield from _next(answer, answer.plan)
        yield from _node(answer.plan.first, answer, 1)
    if answer.repairs:
        yield from ("", "Each cure by itself, from the closed device and back")
        yield from (_repair(way, verdict, answer.currency) for way, verdict in answer.repairs)
    if answer.unpriced:
        yield from ("", f"No price is written of {', '.join(answer.unpriced)}: it counts as nothing above.")


def _cause(one: Ranked) -> str:
    seen = f"{one.cause.title.text}, seen {one.seen} time{'' if one.seen == 1 else 's'}"
    if one.share is None:
        return f"  {seen}"
    # Outward, so that the interval only ever gets wider.
    low, high = math.floor(100 * one.share.low), math.ceil(100 * one.share.high)
    return f"  {percent(one.share.value):>5} ({low}–{high})  {seen}"


def _next(answer: Answer, plan: Plan) -> Iterator[str]:
    """Yield what to do next, why, and what all of it comes to."""
    yield f"Next: {_first(answer, plan.first)}"
    yield f"Why: {reason(plan, answer.titles, answer.currency)}"
    cost = f"To be expected: {plan.high:.2f} {answer.currency} and {math.ceil(answer.seconds / 60)} min at the bench"
    cured = f"cured in {percent(plan.first.cured)}"
    if plan.exact:
        yield f"{cost}, {cured}; no plan is cheaper."
    else:
        ends = f"between {_floor(plan.low)} and {_ceil(plan.high)} {answer.currency}"
        within = math.ceil(100 * (plan.high - plan.low) / plan.high)
        yield f"{cost}, {cured}; the cheapest plan costs {ends} (this one is within {within} %)."
    yield "Costs and minutes are estimates, from the midpoints of the steps' times."
    yield ""


def _first(answer: Answer, node: Node) -> str:
    if isinstance(node, Ask):
        test = next(test for test in answer.diagnosis.tests if test.id == node.test)
        return f"{node.test} ({test.access}): {test.do}"
    if isinstance(node, Cure):
        title = answer.titles.get(("cure", node.procedure), "")
        return f"{node.procedure}: {title}, works in {percent(node.success)}"
    return f"{node.title}: {node.cost:.2f} {answer.currency}"


def _node(node: Node | None, answer: Answer, depth: int) -> Iterator[str]:
    lead = "  " * depth
    if depth > 2 * _DEEP:
        yield f"{lead}and so on (--format json)"
    elif isinstance(node, Ask):
        test = next(test for test in answer.diagnosis.tests if test.id == node.test)
        titles = {outcome.id: outcome.title.text for outcome in test.outcomes}
        yield f"{lead}{node.test} at {test.access}: {test.do}"
        for one in node.outcomes:
            yield f"{lead}  {titles[one.outcome]} ({percent(one.probability)})"
            yield from _node(one.next, answer, depth + 2)
    elif isinstance(node, Cure):
        yield f"{lead}{node.procedure}, works in {percent(node.success)}; if not:"
        yield from _node(node.if_not, answer, depth + 1)
    elif node:
        yield f"{lead}{node.title}: {node.cost:.2f} {answer.currency}"


def _repair(way: Way, verdict: Verdict | None, currency: str) -> str:
    own = way.repair
    wait = f", {math.ceil(own.lead_time / 86400)} d for parts" if own.lead_time else ""
    takes = f"{math.ceil(own.time / 60)} min {own.labour:.2f}, parts {own.parts:.2f} {currency}{wait}"
    works = f"works in {percent(own.success.value)}"
    line = f"  {way.procedure} ({way.cause}): {takes}, {works}"
    if verdict is None:
        return line
    judged = "pays" if verdict.pays else "does not pay"
    sure = "" if verdict.sure else ", but too few were counted to be sure"
    needed = math.ceil(100 * verdict.success_needed)
    return f"{line}; {judged} beside a new one at {verdict.replace:.2f} (from {needed} % on){sure}"


def _floor(value: float) -> str:
    return f"{math.floor(100 * value) / 100:.2f}"


def _ceil(value: float) -> str:
    return f"{math.ceil(100 * value) / 100:.2f}"
