"""Where a number would cure a finding, the finding names it: written in, it cures."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.make import DOCS, EXAMPLE, check

if TYPE_CHECKING:
    from benchleaf.findings import Finding

DIAGNOSIS = f"{DOCS}/diagnosis/wader/no-light.yml"
TEXT = """\
causes:
  worn-lamp: {title: Worn lamp, cures: [{procedure: replace-lamp}]}
tests:
  read:
    do: Read the voltage.
    outcomes:
      low: {title: Low, given: {ONE}}
      high: {title: High, given: {OTHER}}
"""


def listing(text: str) -> tuple[Finding, ...]:
    """Return what `listing-mismatch` finds; so much ethanol gives other rules something to say as well."""
    return tuple(one for one in check({EXAMPLE: text}).findings if one.rule == "listing-mismatch")


@settings(deadline=None)
@given(
    st.lists(st.integers(1, 9999), min_size=1, max_size=4), st.sampled_from(["mL", "µL", "cm³"]), st.integers(1, 9999)
)
def test_amount_that_is_enough(amounts: list[int], unit: str, limit: int) -> None:
    """The amount that `listing-mismatch` names is enough, and no more than a hundredth beyond what is used."""
    steps = "".join(
        f"  - {{do: Wet it., solvent: {{material: ethanol, volume: {n} {unit}, on: lamp}}}}\n" for n in amounts
    )
    text = f"title: Example\naccess: open\nmaterials: {{ethanol: {limit} µL}}\nsteps:\n{steps}"
    used = sum(amounts) * (1 if unit == "µL" else 1000)

    findings = listing(text)

    assert (used > limit) == bool(findings)
    for finding in findings:
        named = re.search(r"`(ethanol: ([0-9.]+) µL)`", finding.help)
        assert named is not None
        assert used <= float(named[2]) <= used * 1.01
        assert () == listing(text.replace(f"ethanol: {limit} µL", named[1]))


@settings(deadline=None)
@given(st.integers(0, 100), st.integers(0, 100))
def test_share_that_makes_a_whole(one: int, other: int) -> None:
    """The share that `unbalanced-outcomes` names makes a whole with the others."""
    text = TEXT.replace("OTHER", f"worn-lamp: {other / 100}")

    findings = check({DIAGNOSIS: text.replace("ONE", f"worn-lamp: {one / 100}")}).findings

    assert (one + other != 100) == bool(findings)
    for finding in findings:
        named = re.search(r"this one would be ([0-9.]+)\. ", finding.help)
        assert named is not None
        assert () == check({DIAGNOSIS: text.replace("ONE", f"worn-lamp: {named[1]}")}).findings


def test_share_of_an_outcome_that_has_none() -> None:
    """For an outcome that leaves a cause out, the share that the others leave is named."""
    text = TEXT.replace("OTHER", "worn-lamp: 0.35")

    (finding,) = check({DIAGNOSIS: text.replace("ONE", "")}).findings

    assert "`worn-lamp: 0.65`" in finding.help
    assert () == check({DIAGNOSIS: text.replace("ONE", "worn-lamp: 0.65")}).findings
