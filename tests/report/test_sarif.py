"""SARIF: valid against its schema, and what the schema cannot say of the standard."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from jsonschema import Draft4Validator

from benchleaf.checks.rules import RULES
from benchleaf.findings import Finding, Level, Place
from benchleaf.report import FORMATS
from benchleaf.report.summary import Report
from tests.faulty import AGAIN, BARE, FILES, ODD, faulty

SCHEMA = json.loads((Path(__file__).parent / "schemas" / "sarif-2.1.0-rtm.5.json").read_text("utf-8"))


def run(report: Report) -> dict[str, Any]:
    """Return the one run of *report* as SARIF, and hold the whole against the schema."""
    whole = json.loads(FORMATS["sarif"](report))
    assert [] == [error.message for error in Draft4Validator(SCHEMA).iter_errors(whole)]
    [only] = whole["runs"]
    return dict(only)


@pytest.fixture(name="known", scope="module")
def known_faults() -> dict[str, Any]:
    """Return what the known faults become."""
    return run(faulty())


@pytest.mark.outside
def test_every_finding(known: dict[str, Any]) -> None:
    """Every finding is a result with its rule, weight and place; the schema of the standard has no complaint."""
    results = [(one["ruleId"], one["level"], where(one)["startLine"]) for one in known["results"]]

    assert [(one.rule, str(one.level), one.place.line) for one in faulty().findings] == results
    assert all(known["tool"]["driver"]["rules"][one["ruleIndex"]]["id"] == one["ruleId"] for one in known["results"])


@pytest.mark.outside
def test_schema_bites(known: dict[str, Any]) -> None:
    """The schema that the tests hold SARIF against refuses a line 0 and a word that the standard does not know."""
    spoilt = json.loads(json.dumps({"version": "2.1.0", "runs": [known]}))
    where(spoilt["runs"][0]["results"][0])["startLine"] = 0
    spoilt["runs"][0]["results"][1]["weight"] = "heavy"

    assert 2 == len(list(Draft4Validator(SCHEMA).iter_errors(spoilt)))


def where(result: dict[str, Any]) -> dict[str, Any]:
    """Return the region of *result*."""
    region: dict[str, Any] = result["locations"][0]["physicalLocation"]["region"]
    return region


def test_rules(known: dict[str, Any]) -> None:
    """Every rule is there once with a sentence, its whole page and its weight, whether it found something or not."""
    rules = known["tool"]["driver"]["rules"]

    assert list(RULES) == [rule["id"] for rule in rules]
    assert all(rule["shortDescription"]["text"].endswith((".", "…")) for rule in rules)
    assert all(rule["fullDescription"]["text"] in rule["help"]["text"] for rule in rules)
    assert all(rule["help"]["markdown"].startswith(f"# {rule['id']}\n") for rule in rules)
    assert all("```" not in rule["help"]["text"] for rule in rules)
    assert {str(rule.level) for rule in RULES.values()} == {rule["defaultConfiguration"]["level"] for rule in rules}


def test_allowed_is_suppressed(known: dict[str, Any]) -> None:
    """What an author allowed is suppressed in the source, with the reason; every other result says that it is not."""
    suppressions = {one["ruleId"]: one["suppressions"] for one in known["results"]}

    assert suppressions.pop("missing-picture") == [{"kind": "inSource", "justification": "It is drawn next week."}]
    assert [[]] * len(suppressions) == list(suppressions.values())


def test_columns_are_code_points(known: dict[str, Any]) -> None:
    """A column counts characters, also behind one that UTF-16 writes as two, and the run says so."""
    [at] = [where(one) for one in known["results"] if one["ruleId"] == "wrong-value"]
    line = FILES[BARE].split("\n")[at["startLine"] - 1]

    assert "unicodeCodePoints" == known["columnKind"]
    assert "60" == line[at["startColumn"] - 1 : at["endColumn"] - 1]


def test_paths(known: dict[str, Any]) -> None:
    """Paths are relative to the top of the checkout, with slashes, and escaped as in an address."""
    places = [one["locations"][0]["physicalLocation"]["artifactLocation"] for one in known["results"]]

    assert {f"kb/{one.place.path}" for one in faulty().findings} == {unquote(at["uri"]) for at in places}
    assert "kb/procedures/repairs/wader/look%20at%205%20%C2%B5m.yml" in {at["uri"] for at in places}
    assert {"SRCROOT"} == {at["uriBaseId"] for at in places}


def test_braces_and_brackets(known: dict[str, Any]) -> None:
    """Braces are doubled (3.11.5) and what looks like a link is made plain (3.11.6): both are meant as they stand."""
    [said] = [one["message"]["text"] for one in known["results"] if one["ruleId"] == "unknown-field"]

    assert r"\[b](c) {{0}}" in said
    assert not re.search(r"(?<!\{)\{[0-9]", said)


def marks(report: Report) -> list[str]:
    """Return the fingerprints of *report*."""
    return [one["partialFingerprints"]["benchleaf/v1"] for one in run(report)["results"]]


def test_fingerprints_are_of_one_finding_each() -> None:
    """No two findings share a fingerprint, not even those of one rule that stand in lines alike."""
    found = marks(faulty())

    assert len(found) == len(set(found))


def test_fingerprints_survive_moved_lines() -> None:
    """Lines that are put before a finding, and a finding that is cured, leave the fingerprints of the others alone."""
    moved = {AGAIN: "# One.\n# Two.\n" + FILES[AGAIN].replace("\n  - {do: Unplug", "\n\n  - {do: Unplug")}
    cured = {ODD: FILES[ODD].replace("\\e[31m", "")}

    assert marks(faulty()) == marks(faulty(changes=moved))
    assert set(marks(faulty(changes=cured))) - set(marks(faulty())) == set(marks_of(faulty(changes=cured), ODD))


def marks_of(report: Report, path: str) -> list[str]:
    """Return the fingerprints of what *report* finds in *path*."""
    return [mark for one, mark in zip(report.findings, marks(report), strict=True) if one.place.path == path]


def test_fingerprint_tells_lines_apart() -> None:
    """A line that was changed is another finding; one alike before it stays what it was."""
    changed = {AGAIN: FILES[AGAIN].replace("lampplug}\n  - {do: Lay", "lampplug } # Now.\n  - {do: Lay")}
    before, after = marks_of(faulty(), AGAIN), marks_of(faulty(changes=changed), AGAIN)

    assert [True, True, False] == [mark in after for mark in before]


def test_report_without_rules() -> None:
    """A report that knows no rules, and whose file is not at hand, is valid too."""
    finding = Finding("some-rule", Level.NOTE, Place("procedures/a.yml", 3, 5, 9), "It is so", "Mend it.")

    assert 1 == len(run(Report((finding,), 1, 1, 1))["results"])
