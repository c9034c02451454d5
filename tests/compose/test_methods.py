"""The page of methods: each computation that a message links to is there, with an example that others have checked."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

import benchleaf.dryrun.hazards
from benchleaf.library.alloys import ALLOYS
from benchleaf.library.substances import SUBSTANCES
from benchleaf.pages.compose.methods.view import methods
from benchleaf.pages.compose.substance import facts, messages
from benchleaf.physics.liquid import vapour_pressure
from benchleaf.physics.types import Celsius

ROOMS = Path(benchleaf.dryrun.hazards.__file__).parent


def _results(anchor: str) -> dict[str, str]:
    return dict(next(method for method in methods() if method.anchor == anchor).results)


def test_every_link_has_its_method() -> None:
    """Whatever method a hazard names stands on the page under that name, but for what the pages of materials say."""
    named = {name for room in ROOMS.glob("*.py") for name in re.findall(r'method="([a-z-]+)"', room.read_text("utf-8"))}

    assert set() == named - {method.anchor for method in methods()} - {"materials"}
    assert {"neighbour", "drying", "cool-down", "vapour", "battery", "stored-energy"} <= named


def test_nothing_is_left_out() -> None:
    """Each method says what it gives, how, by whom, where it holds, how far it may be out, and an example."""
    empty = [
        method.anchor
        for method in methods()
        if not all((method.gives, method.formula, method.symbols, method.source, method.holds, method.error,
                    method.example, method.results))
    ]  # fmt: skip

    assert [] == empty


# Worked examples of our own references, each computed there in two ways; the first line from finite volumes.
@pytest.mark.outside
@pytest.mark.parametrize(
    ("anchor", "name", "wanted"),
    [
        ("neighbour", "Central", 49.7), ("cool-down", "High", 261.9), ("cool-down", "Rise after 100 s", 125.1),
        ("drying", "Central", 68.4), ("drying", "High", 184), ("heater", "Central", 51.9), ("plume", "Central", 107),
        ("torque", "Breaking, at least", 16.41), ("torque", "Stripping", 54.3), ("battery", "Energy", 10.73),
        ("reading", "Capitals", 6.981), ("runoff", "Reach", 28.2), ("stored-energy", "Energy", 4.5),
    ],
)  # fmt: skip
def test_examples(anchor: str, name: str, wanted: float) -> None:
    """The example comes out as the reference has it, within what its tolerance allows."""
    shown = float(_results(anchor)[name].split()[0])

    assert wanted == pytest.approx(shown, rel=0.02)


def test_plan_by_hand() -> None:
    """The example of the plan, redone as its page says: every branch by arithmetic alone."""
    # After "none" the port has 0.54 of 0.58; cleaning costs 4 + 12 + 4 and leaves 0.108 and 0.04 of the whole.
    none = 20 + (0.54 * 0.2 + 0.04) / 0.58 * 60
    # Renewing after that costs 32 more for what is left, and helps the 0.04 alone.
    assert 32 + (0.108 + 0.004) / 0.148 * 60 > 60
    # After "normal" the battery has 0.36 of 0.42: renewing costs 4 + 24 + 4.
    normal = 32 + (0.06 + 0.036) / 0.42 * 60
    # 0.06 of the port is left in 0.096: cleaning costs 20, and leaves 0.012 + 0.036.
    normal = min(normal, 32 + 0.096 / 0.42 * (20 + 0.048 / 0.096 * 60))

    shown = _results("plan")

    assert 2 + 0.58 * none + 0.42 * normal == pytest.approx(float(shown["With the test first"].split()[0]), rel=1e-3)
    assert 60 == float(shown["At once to the end"].split()[0])
    assert 20 + 0.52 * (32 + 0.16 / 0.52 * 60) == pytest.approx(
        float(shown["Clean, renew, refer, no test"].split()[0]), rel=1e-3
    )


@pytest.mark.parametrize(
    ("anchor", "name", "wanted"),
    [
        ("shares", "First", 15 / 26), ("shares", "Cure works", 12 / 16),  # Laplace's rule of succession
        ("bayes", "First", 0.54 / 0.58),
        # 60 + 0.25 x 120; 60 / 120; 60 / 0.75: by hand.
        ("replace", "All in", 90), ("replace", "Breaks even at a success of", 0.5),
        ("replace", "Breaks even at a price of", 80),
    ],
)  # fmt: skip
def test_decisions_by_hand(anchor: str, name: str, wanted: float) -> None:
    """What shares, outcomes and a repair come to is what their formulas give on paper."""
    assert wanted == pytest.approx(float(_results(anchor)[name].split()[0]), rel=1e-3)


# A reader's pocket calculator, fed with what the page gives and nothing else: each line is typed as the page writes it.
def test_drying_by_hand() -> None:
    """The example of drying comes out of its formulas with the numbers that stand beside it."""
    density, mass, pressure, at_bulb = _given("drying", "ρ", "M", "Ps", "Ps(Tw)")
    length = math.sqrt(2e-4)
    sherwood = max(0.664 * math.sqrt(0.1 * length / 1.5e-5) * (1.5e-5 / 1.0e-5) ** (1 / 3), 2)
    flow = sherwood * 1.0e-5 / length * mass / 1000 / 8.314 * pressure / 294.15
    time = density * 50e-6 / flow
    factor = (pressure / 294.15) / (at_bulb / (273.15 + _number("drying", "Tw")))

    assert _number("drying", "Central") == pytest.approx(time, rel=0.005)
    assert _number("drying", "Low") == pytest.approx(time / 2, rel=0.005)
    assert _number("drying", "High") == pytest.approx(time * factor, rel=0.005)


@pytest.mark.parametrize(("name", "part", "board"), [("Low", 10, 53), ("Central", 20, 80), ("High", 40, 100)])
def test_cooling_by_hand(name: str, part: float, board: float) -> None:
    """At each time of the example of cooling the part has the rise of 27 K that the page names."""
    time = _number("cool-down", name)
    own, around = math.exp(-time / part), math.exp(-time / board)

    assert 27 == pytest.approx(224 * own + 224 * board / (board - part) * (around - own), rel=0.02)


def test_vapour_by_hand() -> None:
    """The example of vapour comes out of its formulas with the two rates that stand beside it."""
    density, mass = _given("vapour", "ρ", "M")
    slow, fast = _number("vapour", "λ1"), _number("vapour", "λ2")
    vapour = 3e-6 * density / (mass / 1000) * 8.314 * 293.15 / 101325
    near, exchange = 2 / 3 * math.pi * 0.6**3, math.pi * 0.6**2 * 0.1
    share = (fast - exchange / near) / (fast - slow)

    def until(time: float) -> float:
        slower, faster = (1 - math.exp(-slow * time)) / slow, (1 - math.exp(-fast * time)) / fast
        return vapour / near * (share * slower + (1 - share) * faster)

    assert _number("vapour", "Central") == pytest.approx(until(900) / 900 * 1e6, rel=0.005)
    assert "774 ppm at the highest" == f"{until(10) / 10 * 1e6:.0f} ppm at the highest"


def test_torque_by_hand() -> None:
    """The example of a screw comes out of its formulas with the diameters that stand beside it."""
    diameter, pitch, least = _given("torque", "d", "P", "d2 at least")
    root = least - 0.616025 * pitch
    breaking = 0.84 * 800 * math.pi / 16 * root**3 / 10
    stripping = 0.15 * diameter * 0.75 * math.pi * diameter * 3 * 200 / 10

    assert _number("torque", "Breaking, at least") == pytest.approx(breaking, rel=0.002)
    assert _number("torque", "Stripping") == pytest.approx(stripping, rel=0.002)
    assert _number("torque", "Error above") == pytest.approx(0.6 * breaking / 1.06, rel=0.002)


def _given(anchor: str, *names: str) -> tuple[float, ...]:
    """Return the numbers that stand after *names* in the example of a method."""
    example = next(method.example for method in methods() if method.anchor == anchor)
    found = [re.search(rf"(?<![\w(]){re.escape(name)} ([0-9.]*[0-9])", example) for name in names]
    return tuple(float(one[1]) for one in found if one)


def _number(anchor: str, name: str) -> float:
    """Return the first result of that name as a number."""
    results = next(method.results for method in methods() if method.anchor == anchor)
    return float(next(value for key, value in results if key == name).split()[0])


@pytest.mark.parametrize("name", [*SUBSTANCES, *ALLOYS])
def test_every_value_has_its_source(name: str) -> None:
    """Each number of a built-in material stands beside its source."""
    bare = [fact.label for fact in facts(name) if not fact.source and re.match(r"[0-9.]+ ", fact.value)]

    assert [] == bare
    assert list(facts(name))


def test_where_sources_differ() -> None:
    """Where sources differ both are shown, and the one that is gone by is marked."""
    flash = [(fact.value, "gone by" in fact.note) for fact in facts("isopropanol") if fact.label == "Flash point"]

    assert [("11.7 °C", True), ("12 °C", False), ("12 °C", False)] == flash


def test_pressure_that_is_gone_by() -> None:
    """Of vapour pressures the page marks the one that the line is drawn through, though another may be lower."""
    gone = [fact.value for fact in facts("acetone") if fact.label == "Vapour pressure at 20 °C" and fact.note]

    assert [f"{SUBSTANCES['acetone'].vapour_pressure_20.first.value / 1000:.4g} kPa"] == gone
    assert vapour_pressure(SUBSTANCES["acetone"], Celsius(20.0)) == pytest.approx(
        SUBSTANCES["acetone"].vapour_pressure_20.first.value
    )


def test_label_in_codes_and_words() -> None:
    """A liquid says what its label says: the signal word, and each statement as words with its code."""
    [message] = messages("isopropanol")

    assert "danger" == message.signal
    assert "Highly flammable liquid and vapour (H225)" in message.what
    assert [] == list(messages("deionised-water"))
