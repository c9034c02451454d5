"""The page of methods: each computation that a message links to is there, with an example that others have checked."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import benchleaf.dryrun.hazards
from benchleaf.library.alloys import ALLOYS
from benchleaf.library.substances import SUBSTANCES
from benchleaf.pages.compose.methods.view import methods
from benchleaf.pages.compose.substance import facts, messages

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


def test_label_in_codes_and_words() -> None:
    """A liquid says what its label says: the signal word, and each statement as words with its code."""
    [message] = messages("isopropanol")

    assert "danger" == message.signal
    assert "Highly flammable liquid and vapour (H225)" in message.what
    assert [] == list(messages("deionised-water"))
