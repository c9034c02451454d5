"""Working by the bench page, on a small page of its own: what each press does, and that nothing is lost."""

from __future__ import annotations

import shutil
import threading
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from tests.browser import hands
from tests.browser.conftest import Silent
from tests.conftest import ROOT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from playwright.sync_api import Page

    from tests.browser.conftest import Watch

FIXTURE = Path(__file__).parent / "fixtures" / "bench.html"
# Storage differs between the two; keys and clocks do not.
BOTH = pytest.mark.parametrize("site", ["file", "http"], indirect=True)
TONES = """() => {
  window.tones = 0;
  const make = BaseAudioContext.prototype.createOscillator;
  BaseAudioContext.prototype.createOscillator = function () { window.tones += 1; return make.call(this); };
}"""
REFUSING = "Object.defineProperty(window, 'indexedDB', { get() { throw new Error('refused by policy') } })"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with the fixture page and the scripts."""
    shutil.copytree(ROOT / "site_overrides" / "assets", tmp_path / "assets")
    shutil.copy(FIXTURE, tmp_path)
    return tmp_path


@pytest.fixture
def site(request: pytest.FixtureRequest, folder: Path) -> Iterator[str]:
    """Return the address of that folder: in the file system, or on a server where a test asks for that."""
    if getattr(request, "param", "file") == "file":
        yield f"{folder.as_uri()}/"
        return
    with ThreadingHTTPServer(("127.0.0.1", 0), partial(Silent, directory=str(folder))) as http:
        thread = threading.Thread(target=http.serve_forever, daemon=True)
        thread.start()
        yield f"http://127.0.0.1:{http.server_port}/"
        http.shutdown()
        thread.join()


@pytest.fixture
def bench(watched: Callable[..., tuple[Page, Watch]], site: str) -> Page:
    """Return the fixture page with work begun on it, its clock in the test's hands."""
    page, _ = watched(site, viewport={"width": 1280, "height": 900})
    page.clock.install()
    page.goto(f"{site}bench.html")
    hands.begin(page)
    return page


def as_far_as(page: Page, step: str) -> None:
    """Work on until *step* is shown."""
    while hands.step(page) != step:
        hands.do_step(page)


def labels(page: Page) -> list[str]:
    """Return what the work holds of each step that was dealt with."""
    return [f"{entry['label']} {entry['state']}" for entry in hands.run(page)["path"]]


def test_presses_that_count(bench: Page) -> None:
    """A held key, a bouncing switch and a key on a focused button do one thing once; a danger is not pressed away."""
    bench.clock.run_for(hands.GUARD)
    for _ in range(20):
        bench.keyboard.down("PageDown")  # the second and later ones repeat
    bench.clock.run_for(hands.HELD)
    held = labels(bench)
    bench.keyboard.up("PageDown")
    hands.press(bench)
    pressed = labels(bench)
    hands.hold(bench)
    bench.clock.run_for(hands.GUARD)
    bench.locator("[data-do=done]").focus()
    bench.keyboard.press("Enter")
    bench.keyboard.press("PageDown")  # too soon

    assert ["O1 done"] == held == pressed
    assert ["O1 done", "O2 done"] == labels(bench)
    assert "Start" == hands.key(bench)


def test_hold_by_pointer(bench: Page) -> None:
    """A danger is held away with a pointer too, and a click alone does not do it."""
    as_far_as(bench, "open-2")
    done = bench.locator("[data-do=done]")
    bench.clock.run_for(hands.GUARD)
    done.click()
    clicked = hands.key(bench)
    done.hover()
    bench.mouse.down()
    bench.clock.run_for(hands.HELD)
    bench.mouse.up()

    assert "Hold: danger read" == clicked
    assert "Done" == hands.key(bench)


def test_timer_is_right_when_the_page_slept(bench: Page) -> None:
    """A wait says when it ends, and is over by the clock after a sleep; the alarm is seen, said and sounded."""
    as_far_as(bench, "dry")
    hands.press(bench)
    shown = bench.locator("[data-step=dry] [data-timer]")
    expect(shown).to_contain_text("Left 2:00")
    bench.evaluate(TONES)
    bench.clock.fast_forward(3_600_000)

    expect(shown).to_contain_text("The time is over.")
    expect(bench.locator("[data-alert]")).to_have_text("W1: The time is over.")
    assert "Done" == hands.key(bench)
    assert bench.evaluate("tones") > 0


