"""Findings as lines that editors and terminals make clickable."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchleaf.report.words import advice, told

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from benchleaf.report.summary import Report

_BOLD, _PLAIN = "\x1b[1m", "\x1b[0m"
_COLOURS = {"error": "\x1b[1;31m", "warning": "\x1b[1;33m", "note": "\x1b[1;36m", "allowed": "\x1b[1;32m"}
"""Bold red, yellow, cyan and green of the terminal's own palette, which its user has chosen to be legible."""


def render(report: Report, *, coloured: bool = False) -> str:
    """
    Return `path:line:column: level rule: message` for each finding, with what to do on an indented line.

    Where that is asked for, what is allowed follows, each with its reason on the indented line. For a terminal, the
    level is *coloured*; the words are the same.
    """
    lines = []
    for finding in (*report.shown, *(report.allowed if report.show_allowed else ())):
        lines += [_line(finding, coloured=coloured), f"    {advice(finding)}"]
    return "".join(line + "\n" for line in lines)


def _line(finding: Finding, *, coloured: bool) -> str:
    weight = str(finding.level) if finding.allowed is None else "allowed"
    if not coloured:
        return f"{finding.place}: {weight} {finding.rule}: {told(finding)}"
    return f"{_BOLD}{finding.place}:{_PLAIN} {_COLOURS[weight]}{weight}{_PLAIN} {finding.rule}: {told(finding)}"
