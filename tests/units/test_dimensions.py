"""What every unit is worth, beside the table of pint (https://pint.readthedocs.io), which is not ours."""

from __future__ import annotations

import pint
import pytest

from benchleaf.units.dimensions import CURRENCY, DIMENSIONS, EXAMPLES, spellings, units_that_fit
from benchleaf.units.parse import parse
from benchleaf.units.quantity import KINDS

PINT: pint.UnitRegistry[float] = pint.UnitRegistry()

# Each unit of ours in pint's words, and the base unit of its dimension.
BASES = {
    "temperature": "degC", "time": "s", "length": "m", "area": "m**2", "volume": "m**3", "mass": "kg", "torque": "N*m",
    "force": "N", "pressure": "Pa", "voltage": "V", "current": "A", "resistance": "ohm", "capacitance": "F",
    "charge": "C", "energy": "J", "power": "W", "frequency": "Hz", "ratio": "dimensionless", "rate": "1/s",
    "speed": "m/s", "temperature-rate": "K/s",
    "conductivity": "W/m/K", "heat-transfer": "W/m**2/K", "heat-capacity": "J/m**3/K",
}  # fmt: skip
WORDS = {
    "°C": "degC", "°F": "degF", "K": "K", "d": "day",
    "mm²": "mm**2", "cm²": "cm**2", "m²": "m**2", "cm³": "cm**3", "m³": "m**3",
    "cN·m": "cN*m", "N·m": "N*m", "mN·m": "mN*m", "N·cm": "N*cm", "kgf·cm": "kgf*cm", "gf·cm": "gram_force*cm",
    "lbf·in": "lbf*in", "ozf·in": "ounce_force*in",
    "Ω": "ohm", "mΩ": "mohm", "kΩ": "kohm", "MΩ": "Mohm", "mAh": "mA*hour", "Ah": "A*hour", "Wh": "W*hour",
    "%": "percent", "ppm": "ppm", "/h": "1/hour", "K/s": "K/s", "°C/s": "delta_degC/s", "m/s": "m/s",
    "W/mK": "W/m/K", "W/m²K": "W/m**2/K", "MJ/m³K": "MJ/m**3/K",
}  # fmt: skip
MEASURED = [(name, unit.symbol) for name, units in DIMENSIONS.items() for unit in units]
SPELLED = [(name, spelling) for name in DIMENSIONS for spelling in spellings(name)]


@pytest.mark.outside
@pytest.mark.parametrize(("dimension", "symbol"), MEASURED, ids=str)
@pytest.mark.parametrize("value", [0.0, 1.0, 37.5])
def test_worth_of_unit(dimension: str, symbol: str, value: float) -> None:
    """A value in each unit is, in the base unit, what pint makes of it."""
    expected = PINT.Quantity(value, WORDS.get(symbol, symbol)).to(BASES[dimension]).magnitude

    assert spellings(dimension)[symbol].to_base(value) == pytest.approx(expected, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(("dimension", "symbol"), MEASURED, ids=str)
def test_there_and_back(dimension: str, symbol: str) -> None:
    """A value that is taken to the base unit and back is the same."""
    unit = spellings(dimension)[symbol]

    assert unit.from_base(unit.to_base(37.5)) == pytest.approx(37.5, rel=1e-12)


@pytest.mark.parametrize(("dimension", "spelling"), SPELLED, ids=str)
@pytest.mark.parametrize("space", [" ", ""], ids=["space", "no space"])
def test_every_spelling_is_read(dimension: str, spelling: str, space: str) -> None:
    """Each spelling of a unit is read, with a space before it or without, as the unit that it means."""
    unit = spellings(dimension)[spelling]

    quantity = parse(f"2.5{space}{spelling}", dimension)

    assert (unit.to_base(2.5), unit.to_base(2.5), unit.symbol) == (quantity.low, quantity.high, quantity.unit)


def test_spellings_of_the_format() -> None:
    """Every spelling that the format's page names is known."""
    named = {
        "temperature": "°C °F K", "time": "s min h d", "length": "µm mm cm m in", "volume": "µL mL L cm³ m³",
        "mass": "mg g kg", "torque": "N·m cN·m N·cm mN·m kgf·cm gf·cm lbf·in ozf·in cN.m cNm", "force": "N kgf lbf",
        "pressure": "Pa kPa bar psi", "resistance": "kΩ kohm", "charge": "mAh Ah", "energy": "J Wh", "power": "W",
        "ratio": "% ppm", "rate": "/h", "speed": "m/s", "temperature-rate": "K/s °C/s",
    }  # fmt: skip

    written = [(name, unit) for name, units in named.items() for unit in units.split()]

    assert [] == [(name, unit) for name, unit in written if unit not in spellings(name)]


@pytest.mark.parametrize("pair", [("µ", "μ"), ("Ω", "\u2126")], ids=["micro sign and mu", "omega and ohm sign"])
def test_signs_that_look_alike(pair: tuple[str, str]) -> None:
    """Two signs that look alike on every screen mean the same unit."""
    one, other = pair
    known = {(name, spelling): unit for name in DIMENSIONS for spelling, unit in spellings(name).items()}
    twins = {
        (name, spelling): (unit, known.get((name, spelling.replace(one, other))))
        for (name, spelling), unit in known.items()
        if one in spelling
    }

    assert twins
    assert [] == [place for place, (unit, twin) in twins.items() if unit != twin]


def test_no_spelling_means_two_units() -> None:
    """Within a dimension each spelling means one unit."""
    counts = {name: sum(1 + len(unit.also) for unit in units) for name, units in DIMENSIONS.items()}

    assert counts == {name: len(spellings(name)) for name in DIMENSIONS}


def test_each_dimension_is_complete() -> None:
    """Each dimension has a type, an example that is read as it, and units to name."""
    assert list(DIMENSIONS) == list(KINDS)
    assert {name: name for name in DIMENSIONS} == {name: parse(EXAMPLES[name], name).dimension for name in DIMENSIONS}
    assert all(units_that_fit(name) for name in DIMENSIONS)


def test_money_has_no_rate() -> None:
    """Currencies are not turned into each other: the unit of an amount is its currency."""
    amount, rate = parse("60 EUR", "money"), parse("48 SEK/h", "money-rate")

    assert {"money", "money-rate"} == set(CURRENCY)
    assert (60.0, "EUR", 48.0, "SEK/h") == (amount.low, amount.unit, rate.low, rate.unit)
