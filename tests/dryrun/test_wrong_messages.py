"""A room of a hazard, or the placing of its message, that goes wrong is seen: the comparisons can fail."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

import pytest

from benchleaf import build
from benchleaf.derive import callouts as placing
from benchleaf.dryrun.hazards import every
from benchleaf.dryrun.hazards.kind import Hazard, Severity
from benchleaf.dryrun.performed import performed
from benchleaf.source.folder import scan
from tests import make
from tests.conftest import ROOT
from tests.dryrun.dangers import CELSIUS, DANGEROUS, NUMBERS, UNTIL_GONE, WORDS, baseless, misworded, numberless, untold
from tests.dryrun.made import trace

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from benchleaf.derive.callouts import Callout
    from benchleaf.dryrun.trace import Moment, Trace

SOLDER = (
    "- {do: Solder it., solder: {part: lamp-socket, tool: iron, at: 350 °C, for: 2 s}}\n- {do: Wait., wait: {for: 1 h}}"
)
POUR = "- {do: Wash it., solvent: {material: isopropanol, volume: 20 mL, on: main-board, area: 20 cm²}}"
SHOCKING = make.WADER.replace(
    "  lens:  ", "  cap: {title: Capacitor, kind: other, stores: {capacitance: 100 µF, voltage: 300 V}}\n  lens:  "
)


@cache
def samples() -> tuple[Trace, ...]:
    """Return the demonstration, and what only the small knowledge base meets."""
    return (
        *performed(build.check(scan(ROOT, "procedures"), pages=False).base),
        trace(SOLDER, wader=make.WADER.replace("solder: sac305", "solder: sn63pb37")),
        trace(POUR),
        trace("- {do: Scrape it., work: {kind: scrape, on: lamp-socket}}"),
        trace("- {do: Lift the buzzer out., remove: buzzer}", variant="w2"),
        trace("- {do: Look on.}", fields="arrives: {liquid: unknown}\n"),
        trace("- {do: Look on.}", wader=SHOCKING),
    )


@cache
def with_a(hazard: str) -> Trace:
    """Return a performance that has *hazard*, from a step that is not the first one where there is such a one."""
    found = [(one, told) for one in samples() for told in every.said_once(one) if told.hazard == hazard]
    return max(found, key=lambda pair: (0 < pair[1].first < pair[1].last, bool(pair[1].numbers)))[0]


def told(of: Trace) -> tuple[Callout, ...]:
    """Return the messages of *of*, worked out anew."""
    every.hazards.cache_clear()
    every.said_once.cache_clear()
    return placing.callouts(of, CELSIUS)


@pytest.fixture(autouse=True)
def _forget() -> Iterator[None]:
    """Leave nothing remembered that a room said while it was wrong."""
    yield
    every.hazards.cache_clear()
    every.said_once.cache_clear()


def go_wrong(monkeypatch: pytest.MonkeyPatch, hazard: str, how: Callable[[Hazard], Hazard | None]) -> None:
    """Let each room say of *hazard* what *how* makes of it; None: nothing."""
    for room in every.ROOMS:
        right = room.hazards

        def wrong(of: Trace, right: Callable[[Trace], Iterator[Hazard]] = right) -> Iterator[Hazard]:
            for one in right(of):
                changed = how(one) if one.hazard == hazard else one
                if changed is not None:
                    yield changed

        monkeypatch.setattr(room, "hazards", wrong)


def _later(one: Hazard) -> Hazard | None:
    return replace(one, first=one.first + 1) if one.first < one.last else None


def _ends_early(one: Hazard) -> Hazard | None:
    return replace(one, last=one.last - 1) if one.first < one.last else None


def _said(severity: Severity) -> set[str]:
    return {Hazard("heat", 0, 0, severity, "What.", "Happens.", "Avoid.").signal}


HAZARDS = sorted(DANGEROUS)


def test_right_as_they_are() -> None:
    """Nothing is wrong with the messages as the rooms give them."""
    for hazard in HAZARDS:
        of = with_a(hazard)
        found = told(of)

        assert [] == [*untold(of, found), *baseless(of, found), *misworded(found), *numberless(found)]


@pytest.mark.parametrize("hazard", [name for name in HAZARDS if name not in UNTIL_GONE])
@pytest.mark.parametrize("how", [_later, _ends_early, lambda _: None], ids=["a step late", "ends early", "never"])
def test_missing_before_a_dangerous_step(
    monkeypatch: pytest.MonkeyPatch, hazard: str, how: Callable[[Hazard], Hazard | None]
) -> None:
    """A message that begins after its step, ends before it is safe, or is not given at all leaves a danger untold."""
    of = with_a(hazard)
    go_wrong(monkeypatch, hazard, how)

    assert hazard in {name for name, _ in untold(of, told(of))}


@pytest.mark.parametrize("hazard", [name for name in HAZARDS if name not in {*UNTIL_GONE, "esd"}])
def test_without_a_danger(monkeypatch: pytest.MonkeyPatch, hazard: str) -> None:
    """A message that is given from the first step to the last stands where nothing is dangerous."""
    of = with_a(hazard)
    last = len(of.straight) - 1
    go_wrong(monkeypatch, hazard, lambda one: replace(one, first=0, last=last))

    assert hazard in {name for name, _ in baseless(of, told(of))}


# A battery alone is told in three words, as it may be sound, swollen, or only joined.
@pytest.mark.parametrize(
    ("hazard", "severity"),
    [(hazard, severity) for hazard in HAZARDS for severity in Severity if _said(severity).isdisjoint(WORDS[hazard])],
)
def test_wrong_signal_word(monkeypatch: pytest.MonkeyPatch, hazard: str, severity: Severity) -> None:
    """A hazard that is told with the word of another severity is found."""
    of = with_a(hazard)
    go_wrong(monkeypatch, hazard, lambda one: replace(one, severity=severity, certain=False))

    assert hazard in {name for name, _ in misworded(told(of))}


@pytest.mark.parametrize("hazard", sorted(NUMBERS))
def test_missing_number(monkeypatch: pytest.MonkeyPatch, hazard: str) -> None:
    """A message that has lost its number, or says it nowhere, is found."""
    of = with_a(hazard)
    go_wrong(monkeypatch, hazard, lambda one: replace(one, what="It is dangerous.", avoid="Keep away.", numbers={}))
    lost = numberless(told(of))
    monkeypatch.undo()
    go_wrong(monkeypatch, hazard, lambda one: replace(one, what="It is dangerous.", avoid="Keep away."))
    unsaid = numberless(told(of))

    assert NUMBERS[hazard] <= {name for _, name in lost}
    assert NUMBERS[hazard] & {name for _, name in unsaid}


def test_placed_after_its_step(monkeypatch: pytest.MonkeyPatch) -> None:
    """Messages that are placed one step too late, whatever the rooms say, leave dangers untold."""
    of = with_a("ignition")
    right = placing._callout  # the placing of one message

    def late(one: Hazard, moments: tuple[Moment, ...], units: dict[str, str]) -> Callout:
        return right(replace(one, first=min(one.first + 1, one.last)), moments, units)

    monkeypatch.setattr(placing, "_callout", late)

    assert {"ignition", "esd", "heat"} & {name for name, _ in untold(of, told(of))}
