"""What a caution says more than the message that the dry run gives by itself: anything that may be news is."""

from __future__ import annotations

import pytest

from benchleaf.checks.text.cautions import says_more
from benchleaf.dryrun.hazards.kind import given
from benchleaf.physics.types import Estimate

MESSAGE = (
    "The soldering iron is set to {setting}, and the charge port stays too hot for a hand for {cooling}. "
    "A touch burns the skin. Use tweezers. Put the tool back in its stand."
)
NUMBERS = {"setting": given(350.0, "°C"), "cooling": Estimate(200.0, 100.0, 300.0, "s", "cooling", "ours")}


@pytest.mark.parametrize(
    "text",
    [
        "Hot!",
        "Careful: the soldering iron is hot.",
        "Do not touch the charge port.",
        "You may burn your fingers.",
        "The iron is set to 350 °C.",
        "The iron is set to 662 °F.",
        "Use tweezers, please.",
    ],
)
def test_nothing_new(text: str) -> None:
    """A caution whose words and numbers all stand in the message says no more than it."""
    assert not says_more(text, "heat", MESSAGE, NUMBERS)


@pytest.mark.parametrize(
    "text",
    [
        "The iron is set to 360 °C.",
        "The port stays hot for 5 min.",  # computed, and a range: the author's own number is news
        "Use the long tweezers.",
        "The shield is hot.",
        "Do not use tweezers.",
        "Do not put the tool back in its stand.",
        "It is hot until the lamp turns green.",
        "2 hands are too many.",
        "Never touch the skin of the window.",
    ],
)
def test_something_new(text: str) -> None:
    """A number, a thing, a condition, or the contrary of what the message says is something new."""
    assert says_more(text, "heat", MESSAGE, NUMBERS)


def test_unknown_hazard() -> None:
    """A hazard that has no words of its own is named by its own name."""
    assert not says_more("Beware of noise.", "noise", "", {})
