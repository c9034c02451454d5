"""The pictures drawn with the pages fit their place, and their letters can be read or are not shown."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

# What is drawn, with the pages of the demonstration that show it.
PAGES = (
    "repairs/godwit/clean-charge-port.html",
    "repairs/godwit/replace-window.html",
    "repairs/whimbrel/replace-antenna-socket.html",
    "devices/godwit.html",
    "devices/dunlin.html",
    "devices/whimbrel.html",
)
LEAST = 9  # px
# Text that is drawn smaller than it can be read, or that leaves its picture; pictures wider than what they stand in.
UNFIT = """least => [...document.querySelectorAll("figure.plan svg")].flatMap(svg => {
  if (!svg.checkVisibility()) return [];
  const frame = svg.getBoundingClientRect(), place = svg.parentElement.getBoundingClientRect();
  const wide = frame.left < place.left - 1 || frame.right > place.right + 1 ? ["wider than its place"] : [];
  const scale = svg.getScreenCTM().a;
  return wide.concat([...svg.querySelectorAll("text")].flatMap(text => {
    const box = text.getBoundingClientRect(), size = parseFloat(getComputedStyle(text).fontSize) * scale;
    const cut = box.left < frame.left - 1 || box.right > frame.right + 1
      || box.top < frame.top - 1 || box.bottom > frame.bottom + 1;
    return [...(size < least ? [`${text.textContent}: ${size} px`] : []), ...(cut ? [`${text.textContent}: cut`] : [])];
  }));
})"""


@pytest.mark.parametrize("width", [1920, 1280, 800, 390, 320])
@pytest.mark.parametrize("path", PAGES)
def test_pictures_can_be_read(
    path: str, width: int, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]
) -> None:
    """At every width the letters of a picture are at least 9 px high and inside it, or the picture is not shown."""
    page, _ = watched(f"{demo_site.as_uri()}/", viewport={"width": width, "height": 900})
    page.goto((demo_site / path).as_uri())

    assert page.locator("figure.plan:not(.tree) figcaption").first.is_visible()
    assert [] == page.evaluate(UNFIT, LEAST)


def test_printed_pictures_can_be_read(demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """On a sheet of A4 the letters are as high, and every heating step keeps its picture."""
    page, _ = watched(f"{demo_site.as_uri()}/", viewport={"width": 703, "height": 1000})
    page.goto((demo_site / PAGES[0]).as_uri())
    page.emulate_media(media="print")

    assert page.locator("figure.warm svg").first.is_visible()
    assert [] == page.evaluate(UNFIT, LEAST)
