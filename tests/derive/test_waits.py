"""What a wait is for: what dries, cools, sets or clears in it, and how long the slowest of that needs."""

from __future__ import annotations

import math

import pytest

from benchleaf.derive.measures import measured
from benchleaf.derive.waits import Needed, needs
from tests.dryrun.made import trace

WASH = "- {do: Wash it., solvent: {material: isopropanol, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}}\n"
SOLDER = "- {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s, times: 2}}\n"
FLUX = "- {do: Flux it., work: {kind: brush, on: lamp-socket}, apply: {no-clean-flux: 0.5 mL}}\n"
BOND = "- {do: Free it., release: {bond: lens-bond, by: [pry]}}\n"
BOND += "- {do: Bond it., bond: {bond: lens-bond, with: lens-adhesive}}\n"


def wait(text: str, *, of: str) -> str:
    """Return the steps *text* and a wait after them, with *of* as its fields."""
    return f"{text}- {{do: Wait., wait: {{{of}}}}}\n"


def found(text: str) -> list[Needed]:
    """Return what the last step of the work *text* needs."""
    done = trace(text)
    last = [moment for moment in done.straight if moment.kind == "work"][-1]
    return list(needs(done, last))


@pytest.mark.parametrize(
    ("before", "of", "wanted"),
    [
        (WASH, "for: 20 min, until: dry", [("dry", "lamp-socket")]),
        (SOLDER, "for: 9 min, until: cool", [("cool", "lamp-socket")]),
        (BOND, "for: 45 min, until: cured", [("cured", "lens-bond")]),
        (FLUX, "for: 9 min, until: dry", [("clear", "lamp-socket")]),
        (WASH + SOLDER, "for: 1 h", [("dry", "lamp-socket"), ("cool", "lamp-socket")]),
        (WASH + SOLDER, "for: 1 h, until: cool", [("cool", "lamp-socket")]),
        ("- {do: Look on.}\n", "for: 1 h, until: dry", []),
    ],
    ids=["dry", "cool", "cured", "clear", "both", "as it says", "nothing"],
)
def test_what_a_wait_is_for(before: str, of: str, wanted: list[tuple[str, str]]) -> None:
    """A wait is for what it says, or else for all that comes to its end in it; with nothing wet or hot, for nothing."""
    assert wanted == [(one.end, one.on) for one in found(wait(before, of=of))]


def test_a_wait_that_ends_nothing() -> None:
    """A wait that says nothing and is too short for what is wet is not what dries it."""
    assert [] == found(wait(WASH, of="for: 2 s"))


def test_warm_air_cools_nothing() -> None:
    """What is hot does not cool in a cabinet."""
    assert [] == found(wait(SOLDER, of="for: 9 min, until: cool, at: 60 °C, with: drying-oven"))


def test_slowest() -> None:
    """Of several parts that dry in one wait the one that needs longest is named."""
    one = "- {do: Wash it., solvent: {material: isopropanol, volume: 0.01 mL, on: lamp, area: 2 cm²}}\n"

    [dry] = found(wait(one + WASH, of="for: 1 h, until: dry"))

    assert "lamp-socket" == dry.on


@pytest.mark.parametrize(("before", "kind"), [(WASH, "dry"), (SOLDER, "cool"), (FLUX, "clear")])
def test_as_the_facts_say(before: str, kind: str) -> None:
    """The ends are those of the facts, the low one rounded down and the high one up."""
    done = trace(wait(before, of=f"for: 1 h, until: {'cool' if kind == 'cool' else 'dry'}"))
    [last] = [one for one in measured(done) if one.moment.step.do.text == "Wait."]
    number = last.numbers[f"{kind}:lamp-socket"]

    [needed] = needs(done, last.moment)

    assert number.low - 60 < needed.needed.low <= number.low
    assert number.high <= needed.needed.high < number.high + 60


def test_time_that_has_passed_counts() -> None:
    """What a first wait has dried is not dried again in the second."""
    first = found(wait(WASH, of="for: 2 min, until: dry"))
    second = found(wait(wait(WASH, of="for: 2 min, until: dry"), of="for: 20 min, until: dry"))

    assert first[0].needed.high - 120 == pytest.approx(second[0].needed.high, abs=60)


def test_nobody_can_say() -> None:
    """Where no formula holds the end is open."""
    unknown = "- {do: Wash it., solvent: {material: sac305-wire, volume: 0.5 mL, on: lamp-socket, area: 2 cm²}}\n"

    [dry] = found(wait(unknown, of="for: 1 h, until: dry"))

    assert math.isinf(dry.needed.high)
