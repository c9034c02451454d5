"""The setting that a finding about heat names cures it: written in, the finding goes."""

from __future__ import annotations

import re

import pytest

from tests import make

REWORK = """\
title: Rework the lamp socket
access: open
tools: [microscope, {tool}]
steps:
  - id: inspect
    do: Inspect the socket under the microscope.
    use: [microscope]
    check: {{look: Every pad is there., if_not: {{stop: A pad has gone. Send the board away.}}}}
  - do: Heat it.
    {action}
  - {{do: Let it cool., wait: {{for: 20 min, until: cool}}}}
  - do: Inspect each joint from the side.
    use: [microscope]
    check: {{look: Each joint is wetted., if_not: {{stop: A joint is dry. Begin again.}}}}
"""
IRON = "solder: {{part: lamp-socket, tool: iron, at: {at}, for: {lasts}, times: 2, pause: 4 s}}"
MAT = "heat: {{tool: heat-mat, at: {at}, for: 4 min, on: lens}}"


def advice(tool: str, action: str) -> list[tuple[str, str]]:
    """Return what is found in a rework with *action*: the rule and what to write."""
    checked = make.check({make.EXAMPLE: REWORK.format(tool=tool, action=action)})
    return [(one.rule, one.help) for one in checked.findings]


@pytest.mark.parametrize(
    ("rule", "tool", "action", "field"),
    [
        ("overheated-joint", "iron", IRON.format(at="390 °C", lasts="3 s"), "at"),
        ("overheated-joint", "iron", IRON.format(at="350 °C", lasts="6–8 s"), "for"),
        ("unmelted-solder", "iron", IRON.format(at="205 °C", lasts="3 s"), "at"),
        ("unmelted-solder", "iron", IRON.format(at="250 °C", lasts="3 s"), "at"),
        ("overheated-part", "heat-mat", MAT.format(at="95 °C"), "at"),
    ],
)
def test_setting_that_cures(rule: str, tool: str, action: str, field: str) -> None:
    """With the last number that is named in place of the written one nothing is found."""
    [(found, written)] = advice(tool, action)
    named = re.findall(r"[0-9.]+ (?:°C|s)\b", written)[-1]

    assert rule == found
    assert [] == advice(tool, re.sub(rf"\b{field}: [^,]+", f"{field}: {named}", action))
