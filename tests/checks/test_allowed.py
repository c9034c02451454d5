"""Which findings of a step its author may make an exception to."""

from __future__ import annotations

import pytest

from tests.make import EXAMPLE, check


def step(fields: str, rule: str) -> str:
    """Return a procedure of one step with *fields*, which makes an exception to *rule*."""
    exception = f"allow: [{{rule: {rule}, because: We know.}}]"
    return f"title: Example\nsteps:\n  - do: Look at the lamp.\n    {fields}\n    {exception}\n"


@pytest.mark.parametrize(
    ("rule", "fields"),
    [
        ("missing-picture", "picture: media/not-drawn-yet.svg"),
        ("listing-mismatch", "use: [microscope]"),
        ("endless-route", "check: {look: It is whole., if_not: {go_to: example}}"),
    ],
)
def test_allowed(rule: str, fields: str) -> None:
    """What is found in a step may be allowed there, with a reason; it is still told, and stops nothing."""
    (finding,) = check({EXAMPLE: step(fields, rule)}).findings

    assert (rule, "We know.", False) == (finding.rule, finding.allowed, finding.stops)


@pytest.mark.parametrize(
    ("rule", "fields"),
    [("unknown-reference", "use: [mircoscope]"), ("wrong-value", "only: [w3]"), ("misread-value", "why: yes")],
)
def test_never_allowed(rule: str, fields: str) -> None:
    """What means nothing, or two things, cannot be allowed."""
    findings = [finding for finding in check({EXAMPLE: step(fields, rule)}).findings if finding.rule == rule]

    assert [None] == [finding.allowed for finding in findings]


def test_allowed_elsewhere() -> None:
    """An exception in one step is none in the next."""
    text = step("picture: media/not-drawn-yet.svg", "missing-picture")

    findings = check({EXAMPLE: text + "  - {do: Look again., picture: media/not-drawn-yet.svg}\n"}).findings

    assert ["We know.", None] == [finding.allowed for finding in findings]
