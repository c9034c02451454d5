"""How deep things lie, as the openings and closings of a device tell it."""

from __future__ import annotations

import pytest

from benchleaf.dryrun.reach import hidden
from benchleaf.dryrun.world import World, world
from tests import make
from tests.dryrun.made import trace

SHIELD = "lamp:        {title: Lamp, kind: shield"


def wader(text: str = make.WADER) -> World:
    """Return the second variant of the lamp that *text* describes."""
    return world(make.check({f"{make.DOCS}/devices/wader.yml": text}).base.devices["wader"], "w2")


@pytest.mark.parametrize(
    ("kind", "name", "covers"),
    [
        ("fastener", "case-screw", ()),
        ("part", "back-shell", ()),
        ("connector", "battery-plug", (("back-shell", "open"),)),
        ("part", "battery", (("back-shell", "open"),)),
        ("connector", "buzzer-plug", (("back-shell", "open"),)),
        ("part", "main-board", (("back-shell", "open"),)),
        ("part", "lamp-socket", (("back-shell", "open"),)),
        ("part", "lens", None),
    ],
)
def test_depth(kind: str, name: str, covers: tuple[tuple[str, str], ...] | None) -> None:
    """
    A thing lies under the last cover before it, a battery with its plug, a part with what it is part of.

    Of what no opening names nothing is known.
    """
    under = wader().under.get((kind, name))

    assert covers == (None if under is None else tuple((one.cover, one.level) for one in under))


def test_cover_under_a_cover() -> None:
    """What lies under an inner cover is kept by the outer one while that is on, and by the inner one afterwards."""
    inner = make.WADER.replace("lamp:        {title: Lamp, kind: other", SHIELD).replace(
        "      - {do: Lift the main board out., remove: main-board}\n",
        "      - {do: Lift the lamp out., remove: lamp}\n      - {do: Lift the main board out., remove: main-board}\n",
    )
    own = wader(inner)
    shut = trace("- {do: Look on., takes: 1 min}", wader=inner, variant="w2")

    outer, then = hidden(own, shut.start, "part", "main-board"), hidden(own, shut.handover, "part", "main-board")

    assert ("back-shell", "lamp") == (outer and outer.cover, then and then.cover)


def test_part_that_is_out() -> None:
    """A part on the bench is at hand, and the place that it goes into is open or not."""
    own, state = (
        wader(),
        trace("- {do: Lift the battery out., remove: battery}", access="closed", variant="w2").handover,
    )
    place = hidden(own, state, "part", "battery", comes_in=True)

    assert hidden(own, state, "part", "battery") is None
    assert "back-shell" == (place and place.cover)


def test_levels_that_cover_each_other() -> None:
    """Levels that take each other's covers off first are read without end, and nothing breaks."""
    circle = make.WADER + (
        "  odd:\n    title: Odd\n    opening:\n      - {do: Lift the board., remove: main-board}\n"
        "      - {do: Lift the shell., remove: back-shell}\n    closing:\n      - {do: Set it down., fit: back-shell}\n"
        "      - {do: Lower it., fit: main-board}\n"
    )
    own = wader(circle)

    assert hidden(own, trace("- {do: Look on., takes: 1 min}", access="closed").start, "part", "main-board") is None
