"""How warm each neighbour gets by what is heated beside it: the numbers that rules judge and pages show."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.dryrun import exposure
from benchleaf.dryrun.state import Beside
from benchleaf.model.action import Heat
from benchleaf.physics.types import Estimate

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.exposure import Exposed
    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import State, Touch
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World


@dataclass(frozen=True, slots=True)
class Warmed:
    """
    A neighbour, and what a heating step together with those before it brings it to.

    `heated` is the part that the step heats; `distance` in m, 0 where the two touch; `via` the way heat takes: board,
    air, touching or other-side; `limit` what the neighbour bears, °C, None where nobody says; `kept` what the step
    keeps it below by measuring, °C. `exposed` is all that warms it, `alone` the share of this step.
    """

    part: str
    heated: str
    via: str
    distance: float
    limit: float | None
    kept: float | None
    room: float
    exposed: Exposed
    alone: Exposed

    @property
    def bound(self) -> float:
        """A bound on the bad end of `reached`, °C, that costs next to nothing: where it is low enough, stop there."""
        return self._held(exposure.bound(self.exposed))

    @property
    def worst(self) -> float:
        """The bad end of `reached`, °C, for a quarter of its time."""
        return self._held(exposure.worst(self.exposed))

    @property
    def reached(self) -> Estimate:
        """The highest temperature of the neighbour, °C, also after the tools have left."""
        return self._at(exposure.rise(self.exposed))

    @property
    def by_itself(self) -> Estimate:
        """What the step alone would bring it to, °C."""
        return self._at(exposure.rise(self.alone))

    def stays_below(self, temperature: float) -> bool:
        """Say whether the bad end of `reached` is at most *temperature*, °C; quick where that is plain."""
        if self.bound <= temperature or self._held(exposure.worst(self.exposed, rough=True)) <= temperature:
            return True
        return self.worst <= temperature

    def _at(self, rise: Estimate) -> Estimate:
        low, central, high = (self._held(end) for end in (rise.low, rise.central, rise.high))
        how = rise.method if self.kept is None else f"{rise.method}; kept below {self.kept:g} °C by measuring"
        return Estimate(central, low, high, "°C", how, rise.source)

    def _held(self, rise: float) -> float:
        # A measurement knows what no sum does: the neighbour reaches what it is kept below, at the most.
        reached = self.room + rise
        return reached if self.kept is None else min(reached, max(self.kept, self.room))


def warmed(trace: Trace) -> Iterator[tuple[Moment, Warmed]]:
    """Yield each neighbour of each heating step of *trace*, of all paths, with the moment of the step."""
    for moment, _ in trace.acts(Heat):
        for one in warmed_in(trace, moment):
            yield moment, one


def warmed_in(trace: Trace, moment: Moment) -> Iterator[Warmed]:
    """Yield the neighbours of the step of *moment*, in the order of the device's file; none where it heats nothing."""
    if isinstance(moment.step.action, Heat):
        # Several rules ask, and the pages. By its identity, with the moment itself: a later one may have the same.
        known = _known(trace)
        found = known.get(id(moment))
        if found is None or found[0] is not moment:
            touches = moment.after.touches
            near = tuple(warmed_by(trace.world, trace.nature, touches, beside) for beside in touches[-1].beside)
            found = known[id(moment)] = (moment, near)
        yield from found[1]


@lru_cache(maxsize=8)
def _known(_: Trace) -> dict[int, tuple[Moment, tuple[Warmed, ...]]]:
    return {}


def warmed_by(world: World, nature: Nature, touches: tuple[Touch, ...], beside: Beside) -> Warmed:
    """Return how warm the neighbour *beside* gets by *touches*, the last of which it is beside."""
    part, last = world.parts.get(beside.part), touches[-1]
    exposed = exposure.exposed_to(world, nature, touches, beside.part)
    return Warmed(
        part=beside.part,
        heated=last.part,
        via=beside.via,
        distance=beside.distance,
        limit=part.heat_limit.at.low if part and part.heat_limit else None,
        kept=beside.kept,
        room=nature.temperature,
        exposed=exposed,
        alone=exposed if len(touches) == 1 else exposure.exposed_to(world, nature, (last,), beside.part),
    )


def over_distance(trace: Trace, moment: Moment, distances: tuple[float, ...]) -> tuple[tuple[float, float], ...]:
    """
    Return how hot the board gets at *distances*, m, from the part that the step of *moment* heats: °C, the bad end.

    All heat counts that was given to that part or warms its neighbours too, as if given at one place; by the board
    alone: what stands proud gets the air of a nozzle besides. Nothing elsewhere, and in an oven, where it is hot
    everywhere. A few ms for a distance, nothing when asked again.
    """
    touches = moment.after.touches
    if not distances or not isinstance(moment.step.action, Heat) or touches[-1].tool_kind == "oven":
        return ()
    last, device = touches[-1], trace.world.device
    name = device.board.part.text if device and device.board else ""
    warmed_now = {one.part for one in last.beside}
    counted = [touch for touch in touches if touch.part == last.part or warmed_now & {one.part for one in touch.beside}]
    here = (Beside(name, distances[0], "board"),)
    own = tuple(replace(touch, shielded=True, beside=here) for touch in counted)
    exposed = exposure.exposed_to(trace.world, trace.nature, own, name)
    rises = exposure.worst_over(exposed, distances)
    return tuple((distance, trace.nature.temperature + rise) for distance, rise in zip(distances, rises, strict=True))


def overheated_packs(world: World, nature: Nature, state: State) -> Iterator[str]:
    """Yield the batteries that the last touches of *state* take above their limit as neighbours, by the estimate."""
    for beside in state.touches[-1].beside:
        battery = world.packs.get(beside.part)
        if battery is None:
            continue
        one = warmed_by(world, nature, state.touches, beside)
        if one.limit is not None and not one.stays_below(one.limit) and one.reached.central > one.limit:
            yield battery
