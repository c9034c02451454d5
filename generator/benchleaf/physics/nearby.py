"""Heat that takes another way than along the board: through it, through the air, or from a mat. Bad end: high."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from benchleaf.physics.constants import Heat, method
from benchleaf.physics.rounding import down
from benchleaf.physics.types import Celsius, Estimate, Kelvins, Metres, Seconds, above, within

if TYPE_CHECKING:
    from collections.abc import Iterable

    from benchleaf.physics.repeats import Touches

_PLATE = "finite volumes on a board in two dimensions"
_THROUGH = 0.13


def through_rise(rise: Kelvins) -> Estimate:
    """
    Return the rise of what touches the heated part or sits on the other side of the board: the source's own.

    The truth after a touch of 3 s is 13 % of it without copper through the board and 57 % with; after 60 s under a
    nozzle of 8 mm 63 and 97 %. A bound, near the truth for a long hold or vias only.
    """
    above("the rise of the source", rise, 0, "K", "a tool no hotter than the room heats nothing")
    return Estimate(rise, _THROUGH * rise, rise, "K", "the source's own temperature", _PLATE)


def air_in_plume(setting: Celsius, room: Celsius, distance: Metres, constants: Heat) -> Estimate:
    """
    Return the air, °C, that a part standing proud meets beside a hot-air nozzle.

    Ta + f (setting - Ta) within 20 mm; farther out f falls with the distance, as in a wall jet; nothing beyond
    60 mm. An order of size (common practice, no source). A shield of tape, foil or a cap takes it away; the heat
    through the board stays.
    """
    within("the setting of the hot air", setting, (room, 600.0), "°C", "hot air is warmer than the room")
    above("the distance", distance, 0, "m", "the stream's own core is as hot as it is set")
    reach, share = constants.plume_reach.central, constants.plume_share
    fades = 0.0 if distance > constants.plume_end.central else min(1.0, reach / distance)
    low, central, high = (room + fades * part * (setting - room) for part in (share.low, share.central, share.high))
    return Estimate(central, low, high, "°C", method("share of the nozzle's rise", constants), share.source)


def followed_rise(air: Estimate, room: Celsius, t: Seconds, follows: Seconds) -> Estimate:
    """
    Return the rise, K, of a part in warm air after *t*: 1 - exp(-t/tau) of the air's own.

    tau 30 s for a plug or a lens, 300 s for a pack (common practice, no source); textbook lumped heating.
    """
    above("the time", t, 0, "s", "nothing has happened yet")
    above("the time constant", follows, 0, "s", "a part takes time to warm")
    share = -math.expm1(-t / follows)
    low, central, high = ((end - room) * share for end in (air.low, air.central, air.high))
    return Estimate(central, low, high, "K", f"{air.method}; the part follows in {follows:g} s", air.source)


@dataclass(frozen=True, slots=True)
class Stream:
    """Hot air as often as it is blown, `distance` from the edge of what stands proud; the rise is its setting's."""

    distance: Metres
    touches: Touches


def stream_rise(streams: tuple[Stream, ...], follows: Seconds, since: Seconds, constants: Heat) -> Estimate:
    """
    Return the highest rise, K, from the moment *since* on of a part that stands in *streams* one after the other.

    In each it follows the air as `followed_rise` says; between them it cools as it warmed, but more slowly, as still
    air takes less heat than a stream does. One lump of heat (checked by solving the equation).
    """
    above("the time constant", follows, 0, "s", "a part takes time to warm")
    air = [(one.touches, air_in_plume(Celsius(one.touches.rise), Celsius(0.0), one.distance, constants))
           for one in streams]  # fmt: skip
    slower = constants.still_air
    low, central, high = (
        _peak(
            [_Spell(touches, getattr(found, end), 1 / follows) for touches, found in air], 1 / (follows * slow), since
        )
        for end, slow in (("low", slower.low), ("central", slower.central), ("high", slower.high))
    )
    how = f"share of the nozzle's rise; the part follows in {follows:g} s"
    return Estimate(central, low, high, "K", method(how, constants), constants.plume_share.source)


@dataclass(frozen=True, slots=True)
class _Spell:
    """What a lump of heat strives for, K, and how fast, 1/s, in each of the touches."""

    touches: Touches
    target: float
    pace: float


