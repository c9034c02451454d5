"""Reflow profiles, melting and moisture, against reprints of the J-STD tables."""

from __future__ import annotations

import pytest

from benchleaf.library.alloys import ALLOYS
from benchleaf.physics.profile import (
    Profile,
    capacitor_tip_limit,
    classification_temperature,
    excesses,
    floor_life_over,
    least_iron,
    melts,
    reflow_limits,
)
from benchleaf.physics.types import Celsius, CubicMetres, Metres, OutOfRange, Seconds

LEAD_FREE = reflow_limits(ALLOYS["sac305"])


# J-STD-020 table 4-2 (seen in a reprint), °C; 2.0 mm and 500 mm³ is 250.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("millimetres", "row"),
    [(1.5, (260, 260, 260)), (1.6, (260, 250, 245)), (2.0, (260, 250, 245)), (2.5, (250, 245, 245))],
)
def test_classification_lead_free(millimetres: float, row: tuple[int, ...]) -> None:
    """The classification temperature of a package for lead-free solder is the table's."""
    found = [
        classification_temperature(Metres(millimetres / 1e3), CubicMetres(volume * 1e-9), lead_free=True)
        for volume in (300, 500, 2500)
    ]

    assert [float(celsius) for celsius in row] == [float(celsius) for celsius in found]


# Tables 4-1 of revisions C (seen) and D (layout from memory): the lower of the two.
@pytest.mark.outside
@pytest.mark.parametrize(("millimetres", "volume", "celsius"), [(2.0, 300, 235), (2.0, 400, 220), (3.0, 300, 220)])
def test_classification_tin_lead(millimetres: float, volume: float, celsius: float) -> None:
    """For tin-lead the lower of two revisions is the user's."""
    size = Metres(millimetres / 1e3), CubicMetres(volume * 1e-9)

    assert celsius == classification_temperature(*size, lead_free=False)


# J-STD-020 (seen): 3 K/s up, 6 K/s down, 60 to 150 s above liquidus, 8 minutes to the peak, on the user's side.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("profile", "found"),
    [
        (Profile(ramp_up=3.5), ["ramp up"]),
        (Profile(ramp_up=3.0), []),
        (Profile(ramp_down=6.5), ["ramp down"]),
        (Profile(soak=Seconds(130.0)), ["soak"]),
        (Profile(above_liquidus=Seconds(150.0), to_peak=Seconds(480.0)), []),
        (Profile(above_liquidus=Seconds(151.0), to_peak=Seconds(481.0)), ["time above liquidus", "time to the peak"]),
        (Profile(peak=Celsius(250.0), near_peak=Seconds(31.0)), ["time near the peak"]),
        (Profile(peak=Celsius(251.0)), ["peak"]),
    ],
)
def test_profile(profile: Profile, found: list[str]) -> None:
    """What is beyond the standard's limits is named, and what is at them is not."""
    assert found == [excess.what for excess in excesses(profile, LEAD_FREE, Celsius(250.0))]


# J-STD-033 (seen; 2a from memory): hours out of the bag.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("level", "hours", "over"),
    [("3", 170, True), ("3", 167, False), ("4", 73, True), ("5", 48, False), ("5a", 25, True), ("1", 1e6, False)],
)
def test_floor_life(level: str, hours: float, over: bool) -> None:  # noqa: FBT001 (pytest gives it by name)
    """A part is out of its bag too long after the hours of its level."""
    assert over is floor_life_over(level, Seconds(hours * 3600))


# One maker's common specification of chip capacitors (seen): no preheat 250 °C for 1206, 270 °C for 0603; 300 °C with.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("size", "preheated", "most"),
    [("1206", False, 250), ("0603", False, 270), ("1210", False, 250), ("1206", True, 300)],
)
def test_capacitor(size: str, preheated: bool, most: float) -> None:  # noqa: FBT001 (pytest gives it by name)
    """A tip of 260 °C is too hot for a cold 1206 and not for a 0603."""
    assert most == capacitor_tip_limit(size, preheated=preheated)


# Liquidus from solder tables (seen), the higher of two; 60 K above for an iron (common practice).
@pytest.mark.parametrize(("name", "least"), [("sac305", 280), ("sn63pb37", 243), ("sn42bi58", 198)])
def test_iron(name: str, least: float) -> None:
    """An iron is set 60 K above the liquidus at the least, and solder melts from the liquidus on."""
    alloy = ALLOYS[name]

    assert least == least_iron(alloy)
    assert melts(alloy, Celsius(least - 60))
    assert not melts(alloy, Celsius(least - 61))


@pytest.mark.parametrize(
    ("argument", "build"),
    [
        ("the alloy is sn42bi58", lambda: reflow_limits(ALLOYS["sn42bi58"])),
        ("the thickness", lambda: classification_temperature(Metres(0.0), CubicMetres(1e-7), lead_free=True)),
        ("the moisture level is 6", lambda: floor_life_over("6", Seconds(1.0))),
        ("the size of the capacitor is 2220", lambda: capacitor_tip_limit("2220", preheated=True)),
    ],
)
def test_out_of_range(argument: str, build: object) -> None:
    """What the standards do not speak of is refused by name."""
    assert callable(build)
    with pytest.raises(OutOfRange, match=argument):
        build()
