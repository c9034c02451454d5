"""Each level of each device opened and closed again, with nothing done between: what a closing must undo."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.dryrun.begin import begin
from benchleaf.dryrun.performed import nature
from benchleaf.dryrun.trace import Moment
from benchleaf.dryrun.transition import perform
from benchleaf.dryrun.world import World, world
from benchleaf.model.procedure import Arrives
from benchleaf.model.words import applies

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import State
    from benchleaf.model.device import Access
    from benchleaf.model.knowledge import KnowledgeBase


@dataclass(frozen=True, slots=True)
class Level:
    """A level of one variant: the moments of its opening and closing, the state before the one and after the other."""

    world: World
    access: Access
    moments: tuple[Moment, ...]
    before: State
    after: State


def closed_again(base: KnowledgeBase) -> Iterator[Level]:
    """Yield every level of every variant that has it, opened from its parent and closed again."""
    here = nature(base)
    for device in base.devices.values():
        for variant in device.variant_ids:
            own = world(device, variant)
            for access in device.access.values():
                if applies(access.only, variant):
                    yield _level(own, here, access)


def _level(own: World, here: Nature, access: Access) -> Level:
    state = begin(own, Arrives())
    for parent in own.device.way_to(access.id)[:-1] if own.device else ():
        for moment in _performed(own, here, state, parent, "opening"):
            state = moment.after
    moments = list(_performed(own, here, state, access, "opening"))
    opened = moments[-1].after if moments else state
    moments += _performed(own, here, opened, access, "closing")
    return Level(own, access, tuple(moments), state, moments[-1].after if moments else state)


def _performed(own: World, here: Nature, state: State, access: Access, kind: str) -> Iterator[Moment]:
    for step in access.opening if kind == "opening" else access.closing:
        if applies(step.only, own.variant):
            after = perform(own, here, state, step)
            yield Moment(step, kind, access, state, after)
            state = after
