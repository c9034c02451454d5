"""Sentences, their words, and the quantities in running text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.checks.text.instruction import first_word, told
from benchleaf.checks.text.quantities import found
from benchleaf.checks.text.screws import counts
from benchleaf.checks.text.sentences import longest, may_be_over, sentences, words
from tests.make import EXAMPLE, check

TWENTY = "Lift the front shell by both of its metal edges and look below it for a loose or broken clip."


@pytest.mark.outside
@pytest.mark.parametrize(("more", "rules"), [("", []), (" still", ["long-sentence"])])
def test_longest_instruction(more: str, rules: list[str]) -> None:
    """An instruction has 20 words at most: ASD-STE100 Issue 9, rule 5.1 (row 30 of the collected check values)."""
    text = TWENTY.replace(" clip", f"{more} clip")

    findings = check({EXAMPLE: f"title: Example\nsteps:\n  - do: {text}\n"}).findings

    assert rules == [finding.rule for finding in findings]


@pytest.mark.outside
@pytest.mark.parametrize(
    ("sentence", "count"),
    [
        ("Tighten the screw to 12 cN·m.", 5),
        ("Heat the joint at 330–350 °C for 5 to 10 s.", 7),
        ("Wait for ten minutes.", 3),
        ("Use the lint-free cloth.", 4),
        ('Choose "erase and lock" in the menu.', 5),
        ("Lift the shell (by its edges) away.", 5),
        ("Set the USB meter to 3.3 V ± 5 %.", 6),
    ],
)  # fmt: skip
def test_words(sentence: str, count: int) -> None:
    """Numbers with units, hyphens, quotations and brackets are one word each: ASD-STE100 Issue 9, rules 8.5 to 8.7."""
    assert count == words(sentence)


def test_brackets_are_a_sentence() -> None:
    """What stands in brackets is one word outside, and is counted for itself."""
    assert 4 == longest("Lift it (by both its edges).")


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("Lift the shell. Unplug the display.", 2),
        ("Add approx. 5 mm of tape.", 1),
        ("Use a wipe, e.g. the lint-free one.", 1),
        ("Is it flat? Then go on! Look.", 3),
        ("Wait 2.5 min.", 1),
        ("Lift the shell by 2 mm. 4 clips hold it.", 2),
        ("", 0),
    ],
)
def test_sentences(text: str, parts: int) -> None:
    """A point ends a sentence unless it belongs to an abbreviation or a number."""
    assert parts == len(sentences(text))


@pytest.mark.parametrize(
    ("text", "quantities"),
    [
        ("Heat at 330–350 °C for two minutes.", ["330–350 °C", "2 min"]),
        ("Ten to 15 seconds.", ["10–15 s"]),
        ("Use 0.5 mL.", ["0.5 mL"]),
        ("At 350 °C/s it cracks.", ["350 °C/s"]),
        ("Use 5 mL/min.", []),
        ("Lay 10 in the tray.", []),
        ("Take the M4 s screw.", []),
        ("Give it > 10 kΩ and 3.3 V ± 5 %.", ["> 10 kΩ", "3.3 V ± 5 %"]),
        ("350 degrees Celsius, 30 per cent.", ["350 °C", "30 %"]),
        ("Nothing to count.", []),
    ],
)
def test_quantities(text: str, quantities: list[str]) -> None:
    """Quantities are found with their units as symbols or as words, and nothing else is one."""
    assert quantities == [one.quantity.text for one in found(text)]


PIECES = st.sampled_from(
    ["lift", "and", "then", "the", "it", "until", "to", "is", "two", "3", "°C", "min", "screws", "seconds", "±", "5 %",
     ",", ".", ";", "(", ")", '"', "“", "-", "–", ">", "1.5", "in", "of", "so that", "e.g.", "K/s", "\n", "Ünder", "%"]
)  # fmt: skip


@given(st.one_of(st.text(), st.lists(PIECES).map(" ".join), st.lists(PIECES).map("".join)))
def test_any_text(text: str) -> None:
    """Whatever stands in an instruction is judged without an exception, and places lie inside it."""
    quantities = found(text)

    assert all(0 <= one.start < one.end <= len(text) for one in quantities)
    assert longest(text) <= 3 or may_be_over(text, 3)
    assert all(verb in text.lower() for verb in told(text))
    assert (first_word(text) or "") in text.lower().replace("’", "'")
    assert all(numbers for numbers in counts(text))
