"""All that warms one neighbour, in a form by which the answers of the physics are remembered."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from benchleaf.dryrun.beside import LAID_ON
from benchleaf.physics import heat, nearby
from benchleaf.physics.repeats import Touches
from benchleaf.physics.types import Estimate, Kelvins, Metres, OutOfRange, Seconds

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchleaf.dryrun.nature import Nature
    from benchleaf.dryrun.state import Beside, Touch
    from benchleaf.dryrun.world import World
    from benchleaf.physics.constants import Heat

    _Near = list[tuple[Touch, Beside]]

# What lies flat on the board under the stream; everything else stands proud in it (common practice, no source).
_FLAT = frozenset({"board", "package", "array-package", "flex", "label"})
# After so long a break, s, a board has lost nearly all of its heat: what is left is added, and a new sum begins.
_BREAK = 300.0
# What was longer ago, s, has left nothing, in a pack either.
_GONE = 7200.0
# More touches than this, or longer ones, s, are one long one: the sum takes too long, and this is the safe side.
_MANY, _LONG = 100, 86400.0
# No tool of a bench is hotter, °C; one that is set to "more than" something is as hot as this.
_HOTTEST = 600.0
_NO_TIME, _NO_RISE = Seconds(0.0), Kelvins(0.0)
_NOTHING = Estimate(0.0, 0.0, 0.0, "K", "nothing warms it", "by definition")


@dataclass(frozen=True, slots=True)
class Exposed:
    """
    What warms one neighbour, the ways heat takes apart: temperatures in K above the room.

    Along the board from `places`, and what `older` ones left at the moment `since`, when the places begin; the air of
    `streams`; a pack behind what is `laid` on a heater; the edges of heaters a distance away; `through` the hottest
    thing that touches it or is behind the board.
    `guarded` is what a former step kept it below by measuring, and `free` what nothing guarded.
    """

    board: heat.Board
    follows: Seconds
    constants: Heat
    places: tuple[heat.Heated, ...] = ()
    older: tuple[heat.Heated, ...] = ()
    since: Seconds = _NO_TIME
    streams: tuple[nearby.Stream, ...] = ()
    laid: tuple[Touches, ...] = ()
    edges: tuple[tuple[Kelvins, Metres], ...] = ()
    through: Kelvins = _NO_RISE
    guarded: Kelvins = _NO_RISE
    free: Exposed | None = None

    @property
    def hottest(self) -> float:
        """The hottest of all that warms it: nothing gets hotter than that."""
        rises: list[float] = [touch.rise for place in (*self.places, *self.older) for touch in place.touches]
        rises += [touch.rise for touch in self.laid]
        # Of a stream the part takes a third at the most; the part that it is aimed at is hotter, and stands above.
        rises += [self.constants.plume_share.high * one.touches.rise for one in self.streams]
        return max([*rises, *(rise for rise, _ in self.edges), self.through], default=0.0)


def exposed_to(world: World, nature: Nature, touches: tuple[Touch, ...], part: str) -> Exposed:
    """Return all that warms *part* by *touches*, oldest first; a measurement guards what it was taken in alone."""
    near = [(touch, one) for touch in touches for one in touch.beside if one.part == part]
    kept = [one.kept - nature.temperature for _, one in near[:-1] if one.kept is not None]
    everything = _exposed(world, nature, near, part)
    if not kept:
        return everything
    unguarded = [(touch, one) for touch, one in near[:-1] if one.kept is None] + near[-1:]
    free = _exposed(world, nature, unguarded, part)
    return replace(everything, guarded=Kelvins(max(0.0, *kept)), free=free)


@lru_cache(maxsize=4096)
def bound(exposed: Exposed) -> float:
    """Return a bound on the bad end of `rise`, K, that costs next to nothing: every tool held for ever."""
    try:
        along = heat.rise_bound(exposed.places, exposed.board, exposed.constants) if exposed.places else 0.0
        most = along + sum(one.high for one in _others(exposed))
    except OutOfRange:
        return exposed.hottest
    return min(most, exposed.hottest)


@lru_cache(maxsize=4096)
def worst(exposed: Exposed, *, rough: bool = False) -> float:
    """Return the bad end of `rise`, K, for a quarter of its time; a *rough* bound on it takes a tenth of that."""
    asked = heat.rough_rise if rough else heat.worst_rise
    try:
        along = asked(exposed.places, exposed.board, exposed.constants) if exposed.places else 0.0
        most = min(along + sum(one.high for one in _others(exposed)), exposed.hottest)
    except OutOfRange:
        return exposed.hottest
    return most if exposed.free is None else min(most, worst(exposed.free, rough=rough) + exposed.guarded)


@lru_cache(maxsize=1024)
def worst_over(exposed: Exposed, distances: tuple[float, ...]) -> tuple[float, ...]:
    """Return the bad end of `rise`, K, for *distances*, m, from everything that warms along the board."""

    def at(distance: Metres) -> Exposed:
        places, older = (
            tuple(replace(place, distance=distance) for place in several) for several in (exposed.places, exposed.older)
        )
        return replace(exposed, places=places, older=older, edges=tuple((hot, distance) for hot, _ in exposed.edges))

    return tuple(worst(at(Metres(distance))) for distance in distances)


@lru_cache(maxsize=4096)
def rise(exposed: Exposed) -> Estimate:
    """
    Return how far the neighbour rises at its hottest moment, K: the sum of all ways, and never more than the hottest.

    Where no formula holds (a board that is not thin), it may be as hot as the hottest.
    """
    try:
        parts = [*_along(exposed), *_others(exposed)]
    except OutOfRange as refused:
        hottest = exposed.hottest
        return Estimate(hottest, 0.0, hottest, "K", f"the source's own temperature: {refused}", "no formula holds")
    found = _sum(parts, exposed.hottest)
    if exposed.free is None:
        return found
    rest = rise(exposed.free)
    central = min(found.central, rest.central + exposed.guarded)
    high = min(found.high, rest.high + exposed.guarded)
    return replace(found, low=min(found.low, central), central=central, high=high)


def _sum(parts: list[Estimate], hottest: float) -> Estimate:
    if not parts:
        return _NOTHING
    low, central, high = (
        min(math.fsum(getattr(one, end) for one in parts), hottest) for end in ("low", "central", "high")
    )
    how = "; and ".join(dict.fromkeys(one.method for one in parts))
    return Estimate(central, low, high, "K", how, "; ".join(dict.fromkeys(one.source for one in parts)))


def _along(exposed: Exposed) -> Iterator[Estimate]:
    if exposed.places:
        yield heat.neighbour_rise(exposed.places, exposed.board, exposed.constants)


def _others(exposed: Exposed) -> Iterator[Estimate]:
    """Yield what comes another way than along the board from the last places: quick to have."""
    constants = exposed.constants
    if exposed.older:
        left = heat.rise_left(exposed.older, exposed.board, exposed.since, constants)
        yield Estimate(left, 0.0, left, "K", "with what earlier steps left", "the same")
    if exposed.streams:
        yield nearby.stream_rise(exposed.streams, exposed.follows, exposed.since, constants)
    if exposed.laid:
        yield nearby.heater_rise(exposed.laid, exposed.since, constants)
    if exposed.edges:
        found = [nearby.along_heater_rise(hot, far, exposed.board.thickness, constants) for hot, far in exposed.edges]
        yield max(found, key=lambda one: one.high)
    if exposed.through > 0:
        yield nearby.through_rise(exposed.through)


def _exposed(world: World, nature: Nature, near: _Near, part: str) -> Exposed:
    constants, pack = nature.constants.heat, part in world.packs
    last, older = _clusters([(touch, one) for touch, one in near if _source(nature, touch) > 0 and touch.lasts > 0])
    if not last:
        return Exposed(board(world), _NO_TIME, constants)
    begin, since = (older or last)[0][0].start, last[0][0].start
    now = [(touch, one, _ways(world, touch, one)) for touch, one in last]
    ever = [(touch, one, _ways(world, touch, one)) for touch, one in older] + now
    return Exposed(
        board=board(world),
        follows=Seconds((constants.follow_pack if pack else constants.follow_small).central),
        constants=constants,
        places=_places(world, nature, last, since, part),
        older=_places(world, nature, older, begin, part),
        since=Seconds(round(since - begin, 1)),
        streams=tuple(
            nearby.Stream(Metres(one.distance), _touches(touch, _blown(nature, touch), begin))
            for touch, one, way in ever if "air" in way
        ),
        laid=tuple(_touches(touch, _source(nature, touch), begin) for touch, _, way in ever if "laid" in way),
        edges=tuple(
            (Kelvins(_source(nature, touch)), Metres(one.distance)) for touch, one, way in now if "edge" in way
        ),
        through=Kelvins(max((_source(nature, touch) for touch, _, way in now if "through" in way), default=0.0)),
    )  # fmt: skip


def _ways(world: World, touch: Touch, one: Beside) -> frozenset[str]:
    """Return the ways that heat takes from the touched part to its neighbour."""
    meets = one.via in {"touching", "other-side"}
    if touch.tool_kind == "oven":  # Whatever is near is in the oven with it.
        return frozenset({"through"})
    if touch.tool_kind in LAID_ON:
        if meets:
            return frozenset({"laid" if one.part in world.packs else "through"})
        return frozenset({"edge"} if one.via == "board" else ())
    if meets:
        return frozenset({"through"})
    known = world.parts.get(one.part)
    proud = one.via == "air" or known is None or known.kind not in _FLAT
    blown = touch.tool_kind == "hot-air" and not touch.shielded and proud
    return frozenset({*(["board"] if one.via == "board" else []), *(["air"] if blown else [])})


def _source(nature: Nature, touch: Touch) -> float:
    """Return how much hotter than the room the heated part is, K."""
    return min(touch.source, touch.setting, _HOTTEST) - nature.temperature


def _blown(nature: Nature, touch: Touch) -> float:
    return min(touch.setting, _HOTTEST) - nature.temperature


def _touches(touch: Touch, hotter: float, begin: float) -> Touches:
    lasts, times, pause = min(touch.lasts, _LONG), touch.times, touch.pause
    if times > _MANY:
        lasts, times, pause = min(times * lasts + (times - 1) * pause, _LONG), 1, 0.0
    start = Seconds(round(touch.start - begin, 1))
    return Touches(Kelvins(hotter), Metres(touch.radius), Seconds(lasts), times, Seconds(pause), start)


def _clusters(near: _Near) -> tuple[_Near, _Near]:
    """Return what no long break parts from the last touch, and what went before."""
    last: _Near = []
    for touch, one in reversed(near):
        if last and last[0][0].start - touch.end >= _BREAK:
            break
        last.insert(0, (touch, one))
    older = near[: len(near) - len(last)]
    return last, [(touch, one) for touch, one in older if last[0][0].start - touch.end < _GONE]


def _places(world: World, nature: Nature, near: _Near, begin: float, part: str) -> tuple[heat.Heated, ...]:
    """Return each part that warms the board, with all that was done to it since *begin*."""
    spots: dict[tuple[str, float], list[Touch]] = {}
    for touch, one in near:
        if "board" in _ways(world, touch, one):
            spots.setdefault((touch.part, one.distance), []).append(touch)
    return tuple(
        heat.Heated(
            Metres(distance),
            tuple(_touches(touch, _source(nature, touch), begin) for touch in touches),
            heat.Tool.IRON if all(touch.tool_kind == "iron" for touch in touches) else heat.Tool.HOT_AIR,
            at_edge=_at_edge(world, name),
            pack=part in world.packs and not _on_board(world, part),
            beside=not _on_board(world, part),
        )
        for (name, distance), touches in spots.items()
    )  # fmt: skip


def _at_edge(world: World, part: str) -> bool:
    """Whether a part sits on the rim of the board: sockets do, so that something goes in."""
    known = world.parts.get(part)
    return known is not None and known.kind == "socket"


def _on_board(world: World, part: str) -> bool:
    board_part = world.device.board.part.text if world.device and world.device.board else ""
    return part in world.family.get(board_part, ())


def board(world: World) -> heat.Board:
    """Return what is known of the device's board: its thinnest and smallest where it is given from and to."""
    known = world.device.board if world.device else None
    if known is None:
        return heat.Board()
    size = (Metres(known.size[0].low), Metres(known.size[1].low)) if known.size else None
    return heat.Board(Metres(known.thickness.low) if known.thickness else None, size)
