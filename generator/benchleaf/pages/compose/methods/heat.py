"""How warm things get, and how long they stay so."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchleaf.pages.compose.methods.kind import ends, one
from benchleaf.pages.lists import Method
from benchleaf.physics import cooling, heat, nearby
from benchleaf.physics.constants import DEFAULT
from benchleaf.physics.repeats import Touches
from benchleaf.physics.types import Celsius, Kelvins, Metres, Seconds

if TYPE_CHECKING:
    from collections.abc import Iterator

_BOARD = heat.Board(Metres(0.8e-3))


def methods() -> Iterator[Method]:
    """Yield the methods of heat."""
    touches = Touches(Kelvins(329.0), Metres(1e-3), Seconds(3.0), 9, Seconds(4.0))
    place = heat.Heated(Metres(14e-3), (touches,), heat.Tool.IRON)
    yield Method(
        "neighbour",
        "Heat at a neighbour on the board",
        "How warm a part gets beside one that is heated, by all touches together, also after the tool has left.",
        (
            "one hold: T(r, t) = D · L⁻¹{ K0(r q) / (s K0(r0 q)) },  q = √((s + b)/a)",
            "a = k/(ρc),  b = 2 h/(ρc δ),  r = distance + r0",
            (
                "repeats: the bad end is the lower of one hold without a pause and the sum of all doses of heat; "
                "the low end holds the spot at room temperature in each pause; central: √ of the product "
                "of both, with the central constants"
            ),
        ),
        (
            ("D", "how much hotter the spot is than the room"),
            ("r0", "half the contact of the tool"),
            ("k", "conductivity along the board, 20 (10 to 50) W/mK"),
            ("h", "loss of each face, 10 (8 to 15) W/m²K"),
            ("ρc", "heat capacity, 2.0 MJ/m³K"),
            ("δ", "thickness of the board"),
            ("K0", "modified Bessel function; L⁻¹ by Stehfest's twelve terms"),
        ),
        "The fixed-temperature disc on a thin plate (textbooks of conduction); Stehfest, Communications of the ACM "
        "13 (1970) 47; constants: common practice, no source",
        "thin boards to 3 mm, outside the contact of the tool",
        "Against finite volumes: the bad end 0 to 55 % above, the central value −12 to +19 %. Boards are thicker and "
        "contacts poorer than reckoned: both are on the safe side.",
        "iron at 350 °C in a room of 21 °C, contact 2 mm, 9 touches of 3 s with 4 s between, a part 14 mm away, "
        "board 0.8 mm: rise of the part. This one takes a computer: K0 and twelve terms for each dose; low with k 10 "
        "and h 15, high with k 50 and h 8",
        ends(heat.neighbour_rise((place,), _BOARD, DEFAULT.heat), "K"),
    )
    air = nearby.air_in_plume(Celsius(380.0), Celsius(21.0), Metres(10e-3), DEFAULT.heat)
    yield Method(
        "plume",
        "Heat through the air",
        "How hot the air beside a nozzle is: parts that stand proud within its reach follow it.",
        ("air = room + f · (setting − room),  within 20 mm; beyond, f · 20 mm/distance, to 60 mm",),
        (("f", "share of the nozzle's rise, 0.24 (0.16 to 0.32)"),),
        "common practice, no source",
        "nozzles of hot air over parts on a board",
        "a factor of 1.5 either way",
        "hot air at 380 °C in a room of 21 °C: air 10 mm beside it",
        ends(air, "°C"),
    )
    case = cooling.Cooldown(Celsius(245.0), Celsius(21.0), None, Metres(0.8e-3))
    rise = cooling.rise_after(cooling.OnBoard(Kelvins(224), Kelvins(224), Seconds(40), Seconds(100)), Seconds(100))
    yield Method(
        "cool-down",
        "Cooling",
        "How long a heated part stays too hot for a hand, or to be closed in.",
        ("rise(t) = D e^(−t/τp) + Z τb/(τb − τp) · (e^(−t/τb) − e^(−t/τp))", "τb = ρc δ/(2 h)"),
        (
            ("D", "rise of the part at the start"),
            ("Z", ("rise of the board round it: D under hot air, the neighbour 15 mm away under an iron")),
            ("τp", "time of the part, 20 (10 to 40) s"),
            ("τb", "time of the board: 80 (53 to 100) s at 0.8 mm"),
        ),
        "Two bodies, each of one temperature (textbooks of heat transfer); thresholds for a hand: IEC 62368-1 Table "
        "38, seen second hand",
        "parts on boards; free parts with a Biot number below 0.1",
        "The bad end is never short in the cases tried with finite volumes, and up to 45 % long.",
        "hot air, part at 245 °C, room 21 °C, board 0.8 mm, so D = Z = 224 K: time until 48 °C, a rise of 27 K; low "
        "with τp 10 and τb 53, central with 20 and 80, high with 40 and 100; and the rise after 100 s with 40 and 100",
        (*ends(cooling.cool_time(case, Celsius(48.0), DEFAULT), "s"), one("Rise after 100 s", rise, "K")),
    )
    pack = nearby.behind_heater(nearby.AreaHeater(Celsius(80.0), Celsius(21.0)), Seconds(300.0), DEFAULT.heat)
    settled = (30 * 80 + 10 * 21) / 40
    yield Method(
        "heater",
        "A pack behind a heat mat",
        "How warm a pack gets on the other side of what lies on a mat or a plate.",
        ("T = S + (room − S) e^(−(U + h) t/C),  S = (U Th + h room)/(U + h)",),
        (
            ("Th", "temperature of the mat"),
            ("U", "contact, 30 (10 to 100) W/m²K"),
            ("h", "10 W/m²K at its back"),
            ("C", "10 kJ/m²K: a pouch of 4 to 5 mm"),
        ),
        "one body with two faces (textbook); constants: common practice, no source",
        "pouches and flat packs",
        "a factor of 3 in the contact: only a measurement tells",
        "mat 80 °C, room 21 °C, 300 s; low with U 10, high with U 100. By hand, central: "
        f"S = {settled:.2f} °C, T = {settled + (21 - settled) * math.exp(-40 * 300 / 1e4):.1f} °C",
        ends(pack, "°C"),
    )
