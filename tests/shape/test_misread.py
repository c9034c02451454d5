"""Values that one reader of YAML takes for text and another for something else."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import example, given
from hypothesis import strategies as st

from benchleaf.findings import Place
from benchleaf.shape.misread import other_reading, two_ways
from benchleaf.source.core import value_of
from benchleaf.source.nodes import Scalar
from tests.shape.reading import found, one

PLACE = Place("example.yml", 1, 1, 2)
ODD = [
    "no", "No", "NO", "yes", "on", "Off", "y", "N", "true", "FALSE", "~", "null", "1:30", "1:30.5", "12:30:45", "-1:30",
    "010", "09", "0b11", "0o17", "0x1F", "1_000", "1_000.5", "010.5", "2026-11-25", "2026-11-25 10:00:00", "=", ".inf",
    "-.INF", ".nan", "12345678901234567890",
]  # fmt: skip
PLAIN_TO_ALL = ["nope", "onto", "T4", "M1.6", "g2", "1:99", "v1.2.3", "5 mm", "IP67", "-", "12-34", "nulls", "2026"]


def scalar(text: str, *, plain: bool = True) -> Scalar:
    """Return the value that *text* is when it stands in a file."""
    return Scalar(text, value_of(text) if plain else text, plain, PLACE)


@pytest.mark.parametrize("text", ODD)
def test_text(text: str) -> None:
    """Where a text belongs, a value that readers take for two things is found, and quotes are what to write."""
    fault = one("symptoms", f"dim: {{title: {text}}}")

    assert "misread-value" == fault.rule
    assert f"`title` is {text} without quotes" in fault.message


@pytest.mark.parametrize("text", ODD)
def test_quantity(text: str) -> None:
    """Where a quantity belongs, the same value is found once, and a quantity is what to write."""
    fault = one("procedure", f"title: T\nsteps: [{{do: Wait., takes: {text}}}]")

    assert "misread-value" == fault.rule
    assert "Write a time with its unit, for example 1–2 min." in fault.help


@pytest.mark.parametrize("text", ["no", "010", "2026-11-25", "y"])
def test_name_in_a_list(text: str) -> None:
    """A name in a list is looked at as any other."""
    fault = one("procedure", f"title: T\nvariants: [{text}]\nsteps: [{{do: Look.}}]")

    assert ("misread-value", f'Put it in quotes: `"{text}"`.') == (fault.rule, fault.help)


@pytest.mark.parametrize("text", [text for text in ODD if text not in {"~", "null"}])
def test_quotes_cure_it(text: str) -> None:
    """In quotes every value is the text that it is."""
    assert () == found("symptoms", f'dim: {{title: "{text}"}}')


@pytest.mark.parametrize("text", PLAIN_TO_ALL)
def test_plain_to_all(text: str) -> None:
    """A value that all readers take for the same is no finding of this rule."""
    assert other_reading(scalar(text)) is None


@pytest.mark.parametrize(
    "text",
    [
        "steps: [{do: Shut it down., power: off}]",
        "steps: [{do: Start it., power: on}]",
        "steps: [{do: Take the feed away., supply: off}]",
        "arrives: {power: off}\nsteps: [{do: Look.}]",
        "reviewed: 2026-09-14\nsteps: [{do: Look.}]",
        "steps: [{do: Look., irreversible: true}]",
        "steps: [{do: Wipe., work: {kind: wipe, on: window}}]",
    ],
)
def test_own_words(text: str) -> None:
    """The format's own words, truths, dates and the key `on` are never findings."""
    assert () == found("procedure", f"title: T\n{text}")


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("010", ("8", "10")),
        ("09", ("09", "9")),
        ("0x1F", ("31", "a text")),
        ("0xb1", ("177", "a text")),
        ("0b11", ("3", "a text")),
        ("0o17", ("15", "a text")),
        ("1_000", ("1000", "a text")),
        ("1:30", ("90", "a text")),
        ("-1:30", ("-90", "a text")),
    ],
)
def test_numbers_in_two_ways(text: str, readings: tuple[str, str]) -> None:
    """For a number written oddly, both readings are named."""
    assert readings == two_ways(text)


@pytest.mark.parametrize("text", ["010", "1_000", "0x10", "1:30"])
def test_odd_number(text: str) -> None:
    """Where a whole number belongs, one that is read in two ways is a wrong value that says so."""
    fault = one("procedure", f"title: T\nrevision: {text}\nsteps: [{{do: Look.}}]")

    assert "wrong-value" == fault.rule
    assert f"`revision` is {text}, which can be read in two ways" in fault.message


@pytest.mark.outside
@given(st.text("0123456789_.:+-xobnyefYNEFtTaA~= sSul", max_size=12))
@example("1:30")
@example("0:30")
@example("1_000.5e+3")
@example("2026-11-25T10:00:00Z")
@example("190:20:30.15")
def test_as_yaml_1_1_reads_it(text: str) -> None:
    """What PyYAML's reader of YAML 1.1 takes for no text, while ours does, is what is called misread."""
    if not text or text != text.strip() or isinstance(value_of(text), int | float):
        return
    # PyYAML departs from the type repository in these: it has no `y` and `n`, and reads `09` and `0o17` as text.
    ours_alone = text in {"y", "Y", "n", "N"} or (two_ways(text) is not None and text.lstrip("+-").startswith("0"))
    loader = yaml.SafeLoader("")
    taken_for = loader.resolve(yaml.ScalarNode, text, (True, False))  # type: ignore[no-untyped-call]  # PyYAML's own

    if not ours_alone:
        assert (taken_for != "tag:yaml.org,2002:str") == (other_reading(scalar(text)) is not None)
