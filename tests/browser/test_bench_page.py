"""The page to work by as it is seen from the bench: how large, how far, how many touch it, and without script."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import pytest

from tests.browser.test_axe import axe, violations

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

__all__ = ["axe"]  # a fixture

MONITOR = {"width": 1920, "height": 1080}
PATH = "bench/godwit/clean-charge-port.html"
# The demonstration's screen: metres, and metres from pixel to pixel.
DISTANCE, PITCH = 1.2, 0.277e-3
TARGET = 72
"""px: 20 mm on that screen; bare fingers gain nothing above it (Colle and Hiszem, Ergonomics 47(13), 2004)."""
FITS = 0.95
"""The share of steps that must be seen whole, without scrolling."""

# Shows one step of the straight way as the scripts do, with its state.
SHOW = """(name) => {
  document.documentElement.dataset.view = "step";
  for (const own of document.querySelectorAll("section[data-view]")) own.hidden = own.dataset.step !== name;
}"""
# How high a capital is drawn, in pixels: not the size of type, which fonts fill differently.
CAPITALS = """() => {
  const pen = document.createElement("canvas").getContext("2d");
  const high = element => {
    const style = getComputedStyle(element);
    // Sixteen times as large: else the measure is that of whole pixels.
    pen.font = `${style.fontWeight} ${16 * parseFloat(style.fontSize)}px ${style.fontFamily}`;
    return pen.measureText("H").actualBoundingBoxAscent / 16;
  };
  const found = {};
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const around = walk.currentNode.parentElement;
    if (walk.currentNode.textContent.trim() && around.checkVisibility() && around.getClientRects().length) {
      const limit = ".lims > :not([data-limit=neighbour]) b, [data-check=reading] .wanted b";
      const what = around.closest(".say") ? "say" : around.closest(limit) ? "limit"
        : around.closest(".msg-text, .board dd") && !around.closest("small, ul") ? "read" : "label";
      found[what] = Math.min(found[what] ?? Infinity, high(around));
    }
  }
  return found;
}"""
TARGETS = """() => [...document.querySelectorAll("a, button, summary, input, textarea, select, label:has(input)")]
  .filter(one => one.checkVisibility() && one.getClientRects().length && !one.closest(".skip, fieldset label input"))
  .filter(one => !one.matches(".skip") && !(one.matches("input") && one.closest("fieldset")))
  .map(one => ({ box: one.getBoundingClientRect(), text: (one.textContent || one.name || "").trim().slice(0, 30) }))
  .filter(({ box }) => Math.min(box.width, box.height) < TARGET)
  .map(({ box, text }) => `${text}: ${Math.round(box.width)} x ${Math.round(box.height)}`)""".replace(
    "TARGET", str(TARGET)
)
OVERFLOWS = """() => {
  document.documentElement.dataset.view = "step";
  const main = document.querySelector("main"), views = [...document.querySelectorAll("section[data-view]")];
  const over = [];
  for (const own of views) own.hidden = true;
  const steps = views.filter(own => own.dataset.view === "step");
  for (const own of steps) {
    own.hidden = false;
    if (main.scrollHeight > main.clientHeight) over.push(own.dataset.step);
    own.hidden = true;
  }
  return { over, steps: steps.length, wide: document.documentElement.scrollWidth - innerWidth };
}"""


def arc(pixels: float, distance: float = DISTANCE) -> float:
    """Return the minutes of arc under which so many pixels of the shop's screen are seen."""
    return math.degrees(2 * math.atan(pixels * PITCH / (2 * distance))) * 60


def ready(page: Page, address: str, path: str = PATH) -> None:
    """Open a bench page and wait until its scripts have taken it over."""
    page.goto(f"{address}{path}")
    page.locator("html[data-view=arrival]").wait_for()
    page.wait_for_timeout(300)


