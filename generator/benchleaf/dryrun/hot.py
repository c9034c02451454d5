"""What becomes hot: under a tool, where a part was lifted off, and in the air of a drying cabinet."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.dryrun.pace import Heating, Lies, cooling_times
from benchleaf.dryrun.places import left_with
from benchleaf.dryrun.state import DISCARDED, STORED, Hot, State
from benchleaf.physics.cooling import COOL

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.world import World
    from benchleaf.model.action import Heat, Wait
    from benchleaf.physics.types import Estimate

_GONE = frozenset({STORED, DISCARDED})


def under_tool(world: World, nature: Nature, state: State, action: Heat, family: Iterable[str]) -> dict[str, Hot]:
    """
    Return what *action* leaves hot: under an iron its part, else all of the part's *family*, each as it is made.

    A part that is lifted off leaves its pads behind, which are as hot as it was: *state* is the one after.
    """
    part = action.on.text
    names = {part} if nature.kind(action.tool.text) == "iron" else set(family)
    known = world.parts.get(part)
    if action.kind == "desolder" and known is not None and known.part_of is not None:
        names.add(known.part_of.text)
    source = nature.source(action)
    return {
        name: _hot(source, nature.cooling(world, name, action, lies(world, state, name)), state.hot.get(name))
        for name in sorted(names)
    }


def in_warm_air(world: World, nature: Nature, state: State, action: Wait) -> State:
    """
    Return the state after *action*, in air so warm that what lies in it is too hot to hold: it is as warm as the air.

    What an earlier heat left does not cool meanwhile.
    """
    if action.at is None or action.at.high <= COOL:
        return state
    source, hot, damaged = action.at.high, dict(state.hot), dict(state.damaged)
    for name in in_the_air(world, state):
        times = out_of_the_air(world, nature, state, name, source)
        hot[name] = _hot(source, times, state.hot.get(name))
        limit = world.parts[name].heat_limit
        if name in world.packs and limit is not None and source > limit.at.low:
            damaged[world.packs[name]] = "too hot"
    return state._replace(hot=hot, damaged=damaged)


def in_the_air(world: World, state: State) -> tuple[str, ...]:
    """
    Return what is in the air of a step that says how warm it is, such as that of a cabinet.

    It is what is to dry or to cure there: parts that have left, each with all that left with it, or the open device
    where something in it is wet or cures. Where nothing is, it is the device.
    """
    curing = (world.bonds[name].part.text for name in state.setting if name in world.bonds)
    doing = {*state.wet, *curing} & world.parts.keys()
    places = {left_with(world, state, name) for name in doing} or {""}
    return tuple(
        name for name in world.parts
        if state.away.get(name) not in _GONE and left_with(world, state, name) in places
    )  # fmt: skip


def _board(world: World) -> str | None:
    return world.device.board.part.text if world.device and world.device.board else None


def lies(world: World, state: State, part: str) -> Lies:
    """Return what *part* gives its heat to under a tool; the board is a board wherever it lies."""
    return Lies.FREE if part in state.alone and part != _board(world) else Lies.ON_BOARD


def out_of_the_air(
    world: World, nature: Nature, state: State, part: str, source: float
) -> tuple[Estimate, Estimate] | None:
    """
    Return how long *part* stays hot, and too hot for a hand, s, after air of *source* °C went all round it.

    A device holds its heat longer than a board alone; None where nobody can say.
    """
    board, material = world.device.board if world.device else None, world.parts[part].made_of
    place = left_with(world, state, part)
    heating = Heating(
        iron=False,
        lies=Lies.ON_BOARD if place == _board(world) else Lies.FREE if place else Lies.IN_WARM_DEVICE,
        source=source,
        room=nature.temperature,
        thickness=board.thickness.high if board and board.thickness else None,
        radius=0.0,
        lasts=0.0,
        times=1,
        pause=0.0,
        material=material.text if material else None,
    )
    return cooling_times(heating, nature.constants)


def _hot(source: float, times: tuple[Estimate, Estimate] | None, was: Hot | None) -> Hot:
    """Return how hot a part is, and for how long at the bad end: no shorter than by what heated it before."""
    cool, hand = (times[0].worst, times[1].worst) if times else (math.inf, math.inf)
    if was is None:
        return Hot(source, cool, hand)
    return Hot(max(source, was.peak), max(cool, was.cool - was.elapsed), max(hand, was.hand - was.elapsed))
