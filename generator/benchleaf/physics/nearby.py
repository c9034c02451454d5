"""Heat that takes another way than along the board: through it, through the air, or from a mat. Bad end: high."""

from __future__ import annotations

import math
from dataclasses import dataclass

from benchleaf.physics.constants import Heat, method
from benchleaf.physics.rounding import down
from benchleaf.physics.types import Celsius, Estimate, Kelvins, Metres, Seconds, above, within

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
