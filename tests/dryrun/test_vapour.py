"""Vapour as data: in the air of the bench after each release, and in the case that is shut."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from benchleaf.dryrun.case import shut_cases
from benchleaf.dryrun.vapour import at_the_bench
from tests import make
from tests.dryrun.made import trace

if TYPE_CHECKING:
    from benchleaf.dryrun.case import Shut
    from benchleaf.dryrun.vapour import Gas

BRUSH = "- {{do: Brush it., takes: 1 min, solvent: {{material: {}, volume: {}, on: lamp-socket, area: 2 cm²}}}}\n"


def gases(steps: str) -> list[Gas]:
    """Return the gases at the bench, release by release, of the straight pass through *steps*."""
    made = trace(steps)
    return [gas for air in at_the_bench(made.nature, made.straight) for gas in air.gases]


def shut(steps: str, access: str = "open") -> list[Shut]:
    """Return the cases that the straight pass through *steps* shuts."""
    made = trace(steps, access=access)
    return list(shut_cases(made.world, made.nature, made.straight))


@pytest.mark.outside
@pytest.mark.parametrize(
    ("liquid", "volume", "mean", "peak"),
    # The two-zone model solved by steps for 45 m³ of air, three changes an hour, 0.1 m/s over the bench, 20 °C.
    [("isopropanol", "3 mL", 23.9, 774), ("isopropanol", "2 mL", 15.9, 516)],
)
def test_one_release(liquid: str, volume: str, mean: float, peak: float) -> None:
    """The 15-minute mean and the peak of one release are those of the two-zone model solved by steps."""
    [gas] = gases(BRUSH.format(liquid, volume))

    assert pytest.approx(mean, rel=0.01) == gas.mean.central
    assert pytest.approx(peak, rel=0.02) == gas.peak.central


def test_nothing_is_released() -> None:
    """No liquid at all gives off nothing."""
    assert [] == gases(BRUSH.format("isopropanol", "0 mL"))


def test_limit_of_nothing() -> None:
    """A shop that takes none of a vapour has a limit that any of it passes."""
    own = "isopropanol: {title: Isopropanol, exposure_limit: 0 ppm}\n"
    steps = BRUSH.format("isopropanol", "1 µL")
    made = trace(steps, materials=make.MATERIALS + own)

    [air] = at_the_bench(made.nature, made.straight)

    assert air.too_much


def test_releases_add_up() -> None:
    """What was released within the quarter of an hour counts as if released at once."""
    [_, two] = gases(BRUSH.format("isopropanol", "1 mL") * 2)
    [one] = gases(BRUSH.format("isopropanol", "2 mL"))

    assert pytest.approx(one.mean.worst) == two.mean.worst
    assert one.peak.worst / 2 < two.peak.worst < one.peak.worst


def test_old_release_has_left() -> None:
    """What was released hours before has left with the air of the room."""
    brush = BRUSH.format("isopropanol", "1 mL")
    [_, two] = gases(f"{brush}- {{do: Wait., wait: {{for: 4 h}}}}\n{brush}")
    [one] = gases(brush)

    assert pytest.approx(one.mean.worst, rel=0.01) == two.mean.worst
    assert pytest.approx(2 * one.day.worst) == two.day.worst


def test_water_is_no_vapour() -> None:
    """Water in the air harms nobody and is not listed."""
    assert [] == gases(BRUSH.format("deionised-water", "1 mL"))


def test_case_is_shut_once() -> None:
    """The shell that comes back shuts the case; a level inside another one shuts none of its own."""
    assert ["open-closing-2"] == [case.moment.step.id for case in shut("- {do: Look on.}", access="bare-board")]


@pytest.mark.outside
def test_share_in_case() -> None:
    """A tenth of the lower explosive limit in 40 cm³ is 0.00025 mL of isopropanol, two thirds of that in 60 cm³."""
    [case] = shut(BRUSH.format("isopropanol", "0.00025 mL"))

    assert pytest.approx(0.1, rel=0.02) == case.share


def test_dry_case_holds_nothing() -> None:
    """What has dried by time is not shut in."""
    wet = BRUSH.format("isopropanol", "0.5 mL")
    [soon], [late] = shut(wet), shut(f"{wet}- {{do: Leave it., wait: {{for: 1 h}}}}")

    assert soon.too_much
    assert not late.too_much
