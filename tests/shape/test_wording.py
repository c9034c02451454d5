"""What is said of everything else that does not fit, and what to write instead."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from benchleaf.shape.inline import inline
from benchleaf.source.nodes import plain
from tests.shape.reading import document, examples, found, one, title

if TYPE_CHECKING:
    from pathlib import Path

RAW = re.compile(
    r"is not of type|is not valid|invalid|does not match|non-unique|should be non-empty|is not one of \[|schema|regex"
    r"|required property|dependency|Additional properties|instance|keyword|None|\bobject\b|\bstring\b",
)


def step(fields: str) -> str:
    """Return a procedure of one step that has *fields*."""
    return f"title: T\nsteps:\n  - {{{fields}}}\n"


def test_unknown_field() -> None:
    """An unknown key is named at the key, with the nearest known one and all that fit."""
    fault = one("shop", "name: S\nwriteoff: 90 EUR\n")

    assert ("unknown-field", 2, 1, 9) == (fault.rule, fault.place.line, fault.place.column, fault.place.end)
    assert "This shop file has no field `writeoff`" == fault.message
    assert (
        "Did you mean `write_off`? What fits in this shop file: room, bench, monitor, exposure_limit, units, "
        "constants, labour, write_off, review_after."
    ) == fault.help


def test_unknown_field_each() -> None:
    """Each unknown key is a finding of its own."""
    faults = found("shop", "name: S\ncolour: blue\nsmell: solder\n")

    assert ["This shop file has no field `colour`", "This shop file has no field `smell`"] == [
        fault.message for fault in faults
    ]


def test_slip_is_one_finding() -> None:
    """A required field that was misspelt is found as that, and not as missing too."""
    fault = one("procedure", "titel: T\nsteps: [{do: Look.}]\n")

    assert ("unknown-field", "Did you mean `title`?") == (fault.rule, fault.help.split(" What")[0])


def test_slip_in_a_choice_is_one_finding() -> None:
    """Where one of several fields is needed and one of them was misspelt, only the slip is found."""
    fault = one("procedure", step("do: Look., check: {loook: It is whole.}"))

    assert ("unknown-field", "`check` has no field `loook`") == (fault.rule, fault.message)


def test_text_cut_by_a_comma() -> None:
    """A comma in a text between braces makes a key of the rest, and quotes are what cures it."""
    fault = one("procedure", step("do: Wait, then look"))

    assert "This step has no field `then look`" == fault.message
    assert "Between braces a comma ends a text" in fault.help


def test_missing_field() -> None:
    """A missing field is named at the first key of its table, with an example."""
    fault = one("device", "title: T\nfasteners:\n  case-screw:\n    title: Case screw\n    drive: T4\n")

    assert ("missing-field", 4, 5) == (fault.rule, fault.place.line, fault.place.column)
    assert "The fastener `case-screw` has no `count`" == fault.message
    assert "Write it, for example `count: 8`." == fault.help


def test_missing_field_of_an_empty_table() -> None:
    """In a table with nothing in it, a missing field is named at the table."""
    fault = one("procedure", "title: T\nsteps: [{}]\n")

    assert ("missing-field", 2, 9) == (fault.rule, fault.place.line, fault.place.column)
    assert "This step has no `do`" == fault.message


def test_field_that_needs_another() -> None:
    """A field without the one that it goes with says both ways out."""
    fault = one("procedure", step("do: Look., check: {look: It is whole., when: {charge: 20 %}}"))

    assert "`check` has `when` but no `measure`" == fault.message
    assert "Write it as well, for example `measure: resistance`, or take `when` out." == fault.help


def test_two_actions() -> None:
    """Two actions in a step are named at the second, and belong in two steps."""
    fault = one("procedure", "title: T\nsteps:\n  - do: Take it off.\n    unscrew: {a: 1}\n    remove: b\n")

    assert ("wrong-value", 5, 5) == (fault.rule, fault.place.line, fault.place.column)
    assert "This step has `unscrew` and `remove`, and only one of them fits at a time" == fault.message
    assert "Keep `unscrew` here and make a step of its own for `remove`." == fault.help


def test_no_choice_made() -> None:
    """A check that checks nothing names what it may be."""
    fault = one("procedure", step("do: Look., check: {if_not: {stop: End here.}}"))

    assert "missing-field" == fault.rule
    assert "`check` needs one of `look`, `measure`, `gone`, `battery` or `leak`" == fault.message


def test_wrong_word() -> None:
    """A word that is not among the few that fit names the nearest and all of them."""
    fault = one("procedure", "title: T\nstatus: aproved\nsteps: [{do: Look.}]\n")

    assert "`status` is aproved, which is not one of its words" == fault.message
    assert "Did you mean approved? What fits: draft, in-review, approved or withdrawn." == fault.help


@pytest.mark.parametrize(
    ("written", "meant"), [("Sea water", "sea-water"), ("sea_water", "sea-water"), ("Water", "water")]
)
def test_word_spelt_otherwise(written: str, meant: str) -> None:
    """Case, blanks and underscores do not hide which word is meant."""
    fault = one("procedure", f"title: T\narrives: {{liquid: {written}}}\nsteps: [{{do: Look.}}]\n")

    assert fault.help.startswith(f"Did you mean {meant}?")


@pytest.mark.parametrize(
    ("written", "near"), [("Charge Port", "charge-port"), ("charge_port", "charge-port"), ("T4--x", "t4-x")]
)
def test_name(written: str, near: str) -> None:
    """A name that is not written as names are is shown as it would be."""
    fault = one("procedure", step(f"do: Lift it., remove: {written}"))

    assert f"`remove` is {written}, which is not written as names are" == fault.message
    assert fault.help.startswith(f"Write {near}: ")


def test_key_that_is_no_name() -> None:
    """A key that is not written as names are is named at the key."""
    fault = one("device", "title: T\nparts:\n  Back Shell: {title: Back shell}\n")

    assert ("wrong-value", 3, 3, 13) == (fault.rule, fault.place.line, fault.place.column, fault.place.end)
    assert fault.help.startswith("Write back-shell: ")


def test_reserved_level() -> None:
    """The closed device is no level that can be written."""
    fault = one("device", "title: T\naccess:\n  closed: {title: Closed, opening: [], closing: []}\n")

    assert "`closed` cannot be the name of an access level" == fault.message


@pytest.mark.parametrize(
    ("field", "message", "to_do"),
    [
        ("grade: 8.8", "`grade` is read as the number 8.8, and text belongs here", 'Put it in quotes: `grade: "8.8"`.'),
        ("count: 8 pcs", "`count` is 8 pcs, which is no number, and a whole number belongs here",
         "Write the number alone: `count: 8`."),
        ('count: "8"', "`count` is the text 8 in quotes, and a whole number belongs here",
         "Take the quotes away: `count: 8`."),
        ("count: 8.5", "`count` is 8.5, which is not whole, and a whole number belongs here",
         "Write it like this: `count: 8`"),
        ("count: 8.0", "`count` is 8.0, a number with a point", "Write 8."),
        ("count: .nan", "`count` is .nan, which is no number, and a whole number belongs here",
         "Write it like this: `count: 8`"),
        ("count: 0", "`count` is 0, and the least is 1", "Write 1 or more."),
        ("count: [8]", "`count` is a list, and a whole number belongs here", "Write it like this: `count: 8`"),
        ("count: {A: 8}", "`count` is a table, and a whole number belongs here", "Write it like this: `count: 8`"),
        ("captive: yes", "`captive` is yes, and true or false belongs here", "Write `captive: true`."),
        ("captive: maybe", "`captive` is maybe, and true or false belongs here", "Write `captive: true` or `false`."),
        ("drive: ", "`drive` is empty, and text belongs here", "Write it like this: `drive: T4`"),
        ('drive: ""', "`drive` is empty", "Write some text here, or take the field out."),
        ("drive: [T4]", "`drive` is a list, and text belongs here", "Write it like this: `drive: T4`"),
        ("only: g2", "`only` is the single value g2, and a list belongs here", "Put it in brackets: `only: [g2]`."),
        ("only: []", "`only` is an empty list", "Write it like this: `only: [g2]`. Or take it out."),
        ("only: [g1, g2, g1]", "`only` names g1 a second time", "Keep one of the two."),
        ("holes: {}", "`holes` is an empty table", "Write it like this: `holes: {A: 2, B: 6}`. Or take it out."),
        ("under: [board]", "`under` is a list, and one of its words belongs here",
         "Write it like this: `under: battery`"),
    ],
)  # fmt: skip
def test_value(field: str, message: str, to_do: str) -> None:
    """A value of the wrong sort says what is there, what belongs there, and how it is written."""
    count = "" if field.startswith("count") else "count: 8, "

    fault = one("device", f"title: T\nfasteners: {{screw: {{title: Screw, {count}{field}}}}}\n")

    assert ("wrong-value", message, to_do) == (fault.rule, fault.message, fault.help)


def test_day_that_does_not_exist() -> None:
    """A date that no calendar has is found."""
    fault = one("procedure", "title: T\nreviewed: 2026-02-30\nsteps: [{do: Look.}]\n")

    assert "`reviewed` is 2026-02-30, a day that does not exist" == fault.message


def test_date_in_another_order() -> None:
    """A date that is written in another order is met with an example."""
    fault = one("procedure", "title: T\nreviewed: 14.09.2026\nsteps: [{do: Look.}]\n")

    assert "Write the day as year-month-day, for example 2026-09-14." == fault.help


def test_name_of_two_steps() -> None:
    """A step's name that another step has is found at the second."""
    fault = one(
        "procedure",
        "title: T\nsteps:\n  - {do: Look., id: a}\n  - {do: Look., id: b}\nprove:\n  - {do: Look., id: a}\n",
    )

    assert ("wrong-value", 6) == (fault.rule, fault.place.line)
    assert "`id` is a, and so is that of the step on line 3" == fault.message


