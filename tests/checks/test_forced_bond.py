"""The temperature that `forced-bond` names is the one at which the bond is soft: written in, it cures."""

from __future__ import annotations

import re

import pytest

from tests.make import EXAMPLE, check

TEXT = """\
title: Free the lens
access: open
tools: [heat-mat, pry-wedge]
steps:
  - {do: Heat the lens., heat: {tool: heat-mat, at: SET, for: 5 min, on: lens}}
  - {do: Push the wedge round., release: {bond: lens-bond, by: [heat, pry], with: pry-wedge}}
"""


def forced(setting: str) -> list[str]:
    """Return the advice that `forced-bond` gives for a mat at *setting*."""
    findings = check({EXAMPLE: TEXT.replace("SET", setting)}).findings
    return [finding.help for finding in findings if finding.rule == "forced-bond"]


@pytest.mark.parametrize("setting", ["45 °C", "60 °C", "74.9 °C", "160 °F"])
def test_temperature_that_softens(setting: str) -> None:
    """A bond that is not as hot as it softens at the high end is found; at the temperature named it is not."""
    (advice,) = forced(setting)
    named = re.search(r"to (\d+ °C) or more", advice)

    assert named is not None
    assert [] == forced(named[1])
