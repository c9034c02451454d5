"""What a finding about stored data names cures it: written in, the finding goes."""

from __future__ import annotations

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.make import DOCS, check

SKIFF = """\
title: Skiff
parts:
  hull: {{title: Hull}}
  log:  {{title: Log, kind: storage, heat_limit: {limit} °C}}
access:
  open:
    title: Open
    opening:
      - {{do: Lift the hull., remove: hull}}
    closing:
      - {{do: Set the hull down., fit: hull}}
"""
WARMED = """\
title: Warm it
access: open
{consent}steps:
  - {{do: Warm the log on the mat., heat: {{tool: heat-mat, at: {at} °C, for: 5 min, on: log}}}}
  - {{do: Leave it where it is warm., wait: {{for: 6 h, at: {at} °C}}}}
"""


def found(limit: float, at: str, consent: str = "") -> list[str]:
    """Return what is said of a memory that bears *limit*, warmed to *at* with the *consent* that is written."""
    texts = {
        f"{DOCS}/devices/skiff.yml": SKIFF.format(limit=limit),
        f"{DOCS}/repairs/skiff/warm.yml": WARMED.format(at=at, consent=consent),
    }
    return [one.help for one in check(texts).findings if one.rule == "data-at-risk"]


@settings(deadline=None, max_examples=50)
@given(st.integers(300, 1200), st.integers(30, 120))
def test_temperature_that_cures(tenths: int, at: int) -> None:
    """At the temperature that a finding names nothing is found, and where nothing is found it was low enough."""
    findings = found(tenths / 10, str(at))

    named = [cooler[1] for advice in findings if (cooler := re.search(r"stay at (\d+) °C", advice))]
    assert (at > min(85.0, tenths / 10)) == bool(findings)
    assert [[]] * len(findings) == [found(tenths / 10, cooler) for cooler in named]


def test_consent_that_cures() -> None:
    """With the consent that a finding names nothing is found."""
    [advice] = found(60.0, "90")
    named = re.search(r"`(consent: \[[a-z-]+\])`", advice)
    assert named is not None

    assert [] == found(60.0, "90", f"{named[1]}\n")
