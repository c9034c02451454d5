"""The fault isolation sheet in a browser: by keys alone to the right procedure, and on paper to every end."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser.test_axe import WIDE, axe, violations

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Locator, Page

    from tests.browser.conftest import Watch

__all__ = ["axe"]

SHEET = "diagnosis/godwit/no-charge.html"


@pytest.fixture
def sheet(demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> Page:
    """Return the sheet of a logger that does not charge, from its folder."""
    page, _ = watched(f"{demo_site.as_uri()}/", viewport=WIDE)
    page.goto((demo_site / SHEET).as_uri())
    return page


def out(page: Page, test: str, outcome: str) -> Locator:
    """Return the button of one outcome."""
    return page.locator(f"[data-test={test}] [data-out={outcome}] button")


def tab_to(page: Page, selector: str) -> None:
    """Press Tab until what the selector finds has the focus."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate("selector => document.activeElement.matches(selector)", selector):
            return
    pytest.fail(f"Tab never reaches {selector}")


def press(page: Page, *keys: str) -> None:
    """Press keys, one after the other."""
    for key in keys:
        page.keyboard.press(key)


def test_by_keys_alone(sheet: Page) -> None:
    """Keys alone fill rows, each press re-ranks the causes, a link leads to the procedure, and Back keeps it all."""
    answer = sheet.locator("[data-answer]")
    first = sheet.locator("[data-causes] tr").first
    expect(answer).to_be_hidden()
    expect(sheet.locator(".asked.here h3")).to_contain_text("Charge current")

    tab_to(sheet, "[data-choice=g1] button")
    press(sheet, "Enter")
    tab_to(sheet, "[data-test=charge-current] button")
    press(sheet, "ArrowRight", "Enter")
    expect(out(sheet, "charge-current", "normal")).to_have_attribute("aria-pressed", "true")
    expect(first).to_contain_text("Worn battery")
    expect(answer).to_contain_text("Next: Rail resistance")
    expect(sheet.locator(".asked.here h3")).to_contain_text("Rail resistance")

    press(sheet, "ArrowDown", "End", "ArrowLeft", "Home", "ArrowLeft", "Space")
    expect(out(sheet, "rail-resistance", "high")).to_have_attribute("aria-pressed", "true")
    expect(answer).to_contain_text("Next: Replace the battery")

    # All rows stay and can be changed: what the first test showed is put back, and seen again.
    press(sheet, "ArrowUp", "End")
    expect(sheet.locator("[data-test=charge-current] .back button")).to_be_focused()
    press(sheet, "Enter")
    expect(out(sheet, "charge-current", "normal")).to_have_attribute("aria-pressed", "false")
    expect(out(sheet, "charge-current", "none")).to_be_focused()
    press(sheet, "ArrowRight", "Space")

    tab_to(sheet, "[data-answer] a")
    press(sheet, "Enter")
    sheet.wait_for_url("**/repairs/godwit/replace-battery.html")
    sheet.go_back()
    expect(out(sheet, "charge-current", "normal")).to_have_attribute("aria-pressed", "true")
    expect(answer).to_contain_text("Next: Replace the battery")


def test_presses_have_no_violation(sheet: Page, axe: str) -> None:
    """A sheet that is filled in, with a cure tried in vain and a barred test, has no fault that axe-core knows."""
    out(sheet, "charge-current", "none").click()
    sheet.locator("[data-action='cure clean-charge-port'] button").first.click()
    sheet.locator("[data-arrived=battery] [data-out=swollen] button").click()
    expect(out(sheet, "rail-resistance", "low")).to_be_disabled()
    expect(sheet.locator("[data-answer]")).to_contain_text("Make the battery safe before anything else. Likeliest")

    assert [] == violations(sheet, axe)


def test_faults_that_come_together(demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """Where faults come together nothing is ranked: each is found or ruled out, and the sheet says what is open."""
    page, _ = watched(f"{demo_site.as_uri()}/", viewport=WIDE)
    page.goto((demo_site / "diagnosis/godwit/got-wet.html").as_uri())

    page.locator("[data-cause=salt-on-board] [data-out=found] button").click()
    page.locator("[data-cause=dead-board] [data-out=ruled-out] button").click()

    expect(page.locator("[data-answer]")).to_contain_text("Found: Salt or dirt on the main board.")
    expect(page.locator("[data-answer]")).to_contain_text("Ruled out: Main board eaten through.")
    assert 0 == page.locator("[data-causes], [data-actions]").count()


def test_printed(demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """Without script and on paper every line of the plan is seen, and the printed file links to every cure in it."""
    page, _ = watched(f"{demo_site.as_uri()}/", viewport=WIDE, java_script_enabled=False)
    page.goto((demo_site / SHEET).as_uri())
    page.emulate_media(media="print")
    lines = page.locator(".whole tbody tr")
    cures = {link.get_attribute("href") or "" for link in page.locator(".whole a[href*=repairs]").all()}

    printed = page.pdf(format="A4", prefer_css_page_size=True)

    assert lines.count() == page.locator(".whole tbody tr:visible").count() > 20
    # Every unit comes to an end: what is cured, and what ends at a referral, is all there is, but for rounding.
    plan = page.locator(".whole").first
    ended = plan.locator("tr:has(td:text-is('Ends here')) td[data-label=Units]").all_inner_texts()
    cured = plan.locator("td:has-text('Cured:')").all_inner_texts()
    shares = [int(number) for text in (*ended, *cured) for number in re.findall(r"\d+", text)]
    assert 100 == pytest.approx(sum(shares), abs=len(shares) / 2)
    linked = set(re.findall(rb"/URI \(([^)]*)\)", printed))
    assert 2 <= len(cures)
    assert {cure.rpartition("/")[2] for cure in cures} <= {uri.decode().rpartition("/")[2] for uri in linked}
