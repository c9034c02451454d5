"""The wait that a finding about the handover names is long enough, and a shorter one is not."""

from __future__ import annotations

import re

import pytest

from tests.make import EXAMPLE, check

HEAD = """\
title: Example
access: open
tools: [iron]
materials: {deionised-water: 0.5 mL, lens-adhesive: 0.1 mL}
steps:
"""
WET = "  - {do: Brush it., solvent: {material: deionised-water, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}}\n"
HOT = "  - {do: Re-tin it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s, times: 4, pause: 4 s}}\n"
GLUED = """\
  - {do: Pull it off., release: {bond: lens-bond, by: [pull]}}
  - {do: Glue it., apply: {lens-adhesive: 0.1 mL}, bond: {bond: lens-bond, with: lens-adhesive}}
"""


def helps(steps: str) -> list[str]:
    """Return what is advised about the handover after *steps*."""
    return [one.help for one in check({EXAMPLE: HEAD + steps}).findings if one.rule == "unfinished-handover"]


@pytest.mark.parametrize("first", ["", "  - {do: Wait a little., wait: {for: 30 s}}\n"])
@pytest.mark.parametrize("steps", [WET, HOT, GLUED])
def test_named_wait_cures(steps: str, first: str) -> None:
    """Written in, the wait that the finding names takes it away."""
    [advice] = helps(steps + first)
    named = re.search(r"`(wait: .+?)`", advice)
    assert named

    assert [] == helps(f"{steps}{first}  - {{do: Wait on., {named[1]}}}\n")


@pytest.mark.parametrize("steps", [WET, HOT, GLUED])
def test_shorter_wait_does_not_cure(steps: str) -> None:
    """A wait of two thirds of the named one leaves the finding."""
    [advice] = helps(steps)
    named = re.search(r"for: (\d+) (min|s|h)", advice)
    assert named
    short = f"  - {{do: Wait on., wait: {{for: {int(named[1]) * 2 // 3} {named[2]}}}}}\n"

    assert 1 == len(helps(steps + short))
