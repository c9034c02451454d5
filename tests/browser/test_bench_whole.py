"""A whole procedure of the demonstration, worked by its bench page; its record; a browser that is killed meanwhile."""

from __future__ import annotations

import json
from random import Random
from typing import TYPE_CHECKING, Any

import jsonschema
import pytest
from referencing import Registry, Resource

from benchleaf.source.packaged import schemas
from tests.browser import hands
from tests.browser.conftest import ARGUMENTS
from tests.conftest import tool
from tests.durability.killing import Home, Tally, rounds

if TYPE_CHECKING:
    from pathlib import Path

    from playwright.sync_api import Browser, Page

PROCEDURE = "bench/godwit/clean-charge-port.html"
# What may lie out at the end of a way, in the words of the tray; how many dangers began on it.
STAYS = """() => {
  const { run } = benchleafBench.held;
  const way = JSON.parse(document.querySelector("#bench-way").textContent);
  const { stays } = way.ways[way.variants[run.variant]];
  return [stays.map(([what, count]) => (count === 1 ? what : `${what}: ${count}`)),
          run.path.filter(({ step }) => way.steps[step].danger).length];
}"""
# What the one key says where a plain press is all it takes.
PLAIN = {"Done", "Yes", "Start", "Lift", "More below"}


@pytest.fixture(scope="session")
def fits() -> jsonschema.Draft202012Validator:
    """Return a validator of records that is not ours."""
    documents = {name: json.loads(text) for name, text in schemas().items()}
    registry: Registry[Any] = Registry().with_resources(
        (name, Resource.from_contents(document)) for name, document in documents.items()
    )
    return jsonschema.Draft202012Validator(
        documents["record.schema.json"],
        registry=registry,
        format_checker=jsonschema.Draft202012Validator.FORMAT_CHECKER,
    )


@pytest.mark.outside
@pytest.mark.parametrize(
    ("address", "path"),
    [("file", PROCEDURE), ("http", PROCEDURE), ("file", "bench/godwit/make-swollen-battery-safe.html")],
    indirect=["address"],
)
def test_whole_procedure_by_one_key(
    page: Page, address: str, path: str, tmp_path: Path, fits: jsonschema.Draft202012Validator
) -> None:
    """Page Down alone goes through a procedure, but for dangers and readings; the tray empties; the record is whole."""
    page.clock.install()
    page.goto(f"{address}{path}")
    hands.begin(page)
    said: list[str] = []
    out: list[str] = []
    while hands.view(page) == "step":
        said.append(hands.do_step(page))
        out.append(page.locator("[data-tray]").inner_text())
    page.locator("[name=outcome][value=cured]").check()
    hands.saved(page)
    record = hands.record(page, tmp_path)

    assert set(said) <= PLAIN | {"Pause", "Hold: danger read", "Hold: cut the wait short", "Reading"}
    left, dangers = page.evaluate(STAYS)
    assert dangers == said.count("Hold: danger read")
    assert left == out[-1].splitlines()
    assert any(out)
    assert [] == [error.message for error in fits.iter_errors(record)]
    assert ("through", "cured") == (record["state"], record["outcome"])
    assert {"done"} == {step["state"] for step in record["steps"]}
    assert len(record["steps"]) == len(hands.run(page)["path"])


def test_stop_is_legible_and_large(page: Page, address: str) -> None:
    """From a step Escape shows what to do in an emergency: each way to a case can be hit with a glove on."""
    page.clock.install()
    page.goto(f"{address}{PROCEDURE}")
    hands.begin(page)
    hands.press(page, "Escape")

    boxes = [key.bounding_box() for key in page.locator("#stop-and-make-safe :is(a.key, button)").all()]

    assert len(boxes) > 5
    assert [] == [box for box in boxes if not box or box["width"] < 72 or not 72 <= box["height"] < 300]


@pytest.mark.slow
def test_killed_in_the_midst_of_work(browser: Browser, demo_site: Path, tmp_path: Path) -> None:
    """After each kill of the browser every step that was shown as saved is there."""
    command = [tool("chromium", "chromium"), *ARGUMENTS]
    home = Home(browser.browser_type, command, tmp_path / "profile", (demo_site / PROCEDURE).as_uri())

    tally = rounds(home, 3, Random(4))  # noqa: S311 - moments, not secrets

    assert 3 == tally.kills
    assert tally.steps > 0
    assert [] == tally.lost


def test_a_lost_step_would_be_found() -> None:
    """A step that was shown as saved and is not stored is counted as lost, so that none lost means something."""
    tally = Tally(shown={"one": ["O1 done", "O2 done"]})

    tally.compare({"one": ["O1 done"]})

    assert ["kill 0: shown ['O1 done', 'O2 done'], there ['O1 done']"] == tally.lost
