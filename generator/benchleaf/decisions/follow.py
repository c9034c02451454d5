"""
A plan followed to its ends: how long it takes at the bench, and every line of it, in order, with its chance and time.

Time is reckoned on the clock of a problem: the same problem with seconds in the place of money.
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, NamedTuple

from benchleaf.decisions.plan import Ask, Cure, Refer

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.decisions.plan import Node
    from benchleaf.decisions.problem import Problem


class Line(NamedTuple):
    """
    One line of a plan: how deep it lies, after which outcome it comes, what is done, and what is known by then.

    `asked` and `outcome` are what was seen, both "" after a cure in vain and at the beginning. `chance` is how likely
    one comes here at all; `before` and `after` are the seconds on the way before and after it is done. `cured` is how
    likely all ends here in a cure.
    A `node` of None is a way that is not followed any further: it is seldom gone.
    """

    depth: int
    asked: str
    outcome: str
    node: Node | None
    chance: float
    before: float
    after: float
    cured: float


class Follow:
    """Follows plans on one clock."""

    def __init__(self, clock: Problem) -> None:
        """Reckon time by *clock*."""
        self._clock = clock
        self._tests = {test.id: number for number, test in enumerate(clock.tests)}
        self._cures = {cure.id: number for number, cure in enumerate(clock.cures)}
        self._known: dict[int, float] = {}

    def seconds(self, node: Node | None, level: int = 0) -> float:
        """Return how long *node* and all that follows is expected to take from *level*."""
        if node is None or isinstance(node, Refer):
            return 0.0
        # Branches that come to the same situation are one node, and so is its level.
        if id(node) not in self._known:
            own, then = self._own(node, level)
            if isinstance(node, Ask):
                own += sum(one.probability * self.seconds(one.next, then) for one in node.outcomes)
            else:
                own += (1 - node.success) * self.seconds(node.if_not, then)
            self._known[id(node)] = own
        return self._known[id(node)]

    def _own(self, node: Ask | Cure, level: int) -> tuple[float, int]:
        """Return what *node* itself takes, and at which level the device is afterwards."""
        if isinstance(node, Ask):
            number = self._tests[node.test]
            return self._clock.test_cost(level, number), self._clock.tests[number].level
        return self._clock.cure_cost(level, self._cures[node.procedure]), 0

    def lines(self, node: Node, lightest: float, level: int = 0) -> Iterator[Line]:
        """Yield the lines of the plan that begins with *node*; ways below the share *lightest* end early."""
        yield from self._lines(Line(0, "", "", node, 1.0, 0.0, 0.0, 0.0), level, lightest)

    def _lines(self, line: Line, level: int, lightest: float) -> Iterator[Line]:
        node = line.node
        if node is None or isinstance(node, Refer):
            yield line._replace(after=line.before)
        elif line.chance < lightest:
            yield line._replace(node=None, after=line.before)
        else:
            own, then = self._own(node, level)
            after = line.before + own
            cured = line.chance * node.success if isinstance(node, Cure) else 0.0
            yield line._replace(after=after, cured=cured)
            for asked, outcome, probability, following in _ways(node):
                down = Line(line.depth + 1, asked, outcome, following, line.chance * probability, after, after, 0.0)
                yield from self._lines(down, then, lightest)


def _ways(node: Ask | Cure) -> Iterator[tuple[str, str, float, Node]]:
    if isinstance(node, Ask):
        yield from ((node.test, one.outcome, one.probability, one.next) for one in node.outcomes)
    elif node.if_not:
        yield "", "", 1 - node.success, node.if_not


def drawn(follow: Follow, node: Node, most: int, level: int = 0) -> tuple[tuple[Line, ...], float]:
    """Return the lines of a plan, at most *most*, and the share below which no way is followed: 0 for all of it."""
    for lightest in (0.0, 0.001, 0.003, 0.01, 0.03, 0.1):
        found = tuple(islice(follow.lines(node, lightest, level), most + 1))
        if len(found) <= most:
            return found, lightest
    return tuple(follow.lines(node, 0.3, level)), 0.3
