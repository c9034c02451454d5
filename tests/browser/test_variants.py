"""The variant on the bench is chosen once; what is for others is put aside and the choice is remembered."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Locator, Page


@pytest.fixture(scope="session")
def marked(demo_site: Path) -> str:
    """Return the path of the first procedure, by name, in which a step is for some variants only."""
    return next(
        path.relative_to(demo_site).as_posix()
        for path in sorted(demo_site.glob("repairs/*/*.html"))
        if "data-choice=" in (text := path.read_text(encoding="utf-8")) and 'data-variant="' in text
    )


@pytest.fixture
def sheet(page: Page, address: str, marked: str) -> Page:
    """Return that procedure, open, with its first variant chosen."""
    page.goto(f"{address}{marked}")
    page.locator("[data-choice] button").first.click()
    return page


def for_others(page: Page) -> Locator:
    """Return what is marked for variants other than the first."""
    first = page.locator("[data-choice]").first.get_attribute("data-choice")
    return page.locator(f"[data-variant]:not([data-variant~='{first}'])")


def for_this(page: Page) -> Locator:
    """Return what is marked for the first variant among others, in a part of the page that is not itself put aside."""
    first = page.locator("[data-choice]").first.get_attribute("data-choice")
    return page.locator(f"[data-variant~='{first}']")


def test_nothing_is_put_aside_at_first(page: Page, address: str, marked: str) -> None:
    """Until somebody chooses, everything is shown."""
    page.goto(f"{address}{marked}")

    hidden = page.locator("[data-variant][hidden]")

    assert hidden.count() == 0


def test_choice_puts_others_aside(sheet: Page) -> None:
    """A press on a variant hides what is for others only, and keeps what is for this one."""
    expect(sheet.locator("[data-choice] button").first).to_have_attribute("aria-pressed", "true")

    shown = [row.is_visible() for row in for_others(sheet).all()]

    assert [False] * for_others(sheet).count() == shown
    assert not for_this(sheet).locator("visible=false").count()


def test_page_tells_what_it_put_aside(sheet: Page) -> None:
    """The page says which variant it shows and that something is put aside, because what is not seen must be known."""
    title = sheet.locator("[data-choice-title]").first.inner_text()

    expect(sheet.locator("[data-showing]")).to_contain_text(f"Showing {title}")


def test_choice_is_remembered(sheet: Page) -> None:
    """After a reload the same variant is shown."""
    sheet.reload()

    expect(sheet.locator("[data-choice] button").first).to_have_attribute("aria-pressed", "true")
    assert not for_others(sheet).locator("visible=true").count()


def test_choice_holds_on_the_devices_page(sheet: Page, address: str, marked: str) -> None:
    """The choice made on a procedure holds on its device's page."""
    sheet.goto(f"{address}devices/{marked.split('/')[1]}.html")

    expect(sheet.locator("[data-choice] button[aria-pressed=true]")).to_have_count(1)


def test_show_all(sheet: Page) -> None:
    """Show all brings everything back."""
    sheet.locator("[data-showing] button").click()

    assert sheet.locator("[data-variant][hidden]").count() == 0