def _peak(spells: Iterable[_Spell], cooling: float, since: float) -> float:
    """
    Return the highest rise, from *since* on, of a lump that is warmed in *spells* and cools between them.

    The end of a spell is as hot as its start or its target is; *cooling* is the pace between them, 1/s.
    """
    parts = sorted((start, one.touches.on, one.target, one.pace) for one in spells for start in one.touches.starts)
    rise = peak = end = 0.0
    for start, on, target, pace in parts:
        rise *= math.exp(-cooling * max(0.0, start - end))
        rise = target + (rise - target) * math.exp(-pace * on)
        end = max(end, start + on)
        peak = max(peak, rise * math.exp(-cooling * max(0.0, since - end)))
    return peak


@dataclass(frozen=True, slots=True)
class AreaHeater:
    """A mat or plate that is set to a temperature, with a pack behind the part that lies on it."""

    setting: Celsius
    room: Celsius


def behind_heater(heater: AreaHeater, t: Seconds, constants: Heat) -> Estimate:
    """
    Return the temperature, °C, of a pack behind a part that lies on an area heater for *t*.

    T = S + (Ta - S) exp(-(U + h) t/C), S = (U Th + h Ta)/(U + h): a layer of C joules for each kelvin and square
    metre that takes heat through the contact U and loses it at its back (checked by solving the equation).
    """
    above("the time", t, 0, "s", "nothing has happened yet")
    within("the setting of the heater", heater.setting, (heater.room, 300.0), "°C", "it is warmer than the room")
    low, central, high = (
        _layer(heater, t, contact, constants)
        for contact in (constants.heater_contact.low, constants.heater_contact.central, constants.heater_contact.high)
    )
    how = "one layer that takes heat through a contact and loses it at its back"
    return Estimate(central, low, high, "°C", method(how, constants), constants.heater_contact.source)


def _layer(heater: AreaHeater, t: Seconds, contact: float, constants: Heat) -> float:
    back, capacity = constants.pack_back_loss.central, constants.pack_heat_capacity.central
    ends_at = (contact * heater.setting + back * heater.room) / (contact + back)
    return ends_at + (heater.room - ends_at) * math.exp(-(contact + back) * t / capacity)


def heater_rise(touches: tuple[Touches, ...], since: Seconds, constants: Heat) -> Estimate:
    """
    Return the highest rise, K, from *since* on of a pack behind a part that lies on a heater in each of *touches*.

    `behind_heater` for each; between them the pack loses at its back what it took.
    """
    back, capacity = constants.pack_back_loss.central, constants.pack_heat_capacity.central
    contact = constants.heater_contact
    low, central, high = (
        _peak(
            [_Spell(one, through * one.rise / (through + back), (through + back) / capacity) for one in touches],
            back / capacity,
            since,
        )
        for through in (contact.low, contact.central, contact.high)
    )
    how = "one layer that takes heat through a contact and loses it at its back"
    return Estimate(central, low, high, "K", method(how, constants), contact.source)


def along_heater_rise(rise: Kelvins, distance: Metres, thickness: Metres | None, constants: Heat) -> Estimate:
    """
    Return the rise, K, *distance* from the edge of a wide heater, along a board or frame that it warms for long.

    D exp(-m d), m² = 2 h/(k delta): the textbook's fin with a straight edge held for ever. A shorter time and a round
    edge take it lower, an end that is near takes it higher.
    """
    above("the rise of the heater", rise, 0, "K", "a tool no hotter than the room heats nothing")
    above("the distance", distance, 0, "m", "it touches the heater")
    delta = constants.thickness.central if thickness is None else thickness
    k, h = constants.conductivity, constants.face_loss
    low, central, high = (
        rise * math.exp(-distance * math.sqrt(2 * loss / (along * delta)))
        for along, loss in ((k.best, h.best), (k.central, h.central), (k.worst, h.worst))
    )
    return Estimate(central, low, high, "K", method("fin with an edge that is held hot", constants), h.source)


def longest_on_heater(limit: Celsius, heater: AreaHeater, constants: Heat) -> Seconds | None:
    """
    Return how long the heater may stay, whole seconds down, before the pack behind it may reach *limit*.

    None where it may stay for ever.
    """
    above("the limit", limit, heater.room, "°C", "the room itself is too warm for the pack")
    contact, back = constants.heater_contact.worst, constants.pack_back_loss.central
    ends_at = (contact * heater.setting + back * heater.room) / (contact + back)
    if ends_at <= limit:
        return None
    pace = (contact + back) / constants.pack_heat_capacity.central
    return Seconds(down(math.log((ends_at - heater.room) / (ends_at - limit)) / pace))
