"""Findings as JUnit XML: what CI systems show beside the results of tests."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from benchleaf.report.words import advice, told

if TYPE_CHECKING:
    from benchleaf.findings import Finding
    from benchleaf.report.summary import Report


def render(report: Report) -> str:
    """
    Return one suite with a case for each finding, and one for each file in which nothing was found.

    A finding that stops is a failure, one that an author allowed is skipped with the reason, any other passes and says
    what it says. A case is called by its file and rule, so that CI knows it again when lines move.
    """
    found = {finding.place.path for finding in report.findings}
    clean = [path for path in report.texts if path not in found]
    skipped = str(len(report.allowed))
    counts = {"tests": str(len(report.findings) + len(clean)), "failures": str(report.stopping), "errors": "0"}
    name = f"benchleaf {report.part}".strip()
    suites = ET.Element("testsuites", {"name": "benchleaf", **counts})
    suite = ET.SubElement(suites, "testsuite", {"name": name, **counts, "skipped": skipped})
    for path in clean:
        ET.SubElement(suite, "testcase", {"classname": report.from_top(path), "name": "check"})
    seen: Counter[tuple[str, str]] = Counter()
    for finding in report.findings:
        key = (finding.place.path, finding.rule)
        seen[key] += 1
        _case(suite, report, finding, seen[key])
    ET.indent(suites)
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{ET.tostring(suites, encoding="unicode")}\n'


def _case(suite: ET.Element, report: Report, finding: Finding, nth: int) -> None:
    path = report.from_top(finding.place.path)
    name = finding.rule if nth == 1 else f"{finding.rule} {nth}"
    case = ET.SubElement(suite, "testcase", {"classname": path, "name": name})
    where = f"{path}:{finding.place.line}:{finding.place.column}"
    said = f"{where}: {finding.level} {finding.rule}: {told(finding)}\n{advice(finding)}"
    if finding.allowed is not None:
        ET.SubElement(case, "skipped", {"message": advice(finding)}).text = said
    elif report.stops(finding):
        ET.SubElement(case, "failure", {"message": told(finding), "type": finding.rule}).text = said
    else:
        ET.SubElement(case, "system-out").text = said
