"""What an outcome says of the causes."""

from __future__ import annotations

import random

import pytest

from benchleaf.decisions.bayes import after, failed, posterior, seen
from tests.decisions.oracles import counted

# A test of four causes, P(shows it | cause), on the shares of the example in test_published.
FOUR, SHOWS = (0.5, 0.3, 0.15, 0.05), (0.9, 0.1, 0.2, 0.5)
SILENT = tuple(1 - share for share in SHOWS)


@pytest.mark.outside
def test_rare_fault() -> None:
    """Prior 0.01, found in 90 %, falsely in 5 %: 0.153846 after a hit, 0.00106213 after none (pgmpy 1.1.2)."""
    hit, none = after((0.01, 0.99), [(0.90, 0.05)]), after((0.01, 0.99), [(0.10, 0.95)])

    assert 0.153846 == pytest.approx(hit[0], abs=1e-6)
    assert 0.00106213 == pytest.approx(none[0], abs=1e-8)


@pytest.mark.outside
def test_four_causes() -> None:
    """The posteriors of four causes after either outcome, and how likely the outcome is, are pgmpy's (1.1.2)."""
    shown, silent = after(FOUR, [SHOWS]), after(FOUR, [SILENT])

    assert (0.841121, 0.056075, 0.056075, 0.046729) == pytest.approx(shown, abs=1e-6)
    assert (0.107527, 0.580645, 0.258065, 0.053763) == pytest.approx(silent, abs=1e-6)
    assert 0.535 == pytest.approx(sum(seen(FOUR, SHOWS)))


@pytest.mark.parametrize("seed", range(10))
def test_beside_counting_every_event(seed: int) -> None:
    """The posterior after three tests is that of counting every joint event of cause and outcomes."""
    chance = random.Random(seed)  # noqa: S311  (no secret)
    prior = posterior([chance.random() for _ in range(4)])
    rows = [[posterior([chance.random() for _ in range(3)]) for _ in prior] for _ in range(3)]
    tables = [[[row[outcome] for row in test] for outcome in range(3)] for test in rows]
    outcomes = [chance.randrange(3) for _ in tables]

    found = after(prior, [table[outcome] for table, outcome in zip(tables, outcomes, strict=True)])

    assert counted(prior, tables, outcomes) == pytest.approx(found)


def test_order_of_outcomes_does_not_matter() -> None:
    """Two outcomes say the same, whichever comes first."""
    assert after(FOUR, [SHOWS, SILENT]) == pytest.approx(after(FOUR, [SILENT, SHOWS]))


def test_failed_cure_speaks_against_its_cause() -> None:
    """A cure that works in nine of ten and failed leaves a tenth of its cause's weight, and the others as they were."""
    assert (0.05, 0.3, 0.15, 0.05) == pytest.approx(failed(FOUR, (0.9, 0.0, 0.0, 0.0)))


def test_nothing_possible() -> None:
    """What no cause can show leaves weights of nothing, and no division by it."""
    assert (0.0, 0.0) == after((0.5, 0.5), [(0.0, 0.0)])
