"""What was performed: each step with the state before and after, the straight pass and every fail route."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeVar, overload

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.world import World
    from benchleaf.model.device import Access
    from benchleaf.model.procedure import Procedure
    from benchleaf.model.step import GoTo, Step, Stop

A = TypeVar("A")
B = TypeVar("B")
C = TypeVar("C")


@dataclass(frozen=True, slots=True)
class Moment:
    """A step as it was performed. `kind` is opening, work, closing, prove, or elsewhere: of another procedure."""

    step: Step
    kind: str
    level: Access | None
    before: State
    after: State


@dataclass(frozen=True, slots=True)
class Route:
    """
    What happens when one check fails.

    `check` is the moment of the check that fails; `extra` what is performed because of it; `state` how the device is at
    its end; `end` a stop, a go_to, or None where the straight pass goes on (`goes_on` then holds what follows).
    `target` is the procedure that a go_to leads to, None where there is none of that name.
    """

    check: Moment
    extra: tuple[Moment, ...]
    state: State
    end: Stop | GoTo | None
    goes_on: tuple[Moment, ...] = ()
    target: Procedure | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """
    One procedure performed on one variant, and on all `variants` on which it comes out the same, step by step.

    Two traces are never equal: what is worked out of one can be remembered by it, whatever its size.
    """

    procedure: Procedure
    world: World
    nature: Nature
    start: State
    straight: tuple[Moment, ...]
    routes: tuple[Route, ...]
    variants: tuple[str, ...]
    # Put together when they are first asked for, as a few dozen rules ask.
    _every: list[Moment] = field(default_factory=list, init=False, repr=False)
    _paths: dict[bool, tuple[tuple[Moment, ...], ...]] = field(default_factory=dict, init=False, repr=False)
    _by_act: dict[type[object], list[tuple[int, Moment]]] = field(default_factory=dict, init=False, repr=False)

    @property
    def end(self) -> State:
        """The state after the last step of the straight pass."""
        return self.straight[-1].after if self.straight else self.start

    @property
    def handover(self) -> State:
        """The state at the end of `steps`, before the first closing."""
        return self.at_end_of("work")

    def at_end_of(self, *kinds: str) -> State:
        """Return the state after the last moment whose kind is one of *kinds*, or after what came before them."""
        last = self.start
        for moment in self.straight:
            if moment.kind in {"opening", *kinds}:
                last = moment.after
        return last

    def every(self) -> Iterator[Moment]:
        """Yield every moment: the straight pass, then what each fail route performs besides."""
        if not self._every:
            self._every.extend(self.straight)
            for route in self.routes:
                self._every.extend(route.extra)
                self._every.extend(route.goes_on)
        return iter(self._every)

    def paths(self, *, whole: bool = False) -> Iterator[tuple[Moment, ...]]:
        """
        Yield each way through, from its first moment to its last: the straight pass first, then the fail routes.

        A failure that ends where it is found is no way of its own: all that was performed is of the straight pass.
        With *whole*, only those that go on to the end.
        """
        if whole not in self._paths:
            self._paths[whole] = tuple(self._ways_through(whole=whole))
        return iter(self._paths[whole])

    def _ways_through(self, *, whole: bool) -> Iterator[tuple[Moment, ...]]:
        yield self.straight
        for route in self.routes:
            if (route.end is not None and whole) or not (route.extra or route.goes_on):
                continue
            here = next(number for number, moment in enumerate(self.straight, start=1) if moment is route.check)
            yield (*self.straight[:here], *route.extra, *route.goes_on)

    @overload
    def acts(self, kind: type[A], /) -> Iterator[tuple[Moment, A]]: ...

    @overload
    def acts(self, kind: type[A], other: type[B], /) -> Iterator[tuple[Moment, A | B]]: ...

    @overload
    def acts(self, kind: type[A], other: type[B], third: type[C], /) -> Iterator[tuple[Moment, A | B | C]]: ...

    def acts(self, *kinds: type[object]) -> Iterator[tuple[Moment, object]]:
        """Yield the moments, of all paths, whose action is one of *kinds*, each with it."""
        known = self._by_act
        if not known:
            for number, moment in enumerate(self.every()):
                known.setdefault(type(moment.step.action), []).append((number, moment))
        found = [one for kind in kinds for one in known.get(kind, ())]
        if len(kinds) > 1:
            found.sort(key=_number)
        for _, moment in found:
            yield moment, moment.step.action


def _number(numbered: tuple[int, Moment]) -> int:
    return numbered[0]
