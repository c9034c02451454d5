"""The ways through a procedure as a graph: each step a node, what comes next, and what when its check fails."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from benchleaf.derive.board import Boards, beside_the_device, out_in_the_tray
from benchleaf.dryrun.charge import shows_empty
from benchleaf.dryrun.trace import Moment
from benchleaf.dryrun.transition import perform
from benchleaf.dryrun.walk import NO_WAY_ON
from benchleaf.model.knowledge import phases
from benchleaf.model.step import GoTo, Repeat, Stop

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from benchleaf.derive.board import Board
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Route, Trace
    from benchleaf.model.device import Access
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import Step

TOO_OFTEN = "Several checks have failed on this device. Make it safe as it stands and show it to the senior technician."
"""Why the work stops where a check fails and as many as were performed have failed before it."""
MOST_FAILED = 2
"""So many failures are performed on one way, and more only where one check alone is repeated more often."""


@dataclass(frozen=True, slots=True)
class Again:
    """The step `step` and all from there on once more, from the node number `to`."""

    to: int
    step: str


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Another procedure is performed from here, the device as it stands: from the node number `to`."""

    to: int
    procedure: str


@dataclass(frozen=True, slots=True)
class Leave:
    """The work ends here and goes on in another procedure, which begins at its own beginning."""

    procedure: str


@dataclass(frozen=True, slots=True)
class Halt:
    """The work ends here."""

    text: str


Fail: TypeAlias = "Again | Elsewhere | Leave | Halt"


class Node(NamedTuple):
    """
    A step as it is performed on one way through, the way before it as it was.

    `procedure` is the id of the one whose step it is, and `kind` opening, work, closing or prove there. No state is
    kept: `board` stands as the step begins; `screws` and `parts` are what lies beside the device after it. `place` is
    its number on this way and `of` how many there are on it; `within` likewise in its phase. `next` is None at the end,
    `fail` where there is no check.
    """

    step: str
    procedure: str
    kind: str
    board: Board
    screws: tuple[tuple[str, int], ...]
    parts: tuple[str, ...]
    place: int
    of: int
    within: tuple[int, int]
    next: int | None
    fail: Fail | None


def ways(trace: Trace) -> tuple[Node, ...]:
    """
    Return the graph of *trace*; its first node is the first step.

    A repeat is laid out as often as it may be performed, each time with the state that the tries before it leave. What
    the trace performed is taken from it; two failures on one way are performed here.
    """
    graph = _Graph(trace)
    graph.lay(graph.plan(trace.procedure, [moment.step for moment in trace.straight]), 0, trace.start, 0, {})
    return tuple(graph.nodes)


@dataclass(frozen=True, slots=True)
class _Planned:
    step: Step
    kind: str
    level: Access | None
    within: tuple[int, int]


@dataclass(frozen=True, slots=True)
class _Plan:
    procedure: Procedure
    steps: tuple[_Planned, ...]


