"""The site keeps itself to itself: a strict policy on every page, nothing that breaks it, nothing that gets past it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from bs4 import BeautifulSoup

from tests.browser.kinds import KINDS, largest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

REPORT = """
window.broken = [];
document.addEventListener("securitypolicyviolation", event =>
  window.broken.push(`${event.effectiveDirective}: ${event.blockedURI}`));
"""
INJECT = """() => {
  const script = document.createElement("script");
  script.textContent = "window.hurt = true";
  document.body.append(script);
}"""


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_breaks_the_policy(kind: str, page: Page, address: str, demo_site: Path) -> None:
    """Each kind of page loads without breaking its own policy, from a folder and from a server."""
    page.add_init_script(REPORT)
    page.goto(f"{address}{largest(demo_site, kind)}", wait_until="networkidle")

    found = page.evaluate("window.broken")

    assert [] == found


@pytest.mark.parametrize("kind", KINDS)
def test_script_put_into_a_page_does_not_run(
    kind: str, address: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]
) -> None:
    """A script that gets into a page is stopped by the policy, and the browser reports it."""
    page, watch = watched(address)
    page.add_init_script(REPORT)
    page.goto(f"{address}{largest(demo_site, kind)}")
    page.evaluate(INJECT)
    page.wait_for_function("window.broken.length > 0")

    ran = page.evaluate("window.hurt === true")

    assert not ran
    assert ["script-src-elem: inline"] == page.evaluate("window.broken")
    # The browser's own word about what was just done to the page; anything else still counts.
    watch.trouble[:] = [line for line in watch.trouble if "Content Security Policy" not in line]


@pytest.fixture(scope="session")
def documents(demo_site: Path) -> dict[str, BeautifulSoup]:
    """Return each page of the site, read, by its path."""
    return {
        path.relative_to(demo_site).as_posix(): BeautifulSoup(path.read_bytes(), "html.parser")
        for path in sorted(demo_site.rglob("*.html"))
    }


def test_each_page_has_a_strict_policy(documents: dict[str, BeautifulSoup]) -> None:
    """Every page starts from "nothing", and allows neither inline script nor outside hosts."""
    policies = {
        path: document.select("meta[http-equiv=Content-Security-Policy]") for path, document in documents.items()
    }

    contents = {str(policy[0]["content"]) if len(policy) == 1 else "none" for policy in policies.values()}

    assert len(contents) == 1
    content = contents.pop()
    assert content.startswith("default-src 'none';")
    assert "unsafe" not in content
    assert "//" not in content
    assert "*" not in content


def test_policy_stands_before_what_it_governs(documents: dict[str, BeautifulSoup]) -> None:
    """The policy comes before the first script, style sheet and picture of each page."""
    late = [
        path
        for path, document in documents.items()
        if document.select("script, link, style, img, meta[http-equiv]")[0].name != "meta"
    ]

    assert [] == late


def test_no_inline_script_or_style(documents: dict[str, BeautifulSoup]) -> None:
    """No page holds a script, a style or a handler that a strict policy would have to allow by its hash."""
    inline = [
        f"{path}: {str(found)[:120]}"
        for path, document in documents.items()
        for found in document.select(
            "script:not([src]):not([type='application/json']), style, [style], [onclick], [onload]"
        )
    ]

    assert [] == inline
