"""Facts as JSON, for other programs."""

from __future__ import annotations

import json
import math
from dataclasses import asdict
from typing import TYPE_CHECKING

from benchleaf.derive.number import estimated

if TYPE_CHECKING:
    from collections.abc import Mapping

    from benchleaf.derive.callouts import Callout
    from benchleaf.derive.facts import Facts, StepFacts, VariantFacts
    from benchleaf.derive.held import Held
    from benchleaf.derive.ledger import Ledger
    from benchleaf.derive.number import Number


def render(facts: Facts) -> str:
    """Return *facts* of each variant: numbers with unit, range, method and source."""
    procedure = facts.procedure
    whole = {
        "procedure": f"{procedure.device}/{procedure.id}",
        "revision": procedure.revision,
        "status": procedure.status,
        "variants": {name: _variant(one) for name, one in facts.variants.items()},
    }
    return json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False) + "\n"


def _variant(one: VariantFacts) -> dict[str, object]:
    return {
        "steps": [_step(step) for step in one.steps],
        "callouts": [_callout(callout) for callout in one.callouts],
        "limits": [_held(held) for held in one.limits],
        "materials": _numbers(one.materials),
        "tools": list(one.tools),
        "ledger": _ledger(one.ledger),
        "totals": {"time": _number(one.time), "vapour_peak": _number(one.vapour_peak)},
        "job": asdict(one.job),
    }


def _step(step: StepFacts) -> dict[str, object]:
    return {
        "id": step.id, "phase": step.phase, "level": step.level, "text": step.text, "path": step.path,
        "line": step.line, "starts": _number(step.starts), "lasts": _number(step.lasts),
        "numbers": _numbers(step.numbers),
    }  # fmt: skip


def _callout(callout: Callout) -> dict[str, object]:
    numbers = {name: estimated(number) for name, number in callout.numbers.items()}
    return {
        "hazard": callout.hazard, "signal": callout.signal, "step": callout.step, "what": callout.what,
        "consequence": callout.happens, "avoid": callout.avoid, "numbers": _numbers(numbers), "until": callout.until,
    }  # fmt: skip


def _held(held: Held) -> dict[str, object]:
    return {
        "kind": held.kind, "step": held.step, "on": held.on, "limit": _number(held.limit),
        "reached": _number(held.reached) if held.reached else None,
    }  # fmt: skip


def _ledger(ledger: Ledger) -> dict[str, object]:
    places = {
        **dict.fromkeys(ledger.parts, "back"), **dict.fromkeys(ledger.renewed, "renewed"), **dict(ledger.left),
    }  # fmt: skip
    return {"screws": {name: {"out": out, "back": back} for name, back, out in ledger.screws}, "parts": places}


def _numbers(numbers: Mapping[str, Number]) -> dict[str, object]:
    return {name: _number(number) for name, number in numbers.items()}


def _number(number: Number) -> dict[str, object]:
    return {
        "value": _end(number.value), "unit": number.unit, "low": _end(number.low), "high": _end(number.high),
        "method": number.method, "source": number.source,
    }  # fmt: skip


def _end(value: float) -> float | None:
    """Return *value* without the noise of its conversion; JSON has no infinity, so an open end is null."""
    return float(f"{value:.12g}") if math.isfinite(value) else None
