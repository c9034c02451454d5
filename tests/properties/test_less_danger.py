"""What makes work safer never adds a danger: longer waits, more air, larger distances, less liquid, less heat."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

from hypothesis import assume, given
from hypothesis import strategies as st

from benchleaf.checks.rules import RULES
from benchleaf.derive.job import job
from benchleaf.dryrun.performed import performed
from benchleaf.findings import Level
from tests.properties.knot import KNOT, checked, heating, procedures, wiping
from tests.properties.profile import examples
from tests.properties.sequence import TOGETHER

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from benchleaf.build import Checked

# The rules that keep people and devices from harm; a lower set point may well melt no solder, or lie out of range.
SAFETY = frozenset({
    "live-board", "unready-power", "never-powered-off", "early-battery", "unchecked-battery", "reused-damaged-battery",
    "battery-beside-heat", "solvent-beside-heat", "charged-capacitor", "live-ohms", "overheated-part",
    "overheated-joint", "overheated-neighbour", "harsh-profile", "hot-handling", "wet-ignition", "autoignition",
    "vapour-over-limit", "vapour-in-case", "flammable-bath", "unvented-oven", "bath-damage", "solvent-attack",
    "unfinished-handover", "unsafe-stop", "data-at-risk",
})  # fmt: skip
# What is said instead of another thing, where the tool is hotter still.
_AS = {"autoignition": "wet-ignition"}
_WEIGHT = {Level.NOTE: 0, Level.WARNING: 1, Level.ERROR: 2}
_WAITS = ["20 s", "2–3 min", "15 min", "1 h", "6 h", "1 d", "3 d"]
_VOLUMES = ["0.01 mL", "0.05 mL", "0.2 mL", "0.5 mL", "1 mL", "2 mL", "3 mL", "6 mL", "10 mL", "15 mL", "40 mL"]
_WORK = st.one_of(procedures(), procedures(), wiping(), heating())


def dangers(found: Checked) -> dict[tuple[str, str, int], int]:
    """Return what is dangerous, by its rule and its place, with how bad it is at most."""
    bad: dict[tuple[str, str, int], int] = {}
    for finding in found.findings:
        if finding.rule in SAFETY:
            line = 0 if finding.rule in TOGETHER else finding.place.line
            key = (_AS.get(finding.rule, finding.rule), finding.place.path, line)
            bad[key] = max(bad.get(key, 0), _WEIGHT[finding.level])
    return bad


def added(before: Checked, after: Checked) -> list[tuple[str, str, int]]:
    """Return what is dangerous in *after* and was not in *before*, or not as bad."""
    known = dangers(before)
    return [key for key, weight in dangers(after).items() if weight > known.get(key, -1)]


def numbers(found: Checked) -> dict[tuple[str, ...], float]:
    """Return how much vapour comes into the air and how warm each neighbour gets, by procedure and thing."""
    jobs = [job(trace) for trace in performed(found.base)]
    return {
        (*own.performed_on, own.procedure, thing, what): number
        for own in jobs
        for thing, what, number in (
            *(
                (gas.substance, what, getattr(gas, what))
                for gas in own.vapour_peaks
                for what in ("mean", "day", "peak")
            ),
            *((warmth.part, "rise", warmth.rise) for warmth in own.warms),
        )
    }


def grown(before: Checked, after: Checked) -> list[tuple[str, ...]]:
    """Return of which *numbers* there is more in *after* than in *before*."""
    known = numbers(before)
    return [key for key, number in numbers(after).items() if number > known.get(key, 0.0) * (1 + 1e-9)]


def changed(value: Any, change: Callable[[str, Any, Any], Any], way: Sequence[str] = ()) -> Any:  # noqa: ANN401  (JSON)
    """Return *value* with each text replaced by what *change* makes of its field, the field around, and itself."""
    if isinstance(value, dict):
        return {name: changed(item, change, (*way, name)) for name, item in value.items()}
    if isinstance(value, list):
        return [changed(item, change, way) for item in value]
    return change(way[-1], way[-2] if len(way) > 1 else "", value) if way else value


def _later(of: Sequence[str], data: st.DataObject) -> Callable[[str], str]:
    """Return a change of a text into one that stands at its place or later in *of*."""
    return lambda text: of[data.draw(st.integers(of.index(text), len(of) - 1))] if text in of else text


def test_safety_rules_exist() -> None:
    """Each rule that is called one of safety exists, or will."""
    assert SAFETY - RULES.keys() <= {"harsh-profile"}


@examples(80)
@given(_WORK, st.data())
def test_longer_waits(work: dict[str, Any], data: st.DataObject) -> None:
    """To wait longer adds no danger."""
    longer = _later(_WAITS, data)
    slower = changed(work, lambda field, around, text: longer(text) if (around, field) == ("wait", "for") else text)
    assume(slower != work)

    assert [] == added(checked({"work": work}), checked({"work": slower}))


@examples(60)
@given(
    st.one_of(procedures(), wiping(), wiping(), wiping()),
    st.tuples(*(st.sampled_from([1, 1.05, 1.3, 2, 5]) for _ in range(3))),
    st.sampled_from([4, 6, 9, 12, 20, 45]),
    st.sampled_from([0.1, 0.2, 0.5, 1, 3]),
)
def test_more_air(work: dict[str, Any], times: tuple[float, float, float], volume: float, air_changes: float) -> None:
    """A larger room, more changes of its air and more wind over the bench add no danger."""
    larger, fresher, windier = f"{volume * times[0]:g} m³", f"{air_changes * times[1]:g} /h", f"{times[2] / 10:g} m/s"
    before = checked({"work": work}, volume=f"{volume} m³", air_changes=f"{air_changes} /h")

    after = checked({"work": work}, volume=larger, air_changes=fresher, air_speed=windier)

    assert [] == added(before, after)
    assert [] == grown(before, after)


@examples(40)
@given(_WORK, st.lists(st.floats(1, 4), min_size=5, max_size=5))
def test_larger_distances(work: dict[str, Any], times: list[float]) -> None:
    """What lies farther from the heat is in no more danger."""
    factors = iter(times)
    farther = re.sub(
        r"(battery|chip|window|port): ([0-9]+) mm",
        lambda match: f"{match[1]}: {int(match[2]) * next(factors):.2f} mm",
        KNOT,
    )

    before, after = checked({"work": work}), checked({"work": work}, knot=farther)

    assert [] == added(before, after)
    assert [] == grown(before, after)


@examples(60)
@given(_WORK, st.data(), st.sampled_from(["4 m³", "45 m³"]))
def test_less_liquid(work: dict[str, Any], data: st.DataObject, volume: str) -> None:
    """Less of a solvent or a flux adds no danger."""
    less = _later(_VOLUMES[::-1], data)
    little = changed(work, lambda field, _, text: less(text) if field in {"volume", "flux"} else text)
    assume(little != work)

    before, after = checked({"work": work}, volume=volume), checked({"work": little}, volume=volume)

    assert [] == added(before, after)
    assert [] == grown(before, after)


@examples(60)
@given(_WORK, st.data())
def test_less_heat(work: dict[str, Any], data: st.DataObject) -> None:
    """A lower set point adds no danger, though it may melt no solder."""

    def cooler(field: str, around: str, text: str) -> str:
        if field not in {"at", "reaches"} or around == "wait" or not str(text).endswith(" °C"):
            return text
        return f"{data.draw(st.integers(min(25, int(text[:-3])), int(text[:-3])))} °C"

    cooled = changed(work, cooler)
    assume(json.dumps(cooled) != json.dumps(work))

    before, after = checked({"work": work}), checked({"work": cooled})

    assert [] == added(before, after)
    assert [] == grown(before, after)
