"""Shares from counts, and how far they may be off."""

from __future__ import annotations

import random

import pytest
from scipy import stats

from benchleaf.decisions import beta
from benchleaf.decisions.shares import HELD, shares, shifted, success


@pytest.mark.outside
def test_shares_of_three() -> None:
    """Counts of 7, 2 and 1 give the shares that pgmpy 1.1.2 estimates with a Dirichlet prior of ones."""
    found = shares((7, 2, 1))

    assert [0.615385, 0.230769, 0.153846] == [pytest.approx(share.value, abs=1e-6) for share in found]


@pytest.mark.outside
def test_success_of_ten() -> None:
    """Eight of ten under a prior of ones is Beta(9, 3): mean 0.75, 95 % from 0.482244 to 0.939782 (scipy 1.17.1)."""
    ends = beta.quantile(0.025, 9, 3), beta.quantile(0.975, 9, 3)

    assert pytest.approx(0.75) == success(8, 10).value
    assert (0.482244, 0.939782) == pytest.approx(ends, abs=1e-6)


@pytest.mark.outside
@pytest.mark.parametrize("a", [0.5, 1, 2, 9, 57, 3000, 400_000])
@pytest.mark.parametrize("b", [0.5, 1, 3, 40, 1000, 1_000_000])
@pytest.mark.parametrize("share", [0.025, 0.05, 0.5, 0.95])
def test_quantile_beside_scipy(a: float, b: float, share: float) -> None:
    """The quantile of a Beta distribution is that of scipy."""
    assert stats.beta.ppf(share, a, b) == pytest.approx(beta.quantile(share, a, b), rel=1e-8, abs=1e-12)


@pytest.mark.outside
@pytest.mark.parametrize("x", [0.0, 1e-6, 0.2, 0.5, 0.77, 0.999, 1.0])
@pytest.mark.parametrize(("a", "b"), [(1, 1), (2, 5), (120, 3), (0.5, 8)])
def test_below_beside_scipy(x: float, a: float, b: float) -> None:
    """How much of a Beta distribution lies below a value is what scipy says."""
    assert stats.beta.cdf(x, a, b) == pytest.approx(beta.below(x, a, b), rel=1e-9, abs=1e-14)


@pytest.mark.outside
def test_interval_is_that_of_one_share_of_a_dirichlet() -> None:
    """The interval of a share holds nine tenths of what 20,000 draws of the whole Dirichlet distribution give it."""
    drawn = stats.dirichlet.rvs([15, 7, 4], size=20_000, random_state=1)
    found = shares((14, 6, 3))

    held = [((drawn[:, n] > share.low) & (drawn[:, n] < share.high)).mean() for n, share in enumerate(found)]

    assert [pytest.approx(HELD, abs=0.01)] * 3 == held


@pytest.mark.outside
def test_interval_after_an_outcome_is_an_estimate() -> None:
    """After an outcome, the interval of the likeliest cause still holds 85 to 95 % of what draws carried along give."""
    given = (0.85, 0.05, 0.10)
    drawn = stats.dirichlet.rvs([15, 7, 4], size=20_000, random_state=1) * given
    posteriors = drawn[:, 0] / drawn.sum(axis=1)
    first, second, third = shares((14, 6, 3))
    others = (second.value * given[1] + third.value * given[2]) / (second.value + third.value)

    found = shifted(first, given[0], others)

    assert 0.85 < ((posteriors > found.low) & (posteriors < found.high)).mean() < 0.95


def test_shares_are_a_whole() -> None:
    """Shares sum to 1, whatever was counted, and each lies within its interval."""
    chance = random.Random(3)  # noqa: S311  (no secret)
    counted = [[chance.randint(0, 400) for _ in range(chance.randint(1, 10))] for _ in range(40)]

    found = [shares(counts) for counts in counted]

    assert [pytest.approx(1.0)] * 40 == [sum(share.value for share in each) for each in found]
    assert all(0 <= share.low <= share.value <= share.high <= 1 for each in found for share in each)


def test_one_cause_alone() -> None:
    """A cause that is the only one is certain, however often it was seen."""
    assert ((1.0, 1.0, 1.0),) == shares((0,))


@pytest.mark.parametrize("counts", [(7, 2, 1), (0, 3), (1, 1, 1, 1), (14, 6, 3)])
def test_more_counts_narrow_the_interval(counts: tuple[int, ...]) -> None:
    """Ten times as many cases in the same proportions leave less open about every cause."""
    few, many = shares(counts), shares([10 * count for count in counts])

    assert all(more.high - more.low < less.high - less.low for more, less in zip(many, few, strict=True))
