"""Findings as a code quality report of GitLab: a list that a merge request shows beside its changes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from benchleaf.report.fingerprint import fingerprints
from benchleaf.report.words import advice, told

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from benchleaf.report.summary import Report

_WEIGHTS = {"error": "blocker", "warning": "minor", "note": "info"}


def render(report: Report) -> str:
    """Return each finding that no author allowed: the format has no word for those that one did."""
    marked = zip(report.findings, fingerprints(report.findings, report.texts), strict=True)
    whole = [_issue(report, finding, mark) for finding, mark in marked if finding.allowed is None]
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"


def _issue(report: Report, finding: Finding, mark: str) -> dict[str, object]:
    return {
        "description": f"{told(finding)}. {advice(finding)}",
        "check_name": finding.rule,
        "fingerprint": mark,
        "severity": "blocker" if report.stops(finding) else _WEIGHTS[finding.level],
        "location": {"path": report.from_top(finding.place.path), "lines": {"begin": finding.place.line}},
    }
