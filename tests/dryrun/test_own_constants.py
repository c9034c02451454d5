"""What a shop knows better than common practice: it goes into every estimate, and every estimate says so."""

from __future__ import annotations

import pytest

from benchleaf.dryrun.performed import nature
from benchleaf.library.substances import SUBSTANCES
from benchleaf.physics import drying
from benchleaf.physics.types import Celsius, CubicMetres, Estimate, Fraction, MetresPerSecond, SquareMetres
from tests import make

FILM = "constants: {{flooded-film: {{low: {}, central: {}, high: {}, because: Weighed on our own boards.}}}}\n"


def _shop(constants: str) -> dict[str, str | bytes | None]:
    return {f"{make.DOCS}/shop.yml": make.SHOP + constants}


def _dry(constants: str) -> Estimate:
    own = nature(make.check(_shop(constants)).base).constants
    air = drying.Air(Celsius(21.0), MetresPerSecond(0.1), Fraction(0.5))
    patch = drying.Patch(CubicMetres(2e-6), SquareMetres(2e-4), drying.Film.FLOODED)
    return drying.drying_time(SUBSTANCES["isopropanol"], patch, air, own.drying)


def test_own_constant_is_used_and_named() -> None:
    """A film twice as thick takes twice as long to dry, and the method says whose film it is."""
    usual, own = _dry(""), _dry(FILM.format("100 µm", "100 µm", "100 µm"))

    assert 2 * usual.central == pytest.approx(own.central)
    assert "own" not in usual.method
    assert "with the shop's own flooded" in own.method


@pytest.mark.parametrize(
    ("low", "central", "high"),
    [
        ("60 µm", "50 µm", "70 µm"),
        ("40 µm", "80 µm", "70 µm"),
        ("0 µm", "50 µm", "70 µm"),
    ],
)
def test_ends_that_are_no_range(low: str, central: str, high: str) -> None:
    """Ends that do not hold the central value between them are found at that value, and nothing else is."""
    [found] = make.check(_shop(FILM.format(low, central, high))).findings

    assert ("wrong-value", central) == (found.rule, _written(found.place.line, found.place.column, low, central, high))
    assert "would be no range" in found.message


def _written(line: int, column: int, *ends: str) -> str:
    text = (make.SHOP + FILM.format(*ends)).splitlines()[line - 1][column - 1 :]
    return text.split(",")[0]
