"""What is said of a quantity that cannot be read: what is there, and what to write."""

from __future__ import annotations

import re

import pytest

from benchleaf.units.dimensions import DIMENSIONS, EXAMPLES
from benchleaf.units.parse import pattern
from tests import make
from tests.shape.reading import found, one

PART = "title: T\nparts: {{window: {{title: Window, {}}}}}"
STEP = "title: T\nsteps: [{{do: Do it., {}}}]"


def of_part(field: str) -> tuple[str, str]:
    """Return what is said, and what to write, of the only thing wrong with a part that has *field*."""
    fault = one("device", PART.format(field))
    assert fault.rule == "bad-quantity"
    return fault.message, fault.help


def of_step(field: str) -> tuple[str, str]:
    """Return what is said, and what to write, of the only thing wrong with a step that has *field*."""
    fault = one("procedure", STEP.format(field))
    assert fault.rule == "bad-quantity"
    return fault.message, fault.help


def test_bare_number() -> None:
    """A number without a unit names the units that fit."""
    message, to_do = of_part("heat_limit: 60")

    assert "`heat_limit` is 60 without a unit, and a temperature belongs here" == message
    assert "Write 60 °C, 60 °F or 60 K, whichever is meant." == to_do


@pytest.mark.parametrize("number", ['"60"', "60–70", "> 60", "6.5", '"6,5"'])
def test_bare_number_in_other_forms(number: str) -> None:
    """A range, a limit or a number in quotes lacks its unit just the same."""
    assert "without a unit" in one("device", PART.format(f"heat_limit: {number}".replace("> 60", '"> 60"'))).message


def test_bare_number_where_much_fits() -> None:
    """Where many units fit, the first three are offered and all are named."""
    _, to_do = of_step("apply: {no-clean-flux: 5}")

    assert "Write 5 mL, 5 µL or 5 L, whichever is meant. Units that fit: mL, µL, L, cm³, m³, g, mg, kg." == to_do


def test_bare_money() -> None:
    """A price without a currency is shown with one."""
    assert "Write 4 EUR." == of_part("price: 4")[1]


def test_wrong_dimension() -> None:
    """A quantity of another dimension says which it is and which belongs there."""
    message, to_do = of_part("heat_limit: 60 mm")

    assert "`heat_limit` is 60 mm, a length, and a temperature belongs here" == message
    assert "Write a temperature with its unit, for example 60 °C. Units that fit: °C, °F, K." == to_do


def test_unreadable() -> None:
    """A text that is no quantity at all is met with an example."""
    message, to_do = of_step("takes: about a minute")

    assert "`takes` is about a minute, which cannot be read as a time" == message
    assert "Write a time with its unit, for example 1–2 min. Units that fit: s, min, h, d." == to_do


@pytest.mark.parametrize(
    ("field", "meant"),
    [
        ("takes: 4 minutes", "4 min"), ("takes: 90 sec", "90 s"), ("takes: 1.5 hours", "1.5 h"),
        ("takes: 5–10 secs", "5–10 s"), ("takes: 5 m", "5 min"), ('takes: "1,5 min"', "1.5 min"),
        ("apply: {flux: 2 ml}", None), ("apply: {flux: 2 cc}", "2 mL"), ("apply: {flux: 3 grams}", "3 g"),
        ("heat: {tool: iron, at: 350C, for: 2 s, on: window}", "350 °C"),
        ("heat: {tool: iron, at: 350 degC, for: 2 s, on: window}", "350 °C"),
        ("heat: {tool: iron, at: 350 °c, for: 2 s, on: window}", "350 °C"),
    ],
)  # fmt: skip
def test_near_miss(field: str, meant: str | None) -> None:
    """A unit spelt as people say it is met with the spelling that is read, and that spelling is read."""
    faults = found("procedure", STEP.format(field))

    assert ([] if meant is None else [meant]) == [
        match[1] for fault in faults if (match := re.match(r"Did you mean (.+?)\?", fault.help))
    ]


def test_a_table_or_a_list() -> None:
    """Something that is no value at all is named as what it is."""
    assert "`takes` is a list, and a time belongs here" == of_step("takes: [1 min]")[0]
    assert "`takes` is a table, and a time belongs here" == of_step("takes: {min: 1}")[0]


def test_nothing() -> None:
    """A field with nothing after it is called empty."""
    assert "`takes` is empty, and a time belongs here" == of_step("takes: ")[0]


def test_words_beside_a_quantity() -> None:
    """Where a word may stand for a quantity, it is offered."""
    fault = one("device", "title: T\nfasteners: {screw: {title: Screw, count: 1, torque: tight}}")

    assert fault.help.endswith("Or write hand.")


@pytest.mark.parametrize(
    ("written", "turned"),
    [
        ("10–5 s", "5–10 s"), ("10-5 s", "5-10 s"), ("10 to 5 s", "5 to 10 s"), ("10.5–9.55 s", "9.55–10.5 s"),
        ("3 min to 30 s", "30 s to 3 min"), ("2 min – 90 s", "90 s – 2 min"),
    ],
)  # fmt: skip
def test_backwards(written: str, turned: str) -> None:
    """A range whose first end is the higher is named, and turned round."""
    message, to_do = of_step(f"takes: {written}")

    assert f"`takes` is {written}: the first end is above the second" == message
    assert f"Write the low end first: {turned}." == to_do
    assert () == found("procedure", STEP.format(f"takes: {turned}"))


