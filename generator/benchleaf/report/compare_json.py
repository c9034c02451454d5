"""A comparison as JSON, for other programs."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from benchleaf.derive.compare.change import Way

if TYPE_CHECKING:
    from benchleaf.derive.compare.change import Change
    from benchleaf.derive.compare.comparison import Compared, Comparison
    from benchleaf.model.times import Span


def render(comparison: Comparison) -> str:
    """Return every change, every procedure that differs, and a summary."""
    whole = {
        "against": comparison.against,
        "changes": [_change(change) for change in comparison.changes],
        "procedures": [_procedure(one) for one in comparison.procedures],
        "summary": {
            **{str(way): len(comparison.of(way)) for way in Way},
            "unraised": [one.name for one in comparison.unraised],
        },
    }
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"


def _change(change: Change) -> dict[str, object]:
    place = change.place
    return {
        "kind": change.kind, "way": str(change.way), "message": change.message, "path": place.path,
        "line": place.line, "column": place.column, "step": change.step, "before": change.before,
        "after": change.after, "procedures": list(change.procedures),
    }  # fmt: skip


def _procedure(one: Compared) -> dict[str, object]:
    return {
        "procedure": one.name, "was": one.was, "title": one.title,
        "revision": {"before": one.was_revision, "after": one.revision, "raised": one.raised},
        "status": {"before": one.was_status, "after": one.status},
        "time": {"before": _time(one.was_time), "after": _time(one.time)},
        "variants": {"before": list(one.was_variants), "after": list(one.variants)},
        "loosened": one.loosened,
    }  # fmt: skip


def _time(time: Span | None) -> dict[str, object] | None:
    return {"unit": "s", "low": time.low, "high": time.high} if time else None
