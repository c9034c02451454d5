"""Accessibility, as axe-core judges it: every kind of page in light, dark, forced colours and on a phone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.browser.kinds import KINDS, largest
from tests.conftest import node_module

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

WIDE = {"width": 1280, "height": 900}
PHONE = {"width": 390, "height": 844}
VIEWS: dict[str, dict[str, object]] = {
    "light": {"viewport": WIDE, "color_scheme": "light"},
    "dark": {"viewport": WIDE, "color_scheme": "dark"},
    "forced": {"viewport": WIDE, "forced_colors": "active"},
    "phone": {"viewport": PHONE, "color_scheme": "light"},
}


@pytest.fixture(scope="session")
def axe() -> str:
    """Return axe-core as one script."""
    return node_module("axe-core/axe.min.js").read_text(encoding="utf-8")


def violations(page: Page, axe: str) -> list[str]:
    """Return what axe finds wrong with the page as it stands: rule, how bad, and the first three places."""
    page.evaluate(axe)
    # Without preload: axe would fetch the style sheet a second time, which our own policy forbids.
    found = page.evaluate("axe.run(document, {resultTypes: ['violations'], preload: false})")
    return [
        f"{entry['id']} ({entry['impact']}): {[node['html'][:160] for node in entry['nodes'][:3]]}"
        for entry in found["violations"]
    ]


@pytest.mark.parametrize("view", VIEWS)
@pytest.mark.parametrize("kind", KINDS)
def test_page_has_no_violation(
    kind: str, view: str, axe: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]
) -> None:
    """Each kind of page, in each view, has none of the faults that axe-core knows."""
    page, _ = watched(f"{demo_site.as_uri()}/", **VIEWS[view])
    page.goto((demo_site / largest(demo_site, kind)).as_uri())

    found = violations(page, axe)

    assert [] == found


def test_axe_sees_a_fault(axe: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """A picture without words is found, so an empty list of faults means something."""
    page, _ = watched(f"{demo_site.as_uri()}/")
    page.goto((demo_site / "index.html").as_uri())
    page.evaluate("document.querySelector('main').append(new Image())")

    found = violations(page, axe)

    assert ["image-alt"] == [line.split()[0] for line in found]


@pytest.mark.parametrize("view", ["light", "dark", "phone"])
def test_shown_results_have_no_violation(
    view: str, axe: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]
) -> None:
    """Search results, which only script can draw, have none of these faults either."""
    page, _ = watched(f"{demo_site.as_uri()}/", **VIEWS[view])
    page.goto((demo_site / "index.html").as_uri())
    page.locator("[data-search] input").press_sequentially("wont chrage")
    page.locator("[data-search-results] a").first.wait_for()

    found = violations(page, axe)

    assert [] == found
