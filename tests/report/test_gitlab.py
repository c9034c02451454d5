"""The code quality report of GitLab, as its documentation describes it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from benchleaf.report import FORMATS
from benchleaf.report.summary import Report
from tests.faulty import faulty

SCHEMA = json.loads((Path(__file__).parent / "schemas" / "code-quality.schema.json").read_text("utf-8"))


def issues(report: Report) -> list[dict[str, Any]]:
    """Return *report* as GitLab reads it, and hold it against the schema."""
    text = FORMATS["gitlab"](report)
    found = json.loads(text)
    Draft202012Validator(SCHEMA).validate(found)
    assert text.startswith("[")
    return list(found)


@pytest.mark.outside
def test_every_finding_that_is_not_allowed() -> None:
    """Each finding that no author allowed is there with its rule, file and line."""
    found = [
        (one["check_name"], one["location"]["path"], one["location"]["lines"]["begin"]) for one in issues(faulty())
    ]

    assert [(one.rule, f"kb/{one.place.path}", one.place.line) for one in faulty().shown] == found


@pytest.mark.parametrize(("strict", "weight"), [(False, "minor"), (True, "blocker")])
def test_weights(*, strict: bool, weight: str) -> None:
    """What stops publication blocks; a warning is minor until it stops, a note is told."""
    weights = {one["check_name"]: one["severity"] for one in issues(faulty(strict=strict))}

    assert ("blocker", weight, "info") == (
        weights["unknown-reference"],
        weights["swallowed-comment"],
        weights["overdue-review"],
    )


def test_fingerprints_differ() -> None:
    """No two issues share a fingerprint: GitLab shows those that do once."""
    found = [one["fingerprint"] for one in issues(faulty())]

    assert len(found) == len(set(found))


def test_nothing_found() -> None:
    """Where nothing was found the report is an empty list, not an empty file."""
    assert "[]\n" == FORMATS["gitlab"](Report((), 1, 1, 1))
