"""How quantities are written, and what is none."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.units.dimensions import DIMENSIONS, spellings
from benchleaf.units.parse import NotAQuantity, dimension_of, parse, pattern
from benchleaf.units.quantity import Duration, Temperature

INF = math.inf


@pytest.mark.parametrize(
    ("text", "dimension", "low", "high"),
    [
        ("350 °C", "temperature", 350, 350),
        ("350°C", "temperature", 350, 350),
        ("5–10 s", "time", 5, 10),
        ("5 – 10 s", "time", 5, 10),
        ("5-10 s", "time", 5, 10),
        ("5 to 10 s", "time", 5, 10),
        ("90 s to 2 min", "time", 90, 120),
        ("0.1 Ω to 40 MΩ", "resistance", 0.1, 4e7),
        ("3.3 V ± 5 %", "voltage", 3.135, 3.465),
        ("3.3 V ± 0.1 V", "voltage", 3.2, 3.4),
        ("3.3 ± 0.1 V", "voltage", 3.2, 3.4),
        ("3.3 V±100 mV", "voltage", 3.2, 3.4),
        ("20 °C ± 2 K", "temperature", 18, 22),
        ("68 °F ± 9 °F", "temperature", 15, 25),
        ("> 10 kΩ", "resistance", 1e4, INF),
        (">10 kohm", "resistance", 1e4, INF),
        (">= 10 kΩ", "resistance", 1e4, INF),
        ("≥ 10 kΩ", "resistance", 1e4, INF),
        ("≤ 60 °C", "temperature", -INF, 60),
        ("<= 60 °C", "temperature", -INF, 60),
        ("< 60 °C", "temperature", -INF, 60),
        ("-20 °C", "temperature", -20, -20),
        ("−20 °C", "temperature", -20, -20),
        ("-20–60 °C", "temperature", -20, 60),
        ("-20 to -5 °C", "temperature", -20, -5),
        ("+5 V", "voltage", 5, 5),
        (".5 mL", "volume", 5e-7, 5e-7),
        ("0.5 mL", "volume", 5e-7, 5e-7),
        ("2900 mAh", "charge", 10440, 10440),
        ("50 %", "ratio", 0.5, 0.5),
        ("20–70 %", "ratio", 0.2, 0.7),
        ("50 % ± 5 %", "ratio", 0.45, 0.55),
        ("3 /h", "rate", 3 / 3600, 3 / 3600),
        ("60 EUR", "money", 60, 60),
        ("60–90 EUR", "money", 60, 90),
        ("60 EUR ± 10 %", "money", 54, 66),
        ("48 EUR/h", "money-rate", 48, 48),
    ],
)
def test_written_as_people_write(text: str, dimension: str, low: float, high: float) -> None:
    """A value, a range, a value with a tolerance and a limit are read as the interval that they mean."""
    quantity = parse(text, dimension)

    assert [quantity.low, quantity.high] == pytest.approx([low, high])
    assert text == quantity.text


@pytest.mark.parametrize(
    ("text", "strict"),
    [("> 10 kΩ", True), ("< 10 kΩ", True), ("≥ 10 kΩ", False), ("≤ 10 kΩ", False), ("10 kΩ", False)],
)
def test_limit_itself(text: str, strict: bool) -> None:  # noqa: FBT001  (a case of the table)
    """A value at the limit belongs to it only where the sign says so."""
    quantity = parse(text, "resistance")

    assert (strict, not strict) == (quantity.strict, quantity.holds(1e4))


@pytest.mark.parametrize(
    "text",
    ["", " ", "12", "s", "12 s ", " 12 s", "12  s", "12 S", "12 sec", "1,5 s", "1e3 s", "1.5.2 s", "12 s s",
     "5–10–15 s", "5– s", "± 5 s", "> > 5 s", "> 5–10 s", "12 s ± 5", "12 s ± 5 V", "٣ s", "1\u00a0s", "12 s\n",
     "1_0 s", "0x1 s"],
)  # fmt: skip
def test_no_time(text: str) -> None:
    """What is not written as a quantity is none; nothing is guessed."""
    with pytest.raises(NotAQuantity):
        parse(text, "time")


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_units_of_others(dimension: str) -> None:
    """A quantity of one dimension is none of another, where no unit belongs to both."""
    own = set(spellings(dimension))
    others = {f"5 {unit}": name for name in DIMENSIONS for unit in spellings(name) if unit not in own}

    assert {} == {text: name for text, name in others.items() if re.fullmatch(pattern(dimension), text)}


def test_first_dimension_that_fits() -> None:
    """Where several dimensions may stand, the unit decides."""
    kinds = [parse(text, "volume", "mass").dimension for text in ("0.5 mL", "0.3 g")]

    assert ["volume", "mass"] == kinds


def test_dimension_of() -> None:
    """The dimension of a written quantity is known from its unit; a bare number has none."""
    assert ["torque", "temperature", "money", None] == [dimension_of(text) for text in ("7 cNm", "5 K", "5 EUR", "5")]


def test_type_is_the_dimension() -> None:
    """Each dimension is a type of its own: a time is never taken for a temperature."""
    assert (Duration, Temperature) == (type(parse("5 s", "time")), type(parse("5 K", "temperature")))


def test_equal_amounts() -> None:
    """Two spellings of one amount are equal, whatever their text."""
    assert parse("1 min", "time") == parse("60 s", "time")


@pytest.mark.parametrize(("text", "middle"), [("5–10 s", 7.5), ("> 5 s", 5), ("< 5 s", 5), ("5 s", 5)])
def test_middle(text: str, middle: float) -> None:
    """The middle of a range is its midpoint, of a limit the end that it names."""
    assert middle == parse(text, "time").middle


@settings(deadline=None)
@given(st.sampled_from(list(DIMENSIONS)), st.text("0123456789.-+–± to<>=≤≥°CFKmsVAΩ%/hENR", max_size=14))
def test_pattern_and_reader_agree(dimension: str, text: str) -> None:
    """What the schemas' pattern lets through is read, and what it does not is refused: never anything between."""
    fits = re.fullmatch(pattern(dimension), text) is not None

    assert fits == _is_read(text, dimension)


@settings(deadline=None)
@given(
    st.decimals(0, 9999, allow_nan=False, places=2), st.decimals(0, 9999, allow_nan=False, places=2),
    st.sampled_from([(name, unit.symbol) for name, units in DIMENSIONS.items() for unit in units]),
)  # fmt: skip
def test_range_keeps_its_ends(one: object, other: object, unit: tuple[str, str]) -> None:
    """A range has the two values that its ends have alone."""
    dimension, symbol = unit

    whole = parse(f"{one}–{other} {symbol}", dimension)

    assert (parse(f"{one} {symbol}", dimension).low, parse(f"{other} {symbol}", dimension).high) == (
        whole.low,
        whole.high,
    )


def _is_read(text: str, dimension: str) -> bool:
    try:
        parse(text, dimension)
    except NotAQuantity:
        return False
    return True
