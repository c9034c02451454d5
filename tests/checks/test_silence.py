"""What is not said while a file is broken: one slip is one finding."""

from __future__ import annotations

import pytest

from tests.make import DOCS, EXAMPLE, MATERIALS, REPLACE_LAMP, SYMPTOMS, TOOLS, WADER, check

OTHER = f"{DOCS}/repairs/wader/other.yml"
DIAGNOSIS = f"{DOCS}/diagnosis/wader/no-light.yml"
BROKEN = "title: [\n"
LOOK = "title: Example\nstatus: approved\nsteps:\n  - do: Look at the lamp.\n"
FLICKERS = SYMPTOMS + "flickers: {title: Flickers}\n"
ONE_VARIANT = """\
title: Example
status: approved
variants: [w1]
fixes: [flickers]
steps:
  - do: Look at the lamp.
prove:
  - {do: Look again., check: {gone: flickers, if_not: {stop: It still flickers.}}}
"""
LONELY = {
    f"{DOCS}/symptoms.yml": FLICKERS,
    EXAMPLE: LOOK.replace("Example", "Nothing leads here"),
}  # Each of these two is found as long as nothing is broken.


def rules(changes: dict[str, str | bytes | None]) -> list[str]:
    """Return the names of the rules that find something."""
    return sorted({finding.rule for finding in check(changes).findings})


@pytest.mark.parametrize(
    ("path", "whole", "changes"),
    [
        ("tools.yml", TOOLS, {}),
        ("symptoms.yml", SYMPTOMS, {}),
        ("materials.yml", MATERIALS, {EXAMPLE: "title: Example\nmaterials: {no-clean-flux: 1 mL}\n"
         "steps:\n  - {do: Lay flux on the lamp., apply: {no-clean-flux: 1 mL}}\n"}),
        ("devices/wader.yml", WADER, {}),
        ("repairs/wader/replace-lamp.yml", REPLACE_LAMP, {
            DIAGNOSIS: "causes:\n  worn-lamp: {title: Worn lamp, cures: [{procedure: replace-lamp}]}\n"}),
        ("repairs/wader/replace-lamp.yml", REPLACE_LAMP, {EXAMPLE: "title: Example\nsteps:\n"
         "  - {do: Look at it., check: {look: It is whole., if_not: {go_to: replace-lamp}}}\n"}),
    ],
    ids=["tools", "symptoms", "materials", "device", "procedure that is a cure", "procedure to go to"],
)  # fmt: skip
def test_broken_file_is_one_finding(path: str, whole: str, changes: dict[str, str | bytes | None]) -> None:
    """A file that cannot be read is found once, and nothing that it may hold is missed elsewhere."""
    assert [] == rules({f"{DOCS}/{path}": whole, **changes})
    assert ["unreadable-file"] == rules({f"{DOCS}/{path}": BROKEN, **changes})


def test_missing_file_is_not_broken() -> None:
    """A list that is not there at all holds nothing: what should stand in it is missed."""
    assert ["unknown-reference"] == rules({f"{DOCS}/tools.yml": None})


def test_answers_that_may_be_in_a_broken_procedure() -> None:
    """While a procedure cannot be read it may answer a symptom, lead to a repair, or cover a variant."""
    assert ["unanswered-symptom", "unreachable-procedure"] == rules({**LONELY})
    assert ["unreadable-file"] == rules({**LONELY, OTHER: BROKEN})
    assert ["uncovered-variant"] == rules({f"{DOCS}/symptoms.yml": FLICKERS, EXAMPLE: ONE_VARIANT})
    assert ["unreadable-file"] == rules({f"{DOCS}/symptoms.yml": FLICKERS, EXAMPLE: ONE_VARIANT, OTHER: BROKEN})


def test_answers_that_may_be_in_a_broken_diagnosis() -> None:
    """While a diagnosis cannot be read it may explain its symptom, lead to a repair, or cover a variant."""
    broken: dict[str, str | bytes | None] = {f"{DOCS}/diagnosis/wader/flickers.yml": BROKEN}

    assert ["unreadable-file"] == rules({**LONELY, **broken})
    assert ["unreadable-file"] == rules({f"{DOCS}/symptoms.yml": FLICKERS, EXAMPLE: ONE_VARIANT, **broken})


def test_ways_that_may_be_in_a_broken_device() -> None:
    """While a device cannot be read its levels may lead to a repair."""
    assert ["unreadable-file"] == rules({EXAMPLE: LOOK, f"{DOCS}/devices/wader.yml": BROKEN})


def test_broken_file_of_another_device() -> None:
    """What is broken on another device answers nothing here."""
    skiff: dict[str, str | bytes | None] = {
        f"{DOCS}/devices/skiff.yml": "title: Skiff\n",
        f"{DOCS}/repairs/skiff/other.yml": BROKEN,
    }

    assert ["unreachable-procedure", "unreadable-file"] == rules({EXAMPLE: LOOK, **skiff})


def test_misspelt_name_on_one_side() -> None:
    """A name that is misspelt in the list or at its use is one finding, not one on each side."""
    text = "title: Example\ntools: [{}]\nsteps:\n  - {{do: Look at the lamp., use: [{}]}}\n"

    assert ["unknown-reference"] == rules({EXAMPLE: text.format("microscope", "mircoscope")})
    assert ["unknown-reference"] == rules({EXAMPLE: text.format("mircoscope", "microscope")})


def test_misspelt_cause() -> None:
    """A cause that is misspelt in one outcome is not missed there as well."""
    text = """\
causes:
  worn-lamp: {title: Worn lamp, cures: [{procedure: replace-lamp}]}
tests:
  read:
    do: Read the voltage.
    outcomes:
      low: {title: Low, given: {worn-lmap: 0.4}}
      high: {title: High, given: {worn-lamp: 0.6}}
"""

    assert ["unknown-reference"] == rules({DIAGNOSIS: text})
