"""Hands that work by the bench page in real time: whatever is due is done, step after step."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.browser.hands import answer, node, value_within, view

if TYPE_CHECKING:
    from playwright.sync_api import Page

GUARD, HELD = 310, 850


def begin_or_take_up(page: Page) -> None:
    """Take up the work that was interrupted, or begin where there is none."""
    if view(page) == "arrival":
        page.wait_for_timeout(200)
    if view(page) == "arrival":
        took = page.get_by_role("button", name="Take up")
        if took.count():
            took.first.click()
        else:
            _begin(page)
    if view(page) == "resume":
        page.locator("[data-do=resume]").click()


def work_a_little(page: Page) -> None:
    """Do what is due now."""
    page.wait_for_timeout(GUARD)
    shown = view(page)
    if shown != "step":
        page.locator("#end [data-do=begin-anew]").evaluate("button => button.click()")
        page.wait_for_timeout(GUARD)
        _begin(page)
        return
    words = page.locator("[data-do-words]").inner_text()
    if words.startswith("Hold"):
        page.keyboard.down("PageDown")
        page.wait_for_timeout(HELD)
        page.keyboard.up("PageDown")
    elif words == "Start" and node(page)["timer"]["kind"] == "dwell":
        page.locator("section[data-view=step]:not([hidden]) [data-do=untimed]").click()
    elif words == "Reading":
        page.locator("section[data-view=step]:not([hidden]) [name=reading]").fill(value_within(node(page)["check"]))
        page.keyboard.press("Enter")
    else:
        page.keyboard.press("PageDown")


def _begin(page: Page) -> None:
    answer(page)
    page.locator("[data-do=begin]").click()