def test_failed_reading_takes_its_way(bench: Page) -> None:
    """A reading is judged at once; outside its limits it says the way on, which must be held, and may be read again."""
    as_far_as(bench, "measure")
    field = bench.locator("[data-step=measure] [name=reading]")
    field.fill("nine")
    hands.press(bench, "Enter")
    unread = bench.locator("[data-says]").inner_text()
    field.fill("9,9")
    hands.press(bench, "Enter")
    expect(bench.locator("[data-step=measure] [data-verdict]")).to_contain_text("9.9 kΩ: too low. Wanted: > 10 kΩ.")
    expect(bench.locator("[data-step=measure] [data-verdict]")).to_contain_text("Go on with: Trace the short.")
    hands.press(bench)
    pressed = hands.step(bench)
    hands.hold(bench)

    assert unread.startswith("Type the value")
    assert "measure" == pressed
    assert "stopped" == hands.view(bench)
    assert "other.html" == bench.locator("[data-go]").get_attribute("href")
    assert "W4 failed" == labels(bench)[-1]


def test_tray_empties(bench: Page) -> None:
    """The tray shows what lies out; closing is not finished while a step left something there, and then it empties."""
    as_far_as(bench, "close-2")
    out = bench.locator("[data-tray]").inner_text()
    bench.clock.run_for(hands.GUARD)
    bench.locator("[data-do=leave]").click()
    bench.keyboard.type("Driver is missing")
    bench.clock.run_for(hands.GUARD)
    bench.locator("[data-do=leave-so]").click()
    asked = bench.locator("#ask").inner_text()
    bench.get_by_role("button", name="Do C2 now").click()
    again = hands.step(bench)
    hands.press(bench)

    assert "T4 × 5 mm: 2" == out
    assert "Closing is not finished" in asked
    assert "T4 × 5 mm: 2" in asked
    assert "close-2" == again
    assert "prove-1" == hands.step(bench)
    assert "" == bench.locator("[data-tray]").inner_text()


@BOTH
def test_interruption(bench: Page) -> None:
    """After a reload the last step is shown and asked for; a no brings it back, a yes goes on where the work was."""
    as_far_as(bench, "dry")
    hands.saved(bench)
    bench.reload()
    expect(bench.locator("[data-last]")).to_contain_text("O2 Unplug the battery. Done")
    bench.locator("#resume [data-do=again]").click()
    denied = (hands.step(bench), labels(bench))
    hands.saved(bench)
    bench.reload()
    expect(bench.locator("[data-last]")).to_contain_text("O1 Remove the two case screws. Done")
    bench.locator("[data-do=resume]").click()

    assert ("open-2", ["O1 done", "O2 undone"]) == denied
    assert "open-2" == hands.step(bench)


def test_revision_changes_in_mid_run(bench: Page, folder: Path) -> None:
    """A new revision is told with both numbers before the work goes on, nothing is lost, and what is new comes next."""
    as_far_as(bench, "dry")
    hands.saved(bench)
    page = folder / FIXTURE.name
    page.write_text(hands.revised(page.read_text("utf-8")), encoding="utf-8")
    bench.reload()
    expect(bench.locator("[data-revised-numbers]")).to_contain_text(
        "Revision45".replace("45", "\t4\t5"), use_inner_text=True
    )
    hands.press(bench)
    pressed = hands.view(bench)
    hands.hold(bench)

    assert "resume" == pressed
    assert ["O1 done", "O2 done"] == labels(bench)
    assert "wipe" == hands.step(bench)


@BOTH
def test_two_windows(bench: Page, site: str) -> None:
    """A window that fell behind says so, writes nothing over what the other saved, and goes on from there."""
    as_far_as(bench, "open-2")
    hands.saved(bench)
    second = bench.context.new_page()
    second.goto(f"{site}bench.html#step-open-2")
    second.locator("[data-do=resume]").click()
    hands.hold(second)
    hands.press(second)
    hands.saved(second)
    hands.hold(bench)
    expect(bench.locator("#ask")).to_contain_text("Another window has carried this work on")
    bench.get_by_role("button", name="Go on here").click()
    bench.clock.run_for(hands.GUARD)
    bench.locator("[data-do=resume]").click()

    assert "dry" == hands.step(bench)
    assert ["O1 done", "O2 done"] == labels(bench)


