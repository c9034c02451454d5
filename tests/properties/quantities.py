"""Quantities as people write them, and as nobody would but the schema takes: of every dimension, in every form."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import strategies as st

from benchleaf.units.dimensions import EXAMPLES, spellings
from benchleaf.units.parse import parse

if TYPE_CHECKING:
    from collections.abc import Sequence

USUAL = {
    "temperature": ["21 °C", "60 °C", "75 °C", "350 °C", "380 °C", "662 °F", "60–75 °C", "260 °C ± 5 K", "373.15 K"],
    "time": ["0 s", "3 s", "2–3 s", "40–60 s", "4 min", "0.5 h", "12 h", "1 d", "5 min ± 10 %"],
    "length": ["0.8 mm", "2 mm", "5 mm", "38 mm", "4 cm", "0.1 in"],
    "area": ["2 cm²", "50 mm²"],
    "volume": ["0.05 mL", "0.1 mL", "0.5 mL", "2 mL", "60 cm³", "45 m³", "200 µL"],
    "mass": ["0.3 g", "2 mg"],
    "torque": ["7 cN·m", "12 cNm", "2–20 cN·m", "0.5 cN·m", "1 lbf·in", "0.7 N·m"],
    "voltage": ["3.7 V", "330 V", "1 mV to 600 V"],
    "current": ["500 mA", "0.4–1.2 A", "1 mA to 3 A"],
    "resistance": ["10 kΩ", "0.1 Ω to 40 MΩ"],
    "capacitance": ["22 µF", "470 µF"],
    "charge": ["2900 mAh"],
    "ratio": ["50 %", "90 %", "200 ppm", "20–70 %", "100 %"],
    "rate": ["3 /h", "0.5 /h"],
    "speed": ["0.1 m/s", "3 m/s"],
    "temperature-rate": ["2 K/s", "3 °C/s"],
}
_CURRENCY = {"money": ("EUR", "USD"), "money-rate": ("EUR/h", "JPY/h")}
_NUMBERS = ["0", "1", "2.5", ".5", "0.0000001", "00012", "99.99999999999999", "1000", "99999"]
# More than anything at a bench, and more than a double holds: both are found.
_FAR = ["999999999999", "99999999999999999999", "9" * 400]
_COLD = ["-40 °C", "−273.15 °C", "-40 °F", "0 K", "-10–0 °C", "0 °C ± 300 K"]


def written(dimension: str, ends: str = "both") -> st.SearchStrategy[str]:
    """
    Return a strategy for quantities of *dimension*: mostly usual ones, some at the ends of what may be written.

    *ends* are those that it must have: both, low, high or none.
    """
    return st.one_of(usual(dimension), usual(dimension), _odd(dimension, ends))


def usual(dimension: str) -> st.SearchStrategy[str]:
    """Return a strategy for quantities of *dimension* as they are met at a bench."""
    return st.sampled_from(USUAL.get(dimension, [EXAMPLES[dimension]]))


def within(dimension: str, least: str, most: str) -> list[str]:
    """Return the usual quantities of *dimension* that lie between *least* and *most*."""
    low, high = (parse(end, dimension).low for end in (least, most))
    return [
        text for text in USUAL[dimension] if low <= parse(text, dimension).low <= parse(text, dimension).high <= high
    ]


def _odd(dimension: str, ends: str) -> st.SearchStrategy[str]:
    units: Sequence[str] = _CURRENCY.get(dimension, ()) or list(spellings(dimension))
    # What lies too far, and an end that is open where it must not be, keep the whole file from being read: few.
    number = st.sampled_from([*_NUMBERS * 200, *_FAR])
    forms = ["{a} {u}", "{a}{u}", "{a}–{a} {u}", "{a} ± {b} {u}", "{a} {u} ± {b} %", "0–{a} {u}", "0 {u} to {a} {u}"]
    forms *= 1 if ends != "both" else 60
    forms += ["≤ {a} {u}", "<{a} {u}"] if ends in {"high", "none"} else []
    forms += [">= {a} {u}", "> {a} {u}"] if ends in {"low", "none"} else []
    forms += ["<= {a} {u}"] if ends == "both" else []
    if dimension == "ratio":
        forms = [form for form in forms if "%" not in form]
    warm = st.builds(
        lambda form, a, b, u: form.format(a=a, b=b, u=u),
        st.sampled_from(forms),
        number,
        st.sampled_from(_NUMBERS),
        st.sampled_from(list(units)),
    )
    return st.one_of(warm, st.sampled_from(_COLD)) if dimension == "temperature" else warm
