"""What a real bench page looks like in the midst of work: no fault that axe knows, no overflow, words that fit."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser import hands
from tests.browser.test_axe import violations
from tests.conftest import node_module

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

PROCEDURE = "bench/godwit/clean-charge-port.html"
# How far something reaches beyond the window, and whether the large key's words are cut.
OVERFLOW = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
CUT = "(key => key.scrollWidth - key.clientWidth)(document.querySelector('.keys [data-do=done]'))"
# Axe takes seconds; what it finds in one view and not in another is a matter of colour, and these have most of them.
COLOURED = {"failed reading", "touch", "stop"}
VIEWS: dict[str, dict[str, object]] = {
    "wall": {"viewport": {"width": 1920, "height": 1080}, "color_scheme": "light"},
    "dark": {"viewport": {"width": 1280, "height": 800}, "color_scheme": "dark"},
    "phone": {"viewport": {"width": 390, "height": 844}, "forced_colors": "active"},
}


def leave(page: Page) -> None:
    """Leave the present step undone."""
    page.clock.run_for(hands.GUARD)
    page.locator(".keys [data-do=leave]").click()
    page.keyboard.type("No driver at hand")
    page.clock.run_for(hands.GUARD)
    page.locator("[data-do=leave-so]").click()


def states(page: Page) -> Iterator[str]:
    """Work through a procedure, with a name for each state that is worth a look."""

    def until(step: str) -> None:
        while hands.step(page) != step:
            hands.do_step(page)

    yield "arrival"
    hands.begin(page)
    until("open-opening-6")
    page.locator("section[data-view=step]:not([hidden]) [name=reading]").fill("99")
    hands.press(page, "Enter")
    yield "failed reading"
    hands.press(page, "PageUp")
    until("steps-3")
    hands.press(page)
    yield "running wait"
    until("tin")
    while hands.key(page) != "Lift":
        hands.press(page)
    yield "touch"
    hands.saved(page)
    page.reload()
    page.locator("[data-last]").get_by_text("W3").wait_for()
    yield "interrupted"
    hands.press(page)
    until("steps-5")
    leave(page)
    hands.press(page, "PageUp")
    yield "looking back"
    hands.press(page)
    until("open-closing-6")
    leave(page)
    yield "something in the tray"
    hands.press(page, "Escape")
    yield "stop"
    page.clock.run_for(hands.GUARD)
    page.locator("[data-do=halt]").focus()
    hands.hold(page, "Enter")
    yield "stopped"
    page.clock.run_for(hands.GUARD)
    page.locator("[data-do=end]").click()
    yield "end"


@pytest.mark.parametrize("view", VIEWS)
def test_state_has_no_violation(view: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """In each state of the work nothing reaches beyond the window, the large key is whole, and axe finds nothing."""
    axe = node_module("axe-core/axe.min.js").read_text(encoding="utf-8")
    page, _ = watched(f"{demo_site.as_uri()}/", **VIEWS[view])
    page.clock.install()
    page.goto((demo_site / PROCEDURE).as_uri())
    found: list[str] = []
    seen: list[str] = []

    for state in states(page):
        seen.append(state)
        page.clock.run_for(hands.GUARD)
        if view == "wall" or state in COLOURED:
            found += [f"{state}: {line}" for line in violations(page, axe)]
        found += [f"{state}: {measure}" for measure in (OVERFLOW, CUT) if page.evaluate(measure) > 1]

    assert [] == found
    assert "end" == seen[-1]
