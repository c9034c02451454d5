"""Findings as workflow commands of GitHub, which become remarks beside the lines, and as a summary in Markdown."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from benchleaf.report.words import advice, told

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from benchleaf.report.summary import Report

_COMMANDS = {"error": "error", "warning": "warning", "note": "notice"}
_CODE = re.compile(r"(`[^`\n]+`)")
_SIGNS = re.compile(r"([\\`*_\[\]<>#|~&])")
ROOM = 1_000_000
"""How many bytes a summary may have: GitHub takes 1 MiB from all steps of a job that write to the same file."""


def render(report: Report) -> str:
    """Return a command for each finding that no author allowed; GitHub shows the first ten, so what stops is first."""
    return "".join(_command(report, finding) + "\n" for finding in _worst_first(report))


def summary(report: Report) -> str:
    """Return what was found as a table in Markdown, the worst first; what has no room is counted."""
    findings = _worst_first(report)
    lines = ["## Benchleaf", "", f"{report.sentence}.", ""]
    if findings:
        lines += ["| Weight | Place | Rule | What is there, and what to do |", "| --- | --- | --- | --- |"]
    room = ROOM - sum(len(line.encode()) + 1 for line in lines)
    for number, finding in enumerate(findings):
        row = _row(report, finding)
        room -= len(row.encode()) + 1
        if room < 0:
            lines += ["", f"{len(findings) - number} more have no room here: the log of this step has them all."]
            break
        lines.append(row)
    return "\n".join(lines) + "\n"


def _worst_first(report: Report) -> list[Finding]:
    weights = list(_COMMANDS)
    return sorted(report.shown, key=lambda one: (not report.stops(one), weights.index(one.level)))


def _command(report: Report, finding: Finding) -> str:
    place = finding.place
    properties = {
        "file": report.from_top(place.path), "line": place.line, "endLine": place.line, "col": place.column,
        "endColumn": max(place.end, place.column), "title": finding.rule,
    }  # fmt: skip
    written = ",".join(f"{name}={_property(str(value))}" for name, value in properties.items())
    said = _data(f"{told(finding)}\n{advice(finding)}")
    return f"::{_COMMANDS[finding.level]} {written}::{said}"


def _data(text: str) -> str:
    # The sign of the escape first, or it would escape the others again.
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def _row(report: Report, finding: Finding) -> str:
    place = f"{report.from_top(finding.place.path)}:{finding.place.line}"
    cells = (str(finding.level), place, finding.rule, f"{told(finding)}.\n{advice(finding)}")
    return f"| {' | '.join(_cell(cell) for cell in cells)} |"


def _cell(text: str) -> str:
    """Return *text* as it may stand in a table: code as it is but for the bar, everything else without a meaning."""
    pieces = _CODE.split(text)
    pieces[::2] = [_SIGNS.sub(r"\\\1", piece) for piece in pieces[::2]]
    pieces[1::2] = [piece.replace("|", "\\|") for piece in pieces[1::2]]
    return "<br>".join("".join(pieces).splitlines())
