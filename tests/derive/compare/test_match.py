"""Which step is which in two lists."""

from __future__ import annotations

from benchleaf import build
from benchleaf.derive.compare.match import steps
from tests.make import EXAMPLE, folder


def names(old: list[str], new: list[str]) -> list[tuple[str, str]]:
    """Return the instructions of two lists of steps as they are paired; "" where there is none."""
    both = []
    for lines in (old, new):
        text = "title: Example\nsteps:\n" + "".join(f"  - {{do: {line}}}\n" for line in lines)
        both.append(build.read_base(folder({EXAMPLE: text})).procedures["wader", "example"].steps)
    return [(one.do.text if one else "", other.do.text if other else "") for one, other in steps(*both)]


def test_dropped_between_two_alike() -> None:
    """A step that is dropped is found, though others read nearly like it, and it stands where it was."""
    lines = ["Blow the port dry., wait: {for: 2 min}", "Blow the vapour off., wait: {for: 2 min}", "Look at it."]

    found = names(lines, [lines[0], lines[2]])

    assert [
        ("Blow the port dry.", "Blow the port dry."), ("Blow the vapour off.", ""), ("Look at it.", "Look at it."),
    ] == found  # fmt: skip


def test_dropped_first() -> None:
    """The first of a list may be the one that is gone."""
    assert [("Take the lamp up.", ""), ("Look at it.", "Look at it.")] == names(
        ["Take the lamp up.", "Look at it."], ["Look at it."]
    )


def test_moved_and_reworded() -> None:
    """A step that moved is the same one still, and so is one in other words that does the same."""
    found = names(
        ["Unplug the lamp., unplug: lamp-plug", "Let it cool down., wait: {for: 9 min}", "Turn the lamp over."],
        ["Let it cool off., wait: {for: 9 min}", "Turn the lamp over.", "Unplug the lamp., unplug: lamp-plug"],
    )

    assert [
        ("Let it cool down.", "Let it cool off."),
        ("Turn the lamp over.", "Turn the lamp over."),
        ("Unplug the lamp.", "Unplug the lamp."),
    ] == found


def test_nothing_in_common() -> None:
    """Steps that have nothing in common are gone and new."""
    assert [("", "Whistle."), ("Take the lamp up.", "")] == sorted(names(["Take the lamp up."], ["Whistle."]))
