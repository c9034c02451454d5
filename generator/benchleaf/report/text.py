"""Findings as lines that editors and terminals make clickable."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.report.summary import Report


def render(report: Report) -> str:
    """Return `path:line:column: level rule: message` for each finding, with what to do on an indented line."""
    lines = []
    for finding in report.shown:
        only = f" ({', '.join(finding.variants)})" if finding.variants else ""
        lines.append(f"{finding.place}: {finding.level} {finding.rule}: {finding.message}{only}")
        lines.append(f"    {finding.help}")
    return "".join(line + "\n" for line in lines)
