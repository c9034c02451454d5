"""How warm a part gets, at the bad end, while others beside it are heated."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.physics import heat, nearby
from benchleaf.physics.repeats import Touches
from benchleaf.physics.types import Celsius, Kelvins, Metres, OutOfRange, Seconds, SquareMetres

if TYPE_CHECKING:
    from benchleaf.dryrun.state import Touch
    from benchleaf.dryrun.trace import Moment, Trace
    from benchleaf.dryrun.world import Neighbour

_FOLLOWS = Seconds(300.0)  # A pack follows the air round it so slowly (common practice, no source).
_LIES_ON = frozenset({"heat-mat", "plate", "oven"})


def warmed(trace: Trace, moment: Moment, part: str) -> float:
    """Return how warm *part* may get by all that was heated up to *moment*, °C; inf where no formula holds."""
    nature, near = trace.nature, {one.part: one for one in trace.world.near.get(part, ())}
    touches = [touch for touch in moment.after.touches if touch.part in near and touch.source > nature.temperature]
    begin = min((touch.start for touch in touches), default=0.0)
    places, warmest = [], 0.0
    try:
        for touch in touches:
            one = near[touch.part]
            warmest = max(warmest, _straight(trace, touch, one))
            if one.via == "board" and one.distance is not None:
                tool = heat.Tool.IRON if touch.tool_kind == "iron" else heat.Tool.HOT_AIR
                held = Touches(
                    Kelvins(touch.source - nature.temperature), Metres(touch.radius), Seconds(touch.lasts), touch.times,
                    Seconds(touch.pause), Seconds(touch.start - begin),
                )  # fmt: skip
                places.append(heat.Heated(Metres(one.distance.low), (held,), tool))
        along = heat.neighbour_rise(tuple(places), _board(trace), nature.constants.heat).high if places else 0.0
    except OutOfRange:
        return math.inf
    return nature.temperature + along + warmest


def _straight(trace: Trace, touch: Touch, near: Neighbour) -> float:
    """Return the rise that comes another way than along the board: by contact, from a mat, or through the air."""
    nature = trace.nature
    room, constants, lasts = Celsius(nature.temperature), nature.constants.heat, Seconds(touch.lasts * touch.times)
    if near.via in {"touching", "other-side"}:
        if touch.tool_kind not in _LIES_ON:
            return touch.source - room
        return nearby.behind_heater(nearby.AreaHeater(Celsius(touch.setting), room), lasts, constants).high - room
    if touch.tool_kind != "hot-air" or touch.shielded or near.distance is None:
        return 0.0
    air = nearby.air_in_plume(Celsius(touch.setting), room, Metres(near.distance.low), constants)
    return nearby.followed_rise(air, room, lasts, _FOLLOWS).high


def _board(trace: Trace) -> heat.Board:
    board = trace.world.device.board if trace.world.device else None
    if board is None:
        return heat.Board()
    area = SquareMetres(board.size[0].low * board.size[1].low) if board.size else None
    return heat.Board(Metres(board.thickness.low) if board.thickness else None, area)
