"""The printed procedure: paper as a printer gets it, read again by a reader of PDF and a reader of square codes."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pypdfium2
import pytest
import zxingcpp
from bs4 import BeautifulSoup

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PIL.Image import Image
    from playwright.sync_api import Browser

PROCEDURES = ["godwit/clean-charge-port", "dunlin/replace-display", "whimbrel/make-swollen-battery-safe"]


@dataclass(frozen=True)
class Printed:
    """A procedure on paper, and the page that it was printed from."""

    name: str
    source: BeautifulSoup
    texts: tuple[str, ...]  # of each sheet, without white space
    pictures: tuple[Image, ...]


@pytest.fixture(scope="module", params=PROCEDURES)
def printed(request: pytest.FixtureRequest, browser: Browser, demo_site: Path) -> Iterator[Printed]:
    """Return one procedure as Chromium prints it on A4."""
    path = demo_site / "repairs" / f"{request.param}.html"
    page = browser.new_page()
    page.goto(path.as_uri())
    paper = pypdfium2.PdfDocument(io.BytesIO(page.pdf(format="A4", prefer_css_page_size=True)))
    page.close()
    texts = tuple(_bare(sheet.get_textpage().get_text_range()) for sheet in paper)
    pictures = tuple(sheet.render(scale=2).to_pil().convert("RGB") for sheet in paper)
    yield Printed(request.param, BeautifulSoup(path.read_text("utf-8"), "html.parser"), texts, pictures)
    paper.close()


def test_each_sheet_says_what_it_is(printed: Printed) -> None:
    """A sheet that falls out of the stack says its procedure, revision, date, and which of how many it is."""
    running = printed.source.find(class_="running")
    assert running
    head = _bare(running.get_text())

    assert re.search(r"revision\d+·\d{4}-\d\d-\d\d", head)
    for number, text in enumerate(printed.texts, 1):
        assert head in text
        assert f"{number}/{len(printed.texts)}" in text


def test_no_step_is_cut(printed: Printed) -> None:
    """A step stands on one sheet, with its safety messages before it and its limits beside it."""
    for step in printed.source.select("tbody[data-step]"):
        messages = [_bare(message.get_text()) for message in step.select(".message p")]
        cells = [_bare(strong.get_text()) for strong in step.select(".do > p:first-child, .lim strong, .after b")]

        assert any(all(text in sheet for text in (*messages, *cells)) for sheet in printed.texts), step["data-step"]


def test_the_code_leads_back(printed: Printed) -> None:
    """The square code on the first sheet is read from the paper, and names the page."""
    found = zxingcpp.read_barcode(printed.pictures[0])

    assert found
    assert found.text == f"https://procedures.saltmarsh.invalid/repairs/{printed.name}.html"


def test_black_and_white(printed: Printed) -> None:
    """Nothing depends on a printer's colours: every point is as red as it is green and blue."""
    for picture in printed.pictures:
        red, green, blue = picture.split()

        assert red.tobytes() == green.tobytes() == blue.tobytes()


def test_readings_have_a_line(printed: Printed) -> None:
    """Each reading has a line to write it on."""
    readings = len(printed.source.select("[data-check=measure], [data-check=leak], [data-reading]"))

    assert "".join(printed.texts).count("Reading:___") == readings


def _bare(text: str) -> str:
    return re.sub(r"[\s\u00ad\ufffe\u0002]", "", text)