@pytest.mark.outside
@pytest.mark.parametrize("step", ["open-opening-2", "steps-2", "tin", "steps-8"])
def test_height_of_capitals(step: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """Capitals of an instruction are seen under 22 minutes of arc, limits larger, nothing under 16 (ISO 9241-303)."""
    site = f"{demo_site.as_uri()}/"
    page, _ = watched(site, viewport=MONITOR)
    ready(page, site)
    page.evaluate(SHOW, step)

    seen = {what: arc(pixels) for what, pixels in page.evaluate(CAPITALS).items()}

    assert 22 <= seen["say"] <= 24
    assert all(seen["say"] < seen[name] for name in seen if name == "limit")
    assert min(seen.values()) >= 16
    if step == "steps-2":
        assert 20 <= seen["read"] <= 22


def test_three_sizes(demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """Who stands nearer or farther has the instruction under the same angle from there."""
    site = f"{demo_site.as_uri()}/"
    page, _ = watched(site, viewport=MONITOR)
    ready(page, site)
    for distance in (0.8, 1.2, 1.5):
        ready(page, site)
        page.locator(f"[data-do=size]:text-is('{distance} m')").click()
        page.evaluate(SHOW, "open-opening-2")

        assert 22 <= arc(page.evaluate(CAPITALS)["say"], distance) <= 24


def test_steps_are_seen_whole(demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """On the bench's screen nearly every step of every procedure is seen whole, and none is wider than the screen."""
    site = f"{demo_site.as_uri()}/"
    page, _ = watched(site, viewport=MONITOR)
    found: list[dict[str, Any]] = []
    for path in sorted(demo_site.glob("bench/*/*.html")):
        ready(page, site, path.relative_to(demo_site).as_posix())
        found.append(page.evaluate(OVERFLOWS))
    over, steps = sum(len(one["over"]) for one in found), sum(one["steps"] for one in found)

    assert [0] * len(found) == [one["wide"] for one in found]
    assert steps > 500
    assert (steps - over) / steps >= FITS


@pytest.mark.parametrize("size", [MONITOR, {"width": 1280, "height": 800}, {"width": 390, "height": 844}])
def test_targets_for_gloves(size: dict[str, int], demo_site: Path, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """Whatever can be pressed is 20 mm high and wide, at the arrival, in a step and in an emergency."""
    site = f"{demo_site.as_uri()}/"
    page, _ = watched(site, viewport=size)
    ready(page, site)
    small = {"arrival": page.evaluate(TARGETS)}
    for step in ("look", "steps-8", "tin"):
        page.evaluate(SHOW, step)
        small[step] = page.evaluate(TARGETS)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.evaluate('location.hash = "stop-and-make-safe"')
    small["stop"] = page.evaluate(TARGETS)

    assert {} == {view: found for view, found in small.items() if found}


@pytest.mark.parametrize("view", [{"color_scheme": "light"}, {"color_scheme": "dark"}, {"forced_colors": "active"}])
def test_no_violation_at_work(
    view: dict[str, str], axe: str, demo_site: Path, watched: Callable[..., tuple[Page, Watch]]
) -> None:
    """A step with messages, a reading, the end and the emergency have none of the faults that axe-core knows."""
    site = f"{demo_site.as_uri()}/"
    page, _ = watched(site, viewport=MONITOR, **view)
    ready(page, site)
    found = {}
    for step in ("tin", "steps-8"):
        page.evaluate(SHOW, step)
        found[step] = violations(page, axe)
    page.evaluate('location.hash = "stop-and-make-safe"')
    found["stop"] = violations(page, axe)

    assert {} == {where: what for where, what in found.items() if what}


def test_without_script(address: str, watched: Callable[..., tuple[Page, Watch]]) -> None:
    """Without script all steps stand below one another with their state, and help is one press away from each."""
    page, _ = watched(address, java_script_enabled=False, viewport=MONITOR)
    page.goto(f"{address}{PATH}")
    steps = page.locator("section[data-step]")

    assert steps.count() == page.locator("section[data-step]:visible").count() > 20
    assert steps.count() == page.locator("section[data-step] .state:visible").count()
    assert 0 == page.locator("button:visible, textarea:visible").count()
    steps.nth(10).scroll_into_view_if_needed()
    page.locator(".keys .stop").click()
    assert page.url.endswith("#stop-and-make-safe")
    assert page.locator("#stop-title").is_visible()
