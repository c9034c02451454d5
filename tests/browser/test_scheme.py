"""Light or dark: as the system has it, until somebody chooses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from playwright.sync_api import expect

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

INK = "getComputedStyle(document.body).color"


def test_system_decides_at_first(address: str, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """Without a choice the page follows the system."""
    light, _ = watched(address, color_scheme="light")
    dark, _ = watched(address, color_scheme="dark")

    light.goto(f"{address}index.html")
    dark.goto(f"{address}index.html")

    assert light.evaluate(INK) != dark.evaluate(INK)


def test_choice_outlives_a_reload(page: Page, address: str) -> None:
    """Dark, once chosen, is dark on the next page too."""
    page.goto(f"{address}index.html")
    light = page.evaluate(INK)

    page.locator("[data-scheme-switch] button[data-scheme=dark]").click()
    page.goto(f"{address}tools.html")

    expect(page.locator("html")).to_have_attribute("data-scheme", "dark")
    assert page.evaluate(INK) != light
