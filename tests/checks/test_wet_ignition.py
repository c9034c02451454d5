"""The wait that a finding names is long enough, and a shorter one is not."""

from __future__ import annotations

import re

import pytest

from tests.make import EXAMPLE, check

WET = """\
title: Example
access: open
tools: [iron]
materials: {isopropanol: 0.5 mL}
steps:
  - {do: Brush the socket., solvent: {material: isopropanol, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}}
WAIT  - {do: Re-tin the pads., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}}
  - {do: Let the socket cool., wait: {for: 30 min, until: cool}}
"""


def helps(text: str) -> list[str]:
    """Return what is advised against fire in *text*."""
    return [finding.help for finding in check({EXAMPLE: text}).findings if finding.rule == "wet-ignition"]


@pytest.mark.parametrize("first", ["", "  - {do: Wait a little., wait: {for: 1 min}}\n"])
def test_named_wait_cures(first: str) -> None:
    """Written in, the wait that the finding names takes it away."""
    text = WET.replace("WAIT", f"{first}WAIT")
    (advice,) = helps(text.replace("WAIT", ""))
    named = re.search(r"`(wait: .+?)`", advice)
    assert named

    cured = helps(text.replace("WAIT", f"  - {{do: Let the socket dry., {named[1]}}}\n"))

    assert [] == cured


def test_shorter_wait_does_not_cure() -> None:
    """A wait two minutes shorter than the named one leaves the finding."""
    (advice,) = helps(WET.replace("WAIT", ""))
    named = re.search(r"for: (\d+) min", advice)
    assert named
    short = f"  - {{do: Let the socket dry., wait: {{for: {int(named[1]) - 2} min}}}}\n"

    found = helps(WET.replace("WAIT", short))

    assert 1 == len(found)
