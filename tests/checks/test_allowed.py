"""Which findings of a step its author may make an exception to."""

from __future__ import annotations

import pytest

from tests.make import DOCS, EXAMPLE, REPLACE_LAMP, WADER, check


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


def rules(files: dict[str, str]) -> list[tuple[str, str | None]]:
    """Return what is found, with the reasons for which it is allowed."""
    return [(finding.rule, finding.allowed) for finding in check(files).findings]


HURRIED = WADER.replace("      - {do: Shut the lamp down., power: off}\n", "").replace(
    "unscrew: {case-screw: 4}, use: [driver-small]}",
    "unscrew: {case-screw: 4}, use: [driver-small],\n"
    "         allow: [{rule: never-powered-off, because: It has no switch.}]}",
)
OFF = REPLACE_LAMP.replace("fixes:", "arrives: {power: off}\nfixes:")


def test_exception_of_an_opening() -> None:
    """An exception in a device's opening serves every procedure, and is used where any of them needs it."""
    device, procedure = f"{DOCS}/devices/wader.yml", f"{DOCS}/repairs/wader/replace-lamp.yml"
    look = "title: Example\naccess: open\nsteps:\n  - do: Look at the lamp.\n"

    assert ("never-powered-off", "It has no switch.") in rules({device: HURRIED, procedure: OFF, EXAMPLE: look})
    assert ("unused-allow", None) not in rules({device: HURRIED, procedure: OFF, EXAMPLE: look})
    assert [("unused-allow", None)] == rules({device: HURRIED, procedure: OFF})


def test_exception_beside_what_is_broken() -> None:
    """While a file cannot be read, or the step names what does not exist, nobody knows what an exception silences."""
    unused = step("record: photo", "hot-handling")

    assert [("unused-allow", None)] == rules({EXAMPLE: unused})
    assert [("unreadable-file", None)] == rules({EXAMPLE: unused, f"{DOCS}/tools.yml": "iron: [\n"})
    assert [("unknown-reference", None)] == rules({EXAMPLE: step("use: [mircoscope]", "hot-handling")})
