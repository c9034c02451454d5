"""Hands at a bench page: they press and hold as a technician does, and read what the page shows."""

from __future__ import annotations

import json
import re
import time
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Page

GUARD = 350  # milliseconds; what comes sooner after a press does not count
HELD = 900  # longer than a hold must last
SLEPT = 100_000_000  # a day and more: no wait of the demonstration is longer
PRESENT = """() => {
  const { run } = benchleafBench.held;
  const way = JSON.parse(document.querySelector("#bench-way").textContent);
  const node = way.ways[way.variants[run.variant]].nodes[run.at];
  return { ...way.steps[node.step], ...node };
}"""
SECTION = (
    '<section data-view="step" data-step="wipe" id="step-wipe">'
    '<h2 class="say" tabindex="-1"><b>W0</b> Wipe.</h2></section>'
)


def view(page: Page) -> str:
    """Return the name of the view that is shown."""
    return str(page.evaluate("document.documentElement.dataset.view"))


def step(page: Page) -> str:
    """Return the id of the step that is shown."""
    return page.locator("section[data-view=step]:not([hidden])").get_attribute("data-step") or ""


def key(page: Page) -> str:
    """Return the words on the large key."""
    return page.locator("[data-do-words]").inner_text()


def run(page: Page) -> dict[str, Any]:
    """Return the work in hand, as the page has it."""
    found: dict[str, Any] = page.evaluate("benchleafBench.held.run")
    return found


def press(page: Page, name: str = "PageDown") -> None:
    """Press and release a key, long enough after the last press to count."""
    page.clock.run_for(GUARD)
    page.keyboard.press(name)


def hold(page: Page, name: str = "PageDown") -> None:
    """Hold a key until its bar is full, then release it."""
    page.clock.run_for(GUARD)
    page.keyboard.down(name)
    page.clock.run_for(HELD)
    page.keyboard.up(name)


def saved(page: Page) -> None:
    """Wait until the page says that everything is saved."""
    # Asked from outside: what the page itself would poll by stands still with its clock, or is stopped by its policy.
    for _ in range(1000):
        if page.evaluate("benchleafBench.held.saved.startsWith('saved ')"):
            return
        time.sleep(0.02)
    raise AssertionError(page.evaluate("benchleafBench.held.saved"))


def answer(page: Page) -> None:
    """Answer how the device came so that the procedure takes it in."""
    own = page.evaluate("JSON.parse(document.querySelector('#bench-way').textContent).arrival.own")
    covered = {**own, "variant": own["variants"]}
    for name in sorted({str(radio.get_attribute("name")) for radio in page.locator("#arrival [type=radio]").all()}):
        values = covered.get(name) or [page.locator(f"#arrival [name={name}]").first.get_attribute("value")]
        page.locator(f"#arrival [name={name}][value={values[0]}]").check()


def begin(page: Page) -> None:
    """Answer, and begin."""
    answer(page)
    press(page)


def value_within(check: dict[str, Any]) -> str:
    """Return a value that lies within the limits of a check, typed with a comma."""
    low, high = check["low"], check["high"]
    value = high / 2 if low is None else low * 1.5 + 0.1 if high is None else (low + high) / 2
    return f"{value:.4f}".replace(".", ",")


def node(page: Page) -> dict[str, Any]:
    """Return what the page knows of the present step."""
    found: dict[str, Any] = page.evaluate(PRESENT)
    return found


def do_step(page: Page) -> str:
    """Do what the present step asks for with the one key, typing readings, and return what the key said."""
    words = key(page)
    if words.startswith("Hold: danger"):
        hold(page)
    elif words.startswith("Hold: cut"):
        page.clock.fast_forward(SLEPT)
    elif words == "Pause":
        page.clock.run_for(10_000)
    elif words == "Lift":
        page.clock.run_for(int(node(page)["timer"]["low"] * 1000))
        press(page)
    elif words == "Reading":
        field = page.locator("section[data-view=step]:not([hidden]) [name=reading]")
        field.fill(value_within(node(page)["check"]))
        press(page, "Enter")
    else:
        press(page)
    return words


def record(page: Page, folder: Path) -> dict[str, Any]:
    """Save the record as a file and return what is in it."""
    page.clock.run_for(GUARD)
    with page.expect_download() as download:
        page.locator("[data-do=download]").click()
    file = folder / download.value.suggested_filename
    download.value.save_as(file)
    found: dict[str, Any] = json.loads(file.read_text("utf-8"))
    return found


def revised(html: str) -> str:
    """Return the fixture page as its next revision: another number, and a step more before the one that was next."""
    way = json.loads(re.findall(r'id="bench-way">(.*?)</script>', html, re.DOTALL)[0])
    nodes = way["ways"][0]["nodes"]
    way["steps"]["wipe"] = {**way["steps"]["close-1"], "label": "W0", "phase": "W"}
    nodes.append({**nodes[2], "step": "wipe"})
    nodes[1]["next"] = len(nodes) - 1
    nodes[-1]["next"] = 2
    text = json.dumps({**way, "revision": way["revision"] + 1, "digest": "bbbb2222"})
    html = re.sub(r'(id="bench-way">).*?(</script>)', lambda found: found[1] + text + found[2], html, flags=re.DOTALL)
    return html.replace('<section data-view="end"', f'{SECTION}<section data-view="end"')
