"""
The cheapest plan: depth-first branch and bound over what is done (OR) and what may be seen (AND).

A state is the outcomes seen, the cures that failed and the level; two ways to one state share what is found there. An
action is dropped when its lower bound is above the best plan known, or above what the branch may cost at most to
matter further up. The work is counted in states expanded, never in time, so that every machine gives the same answer.

Where branches are too many the search gives up, and `best` goes on in another order.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from benchleaf.decisions import bayes

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.decisions.bayes import Weights
    from benchleaf.decisions.bounds import Bounds
    from benchleaf.decisions.problem import Problem, Situation

_NEAR = 1e-9
"""Two plans that differ by less than this share cost the same: the order of the file decides."""


MORE_STATES = 2_000
"""How many states may be expanded to compare the actions that a plan may begin with."""


class Spent(Exception):  # noqa: N818  (no error: the search gives up what it was told to give up at)
    """More states would have to be expanded than may be."""


class Found(NamedTuple):
    """What is known of a state: its cost between `low` and `high`, what to do first, whether more search can tell."""

    low: float
    high: float
    action: int
    settled: bool


class _Branch(NamedTuple):
    at: Situation
    weights: Weights
    low: float


class _Action(NamedTuple):
    """Something to do: `low` what it costs at least with all that follows, `own` what it costs itself."""

    low: float
    rank: int
    own: float
    branches: tuple[_Branch, ...]


class First(NamedTuple):
    """What a plan costs at least and at most that begins with the action `rank`, times the weight of the whole."""

    rank: int
    low: float
    high: float


class Search:
    """
    One search. An action is a number: tests in the order of the file, then cures, then the end.

    Beyond `most` expanded states it ends in Spent; once it is asked for `each` it goes on without expanding any more.
    """

    def __init__(self, problem: Problem, bounds: Bounds, most: int) -> None:
        """Search *problem*."""
        self.expanded = 0
        self._problem, self._bounds = problem, bounds
        self._most, self._patient = most, False
        self._found: dict[Situation, Found] = {}

    @property
    def end(self) -> int:
        """The number of the action that ends the plan."""
        return len(self._problem.tests) + len(self._problem.cures)

    def solve(self, at: Situation, weights: Weights, limit: float = math.inf) -> Found:
        """Return what is best in *at*; beyond *limit* it is enough to know that it is beyond."""
        known = self._found.get(at)
        if known and (known.settled or known.low > limit):
            return known
        if self.expanded >= self._most:
            if not self._patient:
                raise Spent
            found = self._unsearched(at, weights)
        else:
            self.expanded += 1
            found = self._expand(at, weights, limit)
        self._found[at] = found
        return found

    def _unsearched(self, at: Situation, weights: Weights) -> Found:
        high, action = self._fallback(at, weights)
        return Found(min(self._bounds.lower(weights, at.failed, at.level), high), high, action, settled=True)

    def _fallback(self, at: Situation, weights: Weights) -> tuple[float, int]:
        value, cure = self._bounds.fallback(weights, at.failed, at.level)
        return value, self.end if cure is None else len(self._problem.tests) + cure

    def _expand(self, at: Situation, weights: Weights, limit: float) -> Found:
        best, action = self._fallback(at, weights)
        rank, low, near = self.end + 1, best, best * _NEAR
        for one in sorted(self.actions(at, weights)):
            # Of two that cost the same, the one that stands first in the file is taken.
            enough = best + near if one.rank < rank else best - near
            least, most = self._follow(one, min(enough, limit))
            low = min(low, least)
            if most <= enough:
                best, action, rank = most, one.rank, one.rank
        low = best if low >= best - near else low
        # Beyond the limit actions were left out, and with them what stands first of two that cost the same.
        return Found(low, best, action, settled=best <= limit)

    def _follow(self, one: _Action, limit: float) -> tuple[float, float]:
        """Return what *one* costs at least and at most; no more than that it is beyond *limit* where it is."""
        least, most = one.low, one.own
        for branch in one.branches:
            if least > limit:
                break
            found = self.solve(branch.at, branch.weights, limit - (least - branch.low))
            least += max(found.low - branch.low, 0.0)
            most += found.high
        return least, math.inf if least > limit else most

    def action(self, at: Situation, weights: Weights) -> int:
        """Return what to do in *at*, once it was solved; below what was searched, what the plan without tests does."""
        known = self._found.get(at)
        return known.action if known else self._fallback(at, weights)[1]

    def each(self, at: Situation, weights: Weights) -> tuple[First, ...]:
        """
        Return what it costs to begin with each action, the cheapest first; some states more may be expanded for it.

        Beyond them the branches that are left take the plan without tests. Read the plan itself off before.
        """
        self._patient, self._most = True, self.expanded + MORE_STATES
        found = []
        for one in self.actions(at, weights):
            ways = [self.solve(branch.at, branch.weights) for branch in one.branches]
            found.append(
                First(one.rank, one.own + sum(way.low for way in ways), one.own + sum(way.high for way in ways))
            )
        return tuple(sorted(found, key=lambda first: (first.high, first.rank)))

    def actions(self, at: Situation, weights: Weights) -> Iterator[_Action]:
        """Yield all that can be done in *at*."""
        problem, whole = self._problem, sum(weights)
        for number, test in enumerate(problem.tests):
            if at.outcomes[number] < 0:
                own = problem.test_cost(at.level, number) * whole
                yield self._action(number, own, (
                    (at.saw(number, outcome, test.level), bayes.seen(weights, given))
                    for outcome, given in enumerate(test.given)
                ))  # fmt: skip
        for number, cure in enumerate(problem.cures):
            if not at.failed >> number & 1:
                own = problem.cure_cost(at.level, number) * whole
                rank = len(problem.tests) + number
                yield self._action(rank, own, [(at.missed(number), bayes.failed(weights, cure.success))])
        yield _Action(problem.end.price * whole, self.end, problem.end.price * whole, ())

    def _action(self, rank: int, own: float, ways: Iterable[tuple[Situation, Weights]]) -> _Action:
        branches = tuple(
            _Branch(at, weights, self._bounds.lower(weights, at.failed, at.level))
            for at, weights in ways
            if any(weights)
        )
        return _Action(own + sum(branch.low for branch in branches), rank, own, branches)
