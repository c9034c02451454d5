"""Nothing is wider than the screen: on the bench monitor, on a small one, on a phone."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from tests.browser.kinds import KINDS, largest

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

HEIGHTS = {1920: 1080, 1280: 900, 390: 844}

# What reaches past the right edge, but for what stands in a box of its own that scrolls.
TOO_WIDE = """() => {
  const edge = document.documentElement.clientWidth;
  const scrolls = element => {
    for (let box = element.parentElement; box && box !== document.body; box = box.parentElement) {
      if (getComputedStyle(box).overflowX !== "visible") return true;
    }
    return false;
  };
  const wide = [...document.body.querySelectorAll("*")]
    .filter(element => element.getBoundingClientRect().right > edge + 1 && !scrolls(element))
    .map(element => `${element.tagName.toLowerCase()}.${element.className}`);
  if (document.documentElement.scrollWidth > edge) wide.unshift("the page scrolls sideways");
  return wide.slice(0, 5);
}"""

# Words that stand on two lines at once. A hyphen or a stroke is a good place to break, so it ends a word here.
BROKEN_WORDS = """() => {
  const broken = new Set();
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  while (walk.nextNode()) {
    const node = walk.currentNode;
    if (!node.parentElement.checkVisibility()) continue;
    for (const word of node.data.matchAll(/[^\\s\\-–\\/]{2,}/g)) {
      range.setStart(node, word.index);
      range.setEnd(node, word.index + word[0].length);
      const tops = [...range.getClientRects()].map(box => box.top);
      if (Math.max(...tops) - Math.min(...tops) > 8) broken.add(word[0]);
    }
  }
  return [...broken];
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", HEIGHTS)
@pytest.mark.parametrize("kind", KINDS)
def test_page_fits(
    kind: str, width: int, scheme: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]
) -> None:
    """Each kind of page fits the width of the screen. BENCHLEAF_SHOTS names a folder for pictures of what was seen."""
    screen = {"width": width, "height": HEIGHTS[width]}
    page, _ = watched(f"{demo_site.as_uri()}/", viewport=screen, color_scheme=scheme)
    page.goto((demo_site / largest(demo_site, kind)).as_uri())
    if shots := os.environ.get("BENCHLEAF_SHOTS"):
        page.screenshot(path=Path(shots) / f"{kind}-{width}-{scheme}.png", full_page=True)

    found = page.evaluate(TOO_WIDE)

    assert [] == found


@pytest.mark.parametrize("kind", KINDS)
def test_no_word_is_broken(kind: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """On a small monitor no column of any page is so narrow that a word must be broken."""
    page, _ = watched(f"{demo_site.as_uri()}/", viewport={"width": 1280, "height": HEIGHTS[1280]})
    page.goto((demo_site / largest(demo_site, kind)).as_uri())

    found = page.evaluate(BROKEN_WORDS)

    assert [] == found
