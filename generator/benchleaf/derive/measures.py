"""The numbers that the dry run computed for each step, and the limits that they are held against."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from benchleaf.derive import air
from benchleaf.derive.held import Held, beside, on_bodies, on_joints
from benchleaf.derive.number import Number, given
from benchleaf.derive.screws import turned
from benchleaf.derive.waits import clears, cools, dries, heated_by
from benchleaf.derive.written import written
from benchleaf.model.action import Renew, Screw, Wait

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.trace import Moment, Trace


@dataclass(slots=True)
class Measured:
    """What is known of one step: its numbers by name, and what of them has a limit."""

    moment: Moment
    numbers: dict[str, Number] = field(default_factory=dict)
    limits: list[Held] = field(default_factory=list)

    def hold(self, kind: str, on: str, limit: Number, reached: Number | None) -> None:
        """Hold *reached* against *limit*."""
        self.limits.append(Held(kind, self.moment.step.id, on, limit, reached))


def measured(trace: Trace) -> Iterator[Measured]:
    """Yield each step of the straight pass of *trace* with its numbers."""
    vapour = air.on(trace)
    for moment in trace.straight:
        found = Measured(moment, dict(written(trace, moment.step)))
        _drying(trace, found)
        _heating(trace, found)
        _cooling(trace, found)
        _screws(trace, found)
        _bond(trace, found)
        for name, number in vapour.numbers(moment):
            found.numbers[name] = number
        for kind, on, limit, reached in vapour.limits(moment):
            found.hold(kind, on, limit, reached)
        yield found


def _drying(trace: Trace, found: Measured) -> None:
    """Give the time that each part takes to dry: where it is wetted, and in a wait, in the air of that wait."""
    moment, waits = found.moment, isinstance(found.moment.step.action, Wait)
    wet = moment.before.wet if waits else moment.after.wet
    for name, liquid in wet.items():
        if waits or (liquid is not moment.before.wet.get(name) and liquid.left == 1.0):
            found.numbers[f"dry:{name}"] = dries(trace, moment, name, liquid)
    if waits:
        found.numbers.update((f"clear:{name or air.BENCH}", time) for name, time in clears(trace, moment).items())


def _heating(trace: Trace, found: Measured) -> None:
    """Give what a heating, or warm air, brings its parts and their neighbours to."""
    found.limits += [*on_bodies(trace, found.moment), *on_joints(trace, found.moment)]
    for one in beside(trace, found.moment):
        found.numbers[f"neighbour:{one.on}"] = one.reached
        if one.limit:
            found.hold("neighbour", one.on, one.limit, one.reached)


def _cooling(trace: Trace, found: Measured) -> None:
    """Give how long what is heated goes on being hot, and in a wait, what of that is left when it begins."""
    moment = found.moment
    before, after = moment.before.hot, moment.after.hot
    if isinstance(moment.step.action, Wait):
        for name, hot in before.items():
            _stays_hot(found, name, cools(trace, heated_by(trace, moment, name), name, hot))
    for name, hot in after.items():
        if hot is not before.get(name) and hot.elapsed == 0.0:
            _stays_hot(found, name, cools(trace, moment, name, hot))


def _stays_hot(found: Measured, name: str, times: tuple[Number, Number]) -> None:
    found.numbers[f"cool:{name}"], found.numbers[f"hand-cool:{name}"] = times


def _screws(trace: Trace, found: Measured) -> None:
    action = found.moment.step.action
    for screws in action.screws if isinstance(action, Screw) else ():
        known = turned(trace.world.fasteners, screws, found.moment.step.place.path)
        if known is None:
            continue
        named = (("torque", known.written), ("recommended", known.recommended), ("most", known.most))
        found.numbers.update((f"{name}:{known.fastener}", number) for name, number in named if number)
        if known.most:
            found.hold("torque", known.fastener, known.most, known.written)


def _bond(trace: Trace, found: Measured) -> None:
    action = found.moment.step.action
    material = (
        trace.nature.materials.get(action.material.text) if isinstance(action, Renew) and action.material else None
    )
    if material:
        path = material.place.path
        times = (("firm", material.fixture), ("full-strength", material.full))
        found.numbers.update((name, given(time, path)) for name, time in times if time)
