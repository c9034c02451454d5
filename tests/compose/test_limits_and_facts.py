"""The second column of the sheet and the facts of the same procedure: the same numbers, for the whole demonstration."""

from __future__ import annotations

import math
import re
from functools import cache
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.derive.number import Number, given
from benchleaf.units.dimensions import DIMENSIONS
from benchleaf.units.parse import parse
from tests.compose.demonstration import DEMONSTRATION, EVERY, page

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bs4 import Tag

    from benchleaf.derive.facts import Facts, StepFacts


@cache
def facts(key: tuple[str, str]) -> Facts:
    """Return the facts of a procedure."""
    found = build.facts_of(DEMONSTRATION, DEMONSTRATION.base.procedures[key])
    assert found is not None
    return found


def steps(key: tuple[str, str]) -> Iterator[StepFacts]:
    """Yield the facts of each step, of every variant."""
    for own in facts(key).variants.values():
        yield from own.steps


def shown(key: tuple[str, str], kind: str) -> set[tuple[str, str]]:
    """Return what stands in the second column under limits of *kind*: the step and the line, each once."""
    return {
        (str(row["data-step"]), plain(small))
        for row in page(key).select("[data-step]")
        for limit in row.select(f'[data-limit="{kind}"]')
        for small in limit.select("strong, small")
    }


def plain(tag: Tag) -> str:
    """Return the text of *tag* without the variants that it is for."""
    return re.sub(r" \([^()]* only\)$", "", " ".join(tag.get_text().split()))


def title(key: tuple[str, str], part: str) -> str:
    """Return what people call *part*."""
    return DEMONSTRATION.base.devices[key[0]].parts[part].title.text


def apart(limit: float, reached: float, unit: str) -> str:
    """Return how far *reached* is from *limit*."""
    left = round(limit - reached, 9)
    return f"{math.floor(left)} {unit} below" if left >= 0 else f"{math.ceil(-left)} {unit} above"


@EVERY
def test_neighbours(key: tuple[str, str]) -> None:
    """Each neighbour that comes to 45 °C or 80 % of the way to its limit stands there with both numbers; no other."""
    limits = {(one.step, one.on): one.limit for own in facts(key).variants.values() for one in own.limits
              if one.kind == "neighbour"}  # fmt: skip
    room = 21.0
    expected = set()
    for step in steps(key):
        for name, number in step.numbers.items():
            what, _, part = name.partition(":")
            limit = limits.get((step.id, part))
            if what == "neighbour" and number.high > (min(45.0, room + 0.8 * (limit.low - room)) if limit else 45.0):
                bears = (
                    f"bears {math.floor(limit.low)} °C: {apart(limit.low, number.high, 'K')}"
                    if limit else "nobody says what it bears"
                )  # fmt: skip
                expected.add((step.id, f"{title(key, part)} up to {math.ceil(number.high)} °C"))
                expected.add((step.id, f"estimate {round(number.value)} °C; {bears}"))

    assert expected == shown(key, "neighbour")


@EVERY
def test_joints_and_bodies(key: tuple[str, str]) -> None:
    """What a joint bears, and a body that is heated, stands with the distance that the facts give; none is left out."""
    held = [one for own in facts(key).variants.values() for one in own.limits if one.reached]
    joints = {(one.step, f"joint bears {one.limit.low:g} °C: {apart(one.limit.low, one.reached.high, 'K')}")
              for one in held if one.kind == "joint" and one.reached}  # fmt: skip
    touches = {(one.step, f"for {one.limit.low:g} s a touch: {apart(one.limit.low, one.reached.high, 's')}")
               for one in held if one.kind == "joint-time" and one.reached}  # fmt: skip
    bodies = {(one.step, title(key, one.on), apart(one.limit.low, one.reached.high, "K"))
              for one in held if one.kind == "body" and one.reached}  # fmt: skip
    lines = {line for kind in ("heat", "joint", "time") for line in shown(key, kind)}
    told = {(step, *re.split(r" bears [^:]*: ", text)) for step, text in lines if " bears " in text} - {
        (step, "joint", text.rpartition(": ")[2]) for step, text in joints
    }

    assert joints | touches == {line for line in lines if line[1].startswith(("joint bears", "for "))}
    assert told <= bodies
    assert {step for step, _, _ in bodies} == {step for step, *_ in told}


@EVERY
def test_torques(key: tuple[str, str]) -> None:
    """Each screw that is driven has the torque and the recommended most of the facts, in cN·m and rounded down."""
    expected = {
        (step.id, f"{number.value:g} cN·m" if what == "torque" else f"recommended at most {number.value:.3g} cN·m")
        for step in steps(key)
        for name, number in step.numbers.items()
        for what in [name.partition(":")[0]]
        if what in {"torque", "recommended"}
    }

    assert expected == {line for line in shown(key, "torque") if line[1].endswith("cN·m")}


TIMES = {"s": 1.0, "min": 60.0, "h": 3600.0}
ENDS = {"dries in": "dry", "cools in": "cool", "is clear of vapour in": "clear"}
WAIT = re.compile(
    rf"(?P<on>.+) (?P<end>{'|'.join(ENDS)}) (?:(?P<low>[\d.]+)(?: (?P<own>s|min|h))?(?:–| to ))?"
    r"(?P<high>[\d.]+) (?P<unit>s|min|h)( at the most)?"
)


@EVERY
def test_waits(key: tuple[str, str]) -> None:
    """What a wait is for needs as long as the facts say of its slowest part, no more than one figure aside."""
    wrong, seen = [], 0
    for step, line in sorted(shown(key, "time")):
        found = WAIT.fullmatch(line)
        if found is None:
            continue
        seen += 1
        size = TIMES[found["unit"]]
        low = float(found["low"] or 0) * TIMES[found["own"] or found["unit"]]
        numbers = [
            number for one in steps(key) if one.id == step for name, number in one.numbers.items()
            if name.startswith(f"{ENDS[found['end']]}:") and title(key, name.partition(":")[2]) == found["on"]
        ]  # fmt: skip
        if not any(low <= n.low and n.high <= float(found["high"]) * size < n.high + size for n in numbers):
            wrong.append((step, line, numbers))

    assert [] == wrong
    assert seen == sum(
        " dries in " in line or " cools in " in line or " is clear of " in line for _, line in shown(key, "time")
    )


def number_of(text: str) -> Number:
    """Return a quantity as the page writes it."""
    return given(parse(text, *DIMENSIONS), "")


@EVERY
@pytest.mark.parametrize(
    ("kind", "names"),
    [("time", ("for",)), ("amount", ("volume", "apply")), ("check", ("expect",))],
    ids=lambda one: one[0],
)
def test_written_numbers(key: tuple[str, str], kind: str, names: tuple[str, ...]) -> None:
    """Waits, amounts and readings on the sheet are those of the facts."""
    where = "[data-check]" if kind == "check" else f'[data-limit="{kind}"]'
    found = {
        (str(row["data-step"]), number_of(plain(strong).partition(" at ")[0]))
        for row in page(key).select("[data-step]")
        for strong in row.select(f"{where} strong")
        if kind != "check" or re.match(r"[^a-z]*[0-9]", strong.get_text())
    }
    heated = {str(row["data-step"]) for row in page(key).select("[data-step]") if not row.select('[data-limit="time"]')}
    expected = {
        (step.id, Number(number.value, number.unit, number.low, number.high, number.method, ""))
        for step in steps(key)
        for name, number in step.numbers.items()
        if name.partition(":")[0] in names and not (kind == "time" and step.id in heated)
    }

    assert expected == found
