"""The energy of a charged capacitor, and from when on it is a danger."""

from __future__ import annotations

import pint
import pytest

from benchleaf.physics.stored import energy, is_dangerous
from benchleaf.physics.types import Farads, OutOfRange, Volts


@pytest.mark.outside
@pytest.mark.parametrize(("microfarads", "volts"), [(22, 330), (120, 300), (470, 35), (1, 50)])
def test_energy(microfarads: float, volts: float) -> None:
    """The energy is half the capacitance times the square of the voltage, as pint converts it."""
    units: pint.UnitRegistry[float] = pint.UnitRegistry()
    expected = (0.5 * units.Quantity(microfarads, "µF") * units.Quantity(volts, "V") ** 2).to("J").magnitude

    assert expected == pytest.approx(energy(Farads(microfarads * 1e-6), Volts(volts)), rel=1e-12)


@pytest.mark.parametrize(
    ("farads", "volts", "expected"),
    [
        (22e-6, 330, True),
        (80e-6, 51, True),
        (2200e-6, 50, False),
        (70e-6, 51, False),
        (2e-6, 300, False),
        (0.0, 300, False),
        (22e-6, 0.0, False),
    ],
)
def test_danger(farads: float, volts: float, expected: bool) -> None:  # noqa: FBT001 (pytest gives it by name)
    """A hand is in danger above 0.1 J and above 50 V: of both, not of one."""
    assert is_dangerous(Farads(farads), Volts(volts)) is expected


@pytest.mark.parametrize(("farads", "volts"), [(0, 300), (22e-6, 0), (-1e-6, 300)])
def test_capacitor_that_is_none(farads: float, volts: float) -> None:
    """What has no capacitance or no voltage is refused and not computed."""
    with pytest.raises(OutOfRange):
        energy(Farads(farads), Volts(volts))
