"""What bench records add: counts.yml beside the counts of a diagnosis."""

from __future__ import annotations

import pytest

from benchleaf.decisions.pose import cause_shares, counted, works
from benchleaf.decisions.shares import UNCOUNTED, shares, success
from benchleaf.model.diagnosis import Cure
from tests.make import DOCS, check

NO_LIGHT = f"{DOCS}/diagnosis/wader/no-light.yml"
COUNTS = f"{DOCS}/counts.yml"
DIAGNOSIS = """\
causes:
  dead-lamp:   {title: Lamp is dead, seen: 4, cures: [{procedure: replace-lamp, success: 3 of 4}]}
  loose-plug:  {title: Plug is loose, cures: [{procedure: replace-lamp}]}
"""


def test_counts_are_added() -> None:
    """How often a cause was seen and a cure worked is what the diagnosis says and the records add."""
    counts = "wader: {no-light: {dead-lamp: {seen: 6, success: {replace-lamp: 5 of 6}}}}\n"
    base = check({NO_LIGHT: DIAGNOSIS, COUNTS: counts}).base
    diagnosis = base.diagnoses["wader", "no-light"]
    cause = diagnosis.causes[0]
    assert isinstance(cause.cures[0], Cure)

    assert (10, 0) == counted(base, diagnosis)
    assert shares((10, 0)) == cause_shares(base, diagnosis)
    assert success(8, 10) == works(base, diagnosis, cause, cause.cures[0])


def test_first_counts_of_a_cure() -> None:
    """A cure that nobody counted works in nine of ten, until records count it: then they alone stand."""
    counts = "wader: {no-light: {loose-plug: {success: {replace-lamp: 1 of 3}}}}\n"
    before, after = check({NO_LIGHT: DIAGNOSIS}).base, check({NO_LIGHT: DIAGNOSIS, COUNTS: counts}).base
    diagnosis = before.diagnoses["wader", "no-light"]
    cause = diagnosis.causes[1]
    assert isinstance(cause.cures[0], Cure)

    assert UNCOUNTED == works(before, diagnosis, cause, cause.cures[0])
    assert success(1, 3) == works(after, diagnosis, cause, cause.cures[0])


@pytest.mark.parametrize(
    ("counts", "column", "said"),
    [
        ("skiff: {no-light: {dead-lamp: {seen: 1}}}\n", 1, "no device `skiff` with a diagnosis"),
        ("wader: {no-lite: {dead-lamp: {seen: 1}, other: {seen: 2}}}\n", 9, "no diagnosis `no-lite` of `wader`"),
    ],
)
def test_counts_of_what_is_gone(counts: str, column: int, said: str) -> None:
    """Counts of a device or symptom that no diagnosis is of are one finding at the name."""
    found = check({NO_LIGHT: DIAGNOSIS, COUNTS: counts}).findings

    [one] = [finding for finding in found if finding.place.path == COUNTS]
    assert ("unknown-reference", column) == (one.rule, one.place.column)
    assert said in one.message


def test_counts_beside_a_broken_diagnosis() -> None:
    """Nothing is said of counts whose diagnosis cannot be read."""
    counts = "wader: {no-light: {dead-lamp: {seen: 1}}}\n"

    found = check({NO_LIGHT: "causes: none\n", COUNTS: counts}).findings

    assert [] == [finding for finding in found if finding.place.path == COUNTS]


def test_page_and_plan_give_the_same_shares() -> None:
    """Shares on a page count the records too, since they are the same ones."""
    counts = "wader: {no-light: {loose-plug: {seen: 20}}}\n"
    base = check({NO_LIGHT: DIAGNOSIS, COUNTS: counts}).base

    found = cause_shares(base, base.diagnoses["wader", "no-light"])

    assert [5 / 26, 21 / 26] == pytest.approx([share.value for share in found])
