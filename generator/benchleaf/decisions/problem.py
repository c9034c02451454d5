"""A problem of diagnosis in bare numbers: what may be wrong, what can be asked, what can be done, what each costs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from benchleaf.decisions import bayes

if TYPE_CHECKING:
    from benchleaf.decisions.bayes import Weights

MOST_CAUSES, MOST_TESTS, MOST_OUTCOMES, MOST_CURES = 10, 8, 4, 12


@dataclass(frozen=True, slots=True)
class Trial:
    """A test: its cost without the way to its level, and for each outcome what it is given every cause."""

    id: str
    level: int
    cost: float
    outcomes: tuple[str, ...]
    given: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True)
class Remedy:
    """A cure: its cost without the ways in and out, and how often it ends each cause."""

    id: str
    level: int
    cost: float
    success: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class End:
    """Where a plan ends that did not cure: with someone else, or written off."""

    title: str
    price: float


@dataclass(frozen=True, slots=True)
class Problem:
    """
    What there is to decide. Level 0 is the closed device; `travel[a][b]` is what it costs to go from level a to b.

    No way round costs less than the straight one. A cure goes to its level, is performed, and closes; the proof that
    follows is perfect and costs nothing here.
    """

    causes: tuple[str, ...]
    shares: tuple[float, ...]
    tests: tuple[Trial, ...]
    cures: tuple[Remedy, ...]
    travel: tuple[tuple[float, ...], ...]
    end: End

    def test_cost(self, level: int, test: int) -> float:
        """Return what *test* costs from *level*, with the way to it."""
        one = self.tests[test]
        return self.travel[level][one.level] + one.cost

    def cure_cost(self, level: int, cure: int) -> float:
        """Return what *cure* costs from *level*, with the way to it and the closing."""
        one = self.cures[cure]
        return self.travel[level][one.level] + one.cost + self.travel[one.level][0]


class Situation(NamedTuple):
    """What is known on the way: the outcome of each test (-1: not done), a bit for each cure that failed, the level."""

    outcomes: tuple[int, ...]
    failed: int = 0
    level: int = 0

    def saw(self, test: int, outcome: int, level: int) -> Situation:
        """Return the situation after *test*, done at *level*, showed *outcome*."""
        return Situation((*self.outcomes[:test], outcome, *self.outcomes[test + 1 :]), self.failed, level)

    def missed(self, cure: int) -> Situation:
        """Return the situation after *cure* was tried in vain: the device is closed again."""
        return Situation(self.outcomes, self.failed | 1 << cure)


def start(problem: Problem) -> Situation:
    """Return the situation in which nothing was done."""
    return Situation((-1,) * len(problem.tests))


def weights(problem: Problem, at: Situation) -> Weights:
    """Return the probability of each cause together with all that was seen in *at*."""
    found = problem.shares
    for test, outcome in zip(problem.tests, at.outcomes, strict=True):
        found = bayes.seen(found, test.given[outcome]) if outcome >= 0 else found
    for number, cure in enumerate(problem.cures):
        found = bayes.failed(found, cure.success) if at.failed >> number & 1 else found
    return found
