"""The same knowledge base said otherwise: in other units, under other names, in another order, with remarks."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from hypothesis import strategies as st

from benchleaf.units.dimensions import Unit, spellings
from benchleaf.units.parse import dimension_of
from tests.properties.grown import MEANS, NAMES

if TYPE_CHECKING:
    from collections.abc import Callable

Value = Any  # JSON, as it stands in a document

PREFIX = "q-"
_NUMBER = r"[-+−]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_SPAN = re.compile(
    rf"(?P<before>(?:[<>≤≥]=? ?)?)(?P<first>{_NUMBER})(?: ?(?P<own>[^\s0-9–-]\S*))?"
    rf"(?:(?P<dash> ?– ?| to )(?P<second>{_NUMBER}))? ?(?P<unit>\S*)"
)
# Whole powers of ten, minutes and degrees: what is written in them is the same to the last digit.
_EXACT: dict[str, dict[str, Any]] = {
    "temperature": {"°C": (Fraction(1), Fraction(0)), "°F": (Fraction(5, 9), Fraction(-160, 9)),
                    "K": (Fraction(1), Fraction("-273.15"))},
    "time": {"s": 1, "min": 60, "h": 3600, "d": 86400},
    "length": {"mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": 1, "µm": Fraction(1, 10**6)},
    "area": {"mm²": Fraction(1, 10**6), "cm²": Fraction(1, 10**4)},
    "volume": {"mL": Fraction(1, 10**6), "µL": Fraction(1, 10**9), "cm³": Fraction(1, 10**6), "L": Fraction(1, 1000)},
    "torque": {"cN·m": Fraction(1, 100), "N·m": 1, "mN·m": Fraction(1, 1000), "N·cm": Fraction(1, 100)},
    "voltage": {"V": 1, "mV": Fraction(1, 1000), "kV": 1000},
    "current": {"A": 1, "mA": Fraction(1, 1000)},
    "capacitance": {"µF": Fraction(1, 10**6), "nF": Fraction(1, 10**9)},
    "ratio": {"%": Fraction(1, 100), "ppm": Fraction(1, 10**6)},
}  # fmt: skip


def in_other_units(documents: dict[str, Value], choose: Callable[[list[str]], str]) -> dict[str, Value]:
    """Return *documents* with their quantities in units that *choose* takes, and of exactly the same worth."""

    def change(text: str) -> str:
        dimension = dimension_of(text)
        if dimension is None or dimension not in _EXACT or "±" in text:
            return text
        return _converted(text, dimension, choose(sorted(_EXACT[dimension])))

    return {path: _each_text(value, change) for path, value in documents.items()}


def _each_text(value: Value, change: Callable[[str], str]) -> Value:
    if isinstance(value, dict):
        return {name: _each_text(item, change) for name, item in value.items()}
    if isinstance(value, list):
        return [_each_text(item, change) for item in value]
    return change(value) if isinstance(value, str) else value


def _converted(text: str, dimension: str, unit: str) -> str:
    match = _SPAN.fullmatch(text)
    if match is None or unit == match["unit"]:
        return text
    from_ = _known(dimension, match["unit"])
    own = _known(dimension, match["own"]) if match["own"] else from_
    into = _worth(dimension, unit)
    ends = [(match["first"], own)] + ([(match["second"], from_)] if match["second"] else [])
    if from_ is None or own is None:
        return text
    numbers = [_decimal((Fraction(number.replace("−", "-")) * one[0] + one[1] - into[1]) / into[0])
               for number, one in ends if one is not None]  # fmt: skip
    if None in numbers:
        return text
    return f"{match['before']}{(match['dash'] or '').join(str(number) for number in numbers)} {unit}"


def _known(dimension: str, name: str) -> tuple[Fraction, Fraction] | None:
    unit: Unit | None = spellings(dimension).get(name)
    return _worth(dimension, unit.symbol) if unit and unit.symbol in _EXACT[dimension] else None


def _worth(dimension: str, unit: str) -> tuple[Fraction, Fraction]:
    worth: Any = _EXACT[dimension][unit]
    return worth if isinstance(worth, tuple) else (Fraction(worth), Fraction(0))


def _decimal(value: Fraction) -> str | None:
    """Return *value* with all its decimals, or None where it has too many."""
    places = next((places for places in range(12) if (value * 10**places).denominator == 1), None)
    if places is None or abs(value) > 10**11:
        return None
    sign, whole = ("-" if value < 0 else ""), str(abs(int(value * 10**places))).rjust(places + 1, "0")
    return f"{sign}{whole[: len(whole) - places]}.{whole[len(whole) - places :]}" if places else f"{sign}{whole}"


_RENAMED = ("part", "connector", "fastener", "bond", "battery", "level", "variant", "tool", "shop-material", "step")
_OTHERS = {"socket": ("part", "connector"), "access": ("level",), "material": ("shop-material",),
           "tool": ("tool", "shop-material")}  # fmt: skip


def under_other_names(documents: dict[str, Value], names: dict[str, set[str]]) -> dict[str, Value]:
    """Return *documents* with a prefix before each of *names*, by what they are names of."""
    kept = {"isopropanol"}

    def renamed(field: str, text: str) -> str:
        means = MEANS.get(field, "")
        kinds = _OTHERS.get(means, (means,))
        known = any(text in names.get(kind, ()) for kind in kinds if kind in _RENAMED)
        return f"{PREFIX}{text}" if known and text not in kept else text

    def walk(value: Value, field: str) -> Value:
        if isinstance(value, dict):
            return {renamed(field, name): walk(item, name) for name, item in value.items()}
        if isinstance(value, list):
            return [walk(item, field) for item in value]
        return renamed(field, value) if isinstance(value, str) else value

    tops = {"tools.yml": "tools", "materials.yml": "materials"}
    return {path: walk(value, tops.get(path, "")) for path, value in documents.items()}


def all_names() -> dict[str, set[str]]:
    """Return the names that a made-up knowledge base gives, by what they are names of; numbers of steps are none."""
    return {kind: set(NAMES[kind]) - {"steps-1"} for kind in _RENAMED}


def in_another_order(value: Value, draw: Callable[[st.SearchStrategy[Any]], Any]) -> Value:
    """Return *value* with the fields of its tables in an order that is drawn."""
    if isinstance(value, dict):
        names = draw(st.permutations(list(value))) if len(value) > 1 else list(value)
        return {name: in_another_order(value[name], draw) for name in names}
    return [in_another_order(item, draw) for item in value] if isinstance(value, list) else value


def with_remarks(value: Value, draw: Callable[[st.SearchStrategy[Any]], Any]) -> tuple[str, dict[int, int]]:
    """Return *value* as YAML with remarks between and behind its lines, and which line each line was before."""
    lines: list[str] = []
    before: dict[int, int] = {}
    for number, line in enumerate(json.dumps(value, ensure_ascii=False, indent=1).split("\n"), start=1):
        if draw(st.integers(0, 3)) == 0:
            lines.append('# A remark: {with} [signs], and "quotes".')
        lines.append(f"{line}  # as written" if draw(st.integers(0, 3)) == 0 else line)
        before[len(lines)] = number
    return "\n".join(lines), before