@pytest.mark.parametrize(
    "written", ["5–10 s", "90 s – 2 min", "30 s to 3 min", "5 s", "5–5 s", "0 s", "< 5 s", "3 s ± 10 %"]
)
def test_forwards(written: str) -> None:
    """A range that runs upwards, in one unit or two, is no finding."""
    assert () == found("procedure", STEP.format(f'takes: "{written}"'))


@pytest.mark.parametrize("written", ["-5 s", "−5 s", "-5–10 s", "< -5 s"])
def test_below_zero(written: str) -> None:
    """A time below zero is named: nothing takes less than no time."""
    assert f"`takes` is {written}, which is below zero" == of_step(f'takes: "{written}"')[0]


def test_below_absolute_zero() -> None:
    """A temperature may be below zero, but not below absolute zero."""
    assert () == found("device", PART.format("heat_limit: -20 °C"))
    assert "`heat_limit` is -300 °C, which is below absolute zero" == of_part("heat_limit: -300 °C")[0]


@pytest.mark.parametrize(
    ("field", "end"),
    [
        ("takes: ≥ 5 s", "upper"),
        ("wait: {for: < 5 s}", "lower"),
        ('heat: {tool: iron, at: "> 350 °C", for: 2 s, on: window}', "upper"),
        ("solvent: {material: isopropanol, volume: ≤ 2 mL, on: window}", "lower"),
    ],
)
def test_open_end(field: str, end: str) -> None:
    """Where something is computed from a quantity it has the ends that are computed with."""
    message, to_do = of_step(field)

    assert message.endswith(f"which has no {end} end: nothing can be computed with it")
    assert to_do.startswith("Write one value or a range with both ends, for example ")


@pytest.mark.parametrize(
    "field", ["heat_limit: ≤ 60 °C", "near: {window: ≥ 38 mm}", "joint_limit: {at: < 1 K, for: ≤ 5 s}"]
)
def test_one_end_is_enough(field: str) -> None:
    """A limit needs no lower end, and a distance no upper one."""
    assert () == found("device", PART.format(field))


def test_limit_without_a_lower_end() -> None:
    """A limit of a part that is limited itself is met as its upper end."""
    parts = make.check(
        {f"{make.DOCS}/devices/wader.yml": make.WADER.replace("heat_limit: 85 °C", "heat_limit: ≤ 85 °C")}
    )
    limit = parts.base.devices["wader"].parts["lamp"].heat_limit

    assert limit is not None
    assert (85, 85) == (limit.at.low, limit.at.high)


@pytest.mark.parametrize("number", ["9999999999999999", "9" * 400])
def test_beyond_everything(number: str) -> None:
    """A number with which nothing at a bench can be said is named, also one that no computer holds."""
    assert of_step(f"takes: {number} s")[0].endswith("which is beyond anything at a bench")
    assert of_step(f'takes: "0–{number} s"')[0].endswith("which is beyond anything at a bench")


@pytest.mark.parametrize(
    ("room", "wanted"),
    [
        ("volume: 200 L", "Write a volume from 4 m³ to 100000 m³."),
        ("air_changes: 0 /h", "Write a number for each hour from 0.05 /h to 100 /h."),
        ("temperature: 70 °F to 200 °F", "Write a temperature from -20 °C to 65 °C."),
        ("humidity: 110 %", "Write a share from 0 % to 100 %."),
    ],
)
def test_no_such_room(room: str, wanted: str) -> None:
    """A room in which no formula holds is named, where it is written: nothing could be judged in it."""
    fault = one("shop", f"name: Bench\nroom: {{{room}}}")

    assert "bad-quantity" == fault.rule
    assert fault.message.endswith(", and no bench is so")
    assert wanted == fault.help


@pytest.mark.parametrize(
    ("check", "wanted"),
    [
        ("{measure: resistance, expect: 4 V}", "a resistance belongs here where `measure` is resistance"),
        ("{measure: continuity, expect: 4 V}", "a resistance belongs here where `measure` is continuity"),
        ("{measure: current, expect: 20–70 %}", "a current belongs here where `measure` is current"),
        ("{battery: charge, expect: 20–70 °C}", "a share belongs here where `battery` is charge"),
        ("{battery: temperature, expect: 20–70 %}", "a temperature belongs here where `battery` is temperature"),
    ],
)
def test_reading_of_another_kind(check: str, wanted: str) -> None:
    """What is expected of a reading has the dimension of what is read."""
    assert of_step(f"check: {check}")[0].endswith(wanted)


def test_setting_of_another_kind() -> None:
    """The range of a torque driver is a torque, and that of an iron a temperature."""
    fault = one("tools", "driver: {title: Driver, kind: torque-driver, range: 200–450 °C}")

    assert (
        "`range` is 200–450 °C, a temperature, and a torque belongs here where `kind` is torque-driver" == fault.message
    )


@pytest.mark.parametrize("dimension", sorted(DIMENSIONS))
def test_examples_are_read(dimension: str) -> None:
    """The example of each dimension is a quantity of it."""
    assert re.fullmatch(pattern(dimension), EXAMPLES[dimension])
