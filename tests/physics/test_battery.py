"""What a battery holds and as what it travels."""

from __future__ import annotations

import pint
import pytest

from benchleaf.physics.battery import Transport, charge_at_rest, energy, is_small, transport
from benchleaf.physics.types import AmpereHours, Fraction, OutOfRange, Volts, WattHours

UNITS: pint.UnitRegistry[float] = pint.UnitRegistry()
TOO_FULL = "alone it flies at 30 % at the most, and its charge is 45%"


# V x Ah (exact).
@pytest.mark.outside
@pytest.mark.parametrize(
    ("volts", "capacity", "watt_hours"),
    [(3.7, 2.9, 10.73), (3.7, 2.0, 7.40), (3.7, 1.0, 3.70), (14.4, 6.8, 97.92), (3.7, 5.5, 20.35), (3.7, 4.0, 14.8)],
)
def test_energy(volts: float, capacity: float, watt_hours: float) -> None:
    """The energy is the tabled one, and pint's."""
    wanted = UNITS.Quantity(volts, "volt") * UNITS.Quantity(capacity, "ampere_hour")

    assert watt_hours == pytest.approx(energy(Volts(volts), AmpereHours(capacity)), rel=1e-12)
    assert watt_hours == pytest.approx(wanted.to("watt_hour").magnitude, rel=1e-12)


# 20 Wh a cell, 100 Wh a battery (SP188; from memory).
@pytest.mark.parametrize(
    ("cells", "watt_hours", "small"),
    [(1, 10.73, True), (1, 20.0, True), (1, 20.35, False), (8, 97.9, True), (8, 100.1, False), (4, 97.9, False)],
)
def test_small_class(cells: int, watt_hours: float, small: bool) -> None:  # noqa: FBT001 (pytest gives it by name)
    """A pack of one cell counts as a cell, and in a larger one no cell may hold more than a cell may."""
    assert small is is_small(cells, WattHours(watt_hours))


# US rule 2022-27563: alone at most 30 % charge by air (seen); UN 3480 alone, 3481 with equipment (from memory).
@pytest.mark.outside
@pytest.mark.parametrize(
    ("alone", "charge", "found"),
    [
        (
            True,
            0.45,
            Transport("UN 3480", by_air=False, because=TOO_FULL),
        ),
        (True, 0.30, Transport("UN 3480", by_air=True, because="")),
        (False, 0.45, Transport("UN 3481", by_air=True, because="")),
    ],
)
def test_transport(alone: bool, charge: float, found: Transport) -> None:  # noqa: FBT001 (pytest gives it by name)
    """A lithium-ion battery flies alone at 30 % at the most, and in its device as it is."""
    assert found == transport("li-ion", alone=alone, sound=True, charge=Fraction(charge))


def test_charge_not_known() -> None:
    """A charge that nobody read counts as too much."""
    found = transport("li-ion", alone=True, sound=True, charge=None)

    assert not found.by_air
    assert found.because.endswith("is not known")


@pytest.mark.parametrize("chemistry", ["li-ion", "lithium-primary", "lead"])
def test_damaged(chemistry: str) -> None:
    """A damaged battery does not fly, whatever it is made of."""
    assert not transport(chemistry, alone=False, sound=False, charge=Fraction(0.1)).by_air


def test_lithium_metal_and_others() -> None:
    """Lithium metal has numbers of its own, and what is no lithium has none."""
    numbers = [
        transport(kind, alone=alone, sound=True, charge=None).un_number
        for kind in ("lithium-primary", "nimh")
        for alone in (True, False)
    ]

    assert ["UN 3090", "UN 3091", None, None] == numbers


# Below 3.9 V about 60 to 70 %, below 3.8 V about 50 % (common practice, no source).
@pytest.mark.parametrize(("volts", "low", "high"), [(3.9, 0.60, 0.70), (3.8, 0.45, 0.55)])
def test_charge_at_rest(volts: float, low: float, high: float) -> None:
    """The voltage at rest gives the charge of practice, with ten points of doubt."""
    found = charge_at_rest(Volts(volts))

    assert low <= found.central <= high
    assert 0.2 == pytest.approx(found.high - found.low)


def test_voltage_out_of_range() -> None:
    """A voltage that such a cell cannot have tells nothing."""
    with pytest.raises(OutOfRange, match="the voltage at rest"):
        charge_at_rest(Volts(4.4))
