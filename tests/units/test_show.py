"""Numbers as people read them: in the shop's unit, and rounded towards safety."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

import pytest

from benchleaf.units.parse import parse
from benchleaf.units.show import amount, interval, temperature, tidy, torque

if TYPE_CHECKING:
    from benchleaf.units.quantity import Torque


@pytest.mark.parametrize(
    ("written", "unit", "shown"),
    [
        ("7 cN·m", "cN·m", ("7 cN·m", "")),
        ("7 cNm", "cN·m", ("7 cN·m", "")),
        ("0.07 N·m", "cN·m", ("7 cN·m", "written 0.07 N·m")),
        ("1 lbf·in", "cN·m", ("11.2 cN·m", "written 1 lbf·in")),
        ("10–12 cN.m", "mN·m", ("100–120 mN·m", "written 10–12 cN·m")),
        ("1 kgf·cm", "cN·m", ("9.8 cN·m", "written 1 kgf·cm")),
    ],
)
def test_torque(written: str, unit: str, shown: tuple[str, str]) -> None:
    """A torque stands in the shop's unit, rounded down, with the written value beside it."""
    assert shown == torque(cast("Torque", parse(written, "torque")), unit)


@pytest.mark.parametrize(
    ("written", "unit", "shown"),
    [
        ("60 °C", "°C", "60 °C"),
        ("60 °C", "°F", "140 °F (written 60 °C)"),
        ("150 °F", "°C", "65.5 °C (written 150 °F)"),
        ("60–75 °C", "K", "333–348 K (written 60–75 °C)"),
    ],
)
def test_temperature(written: str, unit: str, shown: str) -> None:
    """A limit in another unit is rounded down, with the written value beside it."""
    assert shown == temperature(parse(written, "temperature"), unit)


@pytest.mark.parametrize(
    ("low", "high", "shown"),
    [(0, 0, "0 min"), (5.5, 10.2, "5–11 s"), (60, 60, "60 s"), (100, 150, "1–3 min"), (7200, 14000, "2–4 h"),
     (86400, 86400, "24 h")],
)  # fmt: skip
def test_interval(low: float, high: float, shown: str) -> None:
    """A stretch of time is rounded outwards."""
    assert shown == interval(low, high)


@pytest.mark.parametrize(
    ("value", "dimension", "shown"),
    [(5e-7, "volume", "0.5 mL"), (5.001e-7, "volume", "0.501 mL"), (5e-9, "volume", "5 µL"), (3e-4, "mass", "0.3 g"),
     (3e-6, "mass", "3 mg"), (3e-7 + 3e-7, "volume", "0.6 mL")],
)  # fmt: skip
def test_amount(value: float, dimension: str, shown: str) -> None:
    """An amount to have at hand is rounded up, and not by the error of its conversion."""
    assert shown == amount(value, dimension)


@pytest.mark.parametrize(
    ("written", "shown"),
    [("5-10 s", "5–10 s"), ("12 cN.m", "12 cN·m"), ("12 cNm", "12 cN·m"), (">= 10 kohm", "≥ 10 kΩ"),
     ("-20 °C", "-20 °C"), ("3 uL", "3 µL"), ("2 cm2", "2 cm²"), ("60 cm3", "60 cm³"), ("5 to 10 s", "5 to 10 s")],
)  # fmt: skip
def test_tidy(written: str, shown: str) -> None:
    """What was typed on any keyboard stands in print with the signs that print well."""
    assert shown == tidy(written)
