"""The nearest name, and how it is offered."""

from __future__ import annotations

import pytest

from benchleaf.checks.names import did_you_mean, listed, nearest, one

NAMES = ["back-shell", "battery", "battery-plug", "lens"]


@pytest.mark.parametrize(
    ("name", "meant"),
    [
        ("bak-shell", "back-shell"),
        ("back_shell", "back-shell"),
        ("Back shell", "back-shell"),
        ("lense", "lens"),
        ("batery-plug", "battery-plug"),
        ("window", None),
        ("", None),
    ],
)
def test_nearest(name: str, meant: str | None) -> None:
    """The name that is meant is found in spite of slips of the pen, signs between words and capitals."""
    assert meant == nearest(name, NAMES)


def test_nearest_of_none() -> None:
    """Where there are no names there is no nearest."""
    assert nearest("lens", []) is None


@pytest.mark.parametrize(
    ("name", "names", "advice"),
    [
        ("lense", NAMES, "Did you mean `lens`? Or describe it."),
        ("window", ["lens"], "What there is: `lens`. Or describe it."),
        ("window", ["lens", "lamp"], "What there is: `lens` and `lamp`. Or describe it."),
        ("window", list("abcdefg"), "Describe it."),
        ("window", [], "Describe it."),
    ],
)
def test_did_you_mean(name: str, names: list[str], advice: str) -> None:
    """The nearest name is offered, else all where they are few, and always another way out."""
    assert advice == did_you_mean(name, names, "describe it.")


def test_did_you_mean_alone() -> None:
    """Without another way out nothing follows the names."""
    assert "Did you mean `lens`?" == did_you_mean("lense", NAMES)


def test_listed() -> None:
    """Words are listed as a sentence lists them."""
    assert ["", "a", "a and b", "a, b and c"] == [listed(words) for words in ("", "a", "ab", "abc")]


def test_article() -> None:
    """A word has the article that its first letter asks for."""
    assert ["a part", "an iron"] == [one("part"), one("iron")]
