"""What is held against a limit where something is heated: the joint, the body, what is beside; for facts and pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from benchleaf.derive.number import Number, estimated, given
from benchleaf.derive.waits import Needed, needs
from benchleaf.dryrun.bodies import bodies
from benchleaf.dryrun.hazards.property_ import NEAR
from benchleaf.dryrun.warmth import warmed_in
from benchleaf.model.action import Heat
from benchleaf.physics.battery import WARM

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.warmth import Warmed


@dataclass(frozen=True, slots=True)
class Held:
    """
    A number that is held against a limit: what kind, in which step, and on what: a part, a substance, a fastener.

    `reached` is None where nobody can say.
    """

    kind: str
    step: str
    on: str
    limit: Number
    reached: Number | None


@dataclass(frozen=True, slots=True)
class Beside:
    """A neighbour of what is heated in a step: what it reaches, and what it bears; None where nobody says."""

    step: str
    on: str
    reached: Number
    limit: Number | None


def on_bodies(trace: Trace, moment: Moment) -> Iterator[Held]:
    """Yield each body with a limit that *moment* heats, with what it reaches."""
    for body in bodies(trace.world, trace.nature, [moment]):
        limit = given(body.limit.at, _device(trace))
        yield Held("body", moment.step.id, body.part, limit, _becomes(body.reached))


def _becomes(reached: float) -> Number:
    return Number(reached, "°C", reached, reached, "what the part is measured to reach, else what its tool is set to",
                  "physics of the bench")  # fmt: skip


def on_joints(trace: Trace, moment: Moment) -> Iterator[Held]:
    """Yield the joint that an iron touches in *moment*, where its limit is known: how hot, and for how long a touch."""
    action = moment.step.action
    if not isinstance(action, Heat):
        return
    part = trace.world.parts.get(action.on.text)
    limit = part.joint_limit if part else None
    if limit is None or trace.nature.kind(action.tool.text) != "iron":
        return
    device, path = _device(trace), moment.step.place.path
    yield Held("joint", moment.step.id, action.on.text, given(limit.at, device), given(action.at, path))
    if limit.lasts:
        bears, lasts = given(limit.lasts, device), given(action.lasts, path)
        yield Held("joint-time", moment.step.id, action.on.text, bears, lasts)


def beside(trace: Trace, moment: Moment, *, notable: bool = False) -> Iterator[Beside]:
    """Yield the neighbours of what *moment* heats; with *notable*, those that come so far that a reader must know."""
    for one in warmed_in(trace, moment):
        if not notable or little(one) is None:
            limit = trace.world.parts[one.part].heat_limit
            bears = given(limit.at, _device(trace)) if limit else None
            yield Beside(moment.step.id, one.part, estimated(one.reached), bears)


def little(one: Warmed) -> float | None:
    """Return the most that a neighbour gets, °C, where no hazard of it is told: below 45 °C, and far from its limit."""
    far = WARM if one.limit is None else min(WARM, one.room + NEAR * (one.limit - one.room))
    if one.bound <= far:
        return one.bound
    return one.worst if one.worst <= far else None


OnSheet: TypeAlias = "Held | Beside | Needed"


def on_sheet(trace: Trace, moment: Moment) -> Iterator[OnSheet]:
    """
    Yield what the sheet shows of *moment*: what a wait is for, and what is held against a limit.

    Of all that lies on a mat or in a cabinet, those are the part and the weakest.
    """
    action = moment.step.action
    yield from needs(trace, moment)
    yield from on_joints(trace, moment)
    yield from _told(tuple(on_bodies(trace, moment)), action.on.text if isinstance(action, Heat) else "")
    yield from beside(trace, moment, notable=True)


def _told(found: Sequence[Held], own: str) -> Iterator[Held]:
    weakest = min(found, key=lambda one: one.limit.low, default=None)
    for one in found:
        if one.on == own or one is weakest:
            yield one


def _device(trace: Trace) -> str:
    return trace.world.device.path if trace.world.device else ""