def test_storage_that_fails_is_said(watched: Callable[..., tuple[Page, Watch]], site: str) -> None:
    """Where the browser keeps nothing and cannot hold the screen, the page says so in words and the work goes on."""
    page, _ = watched(site)
    page.clock.install()
    page.add_init_script(REFUSING)
    page.add_init_script("delete Navigator.prototype.wakeLock")
    page.goto(f"{site}bench.html")
    hands.begin(page)
    hands.press(page)

    expect(page.locator("[data-alert]")).to_contain_text(
        "Not saved: the browser keeps nothing here (refused by policy)"
    )
    expect(page.locator("[data-board=record]")).to_have_text("not saved")
    expect(page.locator("[data-says]")).to_contain_text("Screen may turn off: this browser cannot keep it on here")
    assert "open-2" == hands.step(page)


def test_stop_is_one_key_away(bench: Page) -> None:
    """Escape shows Stop and make safe, where the next key does nothing; Page Up returns, a hold ends the work."""
    hands.press(bench, "Escape")
    hands.press(bench)
    stopped = (bench.evaluate("location.hash"), labels(bench))
    hands.press(bench, "PageUp")
    returned = hands.step(bench)
    hands.press(bench, "Escape")
    bench.clock.run_for(hands.GUARD)
    bench.locator("[data-do=halt]").focus()
    hands.hold(bench, "Enter")

    assert ("#stop-and-make-safe", []) == stopped
    assert "open-1" == returned
    assert "stopped" == hands.view(bench)


def test_work_is_laid_away_and_taken_up(bench: Page, site: str) -> None:
    """Work that is not finished is offered before the next begins; laid away it stays, and can be taken up."""
    as_far_as(bench, "open-2")
    hands.saved(bench)
    bench.goto(f"{site}bench.html")
    bench.get_by_role("button", name="Lay away").click()
    expect(bench.locator("[data-runs]")).to_contain_text("a1: done as far as O1, saved")
    expect(bench.locator("[data-runs]")).to_contain_text("(laid away)")
    bench.get_by_role("button", name="Take up").click()
    hands.press(bench)

    assert "open-2" == hands.step(bench)


def test_record_on_paper(bench: Page) -> None:
    """The record is printed by itself: what was done, with what was left undone and lies out."""
    bench.evaluate(
        "window.print = () => (window.printed = [document.documentElement.dataset.printing, "
        "document.querySelector('[data-record-sheet]').innerText])"
    )
    as_far_as(bench, "open-2")
    hands.press(bench, "Escape")
    bench.clock.run_for(hands.GUARD)
    bench.locator("[data-do=halt]").focus()
    hands.hold(bench, "Enter")
    hands.press(bench)  # nothing: a choice is to be made
    for act in ("end", "print"):
        bench.clock.run_for(hands.GUARD)
        bench.locator(f"[data-do={act}]").click()
    printing, sheet = bench.evaluate("printed")

    assert "record" == printing
    assert "Remove the two case screws.\tdone" in sheet
    assert "Left in the tray\tT4 × 5 mm: 2" in sheet
    assert "Stopped and made safe by hand." in sheet


def test_size_and_sound_are_remembered(watched: Callable[..., tuple[Page, Watch]], site: str) -> None:
    """The size of type and the sound stay as they were chosen."""
    page, _ = watched(site)
    page.clock.install()
    page.goto(f"{site}bench.html")
    page.locator("[data-do=size][value=far]").click()
    page.clock.run_for(hands.GUARD)
    page.locator("[data-do=sound]").click()
    page.reload()

    assert "far" == page.locator("html").get_attribute("data-size")
    assert "true" == page.locator("[data-do=size][value=far]").get_attribute("aria-pressed")
    assert "false" == page.locator("[data-do=sound]").get_attribute("aria-pressed")
