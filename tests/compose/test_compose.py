"""From the model to whole pages: numbers in the shop's units, links that lead somewhere, hooks that scripts find."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from benchleaf import build
from benchleaf.pages.compose.site import Options
from benchleaf.source.folder import scan
from tests import make

ROOT = Path(__file__).resolve().parents[2]
NOTICE = "All of it is invented."


@pytest.fixture(scope="module")
def demonstration() -> dict[str, BeautifulSoup]:
    """Return every page of the demonstration, parsed."""
    pages = make.pages(
        build.check(scan(ROOT, "procedures")), Options(notice=NOTICE, edit="https://example.invalid/{path}")
    )
    return {path: BeautifulSoup(text, "html.parser") for path, text in pages.items() if path.endswith(".html")}


def drawn(changes: dict[str, str | bytes | None], **options: bool) -> dict[str, str]:
    """Return the pages of the small knowledge base with *changes*."""
    return make.pages(make.check(changes), Options(**options))  # type: ignore[arg-type]  # flags alone are given here


def test_every_page_says_that_it_is_invented(demonstration: dict[str, BeautifulSoup]) -> None:
    """The notice stands on every page."""
    assert [] == [path for path, page in demonstration.items() if NOTICE not in page.get_text()]


def test_hooks_of_a_procedure(demonstration: dict[str, BeautifulSoup]) -> None:
    """Steps, checks, limits and variants carry the hooks that scripts and tests look for."""
    page = demonstration["repairs/godwit/clean-charge-port.html"]

    assert page.select_one('[data-step="tin"] [data-limit="joint"]')
    assert page.select_one('[data-step="look"] [data-check="look"]')
    assert page.select_one('[data-step="prove-1"] [data-check="measure"]')
    assert page.select_one('[data-variant="g2"]')


def test_limits_of_a_procedure(demonstration: dict[str, BeautifulSoup]) -> None:
    """The second column gives settings, amounts, torques and readings as the step has them."""
    page = demonstration["repairs/godwit/clean-charge-port.html"]
    text = " ".join(page.get_text(" ").split())

    for shown in (
        "350 °C, 2–3 s",
        "9 times, 4 s apart",
        "joint bears 360 °C: 10 K below",
        "0.5 mL",
        "7 cN·m",
        "> 10 kΩ",
    ):
        assert shown in text


def test_title_block(demonstration: dict[str, BeautifulSoup]) -> None:
    """The title block gives number, revision, review, status, variants and level."""
    text = demonstration["repairs/godwit/clean-charge-port.html"].get_text(" ")

    for shown in ("godwit / clean-charge-port", "2026-09-14", "approved", "Godwit G1, G2", "open"):
        assert shown in text


def test_page_leads_to_its_source(demonstration: dict[str, BeautifulSoup]) -> None:
    """The page of a procedure leads to the YAML that it was made from."""
    page = demonstration["repairs/godwit/clean-charge-port.html"]

    assert page.select_one('a[href="https://example.invalid/repairs/godwit/clean-charge-port.yml"]')


def test_withdrawn_has_no_page(demonstration: dict[str, BeautifulSoup]) -> None:
    """A withdrawn procedure stands in the register and nowhere else."""
    named = [path for path, page in demonstration.items() if "dry-in-grain" in page.get_text()]

    assert ["register.html"] == named


def test_torque_in_the_shops_unit() -> None:
    """A torque written otherwise is shown in the shop's unit, rounded down, with the written value beside it."""
    wader = make.WADER.replace("torque: 12 cN·m", "torque: 1.1 lbf·in")

    page = drawn({f"{make.DOCS}/devices/wader.yml": wader})["repairs/wader/replace-lamp.html"].replace(
        "\N{NO-BREAK SPACE}", " "
    )

    # 1.1 lbf·in is 12.4283 cN·m (pint).
    assert "12.4 cN·m" in page
    assert "written 1.1 lbf·in" in page


@pytest.mark.parametrize(("drafts", "there"), [(False, False), (True, True)])
def test_drafts(drafts: bool, there: bool) -> None:  # noqa: FBT001 (pytest gives it by name)
    """A draft has a page while one writes, with its banner, and none in public."""
    draft = "title: Example\naccess: open\nsteps:\n  - {do: Look on.}\n"

    pages = drawn({make.EXAMPLE: draft}, drafts=drafts)

    assert there is ("repairs/wader/example.html" in pages)
    assert there is ('data-status="draft"' in pages.get("repairs/wader/example.html", ""))


def test_text_is_escaped() -> None:
    """What an author writes is shown as written, whatever signs are in it."""
    nasty = """\
title: "<b>&\\"' \U0001f525 \u05d0\u05d1"
access: open
steps:
  - {do: "Press <2 N & hold *still*."}
"""
    page = BeautifulSoup(drawn({make.EXAMPLE: nasty}, drafts=True)["repairs/wader/example.html"], "html.parser")

    assert page.h1 is not None
    assert "<b>&\"' \U0001f525 \u05d0\u05d1" == page.h1.get_text()
    assert "Press <2\N{NO-BREAK SPACE}N & hold *still*." in page.get_text()


def test_little_knowledge_base() -> None:
    """A base of a shop and one device, and nothing else, has pages."""
    nothing = dict.fromkeys(make.FILES)
    files = {
        **nothing,
        f"{make.DOCS}/shop.yml": "name: Little shop\n",
        f"{make.DOCS}/devices/stint.yml": "title: Stint\n",
    }

    pages = drawn(files)

    assert "Stint" in pages["devices/stint.html"]
    assert "index.html" in pages


def test_same_in_same_out() -> None:
    """The same knowledge base gives the same text, page by page."""
    assert drawn({}) == drawn({})
