"""What keeps a device from bearing current: what inside it is wet, hot, unplugged or missing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.checks.names import listed
from benchleaf.dryrun.inside import in_place

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import State
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import World

WET, HOT, UNPLUGGED, MISSING = "wet", "hot", "unplugged", "missing"
# These carry no current: a device runs without them.
_PASSIVE = frozenset({"shell", "cover", "window", "seal", "label"})
_NONE: frozenset[Trouble] = frozenset()
_BEFORE_CLOSING = frozenset({"opening", "work"})


@dataclass(frozen=True, slots=True, order=True)
class Trouble:
    """A thing that is not ready, and how."""

    how: str
    name: str


def wet_or_hot(world: World, state: State) -> frozenset[Trouble]:
    """Return what inside is wet, and what is too hot to close in."""
    if not (state.wet or state.hot):
        return _NONE
    return frozenset(
        Trouble(how, name) for how, names in ((WET, state.wet), (HOT, state.hot)) for name in names
        if in_place(world, state, name)
    )  # fmt: skip


def unplugged(world: World, state: State) -> frozenset[Trouble]:
    """Return the open connectors: not a battery's own plug, nor one that must move before it."""
    if not state.unplugged:
        return _NONE
    return frozenset(
        Trouble(UNPLUGGED, name)
        for name in state.unplugged
        if name in world.connectors and name not in world.plugs and not world.connectors[name].before_isolation
    )


def absent(trace: Trace, state: State) -> frozenset[Trouble]:
    """Return the parts that are out and that carry current, each with all that is part of it as one."""
    world, back = trace.world, trace.procedure.hands_back
    without = {part.text for part in back.without} if back else set()
    return frozenset(
        Trouble(MISSING, name)
        for name, part in world.parts.items()
        if name in state.away and part.kind not in _PASSIVE and name not in without
        if part.part_of is None or part.part_of.text not in state.away
    )


def joins(moment: Moment, world: World) -> tuple[str, ...]:
    """Return the batteries that are joined in this step."""
    if moment.after.isolated is moment.before.isolated:
        return ()
    before = moment.before.joined(world.batteries)
    return tuple(name for name in moment.after.joined(world.batteries) if name not in before)


def with_left_over(world: World, path: Iterable[Moment]) -> Iterator[tuple[Moment, frozenset[Trouble]]]:
    """
    Yield each moment of *path* with what was handed over so: wet, hot, or left unplugged by the work.

    That is a fault of the handover; it is not said again of the closing.
    """
    opened: frozenset[Trouble] = frozenset()
    left: frozenset[Trouble] = frozenset()
    at_work = True
    for moment in path:
        if at_work and moment.kind not in _BEFORE_CLOSING:
            at_work = False
            left = _lying(moment.before) | (unplugged(world, moment.before) - opened)
        elif moment.kind == "opening" and moment.after.unplugged is not moment.before.unplugged:
            opened = unplugged(world, moment.after)
        yield moment, left
        if left:
            still = left & (_lying(moment.after) | unplugged(world, moment.after))
            left = frozenset(one for one in still if not made_again(moment, one))


def made_again(moment: Moment, trouble: Trouble) -> bool:
    """Whether the step wets or heats what was left over so: from then on it is a fault of its own."""
    if trouble.how == WET:
        dry, wet = moment.before.wet.get(trouble.name), moment.after.wet.get(trouble.name)
        return dry is not None and wet is not None and wet is not dry and wet.left >= dry.left
    cool, hot = moment.before.hot.get(trouble.name), moment.after.hot.get(trouble.name)
    return cool is not None and hot is not None and hot is not cool and hot.elapsed <= cool.elapsed


def _lying(state: State) -> frozenset[Trouble]:
    """Return what is wet or hot, in the device or beside it: the closing brings it in."""
    if not (state.wet or state.hot):
        return _NONE
    return frozenset(Trouble(how, name) for how, names in ((WET, state.wet), (HOT, state.hot)) for name in names)


def by_kind(troubles: Iterable[Trouble]) -> dict[str, tuple[str, ...]]:
    """Return the names of *troubles*, sorted, by how they are not ready."""
    found: dict[str, tuple[str, ...]] = {}
    for trouble in sorted(troubles):
        found[trouble.how] = (*found.get(trouble.how, ()), trouble.name)
    return found


def are(names: tuple[str, ...], how: str) -> str:
    """Return "`main-board` and `lamp` are wet"."""
    return f"{listed(f'`{name}`' for name in names)} {'are' if names[1:] else 'is'} {how}"


def cure(world: World, nature: Nature, state: State, how: str, names: tuple[str, ...]) -> str:
    """Return what to write before the step: the wait that is long enough, or what to plug in or fit."""
    ticked = listed(f"`{name}`" for name in names)
    if how == UNPLUGGED:
        return f"Plug {ticked} in before this step."
    if how == MISSING:
        return f"Fit {ticked} before this step."
    if how == WET:
        seconds = max(nature.drying(world, name, state.wet[name]) * state.wet[name].left for name in names)
    else:
        seconds = max(state.hot[name].cool - state.hot[name].elapsed for name in names)
    if math.isinf(seconds):
        return (
            f"No wait is known to be long enough: check that it is {'dry' if how == WET else 'cool'} before this step."
        )
    return f"Write a wait of {_up(seconds)} at the bench before this step."


def _up(seconds: float) -> str:
    minutes = math.ceil(seconds / 60)
    return f"{minutes} min" if minutes <= 120 else f"{math.ceil(minutes / 60)} h"