def test_name_that_is_a_number() -> None:
    """A step's name that another step has by its number is found."""
    fault = one("procedure", "title: T\nsteps:\n  - {do: Look., id: steps-2}\n  - {do: Look.}\n")

    assert "`id` is steps-2, which another step is called by its number" == fault.message


def test_mains() -> None:
    """A device with mains voltage inside is refused in words that say what is out of scope."""
    fault = one("device", "title: T\nmains: true\n")

    assert "wrong-value" == fault.rule
    assert fault.help.startswith("Mains voltage inside a device is out of scope")


def test_neighbour_without_a_distance() -> None:
    """A neighbour has a distance, unless it touches or sits back to back."""
    near = "title: T\nparts: {{a: {{title: A, near: {{b: {{via: {}}}}}}}}}\n"

    assert "The neighbour `b` has no `distance`" == one("device", near.format("air")).message
    assert () == found("device", near.format("touching"))
    assert () == found("device", near.format("other-side"))


def test_all_at_once() -> None:
    """Everything that is wrong is said in one go, each thing once."""
    faults = found("procedure", "titel: T\nstatus: done\nsteps:\n  - {do: no, takes: 5, remove: A, fit: b}\n")

    assert ["unknown-field", "wrong-value", "misread-value", "bad-quantity", "wrong-value", "wrong-value"] == [
        fault.rule for fault in faults
    ]


@pytest.mark.parametrize("path", examples("bad-*.yml"), ids=title)
def test_no_raw_message(path: Path) -> None:
    """No message is the validator's own, none is long, and each says what to do."""
    faults = found(path.parent.name, path.read_text("utf-8"))
    said = [text for fault in faults for text in (fault.message, fault.help)]

    assert [] == [text for text in said if RAW.search(text)]
    assert [] == [text for text in said if not text.strip() or len(text) > 500]
    assert [] == [fault.help for fault in faults if not re.search("[a-z]", fault.help)]


@pytest.mark.parametrize(
    "value",
    [
        "plain", "no", "~", "", "8.8", "a: b", "a #b", "> 10 kΩ", "- x", "[x]", "a, b", "it's", '"', "\\", "1:30", "x ",
        True, 8, 8.5, ["a", "b, c"], {"a": {"b": ["c: d"]}}, {"do": "Lift it.", "remove": "back-shell"},
    ],
)  # fmt: skip
def test_inline(value: object) -> None:
    """What an example shows, written into a file, is read as what was meant."""
    assert {"field": value} == plain(document(f"field: {inline(value)}"))
