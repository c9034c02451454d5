"""With scripts switched off a page says all that it says with them, but for search."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.kinds import KINDS, largest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

# All words that are seen on the sheet, but for those that only make sense where something can be pressed or searched.
WORDS = """() => {
  const ofScripts = "button, [data-search], [data-showing], [data-needs-script], [data-live], noscript";
  const words = new Set();
  const walk = document.createTreeWalker(document.querySelector("#sheet"), NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const text = walk.currentNode.textContent.trim();
    const around = walk.currentNode.parentElement;
    if (text && around.checkVisibility() && !around.closest(ofScripts)) words.add(text);
  }
  return [...words];
}"""


@pytest.mark.parametrize("kind", KINDS)
def test_same_words_without_script(
    kind: str, address: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]
) -> None:
    """What each kind of page says with scripts, it says without them."""
    without, _ = watched(address, java_script_enabled=False)
    with_script, _ = watched(address)
    path = largest(demo_site, kind)

    without.goto(f"{address}{path}")
    with_script.goto(f"{address}{path}")

    # Playwright's own questions are answered even where the page's scripts are off.
    said = set(with_script.evaluate(WORDS))
    assert said
    assert set() == said - set(without.evaluate(WORDS))


def test_every_step_is_shown_without_script(
    address: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]
) -> None:
    """Without scripts every step of a procedure is shown, those for other variants too."""
    page, _ = watched(address, java_script_enabled=False)
    page.goto(f"{address}{largest(demo_site, 'procedure')}")

    steps = page.locator("[data-step]")

    assert steps.count() > 0
    assert page.locator("[data-step]:visible").count() == steps.count()


def test_way_to_a_procedure_without_script(address: str, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """Without scripts links alone lead from the first page by the symptom to a procedure."""
    page, _ = watched(address, java_script_enabled=False)
    page.goto(f"{address}index.html")

    page.locator("main a[href='symptoms/no-charge.html']").first.click()
    page.locator("main a[href*='repairs/']").first.click()
    page.wait_for_url(f"{address}repairs/**")

    assert page.locator("[data-step]").first.is_visible()
