"""Performs a procedure: the straight pass, then each check failing, one failure a path."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from benchleaf.dryrun.begin import begin
from benchleaf.dryrun.charge import shows_empty
from benchleaf.dryrun.trace import Moment, Route, Trace
from benchleaf.dryrun.transition import perform
from benchleaf.model.knowledge import phases
from benchleaf.model.step import GoTo, Repeat, Stop

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World
    from benchleaf.model.device import Access
    from benchleaf.model.knowledge import KnowledgeBase
    from benchleaf.model.procedure import Arrives, Procedure
    from benchleaf.model.step import Step

    Planned = tuple[Step, str, Access | None]

NO_WAY_ON = "The check fails each time."
"""Why the work stops where a `repeat` does not say what to do when all of them fail."""


@dataclass(frozen=True, slots=True)
class Opened:
    """
    The openings that were performed already, by how the device arrived: all procedures of a level begin alike.

    Moments are kept by the identity of the state and the step that they begin with, which they hold.
    """

    starts: dict[tuple[str, str, Arrives], State] = field(default_factory=dict)
    moments: dict[tuple[int, int], Moment] = field(default_factory=dict)


def walk(  # noqa: PLR0913, PLR0917  (what is performed, on what, and what is known of it)
    base: KnowledgeBase, procedure: Procedure, world: World, nature: Nature,
    variants: tuple[str, ...] = (), opened: Opened | None = None,
) -> Trace:  # fmt: skip
    """
    Perform *procedure* on *world* as its device has it, with opening, closing and every fail route.

    *variants* are those on which it comes out the same; that of *world* alone where none are named. *opened* spares
    what was performed before.
    """
    return _Walk(base, procedure, world, nature, variants or (world.variant,), opened or Opened()).trace()


@dataclass(frozen=True, slots=True)
class _Walk:
    """One procedure on one variant."""

    base: KnowledgeBase
    procedure: Procedure
    world: World
    nature: Nature
    variants: tuple[str, ...]
    opened: Opened

    def trace(self) -> Trace:
        start = self._start()
        straight = tuple(self._perform(start, self._plan(self.procedure)))
        routes = tuple(route for index in range(len(straight)) for route in self._routes(straight, index))
        return Trace(self.procedure, self.world, self.nature, start, straight, routes, self.variants)

    def _start(self) -> State:
        arrives = self.procedure.arrives
        key = (self.procedure.device, self.world.variant, arrives)
        start = self.opened.starts.get(key)
        if start is None:
            start = self.opened.starts[key] = begin(self.world, arrives)
        return start

    def _plan(self, procedure: Procedure) -> list[Planned]:
        return [
            (step, phase.kind, phase.access)
            for phase in phases(self.world.device, procedure, self.world.variant)
            for step in phase.steps
        ]

    def _perform(self, state: State, plan: Iterable[Planned]) -> Iterator[Moment]:
        for step, kind, level in plan:
            if kind == "opening":
                moment = self._opening(step, level, state)
            else:
                moment = Moment(step, kind, level, state, perform(self.world, self.nature, state, step))
            yield moment
            state = moment.after

    def _opening(self, step: Step, level: Access | None, state: State) -> Moment:
        key = (id(state), id(step))
        moment = self.opened.moments.get(key)
        if moment is None:
            after = perform(self.world, self.nature, state, step)
            moment = self.opened.moments[key] = Moment(step, "opening", level, state, after)
        return moment

    def _routes(self, straight: Sequence[Moment], index: int) -> Iterator[Route]:
        moment = straight[index]
        check = moment.step.check
        if check is None or check.if_not is None or self._answered(moment):
            return
        if isinstance(check.if_not, Repeat):
            yield from self._repeated(straight, index, check.if_not)
            return
        failed = self._failed(moment)
        extra = tuple(self._make_safe(moment, failed, check.if_not))
        state = extra[-1].after if extra else failed
        yield Route(moment, extra, state, check.if_not, target=self._target(check.if_not))

    def _answered(self, moment: Moment) -> bool:
        """Whether the way the device arrives answers the check: a pack known to be swollen is not found so again."""
        check = moment.step.check
        shape = check is not None and check.kind == "battery" and check.what.text == "shape"
        return shape and self.procedure.arrives.battery == "swollen"

    def _repeated(self, straight: Sequence[Moment], index: int, way: Repeat) -> Iterator[Route]:
        moment = straight[index]
        first = next((at for at in range(index, -1, -1) if straight[at].step.id == way.step.text), None)
        if first is None or straight[first].kind != moment.kind or straight[first].level is not moment.level:
            return
        again: list[Planned] = [(at.step, at.kind, at.level) for at in straight[first : index + 1]]
        rest: list[Planned] = [(at.step, at.kind, at.level) for at in straight[index + 1 :]]
        extra: list[Moment] = []
        last = moment
        for _ in range(way.times):
            extra += self._perform(self._failed(last), again)
            last = extra[-1]
        # The last repeat passes and the work goes on; and it may fail as well, and `then` ends the path.
        yield Route(moment, tuple(extra), last.after, None, tuple(self._perform(last.after, rest)))
        end = way.then or Stop(NO_WAY_ON, way.step.place)
        yield Route(moment, (), self._failed(last), end, target=self._target(end))

    def _target(self, way: Stop | GoTo) -> Procedure | None:
        return self.base.target(self.procedure, way.procedure.text) if isinstance(way, GoTo) else None

    def _failed(self, moment: Moment) -> State:
        """Return the state after *moment* when its check fails: what it was to show is not so."""
        check = moment.step.check
        if check is None or not (check.shows or (self.world.stores and shows_empty(check))):
            return moment.after
        return perform(self.world, self.nature, moment.before, moment.step, passed=False)

    def _make_safe(self, moment: Moment, failed: State, way: Stop | GoTo) -> Iterator[Moment]:
        """Yield what a procedure that makes safe performs from here, inside an opening or a closing."""
        if moment.kind not in {"opening", "closing"} or not isinstance(way, GoTo):
            return
        target = self._target(way)
        if target is None or target.purpose != "make-safe":
            return
        steps = self._rest(moment, target)
        for at in self._perform(failed, steps):
            yield Moment(at.step, "elsewhere", at.level, at.before, at.after)

    def _rest(self, moment: Moment, target: Procedure) -> list[Planned]:
        """Return what is left to do of *target* for one who stands at *moment* with the device half open."""
        plan = self._plan(target)
        if moment.kind == "closing":
            return [at for at in plan if at[1] == "work"]
        here = next((index for index, at in enumerate(plan) if at[0] is moment.step and at[1] == "opening"), None)
        return plan[here + 1 :] if here is not None else [at for at in plan if at[1] != "opening"]
