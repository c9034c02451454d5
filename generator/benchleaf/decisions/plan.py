"""
The cheapest plan as a tree: what to do first, what it may show, and what to do then.

Exact where the search ends within 8,000 expanded states. Where it does not, 4,000 states are looked at in the order in
which they matter; the cheapest plan found stands, with what no plan can be cheaper than.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.decisions import bayes
from benchleaf.decisions.best import Best
from benchleaf.decisions.bounds import Bounds
from benchleaf.decisions.problem import start
from benchleaf.decisions.search import Search, Spent

if TYPE_CHECKING:
    from benchleaf.decisions.bayes import Weights
    from benchleaf.decisions.problem import Problem, Situation
    from benchleaf.decisions.search import Found

MOST_STATES = 8_000
MOST_LOOKED_AT = 4_000
"""How many states are looked at where a whole search is too long."""
_NEAR = 1e-9


@dataclass(frozen=True, slots=True)
class Seen:
    """An outcome that a test may show: how likely, what the causes are then, and what to do."""

    outcome: str
    probability: float
    shares: Weights
    next: Node


@dataclass(frozen=True, slots=True)
class Ask:
    """Do a test. `cost` is what is to be expected from here on; outcomes that cannot come are left out."""

    test: str
    cost: float
    cured: float
    outcomes: tuple[Seen, ...]


@dataclass(frozen=True, slots=True)
class Cure:
    """Try a cure that works with the probability `success`, and go on where it did not."""

    procedure: str
    success: float
    cost: float
    cured: float
    if_not: Node | None


@dataclass(frozen=True, slots=True)
class Refer:
    """End: someone else, or written off."""

    title: str
    cost: float
    cured: float = 0.0


Node = Ask | Cure | Refer


@dataclass(frozen=True, slots=True)
class Start:
    """
    What a plan may begin with, and what such a plan costs at least and at most.

    `kind` is "test", "cure" or "refer", `id` that of the test or cure, or the title of the end.
    """

    kind: str
    id: str
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Plan:
    """
    A plan: what it costs (`high`), what no plan can be cheaper than (`low`), how many states were expanded.

    `starts` are all actions that there are to begin with; the first is that of this plan, the others follow by cost.
    """

    first: Node
    low: float
    high: float
    exact: bool
    expanded: int
    starts: tuple[Start, ...]


# Pages, lists and the variants of a device ask for the same problem again and again.
@lru_cache(maxsize=1024)
def plan(problem: Problem, level: int = 0, most: int = MOST_STATES) -> Plan:
    """Return the cheapest plan for *problem* from *level*; *most* states are expanded for each answer that is tried."""
    bounds, at = Bounds(problem), start(problem)._replace(level=level)
    search: Search | Best = Search(problem, bounds, most)
    try:
        found = search.solve(at, problem.shares)
    except Spent:
        search = Best(problem, bounds, min(most, MOST_LOOKED_AT))
        found = search.solve(at, problem.shares)
    whole, expanded = sum(problem.shares), search.expanded
    first = _Tree(problem, bounds, search).node(at, problem.shares)
    # Of states on several ways more may be known now than when they were last taken over.
    high = min(found.high, first.cost * whole)
    exact = high - found.low <= _NEAR * high
    found = found._replace(low=high if exact else found.low, high=high)
    return Plan(first, found.low / whole, found.high / whole, exact, expanded, _starts(problem, search, found, at))


def _starts(problem: Problem, search: Search | Best, found: Found, at: Situation) -> tuple[Start, ...]:
    whole = sum(problem.shares)
    ids = [*(("test", one.id) for one in problem.tests), *(("cure", one.id) for one in problem.cures),
           ("refer", problem.end.title)]  # fmt: skip
    own = search.action(at, problem.shares)
    others = [one for one in search.each(at, problem.shares) if one.rank != own]
    # What the plan begins with was searched with more patience: no other is said to be cheaper, nor below the bound.
    return (
        Start(*ids[own], found.low / whole, found.high / whole),
        *(Start(*ids[one.rank], max(one.low, found.low) / whole, max(one.high, found.high) / whole) for one in others),
    )


class _Tree:
    """Reads a plan off what a search has found; branches that come to the same situation are one."""

    def __init__(self, problem: Problem, bounds: Bounds, search: Search | Best) -> None:
        self._problem, self._bounds, self._search = problem, bounds, search
        self._nodes: dict[Situation, Node] = {}

    def node(self, at: Situation, weights: Weights) -> Node:
        """Return what to do in *at*."""
        known = self._nodes.get(at)
        if known is None:
            known = self._nodes[at] = self._made(at, weights)
        return known

    def _made(self, at: Situation, weights: Weights) -> Node:
        action, tests = self._search.action(at, weights), len(self._problem.tests)
        if action == self._search.end:
            return Refer(self._problem.end.title, self._problem.end.price)
        return self._ask(at, weights, action) if action < tests else self._cure(at, weights, action - tests)

    def _ask(self, at: Situation, weights: Weights, number: int) -> Ask:
        test, whole = self._problem.tests[number], sum(weights)
        outcomes = []
        for outcome, given in enumerate(test.given):
            then = bayes.seen(weights, given)
            if any(then):
                following = self.node(at.saw(number, outcome, test.level), then)
                outcomes.append(Seen(test.outcomes[outcome], sum(then) / whole, bayes.posterior(then), following))
        cost = self._problem.test_cost(at.level, number) + sum(one.probability * one.next.cost for one in outcomes)
        return Ask(test.id, cost, sum(one.probability * one.next.cured for one in outcomes), tuple(outcomes))

    def _cure(self, at: Situation, weights: Weights, number: int) -> Cure:
        cure, then = self._problem.cures[number], bayes.failed(weights, self._problem.cures[number].success)
        missed = sum(then) / sum(weights)
        if_not = self.node(at.missed(number), then) if any(then) else None
        cost, cured = self._problem.cure_cost(at.level, number), 1 - missed
        if if_not:
            cost, cured = cost + missed * if_not.cost, cured + missed * if_not.cured
        return Cure(cure.id, 1 - missed, cost, cured, if_not)
