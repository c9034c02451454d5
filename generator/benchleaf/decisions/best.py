"""
The plan where a whole search is too long: the states that matter most are looked at first.

Each state has what it costs at least and at most. From the beginning the action that costs least at least is followed,
and of what it may show always that whose cost is least sure, to a state that nobody looked at; its actions are worked
out, and what is known of all states on the way gets narrower. Weights are not divided, so that a state counts by how
likely one comes there. The work is counted in states, never in time.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.decisions.search import First, Found, Search

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.decisions.bayes import Weights
    from benchleaf.decisions.bounds import Bounds
    from benchleaf.decisions.problem import Problem, Situation

_NEAR = 1e-9


class _State:
    """A situation: what it costs between `low` and `high`, and its actions once somebody looked at it."""

    __slots__ = ("actions", "at", "high", "low", "rest", "weights")

    def __init__(self, at: Situation, weights: Weights, low: float, high: float, rest: int) -> None:
        self.at, self.weights, self.low, self.high = at, weights, min(low, high), high
        self.rest = rest  # The action of the plan without tests.
        self.actions: tuple[_Way, ...] | None = None


class _Way:
    """An action: its number, what it costs itself, and the states that it may lead to."""

    __slots__ = ("own", "rank", "states")

    def __init__(self, rank: int, own: float, states: tuple[_State, ...]) -> None:
        self.rank, self.own, self.states = rank, own, states

    def low(self) -> float:
        return self.own + sum([state.low for state in self.states])

    def high(self) -> float:
        return self.own + sum([state.high for state in self.states])


class Best:
    """One search that looks at no more than *most* states."""

    def __init__(self, problem: Problem, bounds: Bounds, most: int) -> None:
        """Search *problem*."""
        self.expanded = 0
        self._bounds, self._most = bounds, most
        self._all = Search(problem, bounds, 0)
        self._tests = len(problem.tests)
        self._states: dict[Situation, _State] = {}

    @property
    def end(self) -> int:
        """The number of the action that ends the plan."""
        return self._all.end

    def solve(self, at: Situation, weights: Weights) -> Found:
        """Return what is known of *at* once all states that may be looked at were."""
        first = self._state(at, weights)
        while self.expanded < self._most and first.high - first.low > _NEAR * first.high:
            way, new = _descend(first), False
            if way[-1].actions is None:
                self._expand(way[-1])
                new = True
            moved = [_narrow(state) for state in reversed(way)]
            # What is known further down by another way was taken over above; where nothing moves, nothing is left.
            if not (new or any(moved)):
                break
        return Found(first.low, first.high, self.action(at, weights), settled=True)

    def _expand(self, state: _State) -> None:
        self.expanded += 1
        state.actions = tuple(
            _Way(one.rank, one.own, tuple(self._state(branch.at, branch.weights) for branch in one.branches))
            for one in self._all.actions(state.at, state.weights)
        )

    def _state(self, at: Situation, weights: Weights) -> _State:
        known = self._states.get(at)
        if known is None:
            high, cure = self._bounds.fallback(weights, at.failed, at.level)
            rest = self.end if cure is None else self._tests + cure
            low = self._bounds.lower(weights, at.failed, at.level)
            known = self._states[at] = _State(at, weights, low, high, rest)
        return known

    def action(self, at: Situation, weights: Weights) -> int:
        """Return what to do in *at*; where nobody looked, what the plan without tests does."""
        state = self._state(at, weights)
        return min(state.actions, key=_Way.high).rank if state.actions else state.rest

    def each(self, at: Situation, weights: Weights) -> tuple[First, ...]:
        """Return what it costs to begin with each action, the cheapest first, by what is known."""
        state = self._state(at, weights)
        if state.actions is None:
            self._expand(state)
        found = [First(way.rank, way.low(), way.high()) for way in state.actions or ()]
        return tuple(sorted(found, key=lambda first: (first.high, first.rank)))


def _descend(state: _State) -> list[_State]:
    """Return the way to a state that nobody looked at, or to the end of what is worth following."""
    way = [state]
    while way[-1].actions:
        cheapest = min(way[-1].actions, key=_Way.low)
        if not cheapest.states:
            break
        way.append(max(cheapest.states, key=lambda one: one.high - one.low))
    return way


def _narrow(state: _State) -> bool:
    """Take over what is known of the states that *state* leads to, and say whether that is news."""
    low, high = _ends(state.actions or ())
    before = state.low, state.high
    state.high = min(state.high, high)
    state.low = min(max(state.low, low), state.high)
    return before != (state.low, state.high)


def _ends(ways: Iterable[_Way]) -> tuple[float, float]:
    low = high = math.inf
    for way in ways:
        low, high = min(low, way.low()), min(high, way.high())
    return low, high
