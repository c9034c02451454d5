"""A browser of its own that is killed in the midst of work, started again, and asked what it still knows."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import threading
import time
from contextlib import suppress
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from playwright.sync_api import Error

from tests.durability.working import begin_or_take_up, work_a_little

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path
    from random import Random

    from playwright.sync_api import BrowserType, ConsoleMessage, Page

SHOWN = "shown as saved: "
# Told from within the page at the moment when the words change, so that nothing lies between showing and telling.
TELL = """document.addEventListener("DOMContentLoaded", () => {
  const place = document.querySelector('[data-board="record"]');
  new MutationObserver(() => {
    const { run } = window.benchleafBench?.held ?? {};
    if (!run || !place.textContent.startsWith("saved ")) return;
    const steps = run.path.map(({ label, state }) => `${label} ${state}`);
    console.log("%s" + JSON.stringify({ id: run.id, steps }));
  }).observe(place, { childList: true, characterData: true, subtree: true });
});""".replace("%s", SHOWN)
# Read beside the page's own scripts: what the browser's database holds.
STORED = """site => new Promise((resolve, reject) => {
  const request = indexedDB.open(`${site}:bench`, 1);
  request.onerror = () => reject(request.error);
  request.onsuccess = () => {
    const all = request.result.transaction("runs").objectStore("runs").getAll();
    all.onerror = () => reject(all.error);
    all.onsuccess = () => resolve(Object.fromEntries(
      all.result.map(({ id, path }) => [id, path.map(({ label, state }) => `${label} ${state}`)])));
  };
})"""
PATIENCE = 60


@dataclass(frozen=True)
class Home:
    """Who drives, what starts the browser, where it keeps everything, and the page that it opens."""

    chromium: BrowserType
    command: Sequence[str]
    profile: Path
    address: str


@dataclass
class Tally:
    """What was shown as saved so far, and what was missing after a start."""

    kills: int = 0
    shown: dict[str, list[str]] = field(default_factory=dict)
    steps: int = 0
    lost: list[str] = field(default_factory=list)

    def hear(self, message: ConsoleMessage) -> None:
        """Take note of what the page tells."""
        if not message.text.startswith(SHOWN):
            return
        told = json.loads(message.text.removeprefix(SHOWN))
        self.steps += max(0, len(told["steps"]) - len(self.shown.get(told["id"], [])))
        self.shown[told["id"]] = told["steps"]

    def compare(self, stored: dict[str, list[str]]) -> None:
        """Hold what is stored against what was shown: it may be more, never less or other."""
        for run, steps in self.shown.items():
            there = stored.get(run, [])
            if there[: len(steps)] != steps:
                self.lost.append(f"kill {self.kills}: shown {steps}, there {there}")


def live(home: Home, tally: Tally, seconds: float | None) -> None:
    """Start the browser, compare what it still knows, work, and kill it after *seconds*; without them only compare."""
    port_file = home.profile / "DevToolsActivePort"
    port_file.unlink(missing_ok=True)
    doors = (f"--user-data-dir={home.profile}", "--remote-debugging-port=0")
    arguments = [*home.command, "--headless=new", *doors, "about:blank"]
    with subprocess.Popen(arguments, stderr=subprocess.DEVNULL, start_new_session=True) as process:
        try:
            browser = home.chromium.connect_over_cdp(f"http://127.0.0.1:{_port(port_file)}")
            page = browser.contexts[0].new_page()
            page.add_init_script(TELL)
            page.on("console", tally.hear)
            page.goto(home.address)
            page.wait_for_function("window.benchleafBench")
            tally.compare(page.evaluate(STORED, page.locator("body").get_attribute("data-site")))
            if seconds is not None:
                _work_until_killed(page, process.pid, seconds)
                tally.kills += 1
        finally:
            _kill(process.pid)


def rounds(home: Home, kills: int, chance: Random) -> Tally:
    """Kill the browser *kills* times, each at a moment left to *chance*, and return what was found."""
    tally = Tally()
    for _ in range(kills):
        live(home, tally, chance.uniform(0.3, 5.0))
    live(home, tally, None)
    return tally


def _work_until_killed(page: Page, group: int, seconds: float) -> None:
    begin_or_take_up(page)
    timer = threading.Timer(seconds, _kill, [group])
    timer.start()
    # The end comes in the midst of anything, and is the only error that is wanted.
    with suppress(Error):
        end = time.monotonic() + seconds + PATIENCE
        while time.monotonic() < end:
            work_a_little(page)
    timer.join()


def _kill(group: int) -> None:
    """End the browser with all its children, as a cut of power to the program would: it can save nothing more."""
    with suppress(ProcessLookupError):
        os.killpg(group, signal.SIGKILL)


def _port(file: Path) -> str:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        if file.is_file() and (lines := file.read_text("utf-8").split()):
            return lines[0]
        time.sleep(0.05)
    raise TimeoutError("The browser did not open its door")
