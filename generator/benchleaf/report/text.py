"""Findings as lines that editors and terminals make clickable."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from benchleaf.report.summary import Report


def render(report: Report) -> str:
    """
    Return `path:line:column: level rule: message` for each finding, with what to do on an indented line.

    Where that is asked for, what is allowed follows, each with its reason on the indented line.
    """
    lines = []
    for finding in report.shown:
        lines += [_line(finding, finding.level), f"    {finding.help}"]
    for finding in report.allowed if report.show_allowed else ():
        lines += [_line(finding, "allowed"), f"    {finding.allowed or 'Nobody says why.'}"]
    return "".join(line + "\n" for line in lines)


def _line(finding: Finding, weight: str) -> str:
    only = f" ({', '.join(finding.variants)})" if finding.variants else ""
    return f"{finding.place}: {weight} {finding.rule}: {finding.message}{only}"
