"""The height of letters at a distance, against the formula of NUREG-0700."""

from __future__ import annotations

import pytest

from benchleaf.physics.reading import capital_height, capital_pixels, type_size
from benchleaf.physics.types import ArcMinutes, Metres, OutOfRange


# Exact; NUREG-0700 has 6.283 D MA/21600 (seen). Tolerance 0.1 %.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("distance", "arc", "millimetres"),
    [(0.5, 16, 2.327), (1.0, 20, 5.818), (1.2, 16, 5.585), (1.2, 20, 6.981), (1.2, 22, 7.680)],
)
def test_height(distance: float, arc: float, millimetres: float) -> None:
    """A capital is as high as was tabled, and as the formula of NUREG-0700 says."""
    found = capital_height(Metres(distance), ArcMinutes(arc)) * 1e3

    assert millimetres == pytest.approx(found, rel=0.001)
    assert 6.283 * distance * 1e3 * arc / 21600 == pytest.approx(found, rel=0.001)


# 1.2 m, pixels of 0.277 mm, 20': 25.2 px, type of 36.0 px (arithmetic).
@pytest.mark.outside
def test_pixels() -> None:
    """At 1.2 m capitals of 20 minutes take 25.2 pixels, and type of 36 or the next whole pixel."""
    height = capital_height(Metres(1.2), ArcMinutes(20.0))

    assert 25.2 == pytest.approx(capital_pixels(height, Metres(0.277e-3)), rel=0.001)
    assert type_size(Metres(1.2), Metres(0.277e-3), ArcMinutes(20.0)) in {36.0, 37.0}


def test_type_is_large_enough() -> None:
    """The size of type that is named gives capitals that are not below what is wanted."""
    size = type_size(Metres(0.7), Metres(0.25e-3), ArcMinutes(16.0))

    assert size * 0.70 * 0.25e-3 >= capital_height(Metres(0.7), ArcMinutes(16.0))


def test_out_of_range() -> None:
    """A screen in the hand, and one across the street, are none of ours."""
    with pytest.raises(OutOfRange, match="the distance of the screen"):
        capital_height(Metres(0.2), ArcMinutes(20.0))
