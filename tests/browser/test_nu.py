"""Valid HTML, as the Nu checker judges it: every page of the built site."""

from __future__ import annotations

import json
from pathlib import Path
from urllib.parse import unquote, urlsplit

import pytest

from tests.browser.kinds import FROM_MARKDOWN, KINDS
from tests.conftest import node_module, run, tool

# Two of the theme's own switches, on the pages that it frames: not ours to mend.
OF_THE_THEME = "autocomplete"


def judge(folder: Path) -> list[tuple[Path, str]]:
    """Return each error that the checker finds in the pages below *folder*: where, and its sentence."""
    jar = node_module("vnu-jar/build/dist/vnu.jar")
    said = run(
        tool("java", "default-jre-headless"), "-jar", jar, "--skip-non-html", "--format", "json", folder, cwd=folder
    )
    found = json.loads(said.stderr)["messages"]
    return [
        (Path(unquote(urlsplit(entry["url"]).path)), entry["message"]) for entry in found if entry["type"] != "info"
    ]


def allowed(page: Path, message: str, site: Path) -> bool:
    """Whether an error is one of the theme's two, on a page that it frames."""
    framed = any(page.relative_to(site).match(KINDS[kind]) for kind in FROM_MARKDOWN)
    return framed and OF_THE_THEME in message


@pytest.mark.slow
def test_every_page_is_valid(demo_site: Path) -> None:
    """Every page of the site is valid HTML."""
    found = judge(demo_site)

    assert [] == [
        f"{page.relative_to(demo_site)}: {said}" for page, said in found if not allowed(page, said, demo_site)
    ]


def test_checker_sees_a_fault(tmp_path: Path) -> None:
    """A page with a fault is found, so an empty list of faults means something."""
    (tmp_path / "bad.html").write_text("<!doctype html><html lang=en><title>A</title><p><div></p>", encoding="utf-8")

    found = judge(tmp_path)

    assert {tmp_path / "bad.html"} == {page for page, _ in found}
