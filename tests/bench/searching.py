"""The search of a large site on a slow machine: opened from a folder, in a browser slowed down four times."""

from __future__ import annotations

import gzip
import shutil
from contextlib import contextmanager
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from playwright.sync_api import sync_playwright

from tests.browser.conftest import ARGUMENTS

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from playwright.sync_api import Browser, Page

SLOWED = 4
# Typed key by key: a complaint in haste, a device and its part, and what nobody says.
TYPED = ("wobly chrage port", "curlew 7 display socket gets hot", "nothing hapens at the antena", "zzqqxx")
_READY = "[data-search-ready]"
# From a key going down until its answer has been painted: the frame after the one that draws it.
_WATCH = """() => {
  window.keyTimes = [];
  const field = document.querySelector("[data-search] input");
  field.addEventListener("input", () => {
    const start = performance.now();
    requestAnimationFrame(() => setTimeout(() => window.keyTimes.push(performance.now() - start)));
  }, { capture: true });
}"""
_FIRST = """() => new Promise(resolve => {
  const look = () => document.querySelector("[data-search-results] a")
    ? requestAnimationFrame(() => setTimeout(() => resolve(performance.now())))
    : requestAnimationFrame(look);
  look();
})"""


@dataclass(frozen=True, slots=True)
class Searching:
    """What the search of one site takes: bytes, and milliseconds in the slowed browser."""

    raw: int  # bytes of the index
    packed: int  # ... as a server sends it
    ready: float  # from the opening of the first page until it can answer
    first: float  # from the opening of an address that asks something until the first answer is drawn
    key: float  # from a key until its answer is drawn: the middle one
    most_keys: float  # ... nine keys of ten
    slowest: float  # ... and the slowest
    busy_ready: float  # processor time of the page's own thread until it can answer, not slowed
    busy_key: float  # ... and for a key and its answer, on average


def measure(site: Path, rounds: int) -> Searching:
    """Measure the search of the built *site*, so many times."""
    index = (site / "assets" / "search-index.js").read_bytes()
    with _chromium() as browser:
        opened = [_open(browser, site) for _ in range(rounds)]
        typed = [_type(browser, site) for _ in range(rounds)]
        busy = [_work(browser, site) for _ in range(rounds)]
    # As of builds, what was least disturbed by whatever else the machine did counts: of each key, of each opening.
    times = sorted(min(of_key) for of_key in zip(*typed, strict=True))
    return Searching(
        raw=len(index),
        packed=len(gzip.compress(index, mtime=0)),
        ready=min(ready for ready, _ in opened),
        first=min(first for _, first in opened),
        key=median(times),
        most_keys=times[len(times) * 9 // 10],
        slowest=times[-1],
        busy_ready=min(ready for ready, _ in busy),
        busy_key=min(key for _, key in busy),
    )


def lines(procedures: int, seen: Searching) -> list[str]:
    """Return the table of what was *seen* on a site of so many *procedures*."""
    head = f"search of {procedures:,} procedures, slowed {SLOWED} times"
    rows = [
        ("bytes of the index", seen.raw),
        ("bytes of the index, gzip", seen.packed),
        ("opening to ready, ms", seen.ready),
        ("opening to a first answer, ms", seen.first),
        ("key to its answer, middle, ms", seen.key),
        ("key to its answer, 9 of 10, ms", seen.most_keys),
        ("key to its answer, slowest, ms", seen.slowest),
        ("processor until ready, not slowed, ms", seen.busy_ready),
        ("processor for a key, not slowed, ms", seen.busy_key),
    ]
    return [head, *(f"  {label:40}{value:>10,.0f}" for label, value in rows)]


@contextmanager
def _chromium() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium"), args=ARGUMENTS, chromium_sandbox=False
        )
        yield browser
        browser.close()


@contextmanager
def _slowed(browser: Browser) -> Iterator[Page]:
    """Yield an empty page in a browser that remembers nothing, slowed down."""
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
    yield page
    context.close()


def _open(browser: Browser, site: Path) -> tuple[float, float]:
    """Return how long it takes from the opening until the search is ready, and until a first answer is drawn."""
    with _slowed(browser) as page:
        page.goto(f"{site.as_uri()}/index.html", wait_until="commit")
        page.wait_for_selector(_READY, state="attached")
        ready: float = page.evaluate("performance.now()")
    with _slowed(browser) as page:
        page.goto(f"{site.as_uri()}/index.html#q=wobly%20chrage%20port", wait_until="commit")
        first: float = page.evaluate(_FIRST)
    return ready, first


def _type(browser: Browser, site: Path) -> list[float]:
    """Return for each key of what is typed how long its answer takes."""
    with _slowed(browser) as page:
        page.goto(f"{site.as_uri()}/index.html")
        page.wait_for_selector(_READY, state="attached")
        page.evaluate(_WATCH)
        for text in TYPED:
            page.locator("[data-search] input").fill("")
            page.locator("[data-search] input").press_sequentially(text, delay=250)
        page.wait_for_function(f"window.keyTimes.length >= {sum(map(len, TYPED))}")
        times: list[float] = page.evaluate("window.keyTimes")
    return times


def _work(browser: Browser, site: Path) -> tuple[float, float]:
    """
    Return how long the page's own thread works until the search is ready, and for each key.

    It counts processor time, which other programs on the machine hardly change; slowed down four times it is four times
    as much.
    """
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Performance.enable", {"timeDomain": "threadTicks"})

    def busy() -> float:
        metrics = session.send("Performance.getMetrics")["metrics"]
        return 1000 * next(float(one["value"]) for one in metrics if one["name"] == "TaskDuration")

    page.goto(f"{site.as_uri()}/index.html")
    page.wait_for_selector(_READY, state="attached")
    ready = busy()
    page.wait_for_timeout(1000)
    before = busy()
    for text in TYPED:
        page.locator("[data-search] input").fill("")
        page.locator("[data-search] input").press_sequentially(text, delay=50)
    page.wait_for_timeout(200)
    key = (busy() - before) / sum(map(len, TYPED))
    context.close()
    return ready, key
