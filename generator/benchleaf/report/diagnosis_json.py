"""The answer to a complaint as JSON, for other programs."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from benchleaf.decisions.plan import Ask, Cure
from benchleaf.decisions.reason import reason

if TYPE_CHECKING:
    from benchleaf.decisions.diagnose import Answer, Ranked
    from benchleaf.decisions.plan import Node
    from benchleaf.decisions.pose import Way
    from benchleaf.decisions.replace import Verdict


def render(answer: Answer) -> str:
    """Return *answer*: causes with their shares, the plan as a tree, each cure beside a new device."""
    plan = answer.plan
    whole = {
        "device": answer.diagnosis.device,
        "symptom": answer.diagnosis.symptom,
        "variant": answer.variant,
        "several": answer.diagnosis.several,
        "causes": [_cause(one) for one in answer.causes],
        "given": dict(answer.given),
        "expected_cost": {"value": _figure(plan.high), "unit": answer.currency, "low": _figure(plan.low),
                          "high": _figure(plan.high)} if plan else None,
        "exact": plan.exact if plan else None,
        "expanded": plan.expanded if plan else None,
        "expected_minutes": _figure(answer.seconds / 60) if plan else None,
        "chance_of_cure": _figure(plan.first.cured) if plan else None,
        "reason": reason(plan, answer.titles, answer.currency) if plan else None,
        "next": _node(plan.first, answer) if plan else None,
        "because": answer.because or None,
        "repairs": [_repair(way, verdict) for way, verdict in answer.repairs],
        "unpriced": list(answer.unpriced),
    }  # fmt: skip
    return json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def _cause(one: Ranked) -> dict[str, object]:
    ends = {"share": _figure(one.share.value), "low": _figure(one.share.low), "high": _figure(one.share.high)} \
        if one.share else {"share": None, "low": None, "high": None}  # fmt: skip
    return {"cause": one.cause.id, "title": one.cause.title.text, "seen": one.seen, **ends}


def _node(node: Node, answer: Answer) -> dict[str, object]:
    if isinstance(node, Ask):
        causes = [cause.id for cause in answer.diagnosis.causes]
        level = next(test.access.text for test in answer.diagnosis.tests if test.id == node.test)
        outcomes = [
            {"outcome": one.outcome, "probability": _figure(one.probability),
             "shares": {cause: _figure(share) for cause, share in zip(causes, one.shares, strict=True)},
             "next": _node(one.next, answer)}
            for one in node.outcomes
        ]  # fmt: skip
        return {"kind": "test", "test": node.test, "level": level, "cost": _figure(node.cost), "outcomes": outcomes}
    if isinstance(node, Cure):
        return {"kind": "cure", "procedure": node.procedure, "success": _figure(node.success),
                "cost": _figure(node.cost), "if_not": _node(node.if_not, answer) if node.if_not else None}  # fmt: skip
    return {"kind": "refer", "title": node.title, "cost": _figure(node.cost)}


def _repair(way: Way, verdict: Verdict | None) -> dict[str, object]:
    own = way.repair
    beside = {
        "repair": _figure(verdict.repair), "replace": _figure(verdict.replace), "pays": verdict.pays,
        "sure": verdict.sure, "success_needed": _figure(verdict.success_needed),
        "price_needed": None if verdict.price_needed is None else _figure(verdict.price_needed),
    } if verdict else None  # fmt: skip
    return {
        "cause": way.cause, "procedure": way.procedure, "minutes": _figure(own.time / 60),
        "labour": _figure(own.labour), "parts": _figure(own.parts), "lead_time_days": _figure(own.lead_time / 86400),
        "success": {"value": _figure(own.success.value), "low": _figure(own.success.low),
                    "high": _figure(own.success.high)},
        "verdict": beside,
    }  # fmt: skip


def _figure(value: float) -> float:
    """Return *value* without the noise of its computation."""
    return float(f"{value:.12g}")
