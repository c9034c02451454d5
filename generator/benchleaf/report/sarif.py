"""Findings as SARIF 2.1.0, the exchange format of OASIS for what tools find in files."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING
from urllib.parse import quote

from benchleaf import __version__
from benchleaf.report.fingerprint import fingerprints
from benchleaf.report.prose import first_section, first_sentence, without_marks
from benchleaf.report.words import advice, told, visible

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.findings import Finding
    from benchleaf.report.summary import Explained, Report

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
_LINK = re.compile(r"\[(?=[^\]]*\]\()")


def render(report: Report) -> str:
    """Return one run: every rule with its page, every finding, and those that an author allowed as suppressed."""
    names = _rules(report)
    indices = {name: index for index, name in enumerate(names)}
    run = {
        "tool": {
            "driver": {
                "name": "Benchleaf",
                "version": __version__,
                "semanticVersion": __version__,
                "rules": [_rule(name, report.rules.get(name)) for name in names],
            }
        },
        # Viewers may take a column for UTF-16 units; ours count characters.
        "columnKind": "unicodeCodePoints",
        # Parts of one knowledge base must not be taken for runs that replace each other.
        "automationDetails": {"id": f"benchleaf/{report.part.replace('/', '-of-') + '/' if report.part else ''}"},
        "originalUriBaseIds": {"SRCROOT": {"description": {"text": "The top of the checkout."}}},
        "invocations": [{"executionSuccessful": True}],
        "results": [
            _result(report, finding, indices[finding.rule], mark)
            for finding, mark in zip(report.findings, fingerprints(report.findings, report.texts), strict=True)
        ],
    }
    whole = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"


def _rules(report: Report) -> list[str]:
    """Return the name of every rule that is known, and of any other that found something."""
    others: Iterable[str] = (finding.rule for finding in report.findings)
    return list(dict.fromkeys([*report.rules, *others]))


def _rule(name: str, explained: Explained | None) -> dict[str, object]:
    if explained is None:
        return {"id": name}
    return {
        "id": name,
        "shortDescription": {"text": first_sentence(explained.markdown)},
        "fullDescription": {"text": first_section(explained.markdown)},
        "help": {"text": without_marks(explained.markdown), "markdown": explained.markdown},
        "defaultConfiguration": {"level": str(explained.level)},
    }


def _result(report: Report, finding: Finding, index: int, mark: str) -> dict[str, object]:
    place = finding.place
    suppressed = [] if finding.allowed is None else [{"kind": "inSource", "justification": advice(finding)}]
    return {
        "ruleId": finding.rule,
        "ruleIndex": index,
        "level": str(finding.level),
        "message": {"text": _message(f"{told(finding)}.\n{visible(finding.help)}")},
        "locations": [
            {
                "physicalLocation": {
                    "artifactLocation": {"uri": quote(report.from_top(place.path)), "uriBaseId": "SRCROOT"},
                    "region": {
                        "startLine": place.line,
                        "startColumn": place.column,
                        "endColumn": max(place.end, place.column),
                    },
                }
            }
        ],
        "partialFingerprints": {"benchleaf/v1": mark},
        # Empty, not missing: of one run either all results say whether they are suppressed, or none does (3.27.23).
        "suppressions": suppressed,
    }


def _message(text: str) -> str:
    """Return *text* with what would be read as a placeholder (3.11.5) or a link (3.11.6) made plain."""
    return _LINK.sub(r"\\[", text.replace("{", "{{").replace("}", "}}"))