class _Graph:
    """The nodes so far, and what the trace has performed already."""

    def __init__(self, trace: Trace) -> None:
        self.nodes: list[Node] = []
        self._trace, self._boards = trace, Boards(trace.world, trace.nature)
        self._kept: dict[Board, Board] = {}
        self._routes: dict[int, Route] = {}
        for route in trace.routes:
            self._routes.setdefault(id(route.check.step), route)
        # By the state and the step that a moment begins with, both of which the trace keeps alive.
        self._known = {(id(moment.before), id(moment.step)): moment for moment in trace.every()}

    def plan(self, procedure: Procedure, steps: Sequence[Step]) -> _Plan:
        """Return *steps* of *procedure* with the phase and level of each."""
        where = {
            id(step): (phase.kind, phase.access)
            for phase in phases(self._trace.world.device, procedure, self._trace.world.variant)
            for step in phase.steps
        }
        kinds = [where[id(step)] for step in steps]
        counts: dict[str, int] = {}
        planned = []
        for step, (kind, level) in zip(steps, kinds, strict=True):
            counts[kind] = counts.get(kind, 0) + 1
            planned.append((step, kind, level, counts[kind]))
        return _Plan(procedure, tuple(_Planned(step, kind, level, (number, counts[kind]))
                                      for step, kind, level, number in planned))  # fmt: skip

    def lay(self, plan: _Plan, start: int, state: State, before: int, tried: Mapping[int, int]) -> int:
        """
        Lay out *plan* from its step number *start* on, from *state*; return the number of the first node.

        *before* is how many steps are done before it on this way, *tried* how often each check of the plan has failed.
        """
        moments = self._perform(state, plan.steps[start:])
        first, whole = len(self.nodes), before + len(moments)
        for offset, moment in enumerate(moments):
            own = plan.steps[start + offset]
            self.nodes.append(
                Node(
                    step=own.step.id, procedure=plan.procedure.id, kind=own.kind,
                    board=self._once(self._boards.before(moment)),
                    screws=out_in_the_tray(self._trace.world, moment.after),
                    parts=beside_the_device(self._trace.world, moment.after),
                    place=before + offset + 1, of=whole, within=own.within,
                    next=first + offset + 1 if offset + 1 < len(moments) else None, fail=None,
                )
            )  # fmt: skip
        for offset, moment in enumerate(moments):
            if moment.step.check is not None:
                fail = self._fail(plan, start + offset, moment, before + offset + 1, tried)
                self.nodes[first + offset] = self.nodes[first + offset]._replace(fail=fail)
        return first

    def _once(self, board: Board) -> Board:
        """Return the one that is kept of equal boards: there are many, and they travel between processes."""
        return self._kept.setdefault(board, board)

    def _perform(self, state: State, planned: Sequence[_Planned]) -> list[Moment]:
        found = []
        for own in planned:
            moment = self._known.get((id(state), id(own.step)))
            if moment is None:
                after = perform(self._trace.world, self._trace.nature, state, own.step)
                moment = Moment(own.step, own.kind, own.level, state, after)
            found.append(moment)
            state = moment.after
        return found

    def _fail(self, plan: _Plan, index: int, moment: Moment, before: int, tried: Mapping[int, int]) -> Fail:
        check = moment.step.check
        way = check.if_not if check else None
        match way:
            case Repeat():
                return self._again(plan, index, moment, way, before, tried)
            case GoTo():
                return self._go(moment, way, before)
            case Stop():
                return Halt(way.text)
            case _:
                return Halt(NO_WAY_ON)

    def _again(  # noqa: PLR0913, PLR0917  (where on which way, and what failed before)
        self, plan: _Plan, index: int, moment: Moment, way: Repeat, before: int, tried: Mapping[int, int]
    ) -> Fail:
        own, count = plan.steps[index], tried.get(index, 0)
        first = next((at for at in range(index, -1, -1) if plan.steps[at].step.id == way.step.text), None)
        if first is None or plan.steps[first].kind != own.kind or plan.steps[first].level is not own.level:
            return Halt(NO_WAY_ON)
        if count >= way.times:
            return self._then(moment, way, before)
        if tried.keys() - {index} and sum(tried.values()) >= MOST_FAILED:
            return Halt(TOO_OFTEN)
        failed = self._failed(moment)
        return Again(self.lay(plan, first, failed, before, {**tried, index: count + 1}), way.step.text)

    def _then(self, moment: Moment, way: Repeat, before: int) -> Fail:
        match way.then:
            case Stop(text=text):
                return Halt(text)
            case GoTo() as go:
                return self._go(moment, go, before)
            case None:
                return Halt(NO_WAY_ON)

    def _go(self, moment: Moment, way: GoTo, before: int) -> Fail:
        """Return the way to another procedure: performed from here where the trace has done so, else left for."""
        route = self._routes.get(id(moment.step))
        if route is None or not route.extra or not isinstance(route.end, GoTo) or route.target is None:
            return Leave(way.procedure.text)
        plan = self.plan(route.target, [at.step for at in route.extra])
        return Elsewhere(self.lay(plan, 0, self._failed(moment), before, {}), way.procedure.text)

    def _failed(self, moment: Moment) -> State:
        """Return the state after *moment* when its check fails; as the trace has it, where it has."""
        route = self._routes.get(id(moment.step))
        if route is not None and route.check is moment:
            return route.extra[0].before if route.extra else route.state
        check, world = moment.step.check, self._trace.world
        if check is None or not (check.shows or (world.stores and shows_empty(check))):
            return moment.after
        return perform(world, self._trace.nature, moment.before, moment.step, passed=False)
