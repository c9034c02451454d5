"""Safety messages: the right word, before the step, with the number in them, once for as long as they hold."""

from __future__ import annotations

from collections import Counter
from functools import cache
from itertools import combinations

import pytest

from benchleaf import build
from benchleaf.derive.callouts import Callout, callouts, spoken
from benchleaf.dryrun.hazards.every import at_most_dangers, hazards
from benchleaf.dryrun.hazards.kind import given, limit
from benchleaf.dryrun.performed import performed
from benchleaf.physics.types import Estimate
from benchleaf.source.folder import scan
from tests import make
from tests.conftest import ROOT
from tests.dryrun.dangers import CELSIUS, misworded, numberless
from tests.dryrun.made import trace


@cache
def _demonstration() -> tuple[tuple[str, tuple[str, ...], tuple[Callout, ...]], ...]:
    """Return, for each performance, its name, the ids of its steps, and its messages."""
    return tuple(
        (f"{one.procedure.device}/{one.procedure.id}", tuple(at.step.id for at in one.straight), callouts(one, CELSIUS))
        for one in performed(build.check(scan(ROOT, "procedures")).base)
    )


def test_words_fit_the_hazards() -> None:
    """Each message has one of the signal words that its hazard can have."""
    assert [] == [(name, *one) for name, _, found in _demonstration() for one in misworded(found)]


def test_numbers_stand_in_the_words() -> None:
    """Each number that is computed of a hazard can be read in its message, and no place for one is left empty."""
    assert [] == [(name, *one) for name, _, found in _demonstration() for one in numberless(found)]


def test_said_once_while_in_force() -> None:
    """Two messages in the same words are never in force together, nor one right after the other."""
    twice = [
        (name, one)
        for name, steps, found in _demonstration()
        for one, other in combinations(found, 2)
        if (one.what, one.avoid) == (other.what, other.avoid) and steps.index(other.step) <= steps.index(one.until) + 1
    ]

    assert [] == twice


def test_before_the_first_dangerous_step() -> None:
    """Every hazard has a message that stands at its first step or before, and that is in force to its end."""
    uncovered = [
        (one.procedure.id, hazard.what)
        for one in performed(build.check(scan(ROOT, "procedures")).base)
        for steps in [[at.step.id for at in one.straight]]
        for said in [callouts(one, CELSIUS)]
        for hazard in hazards(one)
        if not any(
            message.hazard == hazard.hazard
            and steps.index(message.step) <= hazard.first
            and steps.index(message.until) >= hazard.last
            for message in said
        )
    ]

    assert [] == uncovered


def test_a_swollen_pack_is_a_danger() -> None:
    """A pack that came swollen is a DANGER from before the first step until it is away, and again when it is lifted."""
    arrived, lifted = [
        message
        for message in callouts(
            trace(
                "- {do: Lift the battery out., remove: battery}\n"
                "- {do: Put it away., store: {part: battery, as: do-not-use}}\n",
                fields="arrives: {battery: swollen}\n",
            ),
            CELSIUS,
        )
        if message.signal == "danger"
    ]

    assert ("battery", "open-opening-1", "steps-2") == (arrived.hazard, arrived.step, arrived.until)
    assert ("battery", "steps-1", "steps-1") == (lifted.hazard, lifted.step, lifted.until)
    assert "swollen and holds 4.44 Wh" in lifted.what


def test_a_swollen_pack_that_is_lifted_at_once() -> None:
    """Where the first step lifts a swollen pack, one DANGER stands before it and not two."""
    dangers = [
        message
        for message in callouts(
            trace(
                "- {do: Lift the battery out., remove: battery}\n- {do: Look on.}\n",
                access="closed",
                fields="arrives: {battery: swollen}\n",
            ),
            CELSIUS,
        )
        if message.signal == "danger"
    ]

    assert ["steps-1"] == [message.step for message in dangers]


def test_vapour_is_told_from_a_tenth_of_its_limit() -> None:
    """Little vapour is not worth a word; from a tenth of the limit on it is, with both numbers."""
    pour = "- {{do: Wash it., solvent: {{material: isopropanol, volume: {} mL, on: main-board, area: 20 cm²}}}}"
    little, much = ([one for one in callouts(trace(pour.format(volume)), CELSIUS) if one.hazard == "vapour"]
                    for volume in (0.5, 20))  # fmt: skip

    assert [] == little
    assert ["vapour"] == [one.hazard for one in much]
    assert {"mean", "limit"} == much[0].numbers.keys()


def test_no_more_dangers_than_can_be() -> None:
    """What is quickly said of how many DANGERs can stand before one step is never less than there are."""
    two = make.WADER.replace(
        "  pack: {part: battery,",
        "  spare: {part: lamp, chemistry: li-ion, cells: 1}\n  pack: {part: battery,",
    )
    lifted = trace(
        "- {do: Lift it out., remove: battery}\n- {do: Lift it out., remove: lamp}\n",
        fields="arrives: {battery: swollen}\n",
        wader=two,
    )
    every = [*performed(build.check(scan(ROOT, "procedures")).base), lifted]
    counts = [max(Counter(one.first for one in hazards(each) if one.signal == "danger").values(), default=0)
              for each in every]  # fmt: skip

    assert [] == [each.procedure.id for each, count in zip(every, counts, strict=True) if count > at_most_dangers(each)]
    assert 2 == counts[-1]


@pytest.mark.parametrize(
    ("number", "unit", "said"),
    [
        (given(350.0, "°C"), "°C", "350 °C"),
        (given(350.0, "°C"), "°F", "662 °F"),
        (Estimate(41.0, 30.0, 49.94, "°C", "plate", "ours"), "°C", "about 50 °C"),
        (Estimate(100.0, 80.0, 186.0, "s", "cooling", "ours"), "°C", "about 4 min"),
        (given(10.73, "Wh"), "°C", "10.8 Wh"),
        (given(0.123, "1"), "°C", "13 %"),
        (Estimate(70.0, 60.0, 74.1, "°C", "plate", "ours"), "°C", "about 75 °C"),
        (Estimate(70.0, 60.0, 74.1, "°C", "plate", "ours"), "°F", "about 166 °F"),
        (limit(71.3, "°C"), "°F", "160 °F"),
        (limit(199.96, "ppm"), "°C", "199 ppm"),
    ],
)
def test_numbers_as_people_read_them(number: Estimate, unit: str, said: str) -> None:
    """A number is said at its bad end, rounded to the side that is worse, in the shop's unit."""
    assert said == spoken(number, {"temperature": unit})


def test_titles_with_braces_do_no_harm() -> None:
    """A part whose title holds a brace is no place for a number."""
    wader = make.WADER.replace("title: Battery, kind: battery", 'title: "Battery {A}", kind: battery')
    found = callouts(trace("- {do: Look on.}", wader=wader), CELSIUS)

    assert any("battery (A)" in one.what for one in found)
