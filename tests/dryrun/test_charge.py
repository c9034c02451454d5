"""Charge that stays: when a part holds it, when it counts as empty, and when it is filled again."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests import make
from tests.dryrun.made import trace

if TYPE_CHECKING:
    from benchleaf.dryrun.trace import Trace

FLASH = make.WADER.replace(
    "kind: other, heat_limit: 85 °C}", "kind: other, heat_limit: 85 °C, stores: {capacitance: 100 µF, voltage: 300 V}}"
)
TWO = FLASH.replace("kind: speaker,", "kind: speaker, stores: {capacitance: 47 µF, voltage: 200 V},")
EMPTY = "- {do: Hold the bleed lead on., discharge: lamp}"
READ = "- {do: Measure it., check: {measure: voltage, with: multimeter, expect: < 5 V, if_not: {stop: It holds.}}}"

FEED = "- {do: Feed it., supply: {from: bench-supply, at: 4 V, limit: 0.1 A, into: lamp-socket}}"


def flash(*steps: str, wader: str = FLASH, variant: str = "w1") -> Trace:
    """Return the trace of *steps* on a lamp that stores charge."""
    return trace("\n".join(steps), wader=wader, variant=variant)


def test_emptied_and_read() -> None:
    """A part holds its charge until it is emptied, and counts as empty when it was read."""
    before, emptied, read = (flash(*steps).handover for steps in ((READ,), (EMPTY,), (EMPTY, READ)))

    assert (["lamp"], ()) == (sorted(before.charged), before.unread)
    assert ([], ("lamp",)) == (sorted(emptied.charged), emptied.unread)
    assert ([], ()) == (sorted(read.charged), read.unread)


@pytest.mark.parametrize("expect", ["3–4.2 V", "< 60 V", "> 5 V"])
def test_reading_that_shows_nothing(expect: str) -> None:
    """A reading that an empty part would not pass, or a charged one would, is no reading of it."""
    assert ("lamp",) == flash(EMPTY, READ.replace("< 5 V", f'"{expect}"')).handover.unread


def test_one_reading_reads_one_part() -> None:
    """Of two parts that were emptied, the first reading reads the last one, and the second the other."""
    other = "- {do: Hold the bleed lead on., discharge: buzzer}"
    once, twice = (flash(EMPTY, other, *reads, wader=TWO, variant="w2").handover for reads in ((READ,), (READ, READ)))

    assert (("lamp",), ()) == (once.unread, twice.unread)


def test_device_that_is_on_fills_it_again() -> None:
    """What was emptied and read is charged again when the device is on."""
    again = flash(EMPTY, READ, FEED, "- {do: Take it off., supply: off}").handover

    assert {"lamp"} == again.charged


def test_emptying_a_device_that_is_on() -> None:
    """A part cannot be emptied while the device is on."""
    assert {"lamp"} == flash(FEED, EMPTY, READ).handover.charged


def test_new_part_is_empty() -> None:
    """A part that is new was never charged, until the device is on."""
    new = ("- {do: Lift it out., remove: lamp}", "- {do: Lay a new one in., replace: lamp}")

    assert not flash(*new).handover.charged


def test_failed_reading_shows_nothing() -> None:
    """Where the reading fails the part counts as charged or not read, and so it does in the last repeat that fails."""
    stopped = flash(EMPTY, READ).routes[-1]
    again = EMPTY.replace("{do:", "{id: bleed, do:"), READ.replace("{stop: It holds.}", "{repeat: bleed, times: 2}")
    passed, failed = flash(*again).routes[-2:]

    assert ("lamp",) == stopped.state.unread
    assert ((), ("lamp",)) == (passed.state.unread, failed.state.unread)
    assert ("lamp",) == passed.extra[0].before.unread


def test_failed_look_shows_nothing_dry() -> None:
    """Where the look that shows a part dry fails, it is still wet."""
    brush = "- {do: Brush it., solvent: {material: deionised-water, volume: 0.5 mL, on: lamp}}"
    look = "- {do: Look., check: {look: It is dry., shows: dry, if_not: {stop: Wait.}}}"
    performed = trace(f"{brush}\n{look}")

    assert {} == performed.handover.wet
    assert {"lamp"} == performed.routes[-1].state.wet.keys()
