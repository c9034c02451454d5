"""Findings as JSON, for other programs."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from benchleaf.report.summary import Report


def render(report: Report) -> str:
    """Return every finding, allowed ones with their reason, and a summary."""
    whole = {
        "findings": [_finding(finding) for finding in report.findings],
        "summary": {
            "procedures": report.procedures,
            "variants": report.variants,
            "devices": report.devices,
            "stop": report.stopping,
            "pass": len(report.shown) - report.stopping,
            "notes": report.notes,
            "allowed": len(report.allowed),
        },
    }
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"


def _finding(finding: Finding) -> dict[str, object]:
    place = finding.place
    shown: dict[str, object] = {
        "rule": finding.rule, "level": str(finding.level), "message": finding.message, "path": place.path,
        "line": place.line, "column": place.column, "help": finding.help, "variants": list(finding.variants),
    }  # fmt: skip
    if finding.allowed is not None:
        shown["allowed"] = finding.allowed
    return shown
