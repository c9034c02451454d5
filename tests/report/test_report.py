"""What a report says of findings of every weight, and of those that are allowed."""

from __future__ import annotations

import json

import pytest

from benchleaf.findings import Finding, Level, Place
from benchleaf.report import FORMATS
from benchleaf.report.summary import Report

HERE = Place("procedures/a.yml", 3, 5, 9)


def finding(level: Level, allowed: str | None = None) -> Finding:
    """Return a finding of *level*, and the reason for which it is allowed, if it is."""
    return Finding(f"some-{level}", level, HERE, "It is so", "Mend it.", ("w1",), allowed)


def report(*findings: Finding, strict: bool = False, show_allowed: bool = False) -> Report:
    """Return a report of *findings*."""
    return Report(findings, 2, 3, 1, strict, show_allowed)


EACH = (finding(Level.ERROR), finding(Level.WARNING), finding(Level.NOTE), finding(Level.ERROR, "We looked."))


@pytest.mark.parametrize(("strict", "stopping"), [(False, 1), (True, 2)])
def test_what_stops(*, strict: bool, stopping: int) -> None:
    """Errors stop, warnings where one is strict, notes and what is allowed never."""
    assert stopping == report(*EACH, strict=strict).stopping


@pytest.mark.parametrize(
    ("findings", "end"),
    [
        ((), "no finding"),
        ((finding(Level.NOTE),), "no finding, 1 note"),
        ((finding(Level.WARNING),), "0 findings stop publication, 1 does not"),
        (EACH, "1 finding stops publication, 1 does not, 1 note"),
        ((finding(Level.ERROR, "We looked."),), "no finding"),
    ],
)
def test_sentence(findings: tuple[Finding, ...], end: str) -> None:
    """The last line counts what stops, what does not, and notes apart."""
    assert f"2 procedures, 3 variants, 1 device checked: {end}" == report(*findings).sentence


def test_summary_in_json() -> None:
    """The summary counts notes among what passes, and for themselves."""
    summary = json.loads(FORMATS["json"](report(*EACH)))["summary"]

    assert {"procedures": 2, "variants": 3, "devices": 1, "stop": 1, "pass": 2, "notes": 1, "allowed": 1} == summary


def test_allowed_in_json() -> None:
    """JSON always holds what is allowed, with its reason."""
    told = json.loads(FORMATS["json"](report(*EACH)))["findings"]

    assert [None, None, None, "We looked."] == [one.get("allowed") for one in told]


def test_text() -> None:
    """Each finding is a line with its weight and one with what to do; what is allowed is left out."""
    assert FORMATS["text"](report(*EACH)).split("\n") == [
        "procedures/a.yml:3:5: error some-error: It is so (w1)", "    Mend it.",
        "procedures/a.yml:3:5: warning some-warning: It is so (w1)", "    Mend it.",
        "procedures/a.yml:3:5: note some-note: It is so (w1)", "    Mend it.", "",
    ]  # fmt: skip


def test_allowed_in_text() -> None:
    """What is allowed follows with its reason where it is asked for."""
    text = FORMATS["text"](report(*EACH, finding(Level.WARNING, ""), show_allowed=True))

    assert text.split("\n")[6:] == [
        "procedures/a.yml:3:5: allowed some-error: It is so (w1)", "    We looked.",
        "procedures/a.yml:3:5: allowed some-warning: It is so (w1)", "    Nobody says why.", "",
    ]  # fmt: skip
